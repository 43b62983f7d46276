from __future__ import annotations

import math

import numpy as np
import pytest

from tubeframe.drawing.hidden_line.bend import chain, step_for
from tubeframe.drawing.hidden_line.duplicates import Lines, once_each
from tubeframe.drawing.hidden_line.grid import Strips, cells_of, grid_over
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.hidden_line.shadows import Hidden
from tubeframe.drawing.hidden_line.stretches import (
    Linear,
    where_in_circle,
    where_positive,
    where_under_circle,
    where_within,
)
from tubeframe.drawing.hidden_line.uncovered import uncovered
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, PLAN, RIGHT_SIDE, Body, TubeBody, View
from tubeframe.geometry.corners import through
from tubeframe.geometry.vector import Vec


def linear(*rows: tuple[float, float]) -> Linear:
    return Linear(at_0=np.array([r[0] for r in rows]), rate=np.array([r[1] for r in rows]))


def test_a_linear_condition_cuts_at_its_root() -> None:
    found = where_positive(linear((-1.0, 4.0), (1.0, -4.0), (2.0, 0.0), (-2.0, 0.0)))
    assert found.low.tolist() == [0.25, -math.inf, -math.inf, math.inf]
    assert found.high.tolist() == [math.inf, 0.25, math.inf, math.inf]
    within = where_within(linear((-4.0, 8.0)), np.array([2.0]))
    assert (within.low[0], within.high[0]) == (0.25, 0.75)


def test_a_line_through_a_circle_is_inside_between_two_roots() -> None:
    x, y = linear((-5.0, 10.0), (-5.0, 10.0), (1.0, 0.0), (6.0, 0.0)), linear((3.0, 0.0), (6.0, 0.0), (1, 0), (0, 0))
    found = where_in_circle(x, y, np.full(4, 5.0))
    assert (found.low[0], found.high[0]) == (pytest.approx(0.1), pytest.approx(0.9))
    assert found.some.tolist() == [True, False, True, False]
    assert (found.low[2], found.high[2]) == (-math.inf, math.inf)


def test_under_a_half_circle_one_stretch_is_left() -> None:
    """From (-3, -9) to (7, 11) under the circle of radius 5: in at x = -3, out where the line leaves the circle."""
    x, y = linear((-3.0, 10.0)), linear((-9.0, 20.0))
    found = where_under_circle(x, y, np.array([5.0]), where_within(x, np.array([5.0])))
    # (2x - 3)^2 + x^2 = 25 at x = (12 + sqrt(464)) / 10
    leaves = (12.0 + math.sqrt(144.0 + 4.0 * 5.0 * 16.0)) / 10.0
    assert found.low[0] < 0.0
    assert found.high[0] == pytest.approx((leaves + 3.0) / 10.0)


def test_what_no_stretch_covers_is_left() -> None:
    hidden = Hidden(
        edge=np.array([2, 0, 0, 0, 3]),
        low=np.array([-1.0, 0.5, 0.1, 0.4, 0.3]),
        high=np.array([2.0, 0.6, 0.2, 0.55, 0.9995]),
    )
    left = uncovered(hidden, np.full(4, 1e-3))
    assert left.edge.tolist() == [0, 0, 0, 1, 3]
    assert left.low.tolist() == pytest.approx([0.0, 0.2, 0.6, 0.0, 0.0])
    assert left.high.tolist() == pytest.approx([0.1, 0.4, 1.0, 1.0, 0.3])


def test_a_long_list_of_edges_keeps_its_cuts() -> None:
    count = 40_000
    every = np.arange(count)
    left = uncovered(Hidden(edge=every, low=np.full(count, 0.25), high=np.full(count, 0.75)), np.full(count, 1e-6))
    assert left.edge.tolist() == np.repeat(every, 2).tolist()
    assert np.abs(left.high - left.low - 0.25).max() < 1e-9


def drawn_once(*rows: tuple[float, float, float, float, int]) -> list[tuple[float, ...]]:
    """Lines as x, y to x, y of a body; the rank is the order."""
    lines = Lines(
        ends=np.array([r[:4] for r in rows], dtype=float).reshape(-1, 2, 2),
        body=np.array([r[4] for r in rows]),
        rank=np.arange(len(rows)),
    )
    found = once_each(lines)
    ends = np.sort(found.ends, axis=1).reshape(-1, 4)
    return sorted((*np.round(e, 9).tolist(), int(b)) for e, b in zip(ends, found.body, strict=True))


