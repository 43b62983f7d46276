"""The steps, each with its cautions first, its picture, what is done and what is checked."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.sheets.isometric import Label, balloons, guide, isometric
from tubeframe.drawing.sheets.page_blocks import caution_box, heading, numbered, paragraph, ticked
from tubeframe.drawing.views.bodies import bodies
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.design import Design
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Transform
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.fabrication.step import Step
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint

_PICTURE_LEAST = 68.0
_PICTURE_MOST = 125.0


def step_pages(flow: Flow, design: Design) -> None:
    """Set all steps; one with a picture that does not fit any more begins a page."""
    flow.page("steps")
    standing: list[Step] = []
    for step in design.fabrication.steps:
        _step(flow, design, step, standing)
        standing.append(step)


def _step(flow: Flow, design: Design, step: Step, standing: Sequence[Step]) -> None:
    has_picture = bool(step.tubes or step.joints or step.panels)
    words = flow.measured(lambda beside: _before(beside, design, step)) + flow.measured(
        lambda beside: _after(beside, step)
    )
    flow.need(words + (_PICTURE_LEAST if has_picture else 0.0))
    _before(flow, design, step)
    if has_picture:
        after = flow.measured(lambda beside: _after(beside, step))
        _picture(flow, design, step, standing, min(_PICTURE_MOST, flow.room - after))
    _after(flow, step)


def _before(flow: Flow, design: Design, step: Step) -> None:
    for caution in step.cautions:
        caution_box(flow, caution)
    heading(flow, f"{step.number}  {step.title}")
    people = "1 person" if step.hands == 1 else f"{step.hands} people"
    paragraph(flow, f"{people}; {step.tool}{_new_parts(design, step)}")


def _after(flow: Flow, step: Step) -> None:
    numbered(flow, step.action)
    ticked(flow, f"Check: {step.check}.")
    flow.down(3.0)


def _new_parts(design: Design, step: Step) -> str:
    """Say what is added, by mark and kind."""
    tubes = Counter(design.parts.piece(t).mark for t in step.tubes)
    kinds = Counter(design.joint(j).kind for j in step.joints)
    boards = Counter(g.mark for g in design.parts.panel_groups for p in g.panels if p.id in step.panels)
    counted = [f"{n} {what}" for counts in (tubes, boards, kinds) for what, n in counts.items()]
    return f"; new: {', '.join(counted)}" if counted else ""


def _picture(flow: Flow, design: Design, step: Step, standing: Sequence[Step], height: float) -> None:
    step = _one_of_each(design, step) if not any(s.tubes for s in standing) else step
    shifts = {m.what: m.direction * m.distance for m in step.moves}
    new = {*step.tubes, *step.joints, *step.panels}
    shown = bodies(
        design,
        tubes=[t for s in (*standing, step) for t in s.tubes],
        joints=[j for s in (*standing, step) for j in s.joints],
        panels=[p for s in (*standing, step) for p in s.panels],
        shifts=shifts,
    )
    box = (flow.x, flow.y - height + 2.0, flow.width, height - 4.0)
    items, fit = isometric(shown, box, strong=new)
    flow.put([*_guides(design, step, standing, shifts, fit), *items, *balloons(_labels(design, step, shifts), fit)])
    flow.down(height)


def _one_of_each(design: Design, step: Step) -> Step:
    """Leave out of a picture of what is built flat the bent members that are made like one that is in it."""
    kits: dict[tuple[str, ...], str] = {}
    pieces = [design.parts.piece(t) for t in step.tubes]
    for member in dict.fromkeys(p.member for p in pieces):
        own = [p for p in pieces if p.member == member]
        if not any(p.bends for p in own):
            return step
        kits.setdefault(tuple(p.mark for p in own), member)
    kept = {p.id for p in pieces if p.member in kits.values()}
    joints = (j for j in step.joints if all(u.tube in kept for u in design.joint(j).uses))
    return replace(step, tubes=tuple(t for t in step.tubes if t in kept), joints=tuple(joints))


def _labels(design: Design, step: Step, shifts: Mapping[str, Vec]) -> list[Label]:
    """Name new tubes and boards at their middles."""
    found = []
    for tube in step.tubes:
        piece = design.parts.piece(tube)
        at = piece.path.point(piece.cut_length / 2.0) + shifts.get(tube, ORIGIN)
        found.append(Label(at=at, text=piece.mark))
    found.extend(
        Label(at=panel.box.centre + shifts.get(panel.id, ORIGIN), text=group.mark)
        for group in design.parts.panel_groups
        for panel in group.panels
        if panel.id in step.panels
    )
    return found


def _guides(
    design: Design, step: Step, standing: Sequence[Step], shifts: Mapping[str, Vec], fit: Transform
) -> list[Mark]:
    """Draw a line from each moved tube to the fitting it goes into."""
    lines: list[Mark] = []
    present = {j for s in (*standing, step) for j in s.joints}
    for joint in (j for j in design.jointed.joints if j.id in present):
        for use in joint.uses:
            if use.tube in shifts and use.tube in step.tubes:
                at = _port_point(joint, use.port)
                lines.append(guide(at + shifts[use.tube], at + shifts.get(joint.id, ORIGIN), fit))
    return lines


def _port_point(joint: Joint, port: str) -> Vec:
    if joint.fitting is None:
        return joint.at
    sized = joint.fitting.port(port)
    return joint.placement.point(sized.middle + sized.axis * sized.setback)
