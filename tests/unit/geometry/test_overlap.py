"""How deep solids are in each other: hand arithmetic, and linear programming as an outside judge."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from tubeframe.geometry.convex import Box, Cylinder
from tubeframe.geometry.overlap import depth
from tubeframe.geometry.placement import from_axes
from tubeframe.geometry.vector import Vec, X, Y, Z

_SIDES = 96


def _bar(start, end, radius=10.0):
    return Cylinder(start=start, end=end, radius=radius)


def _brick(centre, x, y, z):
    return Box(centre=centre, half_x=X * x, half_y=Y * y, half_z=Z * z)


@pytest.mark.parametrize("gap", [0.0, 3.0, 12.5, 19.0])
def test_bars_across_each_other(gap):
    """Radii 10 and 10: by 20 less the distance of their axes."""
    level, upright = _bar(X * -100, X * 100), _bar(Vec(20, gap, -100), Vec(20, gap, 100))

    assert depth(level, upright, 0.5) == pytest.approx(20.0 - gap, abs=0.02)


def test_bars_whose_surfaces_touch_share_nothing():
    level = _bar(X * -100, X * 100)

    assert depth(level, _bar(Vec(20, 20, -100), Vec(20, 20, 100)), 0.0) == 0.0
    assert depth(level, _bar(Vec(20, 19.6, -100), Vec(20, 19.6, 100)), 0.5) == 0.0
    assert depth(level, _bar(Vec(20, 19.4, -100), Vec(20, 19.4, 100)), 0.5) == pytest.approx(0.6, abs=0.02)


@pytest.mark.parametrize(("end", "expected"), [(10.5, 0.0), (9.0, 1.0), (4.0, 6.0)])
def test_a_bar_that_ends_square_before_another(end, expected):
    """Its flat end, not a round one: at 10.5 from the axis of a bar of radius 10 it is free."""
    assert depth(_bar(X * -100, X * 100), _bar(Z * end, Z * 100), 0.5) == pytest.approx(expected, abs=0.02)


def test_bars_in_line():
    assert depth(_bar(X * -100, X * 0), _bar(X * 0, X * 100), 0.5) == 0.0
    assert depth(_bar(X * -100, X * 2), _bar(X * 0, X * 100), 0.5) == pytest.approx(2.0, abs=0.02)


def test_a_board_sunk_into_a_rail_and_one_that_lies_on_it():
    rail = _bar(X * -300, X * 300)

    assert depth(_brick(Z * 19, 200, 200, 9), rail, 0.5) == 0.0
    assert depth(_brick(Z * 12, 200, 200, 9), rail, 0.5) == pytest.approx(7.0, abs=0.02)


def _corners(solid):
    """Return a solid's corners; a bar's rounds as polygons that lie within it."""
    if isinstance(solid, Box):
        halves = (solid.half_x, solid.half_y, solid.half_z)
        signs = [(a, b, c) for a in (1, -1) for b in (1, -1) for c in (1, -1)]
        return [solid.centre + halves[0] * a + halves[1] * b + halves[2] * c for a, b, c in signs]
    way = (solid.end - solid.start).unit
    frame = from_axes(origin=solid.start, x=way, toward=Z if abs(way.z) < 0.9 else X)
    turns = [2.0 * math.pi * k / _SIDES for k in range(_SIDES)]
    rim = [(frame.y * math.cos(t) + frame.z * math.sin(t)) * solid.radius for t in turns]
    return [end + r for end in (solid.start, solid.end) for r in rim]


def _judged(first, second):
    """Whether the hulls of both solids' corners share a point: weights that give it, as a linear program."""
    a, b = (np.array([tuple(p) for p in _corners(s)]) for s in (first, second))
    rows = np.vstack([np.hstack([a.T, -b.T]), [[1.0] * len(a) + [0.0] * len(b)], [[0.0] * len(a) + [1.0] * len(b)]])
    found = linprog(np.zeros(len(a) + len(b)), A_eq=rows, b_eq=[0.0, 0.0, 0.0, 1.0, 1.0], method="highs")
    return found.status == 0


_PLACE = st.floats(-25.0, 25.0).map(lambda v: round(v, 2))
_POINT = st.builds(Vec, _PLACE, _PLACE, _PLACE)
_BAR = st.builds(_bar, _POINT, _POINT, st.sampled_from([2.0, 6.0, 11.7]))


def _turned(centre, sizes, toward):
    frame = from_axes(origin=centre, x=toward.unit, toward=Z if abs(toward.unit.z) < 0.9 else X)
    return Box(centre=centre, half_x=frame.x * sizes[0], half_y=frame.y * sizes[1], half_z=frame.z * sizes[2])


_BRICK = st.builds(_turned, _POINT, st.tuples(*[st.floats(1.0, 15.0)] * 3), _POINT.filter(lambda p: p.length > 1.0))
_SOLID = st.one_of(_BAR.filter(lambda c: c.start.distance(c.end) > 1.0), _BRICK)


@given(first=_SOLID, second=_SOLID)
@settings(max_examples=150, deadline=None)
def test_two_solids_share_a_point_when_a_linear_program_finds_one(first, second):
    deep = depth(first, second, 0.0)
    assume(deep == 0.0 or deep > 0.1)  # polygons lie up to 0.01 mm within their rounds

    assert _judged(first, second) is (deep > 0.0)


@given(first=_SOLID, second=_SOLID)
@settings(max_examples=60, deadline=None)
def test_the_order_of_the_two_does_not_matter(first, second):
    assert depth(first, second, 0.5) == pytest.approx(depth(second, first, 0.5), abs=0.02)