def test_overlapping_lines_go_to_the_least_rank() -> None:
    assert drawn_once((0, 0, 10, 0, 5), (4, 0, 20, 0, 1)) == [(0, 0, 10, 0, 5), (10, 0, 20, 0, 1)]
    assert drawn_once((4, 0, 6, 0, 5), (20, 0, 0, 0, 1)) == [(0, 0, 4, 0, 1), (4, 0, 6, 0, 5), (6, 0, 20, 0, 1)]
    assert drawn_once((0, 0, 20, 0, 5), (4, 0, 6, 0, 1)) == [(0, 0, 20, 0, 5)]


@pytest.mark.parametrize("turn", [0.0, 30.0, 89.99999999, 90.0, 90.00000001, 179.99999999, 180.0])
def test_equal_lines_are_found_in_every_direction(turn: float) -> None:
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    assert len(drawn_once((1, 2, 1 + 9 * c, 2 + 9 * s, 0), (1 + 9 * c, 2 + 9 * s, 1, 2, 1))) == 1


def test_lines_side_by_side_or_with_a_gap_stay_apart() -> None:
    rows = ((0, 0, 10, 0, 0), (0, 0.01, 10, 0.01, 0), (10.01, 0, 20, 0, 0))
    assert len(drawn_once(*rows)) == 3
    assert drawn_once((0, 0, 10, 0, 0), (10, 0, 20, 0, 0)) == [(0, 0, 20, 0, 0)]
    assert len(drawn_once((0, 0, 10, 0, 0), (10, 0, 20, 0, 1))) == 2


def test_strips_that_touch_share_a_cell() -> None:
    """Whatever touches must be found; compared with every pair, on lines fanned out over the grid."""
    turn = np.arange(60) * 2.39996
    middle = np.stack([np.cos(turn * 3.0), np.sin(turn * 5.0)], axis=1) * 400.0
    way = np.stack([np.cos(turn), np.sin(turn)], axis=1) * np.linspace(1.0, 300.0, 60)[:, None]
    strips = Strips(start=middle - way, end=middle + way, pad=np.full((60, 2), 12.0))
    strip, cell = cells_of(strips, grid_over(strips))
    cells = [set(cell[strip == i].tolist()) for i in range(60)]
    along = np.linspace(-1.0, 1.0, 80)
    points = middle[:, None] + along[None, :, None] * way[:, None]
    met = 0
    for i in range(60):
        for j in range(i):
            near = np.linalg.norm(points[i][:, None] - points[j][None], axis=2).min()
            if near < 12.0:
                met += 1
                assert cells[i] & cells[j]
    assert met > 50


def test_the_chain_of_a_bend_stays_within_its_slack() -> None:
    path = through((Vec(0, 0, 0), Vec(0, 0, 300.0), Vec(200.0, 0, 300.0)), (100.0,))
    body = Body(key="t", tubes=(TubeBody(path=path, outside=24.0, bore=20.0),))
    (bend,) = taken_apart((body,), FRONT, sag=0.02, min_size=0.0).bends
    links = chain(bend, sag=0.02)
    assert len(links.start) == math.ceil(math.pi / 2.0 / step_for(112.0, 0.02))
    way = (links.end - links.start) / np.linalg.norm(links.end - links.start, axis=1)[:, None]
    for share in np.linspace(0.0, 1.0, 21):
        begin, end = links.start - way * links.reach[:, :1], links.end + way * links.reach[:, 1:]
        off = np.abs(np.linalg.norm(begin + share * (end - begin) - bend.centre, axis=1) - 100.0)
        # the ends that overlap a straight are straight themselves
        assert off[1:-1].max() <= links.slack + 1e-9
    assert links.slack < 0.03


def test_views_are_right_handed_and_have_up_on_top() -> None:
    for view, right, up in (
        (FRONT, Vec(1, 0, 0), Vec(0, 0, 1)),
        (RIGHT_SIDE, Vec(0, 1, 0), Vec(0, 0, 1)),
        (PLAN, Vec(1, 0, 0), Vec(0, 1, 0)),
    ):
        assert view.axes == (right, up, view.to_viewer)
    point = Vec(3.0, -2.0, 7.0)
    assert FRONT.project(point) == (3.0, 7.0)
    assert FRONT.depth(point) == 2.0
    corners = [ISOMETRIC.project(v) for v in (Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1))]
    assert [math.degrees(math.atan2(y, x)) for x, y in corners] == pytest.approx([-30.0 + 0.0, 30.0, 90.0])
    slanted = View(to_viewer=Vec(0, -2.0, 0), right=Vec(5.0, 1.0, 0))
    assert slanted.project(point) == pytest.approx((3.0, 7.0))
