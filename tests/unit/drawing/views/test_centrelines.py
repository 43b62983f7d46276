"""Centre lines: one for each row of tubes, and only where they stand clear."""

from __future__ import annotations

import pytest

from tests.building import table
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.views.centrelines import centrelines
from tubeframe.drawing.views.part_book import part_book
from tubeframe.drawing.views.side_views import LinesAlong, merged, seen_stretches, side_views
from tubeframe.drawing.views.view_lines import view_lines


def _lines(scale, named=Named.FRONT):
    book = part_book(table())
    strokes = centrelines(book, named.view, view_lines(book, named.view, finest=0.7 * scale), scale)
    assert all(s.pen is Pen.CENTRE for s in strokes)
    return [s for item in strokes for s in item.chords()]


def test_tubes_behind_each_other_share_one_line():
    """From the front a table's four legs are two rows, its rails one, its stretcher one."""
    upright = [s for s in _lines(5) if abs(s[0][0] - s[1][0]) < 1e-6]
    level = [s for s in _lines(5) if abs(s[0][1] - s[1][1]) < 1e-6]

    assert [round(s[0][0], 3) for s in upright] == [11.709, 1436.091]
    assert len(level) == 2


def test_lines_run_past_the_tube():
    """By 2 mm on paper: the stretcher is 1397.787 mm long, the line 20 mm longer at 1:5."""
    level = [s for s in _lines(5) if abs(s[0][1] - s[1][1]) < 1e-6]

    assert level[-1][1][0] - level[-1][0][0] == pytest.approx(1397.7874 + 20.0, abs=1e-3)


def test_none_where_it_would_run_into_the_outlines():
    """Half of 0.922 in at 1:20 is 0.59 mm, less than 0.7."""
    assert _lines(10) != []
    assert _lines(20) == []


def test_none_of_what_a_board_hides():
    assert _lines(5, Named.PLAN) == []


def test_a_tube_is_seen_where_both_its_outlines_are():
    design = table()
    lines = view_lines(part_book(design), Named.FRONT.view, finest=1.0)
    leg = design.parts.piece("leg.front.left")
    (side,) = side_views(part_book(design), leg, Named.FRONT.view)
    found = seen_stretches(side, LinesAlong(lines.lines["leg.front.left"]), lines.along)

    assert len(found) == 2  # below and above the fitting of the stretcher
    assert all(0.0 <= low < high <= leg.cut_length for low, high in found)
    assert seen_stretches(side, LinesAlong(lines.lines["rail.back"][:0]), lines.along) == ()


def test_stretches_that_touch_are_one():
    assert merged([(5.0, 7.0), (0.0, 2.0), (2.0, 3.0), (6.0, 9.0)]) == [(0.0, 3.0), (5.0, 9.0)]
