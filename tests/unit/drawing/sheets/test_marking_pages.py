"""Strips with stations from end A, and the bends of a tube with their turns."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.building import design_of, design_of_text
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.full_size.marking_strips import strip_of
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.views.part_book import part_book

LADDER = (
    {"id": "left", "path": [[0, 0, 0], [0, 0, 1000]], "ends": ["foot", "cap"]},
    {"id": "right", "path": [[600, 0, 0], [600, 0, 1000]], "ends": ["foot", "cap"]},
    {"id": "low", "path": [[0, 0, 250], [600, 0, 250]]},
    {"id": "mid", "path": [[0, 0, 400], [600, 0, 400]]},
)
"""Posts with two rails, both below the middle: from end B they would stand above it."""


def _page(design, title):
    pages = [s for s in Drawings(design).sheets if title in s.title]
    return replace(pages[0], items=tuple(i for page in pages for i in page.items))


def test_a_strips_stations_run_from_end_a():
    """End A of an upright is its lower end: rails at 250 and 400 mm of 1000, less the foot's thickness."""
    design = design_of_text(*LADDER)
    post = design.parts.groups[0].first
    page = _page(design, "marking")
    outline = next(i.shape.corners for i in page.items if isinstance(i, Drawn) and i.pen is Pen.WIDE and i.fill)
    left, right = outline[0][0], outline[1][0]
    triangle = next(
        i.shape.corners[0]
        for i in page.items
        if isinstance(i, Drawn) and isinstance(i.shape, Area) and i.fill is Fill.BLACK
    )
    strip = [i for i in page.items if isinstance(i, Text) and i.text in ("a", "b") and i.bold][:2]

    assert triangle[0] < left
    thickness = 1000.0 - post.cut_length
    shares = [(t.at[0] - left) / (right - left) for t in strip]
    assert shares == pytest.approx([(z - thickness) / post.cut_length for z in (250.0, 400.0)], abs=0.01)
    texts = [i.text for i in page.items if isinstance(i, Text)]
    assert any(t.startswith(f"a  {round(250.0 - thickness)} mm") for t in texts)


def test_a_full_size_strips_ticks_run_from_end_a():
    design = design_of_text(*LADDER)
    group = design.parts.groups[0]
    (tube,) = strip_of(part_book(design), group).tubes
    thickness = 1000.0 - group.first.cut_length

    assert [t.at for t in tube.ticks] == pytest.approx([250.0 - thickness, 400.0 - thickness])
    assert tube.piece.path.point(0.0).x == 0.0


def test_stations_of_one_tube_never_run_into_the_next():
    """A shelf's posts carry turned swivel couplers: each text ends before the next on its line begins."""
    found = 0
    for page in (s for s in Drawings(design_of("shelf")).sheets if "marking" in s.title):
        lines = [i for i in page.items if isinstance(i, Text)]
        for text in (i for i in lines if "turned" in i.text):
            end = text.at[0] + text_width(text.text, text.height)
            beside = [i for i in lines if i.at[1] == text.at[1] and i.at[0] > text.at[0]]
            found += 1
            assert all(i.at[0] >= end for i in beside)

    assert found
