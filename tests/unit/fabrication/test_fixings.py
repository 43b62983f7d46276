"""Straps and screws that hold boards: counts by what carries them, and screws that never come through."""

from __future__ import annotations

import pytest

from tests.building import design_of, design_of_text
from tubeframe.frame.panel import PanelUse

INCH = 25.4
RAILS = (
    {"id": "front", "path": [[0, 0, 500], [1000, 0, 500]], "ends": ["open", "open"]},
    {"id": "back", "path": [[0, 400, 500], [1000, 400, 500]], "ends": ["open", "open"]},
)


def test_a_strap_each_fourteen_inches_of_tube_under_the_board():
    """Two rails carry 1000 mm of a board each: 1000 / 355.6 = 2.8, so 3 straps each. 18 mm less 1/4 in: 11.65 mm."""
    top = 500 + 23.4188 / 2
    corners = [[0, -50, top], [1000, -50, top], [1000, 450, top], [0, 450, top]]
    design = design_of_text(*RAILS, panel=[{"id": "top", "corners": corners, "thickness": 18}])
    (fixing,) = design.fabrication.fixings

    assert fixing.straps == 6
    assert fixing.screw == pytest.approx(18 - INCH / 4)
    assert not fixing.through_strips


def test_screws_go_through_strips_into_the_top_and_never_out_of_it():
    design = design_of("table")
    boards = {p.id: p for p in design.frame.panels}
    strips = min(p.thickness for p in boards.values() if p.use is PanelUse.STRIP)
    for fixing in design.fabrication.fixings:
        assert boards[fixing.board].use is not PanelUse.STRIP
        assert fixing.screw < boards[fixing.board].thickness + strips
    items = {p.item: p.quantity for p in design.fabrication.buying}
    straps = sum(f.straps for f in design.fabrication.fixings)
    assert items["two-hole strap for EMT 3/4"] == straps
    assert sum(n for item, n in items.items() if item.startswith("wood screw No. 8")) == 2 * straps
