"""Pages are used: none is left much less than two thirds full before its section goes on."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.building import GREENHOUSE, design_of
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.sheets.page_flow import BOTTOM, FOOTER, HEADER, TOP

LEAST = 0.6


def _full(sheet) -> float:
    """How far down a page reaches, from 0 to 1."""
    top, low = sheet.height - TOP - HEADER, BOTTOM + FOOTER
    heights = [y for item in sheet.items for _, y in item.extremes() if low - 0.5 <= y <= top + 1.0]
    return (top - min(heights)) / (top - low)


@pytest.mark.parametrize("name", ["table", "shelf", "greenhouse", "bed-rack"])
def test_no_page_is_half_empty_but_the_last_of_a_section(name):
    sheets = Drawings(design_of(name)).sheets
    for sheet, after in pairwise(sheets):
        goes_on = sheet.title.split(", ")[-1] == after.title.split(", ")[0]
        assert not goes_on or _full(sheet) >= LEAST, sheet.title


def test_texts_stand_upright_on_every_page():
    """A wide view has a page that lies; nothing is turned upside down, dimensions read from the right at most."""
    for name in ("table", "greenhouse"):
        for sheet in Drawings(design_of(name)).sheets:
            turns = {round(getattr(item, "angle_deg", 0.0)) % 360 for item in sheet.items}
            assert all(turn <= 90 or turn >= 270 for turn in turns)


@pytest.mark.parametrize(
    ("name", "asked", "most"),
    [("table", {}, 8), ("shelf", {}, 8), ("bed-rack", {}, 9), ("greenhouse", dict(GREENHOUSE), 12)],
)
def test_few_pages(name, asked, most):
    """Without the pages on strength; a person with a key in the hand has ten minutes (our own limits)."""
    assert len(Drawings(design_of(name, **asked)).sheets) <= most
