"""Curves as items: circles and ellipses are exact, cubic curves within 5e-6 of a semi-axis, windows cut them right."""

from __future__ import annotations

import math

import pytest

from tubeframe.drawing.shapes import Curve, Ellipse
from tubeframe.drawing.shapes.plane import QUARTER_TURN, moved

TILTED = Ellipse(
    centre=(10.0, -3.0),
    major=(8.0 * math.cos(0.4), 8.0 * math.sin(0.4)),
    minor=(-3.0 * math.sin(0.4), 3.0 * math.cos(0.4)),
    start=0.5,
    end=4.0,
)


def _off(oval, point):
    """How far a point is off an ellipse, as a share: (x/a)^2 + (y/b)^2 = 1 in its own axes."""
    x, y = point[0] - oval.centre[0], point[1] - oval.centre[1]
    a, b = math.hypot(*oval.major), math.hypot(*oval.minor)
    u = (x * oval.major[0] + y * oval.major[1]) / a
    v = (x * oval.minor[0] + y * oval.minor[1]) / b
    return math.hypot(u / a, v / b) - 1.0


def _bezier(p, t):
    s = 1.0 - t
    shares = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
    return tuple(sum(k * q[i] for k, q in zip(shares, p, strict=True)) for i in (0, 1))


def test_cubic_curves_stay_on_the_ellipse():
    control = TILTED.cubic().control

    assert (len(control) - 1) % 3 == 0
    assert control[0] == pytest.approx(TILTED.point(0.5))
    assert control[-1] == pytest.approx(TILTED.point(4.0))
    for k in range(0, len(control) - 1, 3):
        for n in range(11):
            assert abs(_off(TILTED, _bezier(control[k : k + 4], n / 10.0))) < 5e-6


def test_moving_and_turning_an_ellipse_keeps_it_one():
    shifted = TILTED.placed(moved((100.0, 50.0)))
    square = TILTED.placed(QUARTER_TURN)

    assert shifted.point(1.0) == pytest.approx((TILTED.point(1.0)[0] + 100.0, TILTED.point(1.0)[1] + 50.0))
    assert square.point(1.0) == pytest.approx((-TILTED.point(1.0)[1], TILTED.point(1.0)[0]))


def test_the_box_of_an_ellipse_is_that_of_its_points():
    points = [TILTED.point(0.5 + 3.5 * n / 5000) for n in range(5001)]
    xs, ys = zip(*points, strict=True)

    found_xs, found_ys = zip(*TILTED.extremes(), strict=True)
    found = (min(found_xs), min(found_ys), max(found_xs), max(found_ys))
    assert found == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=1e-5)


@pytest.mark.parametrize(("coordinate", "value"), [(0, 8.0), (1, -1.0), (1, 500.0)])
def test_an_ellipse_is_met_where_it_has_a_coordinate(coordinate, value):
    turns = TILTED.turns_at(coordinate, value)

    assert all(TILTED.point(t)[coordinate] == pytest.approx(value) for t in turns)
    assert all(TILTED.start <= t <= TILTED.end for t in turns)
    assert bool(turns) is (value < 100.0)


def test_a_window_keeps_what_of_an_ellipse_is_inside():
    window = (6.0, -4.0, 12.0, 4.0)
    parts = TILTED.within(window)
    inside = [t for n in range(3501) if _holds(window, TILTED.point(t := 0.5 + n / 1000.0))]

    assert parts
    assert sum(p.end - p.start for p in parts) == pytest.approx(len(inside) / 1000.0, abs=0.005)


def test_a_window_cuts_a_spline_in_chords_and_keeps_a_whole_one():
    curve = Curve(control=((0.0, 0.0), (10.0, 0.0), (20.0, 10.0), (30.0, 10.0)))

    assert curve.within((-1.0, -1.0, 31.0, 11.0)) == [curve]
    (cut,) = curve.within((-1.0, -1.0, 15.0, 11.0))
    assert max(x for s in cut.segments for x, _ in s) == pytest.approx(15.0)


def test_chords_are_on_the_curve():
    assert all(abs(_off(TILTED, p)) < 1e-12 for s in TILTED.chords() for p in s)


def _holds(window, p):
    return window[0] <= p[0] <= window[2] and window[1] <= p[1] <= window[3]
