"""What is drawn in chords comes out as true curves, too: one record for each unbroken stretch."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.unit.drawing.hidden_line.seeing import lengths, rod, straight, tube
from tests.unit.drawing.hidden_line.test_ray_casts import small_frame
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.hidden_line.outline_spline import outline
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, RIGHT_SIDE, View
from tubeframe.drawing.shapes import Arc, Curve, Ellipse, Lines
from tubeframe.geometry.corners import through
from tubeframe.geometry.vector import Vec

QUARTER = through((Vec(0, 0, 0), Vec(0, 0, 300.0), Vec(200.0, 0, 300.0)), (100.0,))
ASLANT = View(to_viewer=Vec(0.4, -1.0, 0.3), right=Vec(1.0, 0.4, 0.0))


def bezier(spline: Curve, per_piece: int = 40) -> np.ndarray:
    p = np.array(spline.control)
    t = np.linspace(0.0, 1.0, per_piece)[:, None]
    pieces = [
        (1 - t) ** 3 * p[i] + 3 * t * (1 - t) ** 2 * p[i + 1] + 3 * t**2 * (1 - t) * p[i + 2] + t**3 * p[i + 3]
        for i in range(0, len(p) - 1, 3)
    ]
    return np.concatenate(pieces)


def of_kind(seen, kind):
    return [s for s in seen.shapes if isinstance(s, kind)]


def turns(arc: Arc) -> tuple[float, float]:
    return (math.radians(arc.start_deg), math.radians(arc.end_deg))


def test_a_rod_aslant_is_two_lines_an_ellipse_and_half_of_one() -> None:
    (seen,) = visible_lines((rod("rod", Vec(0, 0, 0), Vec(300.0, 0, 0), 10.0),), ISOMETRIC)
    assert len(seen.shapes) == 3
    (straight_ones,) = of_kind(seen, Lines)
    assert len(straight_ones.segments) == 2
    whole, half = sorted(of_kind(seen, Ellipse), key=lambda s: not s.closed)
    assert whole.closed
    assert half.end - half.start == pytest.approx(math.pi, abs=1e-12)
    for shape, x in ((whole, 300.0), (half, 0.0)):
        assert math.hypot(*shape.major) == pytest.approx(10.0, abs=1e-12)
        assert math.hypot(*shape.minor) == pytest.approx(10.0 / math.sqrt(3.0), abs=1e-12)
        assert shape.centre == pytest.approx(ISOMETRIC.project(Vec(x, 0, 0)), abs=1e-12)
        across = np.array([ISOMETRIC.project(Vec(0, 1, 0)), ISOMETRIC.project(Vec(0, 0, 1))]).T
        for turn in np.linspace(shape.start, shape.end, 50):
            y, z = np.linalg.solve(across, np.array(shape.point(turn)) - np.array(shape.centre))
            assert math.hypot(y, z) == pytest.approx(10.0, abs=1e-9)


def test_the_half_that_is_seen_of_the_far_end_is_the_outer_one() -> None:
    (seen,) = visible_lines((rod("rod", Vec(0, 0, 0), Vec(300.0, 0, 0), 10.0),), ISOMETRIC)
    (half,) = [s for s in of_kind(seen, Ellipse) if not s.closed]
    # the rod runs right and down, so its far end bulges left and up
    x, y = half.point((half.start + half.end) / 2.0)
    assert (x, y) == pytest.approx((-5.0, 5.0 / math.sqrt(3.0)), abs=1e-9)


def test_a_tube_seen_end_on_is_two_whole_circles() -> None:
    (seen,) = visible_lines((straight("t", Vec(7.0, 0, 3.0), Vec(7.0, 200.0, 3.0), 20.0, 16.0),), FRONT)
    outer, inner = sorted(of_kind(seen, Arc), key=lambda s: -s.radius)
    assert len(seen.shapes) == 2
    assert (outer.radius, inner.radius) == pytest.approx((10.0, 8.0))
    assert outer.closed
    assert inner.closed
    assert outer.centre == pytest.approx((7.0, 3.0))


def test_a_circle_is_parted_where_a_bar_hides_it() -> None:
    bar = rod("bar", Vec(-50.0, -30.0, 0.0), Vec(50.0, -30.0, 0.0), 3.0)
    ring, _ = visible_lines((rod("r", Vec(0, 0, 0), Vec(0, 100.0, 0), 10.0), bar), FRONT)
    upper, lower = sorted(of_kind(ring, Arc), key=lambda s: s.start_deg)
    # the edges of the bar cut the circle at a height of 3; chords are off by 0.02 across and so by 0.06 along
    cut = math.asin(3.0 / 10.0)
    assert turns(upper) == pytest.approx((cut, math.pi - cut), abs=0.007)
    assert turns(lower) == pytest.approx((math.pi + cut, math.tau - cut), abs=0.007)


def test_an_arc_over_the_beginning_of_its_circle_stays_one() -> None:
    """A bar across the top only: what is left runs through the circle's beginning at the right."""
    bar = rod("bar", Vec(-50.0, -30.0, 9.0), Vec(50.0, -30.0, 9.0), 3.0)
    ring, _ = visible_lines((rod("r", Vec(0, 0, 0), Vec(0, 100.0, 0), 10.0), bar), FRONT)
    (arc,) = of_kind(ring, Arc)
    cut = math.asin(6.0 / 10.0)
    assert math.radians(arc.sweep_deg) == pytest.approx(math.pi + 2.0 * cut, abs=0.01)
    assert math.sin(turns(arc)[1]) == pytest.approx(0.6, abs=0.006)


