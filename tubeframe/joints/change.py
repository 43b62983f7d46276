"""Small changes of a frame, each in words: tubes moved, made longer, turned or capped, boards raised."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.frame.frame import Preference
from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.path import Path, Straight, line
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.tolerance import MEET_MM, TINY
from tubeframe.geometry.units import format_length
from tubeframe.geometry.vector import Vec, rotated

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.units import Units

_SLANT = 0.05
"""A shift is told along an axis when this share of it goes that way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What is done, in words, the frame with it done, and how far things move [mm]."""

    words: str
    frame: Frame
    size: float


def moved(frame: Frame, names: Collection[str], shift: Vec, units: Units) -> Change:
    """Move tubes; an end that sat on a tube which stays slides along it, so that a slanting tube stays on both."""
    back = Placement(origin=-shift)
    staying = [m for m in frame.members if m.id not in names]
    members = tuple(
        _kept_on(m, replace(m, path=m.path.seen_from(back)), staying) if m.id in names else m for m in frame.members
    )
    words = f"move {', '.join(names)} {_shift_words(shift, units)}"
    return Change(words=words, frame=replace(frame, members=members), size=shift.length)


def lengthened(frame: Frame, name: str, end: TubeEnd, by: float, units: Units) -> Change:
    """Make a tube longer at an end, or shorter by a length under 0 [mm]."""
    member = _member(frame, name)
    at_a = end is TubeEnd.A
    way = -member.path.tangent(0.0) if at_a else member.path.tangent(member.path.length)
    told = (
        f"make {name} {format_length(abs(by), units)} {'longer' if by > 0.0 else 'shorter'} at end {end.value.upper()}"
    )
    made = replace(member, path=_with_end(member.path, end, way * by))
    return Change(words=told, frame=_with(frame, made), size=abs(by))


def turned(frame: Frame, name: str, about: Vec, axis: Vec, angle: float) -> Change:
    """Turn a straight tube about a point by an angle [radian]."""
    member = _member(frame, name)
    ends = (about + rotated(p - about, axis, angle) for p in (member.path.start, member.path.end))
    made = replace(member, path=line(*ends))
    return Change(
        words=f"turn {name} by {abs(math.degrees(angle)):.1f} degrees at its joint",
        frame=_with(frame, made),
        size=abs(angle) * member.path.length,
    )


def ended(frame: Frame, name: str, end: TubeEnd, kind: EndKind) -> Change:
    """Give a tube's end a piece of its own."""
    member = _member(frame, name)
    made = replace(member, end_a=kind) if end is TubeEnd.A else replace(member, end_b=kind)
    return Change(
        words=f"give {name} a {kind.value} at end {end.value.upper()}",
        frame=_with(frame, made),
        size=member.path.length,
    )


def raised(frame: Frame, panel: str, by: float, units: Units) -> Change:
    """Raise a board off its underside [mm]."""
    panels = tuple(
        replace(p, placement=replace(p.placement, origin=p.placement.origin + p.placement.z * by))
        if p.id == panel
        else p
        for p in frame.panels
    )
    words = f"raise {panel} by {format_length(by, units)}"
    return Change(words=words, frame=replace(frame, panels=panels), size=by)


def with_rail(frame: Frame, first: Member, second: Member, share: float) -> Change:
    """Add a rail between two parallel tubes, square to them, at a share of the first one's length from its A."""
    start = first.path.point(first.path.length * share)
    way = second.path.tangent(0.0)
    end = second.path.start + way * (start - second.path.start).dot(way)
    taken = {m.id for m in frame.members}
    name = next(n for k in range(1, len(taken) + 2) if (n := MemberId(f"tie.{k}")) not in taken)
    rail = Member(id=name, tube=first.tube, path=line(start, end), end_a=EndKind.JOINT, end_b=EndKind.JOINT)
    changed = replace(frame, members=(*frame.members, rail))
    return Change(words=f"add a rail from {first.id} to {second.id}", frame=changed, size=start.distance(end))


def wished(change: Change, wishes: Sequence[tuple[Vec, str]]) -> Change:
    """Ask for kinds of fittings at places [mm] too."""
    more = tuple(Preference(at=at, kind=kind) for at, kind in wishes)
    return replace(change, frame=replace(change.frame, preferences=change.frame.preferences + more))


def _shift_words(shift: Vec, units: Units) -> str:
    """Say how far and which way a shift goes, as one stands before the frame; along each axis when it is aslant."""
    ways = ((shift.x, "right", "left"), (shift.y, "back", "forward"), (shift.z, "up", "down"))
    told = [
        f"{format_length(abs(by), units)} {plus if by > 0.0 else minus}"
        for by, plus, minus in ways
        if abs(by) > _SLANT * shift.length
    ]
    return " and ".join(told)


def _member(frame: Frame, name: str) -> Member:
    return next(m for m in frame.members if m.id == name)


def _with(frame: Frame, made: Member) -> Frame:
    return replace(frame, members=tuple(made if m.id == made.id else m for m in frame.members))


def _with_end(path: Path, end: TubeEnd, shift: Vec) -> Path:
    """Return a centreline whose end is moved along itself [mm]."""
    pieces = list(path.pieces)
    n = 0 if end is TubeEnd.A else -1
    piece = pieces[n]
    if not isinstance(piece, Straight):
        return path
    pieces[n] = (
        Straight(start=piece.start + shift, end=piece.end)
        if end is TubeEnd.A
        else Straight(start=piece.start, end=piece.end + shift)
    )
    return Path(pieces=tuple(pieces))


def _kept_on(before: Member, after: Member, staying: list[Member]) -> Member:
    """Put the ends of a moved straight tube back onto the tubes that they sat on, along its own line."""
    if not before.is_straight:
        return after
    path = after.path
    for end, kind in zip(TubeEnd, before.ends, strict=True):
        point = before.path.start if end is TubeEnd.A else before.path.end
        hosts = [m for m in staying if kind is EndKind.JOINT and nearest_on(m.path, point)[1] <= MEET_MM]
        for host in hosts:
            meet = _crossing(path, host.path)
            if meet is not None:
                path = line(meet, path.end) if end is TubeEnd.A else line(path.start, meet)
                break
    return replace(after, path=path)


def _crossing(path: Path, host: Path) -> Vec | None:
    """Return where a straight tube's line, gone on at both ends, meets a host's centreline."""
    start, way = path.start, path.tangent(0.0)
    for _, piece in host.stretches():
        if not isinstance(piece, Straight):
            continue
        along = piece.end_tangents[0]
        normal = way.cross(along)
        if normal.length < TINY or abs((piece.start - start).dot(normal.unit)) > MEET_MM:
            continue
        reach = (piece.start - start).cross(along).dot(normal) / normal.dot(normal)
        meet = start + way * reach
        at = (meet - piece.start).dot(along)
        if -MEET_MM <= at <= piece.length + MEET_MM:
            return meet
    return None
