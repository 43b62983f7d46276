"""Moves that part fittings which are too near. A move is offered only when the frame was checked with it done."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.errors import BendError, FrameError, Severity
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.units import format_length
from tubeframe.geometry.vector import X, Y, Z
from tubeframe.joints.check import Crowding, crowdings
from tubeframe.joints.resolve import jointed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Jointed

_MOST_TRIED = 24
_SPARE = 0.05
"""Moved a little more than what is short, so that rounding does not bring the fault back [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A move in words, for the tube where it helps, and the frame with it done."""

    where: str
    words: str
    frame: Frame


def repairs(frame: Frame, workshop: Workshop) -> tuple[Repair, ...]:
    """Return moves that mend crowded fittings and bring no new error; at most two a crowding, the nearest first."""
    found = jointed(frame, workshop)
    before = _errors(found.findings)
    offers: list[Repair] = []
    tried = 0
    for crowding in crowdings(found.tubes, found.joints, workshop):
        for members, shift in _moves(crowding, found):
            tried += 1
            if tried > _MOST_TRIED:
                return tuple(offers)
            moved = _moved(frame, members, shift)
            if _mends(moved, before, workshop):
                words = f"move {', '.join(members)} {format_length(shift.length, workshop.units)} {_way(shift)}"
                offers.append(Repair(where=crowding.tube.id, words=words, frame=moved))
    return tuple(offers)


def _errors(findings: tuple[Finding, ...]) -> Counter[tuple[str, str]]:
    return Counter((f.code, f.where) for f in findings if f.severity is Severity.ERROR)


def _mends(moved: Frame, before: Counter[tuple[str, str]], workshop: Workshop) -> bool:
    """Whether errors went and none came."""
    try:
        after = _errors(jointed(moved, workshop).findings)
    except (BendError, FrameError):
        return False
    return after.total() < before.total() and not after - before


def _moves(crowding: Crowding, found: Jointed) -> Iterator[tuple[tuple[str, ...], Vec]]:
    """Give the members of either fitting with the shift that parts them."""
    tube = crowding.tube
    length = crowding.short + _SPARE
    for zone, sign in ((crowding.second, 1.0), (crowding.first, -1.0)):
        members = _others(zone.joint, tube.member, found)
        if members and not zone.joint.is_end_piece:
            yield members, tube.path.tangent(zone.at) * (sign * length)


def _others(joint: Joint, member: str, found: Jointed) -> tuple[str, ...]:
    member_of = {t.id: str(t.member) for t in found.tubes}
    return tuple(dict.fromkeys(m for u in joint.uses if (m := member_of[u.tube]) != member))


def _moved(frame: Frame, members: tuple[str, ...], shift: Vec) -> Frame:
    back = Placement(origin=-shift)
    return replace(
        frame,
        members=tuple(replace(m, path=m.path.seen_from(back)) if m.id in members else m for m in frame.members),
    )


def _way(shift: Vec) -> str:
    """Say which way a shift goes, as one stands before the frame."""
    words = ((X, "right", "left"), (Y, "back", "forward"), (Z, "up", "down"))
    axis, plus, minus = max(words, key=lambda row: abs(shift.dot(row[0])))
    return plus if shift.dot(axis) > 0.0 else minus
