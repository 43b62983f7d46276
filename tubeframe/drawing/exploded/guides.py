"""Lines from parts that are drawn off their places to where they go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.step import PartKind
from tubeframe.geometry.vector import ORIGIN, Vec

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.assembly.step import Entry
    from tubeframe.drawing.exploded.stages import Stage
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.joints.joint import Joint

_LEAST = 1.0
"""Parts drawn nearer to each other than this have no guide [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """A line from a point of a part to the point that it meets, both as they are drawn [mm]."""

    part: str
    to: str
    start: Vec
    end: Vec


def guides(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> tuple[Guide, ...]:
    """Return a guide for every port that a new part goes into, and two for every board."""
    found: list[Guide] = []
    for operation in stage.operations:
        if operation.kind is PartKind.PANEL:
            found += _of_board(book, operation.part, offsets)
        else:
            found += _of_entries(book, operation.part, operation.into, offsets)
    for raising in stage.step.raises:
        parts = stage.raised[raising.sub_frame]
        shift = next((offsets[p] for p in sorted(parts)), ORIGIN)
        found += _of_raised(book, parts, shift, raising.into, offsets)
    return tuple(g for g in found if g.start.distance(g.end) > _LEAST)


def _of_entries(book: PartBook, part: str, into: tuple[Entry, ...], offsets: Mapping[str, Vec]) -> Iterator[Guide]:
    own = offsets.get(part, ORIGIN)
    for entry in into:
        joint = book.joint_of[entry.joint]
        use = next(u for u in joint.uses if u.port == entry.port)
        other = str(use.tube) if part == joint.id else str(joint.id)
        if part == joint.id:
            at = meeting(joint, entry.port)
            yield Guide(part=part, to=other, start=at + own, end=at + offsets.get(other, ORIGIN))
        else:
            yield Guide(
                part=part,
                to=other,
                start=mouth(joint, entry.port) + own,
                end=meeting(joint, entry.port) + offsets.get(other, ORIGIN),
            )


def _of_raised(
    book: PartBook, parts: frozenset[str], shift: Vec, into: tuple[Entry, ...], offsets: Mapping[str, Vec]
) -> Iterator[Guide]:
    for entry in into:
        joint = book.joint_of[entry.joint]
        tube = next(str(u.tube) for u in joint.uses if u.port == entry.port)
        part, other = (str(joint.id), tube) if joint.id in parts else (tube, str(joint.id))
        at = mouth(joint, entry.port)
        yield Guide(part=part, to=other, start=at + shift, end=at + offsets.get(other, ORIGIN))


def _of_board(book: PartBook, board: str, offsets: Mapping[str, Vec]) -> Iterator[Guide]:
    """Guide two opposite corners of a board's underside straight to where they lie."""
    panel = next(p for p in book.boards if p.id == board)
    own = offsets.get(board, ORIGIN)
    for at in (ORIGIN, Vec(panel.length, panel.width, 0.0)):
        corner = panel.placement.point(at)
        yield Guide(part=board, to="", start=corner + own, end=corner)


def mouth(joint: Joint, port: str) -> Vec:
    """Return where a tube ends in a port, or the middle of one that it passes through [mm]."""
    if joint.fitting is None:
        return joint.at
    sized = joint.fitting.port(port)
    return joint.placement.point(sized.middle + sized.axis * sized.setback)


def meeting(joint: Joint, port: str) -> Vec:
    """Return where the middle line of a port's tube meets the fitting's middle [mm]."""
    if joint.fitting is None:
        return joint.at
    return joint.placement.point(joint.fitting.port(port).middle)
