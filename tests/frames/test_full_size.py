"""Marking strips of text frames: where their clamps are drawn."""

from __future__ import annotations

import pytest

from tests.frames.case import FOOT
from tests.frames.test_marks_and_lists import design
from tubeframe.drawing.full_size.marking_strips import strip_of
from tubeframe.drawing.model.items import Drawn
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.views.part_book import part_book
from tubeframe.geometry.units import INCH_MM

GRIP = 1.875
"""Length that a tee holds on a run of 3/4: 2 D up to the next 1/8 [in]."""


def test_clamps_are_drawn_on_a_strip_from_end_a():
    """Rungs at 12, 24, 36, 48 and 60 in, less the foot's 1/8 below end A; each clamp half its grip to both sides."""
    made = design("stands/ladder")
    group = next(g for g in made.parts.groups if g.first.id.startswith("stile"))
    lines = [i for i in strip_of(part_book(made), group).lines if isinstance(i, Drawn) and i.pen is Pen.FITTING]
    drawn = sorted({round(x / INCH_MM, 6) for i in lines for segment in i.shape.segments for x, _ in segment})

    by_hand = sorted(z - FOOT + side * GRIP / 2 for z in (12, 24, 36, 48, 60) for side in (-1, 1))
    assert drawn == pytest.approx(by_hand)
