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


TURNED = {"id": "arm", "path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 600, 900]], "ends": ["foot", "cap"]}
"""Up, then right, then back. At the second bend the tube runs to the right; the inside of the first bend, carried along
it, has come round to below (-z); the second bends back (+y). About the way right, right hand, -z goes to +y: 90."""
OTHER_WAY = TURNED | {"path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, -600, 900]]}
"""The second bend to the front: 270."""
FLAT = TURNED | {"path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 0, 1500]]}
"""The second bend up again, in the plane of the first and against it: 180."""


@pytest.mark.parametrize(("member", "turn"), [(TURNED, "90°"), (OTHER_WAY, "270°"), (FLAT, "180°")])
def test_a_bends_turn_is_printed(member, turn):
    page = _page(design_of_text(member), "bend sheet")
    rows = {}
    for text in (i for i in page.items if isinstance(i, Text)):
        rows.setdefault(round(text.at[1], 3), []).append(text.text)
    bends = [r for r in rows.values() if r[0] in ("1", "2") and "°" in "".join(r)]

    assert [r[2:4] for r in bends] == [["90°", "0°"], ["90°", turn]]


def test_only_a_tube_bent_in_one_plane_is_said_to_lie_in_one():
    def words(member):
        return " ".join(i.text for i in _page(design_of_text(member), "bend sheet").items if isinstance(i, Text))

    assert "all in one plane" in words(FLAT)
    assert "all in one plane" not in words(TURNED)
    assert "turn the tube" in words(TURNED)


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
