"""Repairs at the command line: done when they are asked for, offered where joints are at fault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.joints.repair.search import mended, repairs
from tubeframe.joints.repair.work import Work
from tubeframe.words.repairs import mended_lines, offer_lines

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.design import Design
    from tubeframe.frame.frame import Frame


def mend(frame: Frame, workshop: Workshop) -> tuple[Frame, list[str]]:
    """Mend what can be mended; return what was done too, a line each."""
    found = mended(frame, workshop)
    return found.frame, mended_lines(found, workshop.units)


def offers(design: Design) -> list[str]:
    """List repairs, each tried on the whole frame."""
    work = Work()
    found = repairs(design.frame, design.workshop, design.jointed, work)
    return offer_lines(found, design.workshop.units, stopped=work.over)
