from __future__ import annotations

import math

import pytest

from tests.unit.drawing.hidden_line.seeing import level_at, rod, total
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, PLAN, Body, View
from tubeframe.geometry.convex import Box, box_between
from tubeframe.geometry.vector import Vec


def brick(key: str, low: Vec, high: Vec) -> Body:
    return Body(key=key, pieces=(box_between(low, high),))


def test_a_box_shows_its_near_face() -> None:
    (seen,) = visible_lines((brick("b", Vec(0, 0, 0), Vec(30.0, 50.0, 20.0)),), FRONT)
    assert len(seen.segments) == 4
    assert total(seen) == pytest.approx(2.0 * (30.0 + 20.0))


def test_an_isometric_box_shows_nine_edges() -> None:
    (seen,) = visible_lines((brick("b", Vec(0, 0, 0), Vec(30.0, 50.0, 20.0)),), ISOMETRIC)
    assert len(seen.segments) == 9
    assert total(seen) == pytest.approx(3.0 * (30.0 + 50.0 + 20.0) * math.sqrt(2.0 / 3.0))


def test_a_box_in_front_of_a_tube_hides_its_width() -> None:
    tube = rod("tube", Vec(-200.0, 100.0, 0.0), Vec(200.0, 100.0, 0.0), 12.0)
    box = brick("box", Vec(-20.0, 0.0, -5.0), Vec(50.0, 10.0, 40.0))
    seen, front = visible_lines((tube, box), FRONT)
    left, right = level_at(seen, 12.0)
    assert left == pytest.approx((-200.0, -20.0), abs=0.01)
    assert right == pytest.approx((50.0, 200.0), abs=0.01)
    assert len(level_at(seen, -12.0)) == 1
    assert total(front) == pytest.approx(2.0 * (70.0 + 45.0))


def test_a_turned_box_hides_what_is_behind_it() -> None:
    """A square of 60 on a corner, 30 thick: a line at a height h over its middle is hidden over 2 (60/sqrt(2) - h)."""
    half = 30.0 / math.sqrt(2.0)
    box = Box(centre=Vec(0, 0, 0), half_x=Vec(half, 0, half), half_y=Vec(-half, 0, half), half_z=Vec(0.0, -15.0, 0.0))
    behind = rod("behind", Vec(-200.0, 100.0, 10.0), Vec(200.0, 100.0, 10.0), 5.0)
    seen, _ = visible_lines((behind, Body(key="box", pieces=(box,))), FRONT)
    for y in (5.0, 15.0):
        (_, start), (end, _) = level_at(seen, y)
        assert end - start == pytest.approx(2.0 * (60.0 / math.sqrt(2.0) - y), abs=0.02)


def test_a_tube_through_a_box_is_hidden_inside_of_it() -> None:
    tube = rod("tube", Vec(-200.0, 0.0, 0.0), Vec(200.0, 0.0, 0.0), 12.0)
    seen, _ = visible_lines((tube, brick("box", Vec(-40.0, -30.0, -30.0), Vec(60.0, 30.0, 30.0))), FRONT)
    assert total(seen) == pytest.approx(2.0 * (400.0 - 100.0) + 2.0 * 24.0, abs=0.05)


def test_what_is_inside_of_a_box_is_hidden() -> None:
    inner = rod("inner", Vec(-10.0, 0, 0), Vec(10.0, 0, 0), 5.0)
    for view in (FRONT, PLAN, ISOMETRIC, View(to_viewer=Vec(0.3, -1.0, 0.2), right=Vec(1.0, 0.3, 0.0))):
        seen, _ = visible_lines((inner, brick("box", Vec(-20.0, -20.0, -20.0), Vec(20.0, 20.0, 20.0))), view)
        assert len(seen.segments) == 0


def test_an_edge_that_neighbours_share_is_drawn_once_by_the_first() -> None:
    first = brick("first", Vec(0, 0, 0), Vec(10.0, 10.0, 10.0))
    second = brick("second", Vec(10.0, 0, 0), Vec(20.0, 10.0, 10.0))
    assert [total(v) for v in visible_lines((first, second), FRONT)] == pytest.approx([40.0, 30.0])


def test_of_lines_on_each_other_the_body_in_front_keeps_them() -> None:
    back = brick("back", Vec(0, 0, 0), Vec(10.0, 10.0, 10.0))
    front = brick("front", Vec(10.0, -5.0, 2.0), Vec(20.0, 10.0, 8.0))
    seen, kept = visible_lines((back, front), FRONT)
    assert total(kept) == pytest.approx(2.0 * (10.0 + 6.0))
    assert total(seen) == pytest.approx(40.0 - 6.0)


def test_pieces_of_one_body_in_line_become_one_line() -> None:
    row = Body(
        key="row", pieces=tuple(box_between(Vec(10.0 * i, 0, 0), Vec(10.0 * i + 10.0, 10.0, 10.0)) for i in range(5))
    )
    (seen,) = visible_lines((row,), FRONT)
    assert total(seen) == pytest.approx(2.0 * 50.0 + 6.0 * 10.0)
    assert level_at(seen, 10.0) == [pytest.approx((0.0, 50.0))]


def test_no_sliver_shows_between_boxes_that_touch() -> None:
    """The bar runs into the boxes, so they do not stand wholly in front of it."""
    boxes = [brick(f"b{i}", Vec(10.0 * i, 0, -20.0), Vec(10.0 * i + 10.0, 10.0, 20.0)) for i in range(4)]
    bar = rod("bar", Vec(-5.0, 5.0, 0.0), Vec(45.0, 40.0, 0.0), 3.0)
    seen = visible_lines((*boxes, bar), FRONT)[-1]
    low = seen.segments[:, :, 0].min(axis=1)
    assert ((low < 0.0) | (low > 40.0 - 0.01)).all()
