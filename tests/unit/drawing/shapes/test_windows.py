"""Windows cut out of lines and circles."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tubeframe.drawing.model.items import Drawn, cut_out
from tubeframe.drawing.model.pens import Fill
from tubeframe.drawing.shapes import Arc, Lines, circle

WINDOW = (0.0, 0.0, 100.0, 50.0)
PLACE = st.tuples(st.floats(-200.0, 300.0), st.floats(-200.0, 300.0))


def _line(start, end):
    return Lines(segments=((start, end),))


@pytest.mark.parametrize(
    ("start", "end", "left"),
    [
        ((-50.0, 25.0), (150.0, 25.0), ((0.0, 25.0), (100.0, 25.0))),
        ((-25.0, -25.0), (25.0, 25.0), ((0.0, 0.0), (25.0, 25.0))),
        ((10.0, 10.0), (20.0, 20.0), ((10.0, 10.0), (20.0, 20.0))),
        ((-10.0, 60.0), (110.0, 60.0), None),
        ((0.0, -10.0), (0.0, 60.0), ((0.0, 0.0), (0.0, 50.0))),
    ],
)
def test_lines_end_at_the_window(start, end, left):
    found = [s for item in _line(start, end).within(WINDOW) for s in item.segments]

    assert found == ([] if left is None else [left])


@given(PLACE, PLACE)
def test_windows_side_by_side_share_a_line_out(start, end):
    windows = [(-math.inf, -math.inf, 40.0, math.inf), (40.0, -math.inf, math.inf, math.inf)]
    if abs(start[0] - end[0]) < 0.01:
        return
    parts = [s for w in windows for item in _line(start, end).within(w) for s in item.segments]

    assert sum(math.dist(*s) for s in parts) == pytest.approx(math.dist(start, end), abs=1e-3)


def test_a_circle_is_cut_to_what_is_inside():
    """A circle of radius 20 about the window's corner: a quarter is inside."""
    ring = circle((0.0, 0.0), 20.0)
    (bow,) = ring.within(WINDOW)

    assert (bow.start_deg % 360.0, bow.end_deg - bow.start_deg) == pytest.approx((0.0, 90.0))
    inner = circle((50.0, 25.0), 20.0)
    assert inner.within(WINDOW) == [inner]
    assert circle((50.0, 25.0), 200.0).within(WINDOW) == []


def test_a_bow_may_be_cut_in_two():
    """A half circle over the window's middle, its ends at y = 40 and its top at 80: only the two feet are inside."""
    bow = Arc(centre=(50.0, 40.0), radius=40.0, start_deg=0.0, end_deg=180.0)
    rise = math.degrees(math.asin(10.0 / 40.0))

    found = [(b.start_deg, b.end_deg) for b in bow.within(WINDOW)]

    assert found == [pytest.approx((0.0, rise)), pytest.approx((180.0 - rise, 180.0))]


def test_what_is_filled_stays_whole_where_its_middle_is():
    dot = Drawn(shape=circle((1.0, 1.0), 5.0), pen=None, fill=Fill.BLACK)

    assert cut_out([dot], WINDOW) == [dot]
    assert cut_out([dot], (2.0, 2.0, 50.0, 50.0)) == []
