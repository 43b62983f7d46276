"""Operations done to a frame: one pure function each."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.errors import FrameError, Problem
from tubeframe.frame.frame import Preference
from tubeframe.frame.node import TubeEnd
from tubeframe.frame.panel import Panel, Pocket
from tubeframe.geometry.path import Path, Straight, line
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.tolerance import MEET_MM, PLANE_MM, TINY
from tubeframe.geometry.vector import Vec, rotated
from tubeframe.joints.repair.dropping import dropped
from tubeframe.joints.repair.operations import (
    AddTube,
    Ask,
    CutOut,
    DropTube,
    EndPiece,
    Move,
    MoveEnds,
    Operation,
    Resplit,
    Single,
    Stretch,
    Trim,
    Turn,
    singles,
)
from tubeframe.joints.repair.seats import Seat, crossing, seats, wishes_kept

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.load import Load
    from tubeframe.frame.member import EndKind, Member, MemberId

_FACING = 0.5


def applied(frame: Frame, operation: Operation) -> Frame:
    """Return a frame with an operation done; what was asked for at a place goes with the tubes there.

    Raises:
        FrameError: when nothing of a tube's straight is left.

    """
    for single in singles(operation):
        frame = replace(done := _applied(frame, single), preferences=wishes_kept(frame, done))
    return frame


def _applied(frame: Frame, operation: Single) -> Frame:
    return _HOW[type(operation)](frame, operation)


def _moved(frame: Frame, move: Move) -> Frame:
    """Shift tubes and boards; then every end that sat on a tube is put back onto it, along its own line."""
    back = Placement(origin=-move.shift)
    before = seats(frame, move.members)
    members = tuple(replace(m, path=m.path.seen_from(back)) if m.id in move.members else m for m in frame.members)
    panels = tuple(
        replace(p, placement=replace(p.placement, origin=p.placement.origin + move.shift)) if p.id in move.boards else p
        for p in frame.panels
    )
    moved = replace(frame, members=members, panels=panels)
    for seat in before:
        moved = _seated(moved, seat)
    for name in move.members:
        moved = _on_the_floor(frame, moved, name)
    return moved


def _seated(frame: Frame, seat: Seat) -> Frame:
    """Stretch an end to where its line meets the tube that it sat on; leave it when they do not meet any more."""
    point, way = outward(member_of(frame, seat.member), seat.end)
    for host in seat.hosts:
        meet = crossing(point, way, member_of(frame, host).path)
        if meet is not None:
            by = (meet - point).dot(way)
            return _stretched(frame, seat.member, seat.end, by) if abs(by) > TINY else frame
    return frame


def _on_the_floor(before: Frame, frame: Frame, name: MemberId) -> Frame:
    """Put the ends of a tube that stood on the floor back onto it, along the tube."""
    old, new = member_of(before, name), member_of(frame, name)
    for end, kind in zip(TubeEnd, old.ends, strict=True):
        point, way = outward(new, end)
        rise = outward(old, end)[0].z - point.z
        on_floor = kind.is_grounded and abs(outward(old, end)[0].z) <= MEET_MM
        if on_floor and abs(way.z) > TINY and abs(rise) > TINY:
            frame = _stretched(frame, name, end, rise / way.z)
    return frame


def _ends_moved(frame: Frame, operation: MoveEnds) -> Frame:
    for name, end in operation.ends:
        member, at_a = member_of(frame, name), end is TubeEnd.A
        start, stop = member.path.start, member.path.end
        path = line(start + operation.shift, stop) if at_a else line(start, stop + operation.shift)
        frame = _with_path(frame, member, path, path.length - member.path.length if at_a else 0.0)
    return frame


def _all_stretched(frame: Frame, operation: Stretch) -> Frame:
    for name, end in operation.ends:
        frame = _stretched(frame, name, end, operation.by)
    return frame


def _stretched(frame: Frame, name: MemberId, end: TubeEnd, by: float) -> Frame:
    member = member_of(frame, name)
    _, way = outward(member, end)
    pieces, n = list(member.path.pieces), 0 if end is TubeEnd.A else -1
    piece = pieces[n]
    if not isinstance(piece, Straight):
        return frame
    if piece.length + by <= PLANE_MM:
        raise _nothing_left(name, piece.length + by)
    at_a = end is TubeEnd.A
    start, stop = (piece.start + way * by, piece.end) if at_a else (piece.start, piece.end + way * by)
    pieces[n] = Straight(start=start, end=stop)
    return _with_path(frame, member, Path(pieces=tuple(pieces)), by if at_a else 0.0)


def _nothing_left(name: str, left: float) -> FrameError:
    return FrameError(
        Problem(where=name, key="path", message=f"{left:.1f} mm of it are left", remedy="change something else")
    )


def _turned(frame: Frame, turn: Turn) -> Frame:
    member = member_of(frame, turn.member)
    ends = (turn.about + rotated(p - turn.about, turn.axis, turn.angle) for p in (member.path.start, member.path.end))
    return _with_path(frame, member, line(*ends), 0.0)


def _ended(frame: Frame, operation: EndPiece) -> Frame:
    for name, end in operation.ends:
        member, kind = member_of(frame, name), operation.kind
        frame = _with(frame, replace(member, end_a=kind) if end is TubeEnd.A else replace(member, end_b=kind))
    return frame


def _cut_out(frame: Frame, operation: CutOut) -> Frame:
    panels = (replace(p, pockets=p.pockets + operation.pockets) if p.id == operation.board else p for p in frame.panels)
    return replace(frame, panels=tuple(panels))


def _trimmed(frame: Frame, operation: Trim) -> Frame:
    panels = (_cut_back(p, operation) if p.id == operation.board else p for p in frame.panels)
    return replace(frame, panels=tuple(panels))


def _cut_back(panel: Panel, trim: Trim) -> Panel:
    """Cut a board back; its pockets stay where they are, and what of them was cut away is gone."""
    along, across = trim.edge.dot(panel.placement.x), trim.edge.dot(panel.placement.y)
    off = Vec(trim.by if along < -_FACING else 0.0, trim.by if across < -_FACING else 0.0, 0.0)
    length = panel.length - (trim.by if abs(along) > _FACING else 0.0)
    width = panel.width - (trim.by if abs(across) > _FACING else 0.0)
    if min(length, width) <= PLANE_MM:
        raise _nothing_left(panel.id, min(length, width))
    most = Vec(length, width, panel.thickness)
    pockets = (Pocket(low=_clipped(p.low - off, most), high=_clipped(p.high - off, most)) for p in panel.pockets)
    kept = tuple(p for p in pockets if p.low.x < p.high.x and p.low.y < p.high.y)
    placement = replace(panel.placement, origin=panel.placement.point(off))
    return replace(panel, placement=placement, length=length, width=width, pockets=kept)


def _clipped(point: Vec, most: Vec) -> Vec:
    return Vec(*(min(m, max(0.0, c)) for c, m in zip(point, most, strict=True)))


def _resplit(frame: Frame, operation: Resplit) -> Frame:
    places = tuple(sorted(operation.places))
    members = (replace(m, split_at=places) if m.id in operation.members else m for m in frame.members)
    return replace(frame, members=tuple(members))


def _added(frame: Frame, operation: AddTube) -> Frame:
    return replace(frame, members=(*frame.members, operation.member))


def _asked(frame: Frame, operation: Ask) -> Frame:
    more = tuple(Preference(at=at, kind=operation.kind) for at in operation.at)
    return replace(frame, preferences=frame.preferences + more)


def member_of(frame: Frame, name: str) -> Member:
    """Return the tube of a name."""
    return next(m for m in frame.members if m.id == name)


def outward(member: Member, end: TubeEnd) -> tuple[Vec, Vec]:
    """Return where a tube ends [mm], and the direction out of that end."""
    if end is TubeEnd.A:
        return member.path.start, -member.path.tangent(0.0)
    return member.path.end, member.path.tangent(member.path.length)


def end_kind(member: Member, end: TubeEnd) -> EndKind:
    """Return what is at a tube's end."""
    return member.end_a if end is TubeEnd.A else member.end_b


def _with(frame: Frame, made: Member) -> Frame:
    return replace(frame, members=tuple(made if m.id == made.id else m for m in frame.members))


def _with_path(frame: Frame, member: Member, path: Path, begun: float) -> Frame:
    """Give a tube another centreline; what is measured from A goes with it when A moved out by a length [mm]."""
    made = replace(member, path=path, split_at=tuple(p + begun for p in member.split_at))
    loads = tuple(_load_kept(load, begun) if load.on == member.id else load for load in frame.loads)
    return replace(_with(frame, made), loads=loads)


def _load_kept(load: Load, begun: float) -> Load:
    return replace(load, span=(load.span[0] + begun, load.span[1] + begun)) if load.span else load


_HOW: Mapping[type[Single], Callable[..., Frame]] = {
    Move: _moved,
    MoveEnds: _ends_moved,
    Stretch: _all_stretched,
    Turn: _turned,
    EndPiece: _ended,
    Resplit: _resplit,
    DropTube: dropped,
    CutOut: _cut_out,
    Trim: _trimmed,
    AddTube: _added,
    Ask: _asked,
}
