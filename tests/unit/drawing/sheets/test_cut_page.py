"""The drawn sticks."""

from __future__ import annotations

import pytest

from tests.building import design_of
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import Fill
from tubeframe.drawing.shapes import Area


@pytest.mark.parametrize("kerf", ["1/16 in", "1/2 in"])
def test_saw_cuts_are_drawn_as_wide_as_they_are(kerf):
    """Left edges of the pieces in the first stick: each after the pieces before it and one kerf a piece."""
    design = design_of("table", {"saw": {"kerf": kerf}})
    (page,) = [s for s in Drawings(design).sheets if s.title == "cut plan"]
    areas = [i for i in page.items if isinstance(i, Drawn) and isinstance(i.shape, Area)]
    first = next(n for n, a in enumerate(areas) if a.fill is Fill.LIGHT and a.shape.corners[0][0] == 20.0 and n)
    stick = design.fabrication.plan.sticks[0]
    lefts = [a.shape.corners[0][0] for a in areas[first + 1 : first + 1 + len(stick.cuts)]]
    bar = areas[first].shape.corners
    scale = (bar[1][0] - bar[0][0]) / stick.stock_length

    expected, at = [], 0.0
    for cut in stick.cuts:
        expected.append(20.0 + at * scale)
        at += cut.length + stick.kerf
    assert len(stick.cuts) > 1
    assert lefts == pytest.approx(expected)


def test_a_stick_is_told_with_what_is_left():
    page = next(s for s in Drawings(design_of("table")).sheets if s.title == "cut plan")

    assert any(t.text.startswith("left ") for t in page.items if isinstance(t, Text))
