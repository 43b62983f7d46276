"""Rectangles laid on tables: inside, apart, none lost."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tubeframe.drawing.full_size.nesting import fits, nest

TABLE = (1000.0, 2000.0)
GAP, EDGE = 40.0, 20.0
SIDES = st.floats(10.0, 2100.0)


def _boxes(sizes, places):
    found = []
    for (w, h), place in zip(sizes, places, strict=True):
        if place is not None:
            (x, y), (w, h) = place.at, (h, w) if place.is_turned else (w, h)
            found.append((place.table, x, y, x + w, y + h))
    return found


@given(st.lists(st.tuples(SIDES, SIDES), max_size=14))
@settings(max_examples=200, deadline=None)
def test_all_lie_inside_and_apart_and_only_those_too_large_are_left(sizes):
    places = nest(sizes, TABLE, gap=GAP, edge=EDGE)
    boxes = _boxes(sizes, places)

    for _, left, bottom, right, top in boxes:
        assert left >= EDGE - 1e-6
        assert bottom >= EDGE - 1e-6
        assert right <= TABLE[0] - EDGE + 1e-5
        assert top <= TABLE[1] - EDGE + 1e-5
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            apart = max(a[1] - b[3], b[1] - a[3], a[2] - b[4], b[2] - a[4])
            assert a[0] != b[0] or apart >= GAP - 1e-5
    too_large = [max(s) > 1960.0 + 1e-6 or min(s) > 960.0 + 1e-6 for s in sizes]
    assert [p is None for p in places] == too_large
    assert {b[0] for b in boxes} == set(range(len({b[0] for b in boxes})))


def test_one_that_only_fits_turned_is_turned():
    (place,) = nest([(1900.0, 500.0)], TABLE, gap=GAP, edge=EDGE)

    assert place is not None
    assert place.is_turned
    assert place.at == (EDGE, EDGE)


def test_what_fills_a_table_goes_on_one():
    """Two across, 2 x 460 + 40 = 960, and four up, 4 x 460 + 3 x 40 = 1960: the table less its edges."""
    places = nest([(460.0, 460.0)] * 8, TABLE, gap=GAP, edge=EDGE)

    assert {p.table for p in places if p} == {0}
    assert nest([(460.0, 460.0)] * 9, TABLE, gap=GAP, edge=EDGE)[-1].table == 1


def test_the_same_again():
    sizes = [(300.0 + 17.0 * k % 230.0, 150.0 + 31.0 * k % 400.0) for k in range(20)]

    assert nest(sizes, TABLE, gap=GAP, edge=EDGE) == nest(sizes, TABLE, gap=GAP, edge=EDGE)


@pytest.mark.parametrize(
    ("size", "answer"), [((960.0, 1960.0), True), ((1960.0, 960.0), True), ((961.0, 961.0), False)]
)
def test_whether_one_fits(size, answer):
    assert fits(size, TABLE, EDGE) is answer
