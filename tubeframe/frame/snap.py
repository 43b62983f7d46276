"""Ends that miss another tube by a rounding of what was written are put onto it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.frame.facts import Snapped
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.extent import along_tube
from tubeframe.geometry.grid import CELL, near_pairs
from tubeframe.geometry.path import Path, Straight
from tubeframe.geometry.tolerance import EXACT_MM, MEET_MM

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.geometry.vector import Vec


def snapped(frame: Frame) -> Frame:
    """Put every end that a fitting takes, and that just misses a tube, onto it, and tell of it.

    An end goes onto a tube stated before it, its end first; onto a later one only where that passes. The end straight
    of a bent tube is drawn out along itself only, so that its bend stays what it is.
    """
    members = {m.id: m for m in frame.members}
    near: dict[MemberId, list[MemberId]] = {m.id: [] for m in frame.members}
    for i, j in near_pairs((along_tube(m.path, 0.0, CELL) for m in frame.members), MEET_MM).pairs:
        first, second = frame.members[i].id, frame.members[j].id
        near[first].append(second)
        near[second].append(first)
    order = {m.id: n for n, m in enumerate(frame.members)}
    found: list[Finding] = []
    for member in frame.members:
        for end in TubeEnd:
            others = [members[name] for name in sorted(near[member.id], key=lambda n: order[n])]
            fact = _miss(members[member.id], end, others, order)
            if fact is not None:
                members[member.id] = _with_end(members[member.id], end, fact[1])
                found.append(Finding(code="F-snapped", severity=Severity.INFO, subjects=(member.id,), fact=fact[0]))
    if not found:
        return frame
    return replace(frame, members=tuple(members.values()), findings=(*frame.findings, *found))


def _miss(
    member: Member, end: TubeEnd, others: Sequence[Member], order: Mapping[MemberId, int]
) -> tuple[Snapped, Vec] | None:
    """Return the place on another tube that an end misses, if it can be put there; None when it meets one exactly."""
    if member.ends[0 if end is TubeEnd.A else 1] is not EndKind.JOINT:
        return None
    point = member.path.start if end is TubeEnd.A else member.path.end
    misses = []
    for other in others:
        target = _target(point, other, is_earlier=order[other.id] < order[member.id])
        if target is None:
            continue
        gap = target.distance(point)
        if gap <= EXACT_MM:
            return None
        if gap <= MEET_MM and _reaches(member, end, target):
            misses.append((Snapped(member=member.id, end=end, onto=other.id, gap=gap), target))
    return misses[0] if misses else None


def _target(point: Vec, other: Member, *, is_earlier: bool) -> Vec | None:
    """Return the place on another tube that a point belongs to: its end, or where it passes."""
    for kind, tip in zip(other.ends, (other.path.start, other.path.end), strict=True):
        if kind is EndKind.JOINT and tip.distance(point) <= MEET_MM:
            return tip if is_earlier or tip.distance(point) <= EXACT_MM else None
    at, gap = nearest_on(other.path, point)
    return other.path.point(at) if gap <= MEET_MM else None


def _reaches(member: Member, end: TubeEnd, target: Vec) -> bool:
    """Whether an end can be put there and leave every bend as it is."""
    piece = member.path.pieces[0 if end is TubeEnd.A else -1]
    if not isinstance(piece, Straight):
        return False
    return member.is_straight or (target - piece.start).across(piece.end_tangents[0]).length <= EXACT_MM


def _with_end(member: Member, end: TubeEnd, point: Vec) -> Member:
    pieces = list(member.path.pieces)
    n = 0 if end is TubeEnd.A else -1
    piece = pieces[n]
    if end is TubeEnd.A:
        pieces[n] = Straight(start=point, end=piece.end)
    else:
        pieces[n] = Straight(start=piece.start, end=point)
    return replace(member, path=Path(pieces=tuple(pieces)))
