"""The blank sheet to measure with: what a person has to know of the place before asking for sizes."""

from __future__ import annotations

import pytest

from tubeframe.catalog.workshop import Paper
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.measuring_page import measuring_pages
from tubeframe.template.parameters import ParameterKind, specs_of
from tubeframe.template.registry import shipped_templates
from tubeframe.words.measuring import measuring_sheet

TEMPLATES = {t.name: t for t in shipped_templates()}

MISSED = {
    # what is overlooked and costs (common practice, no source)
    "table": ("diagonals", "Fall of the ground", "Skirting", "kept under"),
    "shelf": ("diagonals", "ceiling", "Studs in the wall", "Largest box"),
    "greenhouse": ("diagonals", "Fall of the ground", "Buried lines", "wind", "barrow"),
    "bed-rack": ("front", "rear", "wheel wells", "roof", "Stake pockets", "may carry"),
}


@pytest.mark.parametrize("name", TEMPLATES)
def test_what_is_often_overlooked_is_asked_for(name):
    sheet = measuring_sheet(TEMPLATES[name])
    labels = " | ".join(r.label for r in sheet.place)
    assert all(missed in labels for missed in MISSED[name])
    assert all(r.what_for and 1 <= r.places <= 3 for r in (*sheet.place, *sheet.asked))
    lengths = [k for k, s in specs_of(TEMPLATES[name].parameters).items() if s.kind is ParameterKind.LENGTH]
    assert [r.label for r in sheet.asked] == [f"--{k}" for k in lengths]


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", TEMPLATES)
def test_every_row_is_on_the_page_with_its_boxes(name, paper):
    sheet = measuring_sheet(TEMPLATES[name])
    pages = measuring_pages(sheet, paper.size, "all lengths in inches")
    texts = [i.text for p in pages for i in p.items if isinstance(i, Text)]
    boxes = sum(1 for p in pages for i in p.items if isinstance(i, Drawn) and isinstance(i.shape, Area))
    assert len(pages) <= 2
    assert all(r.label in texts for r in (*sheet.place, *sheet.asked))
    assert boxes == sum(r.places for r in (*sheet.place, *sheet.asked)) + 1  # and the one to sketch in


def test_width_and_length_are_read_three_times_and_the_fall_both_ways():
    """Common practice, no source: one tape reading is no measure."""
    place = {r.label: r.places for r in measuring_sheet(TEMPLATES["table"]).place}
    assert place["Width of the place"] == place["Length of the place"] == 3
    assert {"Fall of the ground over the length", "Fall of the ground across"} <= place.keys()
