"""What the sticks come to, what that hangs on, and what would save some: lines for the cover and the cut plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.facts import NearSaving, PlanHangsOn
from tubeframe.words.cut_plan import bought_words
from tubeframe.words.findings import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.design import Design


def stick_lines(design: Design) -> Iterator[tuple[str, str]]:
    """Give labels and texts for the cover: how many sticks, how far that is proved, each near size that saves."""
    plan = design.fabrication.plan
    if plan.sticks:
        yield "Sticks", bought_words(plan)
    for finding in design.fabrication.findings:
        if isinstance(finding.fact, NearSaving):
            words = told(finding, design.workshop.units)
            yield "Saves", f"{words.where} {words.message}"


def hanging_words(design: Design) -> Iterator[str]:
    """Say what the plan hangs on, and what to measure before that."""
    for finding in design.fabrication.findings:
        if isinstance(finding.fact, PlanHangsOn):
            words = told(finding, design.workshop.units)
            yield f"{words.where}: {words.message}; {words.remedy}."
