"""What the cover says of text frames: whose measures, boards, and the sizes of the frame as it is."""

from __future__ import annotations

import pytest

from tests.building import frame_of
from tests.frames.case import read
from tests.frames.cases import CASES
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, make_design
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.sheets.cover_page import cover_page
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.views.part_book import part_book
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import Units

BY_NAME = {c.frame: c for c in CASES}


def _cover(frame, workshop):
    made = make_design(frame, workshop, Source(template=frame.name, parameters={}, shop={}))
    flow = Flow(workshop.paper.size, Running(title="", units="", foot="", maker=""))
    cover_page(flow, made, part_book(made))
    return " ".join(item.text for sheet in flow.sheets() for item in sheet.items if isinstance(item, Text))


def _in_shop(name, **shop):
    return _cover(read(BY_NAME[name])[0], workshop_from_document({"units": "in", **shop}, "shop.toml"))


@pytest.mark.parametrize(
    "tables",
    [{"tee": {"price": 4.5}}, {"tee": {"on_hand": 3}}, {"tee": {}}],
    ids=["a price", "a count", "an empty table"],
)
def test_what_measures_nothing_takes_no_warning_away(tables):
    words = _in_shop("stands/ladder", fittings=tables)

    assert "as measured by you" not in words
    assert "measure yours" in words


def test_the_warning_stays_for_the_kinds_that_were_not_measured():
    """Tees were measured; the feet and the angle tees were not."""
    words = _in_shop("stands/cantilever", fittings={"tee": {"setback": "0.6 in"}})

    assert "measure yours" in words
    assert "angle-tee" in words


def test_a_frame_without_boards_has_no_mass_with_boards():
    assert "with boards" not in _in_shop("stands/ladder")
    assert "with boards" in _in_shop("decks/bench")


def test_the_straight_wall_ends_where_bending_starts():
    """Hoops of 8 ft, 7 ft high: walls of 36 in, but the first of 12 bends starts half a pitch above, 41 1/2 in up.

    R = 47.539, r = 5.539, 15 degrees: pitch 2 (R - r) tan 7.5 + r q = 12.509; 36 + 12.509/2 - r q/2 = 41.529.
    """
    words = _cover(frame_of("greenhouse", width="8ft", length="12ft", height="7ft"), generic_workshop())

    assert '36" of straight wall' not in words
    assert '41 1/2"' in words


def test_words_of_sizes_follow_a_frame_that_was_changed():
    """A table's frame written as text, its top made 4 in longer at both ends: it no longer overhangs by 1 in."""
    shop = generic_workshop()
    document = frame_document(frame_of("table", length="57in", width="27in", height="33in"), Units.INCH)
    for panel in document["panel"]:
        if panel["use"] == "top":
            for corner in panel["corners"]:
                corner[0] += 4.0 if corner[0] > 0.0 else -4.0
    words = _cover(frame_from_document(document, shop, "table.toml"), shop)

    assert 'overhangs the legs by 5" at the ends, 1" at front and back' in words