def test_a_bend_square_to_the_view_is_two_quarter_circles() -> None:
    for view in (FRONT, View(to_viewer=Vec(0, 1.0, 0), right=Vec(-1.0, 0, 0))):
        (seen,) = visible_lines((tube("t", QUARTER),), view)
        arcs = sorted(of_kind(seen, Arc), key=lambda s: s.radius)
        assert [a.radius for a in arcs] == pytest.approx([88.0, 112.0])
        for arc in arcs:
            assert arc.centre == pytest.approx(view.project(Vec(100.0, 0, 200.0)))
            assert arc.sweep_deg == pytest.approx(90.0)
        # from the left over the top
        x, y = arcs[1].point((arcs[1].start_deg + arcs[1].end_deg) / 2.0)
        slant = 112.0 * math.sqrt(0.5)
        towards = -view.axes[0].x * slant
        assert (x - arcs[1].centre[0], y - arcs[1].centre[1]) == pytest.approx((towards, slant))
        assert of_kind(seen, Curve) == []


def test_a_bend_seen_along_its_plane_ends_in_half_a_circle() -> None:
    (seen,) = visible_lines((tube("t", QUARTER),), RIGHT_SIDE)
    # the open end of the level leg lies in front, with its circles
    radii = [(s.radius, s.closed) for s in of_kind(seen, Arc)]
    assert (pytest.approx(12.0), True) in radii
    assert of_kind(seen, Curve) == []


def off_the_feet(spine: np.ndarray, point: np.ndarray, radius: float) -> float:
    """How far the distance from a point to one of its feet on a line (n, 2), or to an end, is from a radius [mm]."""
    away = np.linalg.norm(spine - point, axis=1)
    slope = np.diff(away)
    feet = away[1:-1][slope[:-1] * slope[1:] <= 0.0]
    return float(np.abs(np.concatenate([feet, away[[0, -1]]]) - radius).min())


@pytest.mark.parametrize("toward", [Vec(0.4, -1.0, 0.3), Vec(1.0, -0.2, 0.5), Vec(0.3, 0.02, 1.0), Vec(1.0, 1e-4, 0.2)])
def test_the_outline_of_a_bend_aslant_is_a_spline_beside_its_centreline(toward: Vec) -> None:
    """The outline is one radius off the centreline as seen: a sphere in a tube is seen as a circle about its centre."""
    view = View(to_viewer=toward, right=Vec(-toward.y, toward.x, 0.01))
    (seen,) = visible_lines((tube("t", QUARTER),), view)
    (_, arc), *_ = QUARTER.bends
    spine = np.array([view.project(arc.point(at)) for at in np.linspace(0.0, arc.length, 20_001)])
    splines = of_kind(seen, Curve)
    assert splines
    for spline in splines:
        assert max(off_the_feet(spine, p, 12.0) for p in bezier(spline)) < 0.02
        assert len(spline.control) <= 3 * 40 + 1


def test_the_pieces_of_a_spline_have_one_tangent_where_they_meet() -> None:
    (seen,) = visible_lines((tube("t", QUARTER),), ASLANT)
    met = 0
    for spline in of_kind(seen, Curve):
        p = np.array(spline.control)
        assert len(p) % 3 == 1
        for i in range(3, len(p) - 1, 3):
            before, after = p[i] - p[i - 1], p[i + 1] - p[i]
            turn = before[0] * after[1] - before[1] * after[0]
            assert abs(turn) < 1e-9 * np.linalg.norm(before) * np.linalg.norm(after)
            met += 1
    assert met > 0


def test_the_derivative_of_an_outline_is_that_of_its_points() -> None:
    (bend,) = taken_apart((tube("t", QUARTER),), ASLANT, sag=0.02, min_size=0.0).bends
    turn, step = np.linspace(0.1, 1.4, 9), 1e-5
    for side in (1.0, -1.0):
        _, rate = outline(bend, side, turn)
        after, before = outline(bend, side, turn + step)[0], outline(bend, side, turn - step)[0]
        assert rate == pytest.approx((after - before) / (2.0 * step), abs=1e-5)


def shape_length(shape) -> float:
    if isinstance(shape, Lines):
        return sum(math.dist(*s) for s in shape.segments)
    if isinstance(shape, Curve):
        points = bezier(shape)
    else:
        ends = (shape.start_deg, shape.end_deg) if isinstance(shape, Arc) else (shape.start, shape.end)
        points = np.array([shape.point(t) for t in np.linspace(*ends, 400)])
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


@pytest.mark.parametrize("view", [FRONT, RIGHT_SIDE, ISOMETRIC, ASLANT])
def test_shapes_are_as_long_as_their_chords_and_far_fewer(view: View) -> None:
    for seen in visible_lines(small_frame(), view):
        chords = float(lengths(seen.segments).sum())
        assert sum(shape_length(s) for s in seen.shapes) == pytest.approx(chords, rel=2e-3, abs=0.01)
    seen = visible_lines(small_frame(), view)
    assert sum(len(v.shapes) for v in seen) < 0.5 * sum(len(v.segments) for v in seen)


def test_shapes_come_in_the_same_order_every_time() -> None:
    first, second = (visible_lines(small_frame(), ISOMETRIC) for _ in range(2))
    assert [v.shapes for v in first] == [v.shapes for v in second]
