from __future__ import annotations

import math

import pytest

from tests.unit.drawing.hidden_line.seeing import level_at, rod, straight, total
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.scene import FRONT, PLAN, Body
from tubeframe.geometry.convex import Cylinder, box_between
from tubeframe.geometry.vector import Vec

BOLT = Cylinder(start=Vec(0, -40.0, 0), end=Vec(0, -30.0, 0), radius=3.0)


def test_a_small_piece_is_left_out_and_hides_nothing() -> None:
    bar = rod("bar", Vec(-50.0, 0, 0), Vec(50.0, 0, 0), 2.0)
    bodies = (bar, Body(key="bolt", pieces=(BOLT,)))
    seen, bolt = visible_lines(bodies, FRONT, min_size=5.9)
    assert total(bolt) == pytest.approx(6.0 * math.pi, rel=5e-3)
    assert len(level_at(seen, 2.0)) == 2
    seen, bolt = visible_lines(bodies, FRONT, min_size=6.1)
    assert len(bolt.segments) == 0
    assert level_at(seen, 2.0) == [pytest.approx((-50.0, 50.0))]


def test_the_larger_extent_as_seen_counts() -> None:
    bodies = (Body(key="bolt", pieces=(BOLT,)),)
    assert len(visible_lines(bodies, PLAN, min_size=9.9)[0].segments) > 0
    assert len(visible_lines(bodies, PLAN, min_size=10.1)[0].segments) == 0
    board = (Body(key="board", pieces=(box_between(Vec(0, 0, 0), Vec(400.0, 300.0, 6.0)),)),)
    assert total(visible_lines(board, FRONT, min_size=100.0)[0]) == pytest.approx(812.0)


def test_a_bore_is_left_out_when_its_wall_is_thin_and_tubes_never_are() -> None:
    bodies = (straight("tube", Vec(0, 0, 0), Vec(0, 100.0, 0), outside=24.0, bore=20.0),)
    assert total(visible_lines(bodies, FRONT, min_size=1.9)[0]) == pytest.approx(44.0 * math.pi, rel=2e-3)
    assert total(visible_lines(bodies, FRONT, min_size=2.1)[0]) == pytest.approx(24.0 * math.pi, rel=2e-3)
    assert total(visible_lines(bodies, FRONT, min_size=1e3)[0]) == pytest.approx(24.0 * math.pi, rel=2e-3)
