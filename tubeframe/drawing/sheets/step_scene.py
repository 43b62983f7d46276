"""What a step's picture shows, in space: what stands, what is new and where it comes from, what it is called."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.drawing.sheets.isometric import Label
from tubeframe.drawing.views.bodies import chosen_bodies, moved_off
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.model.scene import Body
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint
    from tubeframe.words.steps import ToldStep

_SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74)
"""A tube may be named at these shares of its length, the first best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepScene:
    """Bodies, the new ones off their places; the ids of these; the ways they take (from, to); and their names."""

    bodies: tuple[Body, ...]
    new: frozenset[str]
    guides: tuple[tuple[Vec, Vec], ...]
    labels: tuple[Label, ...]


def step_scene(book: PartBook, step: ToldStep, standing: Sequence[ToldStep]) -> StepScene:
    """Show a step beside what the steps before it have put up."""
    step = _one_of_each(book, step) if not any(s.tubes for s in standing) else step
    shifts = {m.what: m.direction * m.distance for m in step.moves}
    present = frozenset(part for s in (*standing, step) for part in (*s.tubes, *s.joints, *s.panels))
    new = frozenset((*step.tubes, *step.joints, *step.panels))
    return StepScene(
        bodies=tuple(moved_off(body, shifts) for body in chosen_bodies(book, present)),
        new=new,
        guides=_guides(book, step, present, shifts),
        labels=_labels(book, step, shifts),
    )


def _one_of_each(book: PartBook, step: ToldStep) -> ToldStep:
    """Leave out of a picture of what is built flat the bent members that are made like one that is in it."""
    kits: dict[tuple[str, ...], str] = {}
    pieces = [book.piece_of[t] for t in step.tubes]
    for member in dict.fromkeys(p.member for p in pieces):
        own = [p for p in pieces if p.member == member]
        if not any(p.bends for p in own):
            return step
        kits.setdefault(tuple(p.mark for p in own), member)
    kept = {p.id for p in pieces if p.member in kits.values()}
    joints = (j for j in step.joints if all(u.tube in kept for u in book.joint_of[j].uses))
    return replace(step, tubes=tuple(t for t in step.tubes if t in kept), joints=tuple(joints))


def _labels(book: PartBook, step: ToldStep, shifts: Mapping[str, Vec]) -> tuple[Label, ...]:
    """Name new tubes along them, and new boards at their middles."""
    found = []
    for tube in step.tubes:
        piece = book.piece_of[tube]
        off = shifts.get(tube, ORIGIN)
        at = tuple(piece.path.point(piece.cut_length * share) + off for share in _SHARES)
        found.append(Label(at=at, text=piece.mark))
    found += [
        Label(at=(panel.box.centre + shifts.get(panel.id, ORIGIN),), text=group.mark)
        for group in book.parts.panel_groups
        for panel in group.panels
        if panel.id in step.panels
    ]
    return tuple(found)


def _guides(
    book: PartBook, step: ToldStep, present: frozenset[str], shifts: Mapping[str, Vec]
) -> tuple[tuple[Vec, Vec], ...]:
    """Return the way from each moved tube to the fitting that it goes into."""
    moved = {t for t in step.tubes if t in shifts}
    found = []
    for joint in (j for j in book.joints if j.id in present):
        for use in (u for u in joint.uses if u.tube in moved):
            at = _port_point(joint, use.port)
            found.append((at + shifts[use.tube], at + shifts.get(joint.id, ORIGIN)))
    return tuple(found)


def _port_point(joint: Joint, port: str) -> Vec:
    """Return where a tube ends in a port, or the middle of one that it passes through [mm]."""
    if joint.fitting is None:
        return joint.at
    sized = joint.fitting.port(port)
    return joint.placement.point(sized.middle + sized.axis * sized.setback)
