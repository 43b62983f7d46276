"""Neighbours from a grid against every two things compared."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from tubeframe.geometry.corners import through
from tubeframe.geometry.extent import Extent, along_tube, around_points, joined, of_tube
from tubeframe.geometry.grid import CELL, Grid, meet, near_pairs
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import Vec

_PLACE = st.integers(-1200, 1200).map(lambda n: n / 3.0)
_POINT = st.builds(Vec, _PLACE, _PLACE, _PLACE)
_BOX = st.lists(_POINT, min_size=1, max_size=3).map(around_points)
_THINGS = st.lists(st.lists(_BOX, min_size=1, max_size=3), max_size=14)


@given(things=_THINGS, within=st.sampled_from([0.0, 1.0, 65.0]), cell=st.sampled_from([30.0, 200.0, 5000.0]))
def test_pairs_are_those_of_comparing_every_two_in_their_order(things, within, cell):
    every_two = [
        (i, j)
        for i, j in combinations(range(len(things)), 2)
        if any(meet(a, b, within) for a in things[i] for b in things[j])
    ]

    assert list(near_pairs(things, within, cell=cell).pairs) == every_two


@given(things=_THINGS, asked=_BOX)
def test_a_grid_gives_what_is_near_in_the_order_put_in(things, asked):
    near = [k for k, boxes in enumerate(things) if any(meet(asked, b) for b in boxes)]

    assert Grid(things).near([asked]) == near


def test_boxes_that_touch_meet_and_the_distance_counts_on_every_axis():
    one = Extent(low=Vec(0, 0, 0), high=Vec(10, 10, 10))

    for way in (Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1)):
        for sign in (1.0, -1.0):
            off = way * (12.0 * sign)
            other = Extent(low=one.low + off, high=one.high + off)
            assert not meet(one, other, 1.9)
            assert meet(one, other, 2.0)


def test_things_in_a_row_are_looked_at_by_their_neighbours_only():
    counts = []
    for number in (100, 1000):
        row = [[Extent(low=Vec(300.0 * k, 0, 0), high=Vec(300.0 * k + 310.0, 50, 50))] for k in range(number)]
        found = near_pairs(row)
        assert found.pairs == tuple((k, k + 1) for k in range(number - 1))
        counts.append(found.looked_at / number)

    assert counts[1] <= counts[0] * 1.02 <= 2.1


def test_boxes_follow_a_slanting_tube_and_a_bend_and_leave_a_level_one_whole():
    level = line(Vec(0, 0, 5), Vec(3000, 0, 5))
    slanting = line(Vec(0, 0, 0), Vec(1000, 1000, 1000))
    bent = through([Vec(0, 0, 0), Vec(900, 0, 0), Vec(900, 900, 0)], [600.0])

    assert len(along_tube(level, 20.0, CELL)) == 1
    for path, parts in ((slanting, 5), (bent, 7)):
        boxes = along_tube(path, 20.0, CELL)
        whole = of_tube(path, 20.0)
        assert len(boxes) == parts
        assert all(sorted(b.size)[1] <= CELL + 20.0 + 1e-6 for b in boxes)
        assert max(joined(boxes).low.distance(whole.low), joined(boxes).high.distance(whole.high)) < 1e-6
