"""The steps, each with its cautions first, its picture, what is done and what is checked."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.drawing.sheets.isometric import balloons, guide, isometric
from tubeframe.drawing.sheets.page_blocks import caution_box, heading, numbered, paragraph, ticked
from tubeframe.drawing.sheets.step_scene import StepScene, step_scene

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.words.steps import ToldStep

_PICTURE_LEAST = 68.0
_PICTURE_MOST = 125.0


def step_pages(flow: Flow, book: PartBook, steps: Sequence[ToldStep]) -> None:
    """Set all steps; one with a picture that does not fit any more begins a page."""
    flow.page("steps")
    for number, step in enumerate(steps):
        _step(flow, book, step, steps[:number])


def _step(flow: Flow, book: PartBook, step: ToldStep, standing: Sequence[ToldStep]) -> None:
    has_picture = bool(step.tubes or step.joints or step.panels)
    after = flow.measured(lambda beside: _after(beside, step))
    before = flow.measured(lambda beside: _before(beside, book, step))
    flow.need(before + after + (_PICTURE_LEAST if has_picture else 0.0))
    _before(flow, book, step)
    if has_picture:
        _picture(flow, step_scene(book, step, standing), min(_PICTURE_MOST, flow.room - after))
    _after(flow, step)


def _before(flow: Flow, book: PartBook, step: ToldStep) -> None:
    for caution in step.cautions:
        caution_box(flow, caution)
    heading(flow, f"{step.number}  {step.title}")
    people = "1 person" if step.hands == 1 else f"{step.hands} people"
    paragraph(flow, f"{people}; {step.tool}{_new_parts(book, step)}")


def _after(flow: Flow, step: ToldStep) -> None:
    numbered(flow, step.action)
    ticked(flow, f"Check: {step.check}.")
    flow.down(3.0)


def _new_parts(book: PartBook, step: ToldStep) -> str:
    """Say what is added, by mark and kind."""
    tubes = Counter(book.piece_of[t].mark for t in step.tubes)
    kinds = Counter(book.joint_of[j].kind for j in step.joints)
    boards = Counter(g.mark for g in book.parts.panel_groups for p in g.panels if p.id in step.panels)
    counted = [f"{n} {what}" for counts in (tubes, boards, kinds) for what, n in counts.items()]
    return f"; new: {', '.join(counted)}" if counted else ""


def _picture(flow: Flow, scene: StepScene, height: float) -> None:
    box = (flow.x, flow.y - height + 2.0, flow.width, height - 4.0)
    items, fit = isometric(scene.bodies, box, strong=scene.new)
    flow.put(
        [*(guide(start, end, fit) for start, end in scene.guides), *items, *balloons(scene.labels, items, fit, box)]
    )
    flow.down(height)
