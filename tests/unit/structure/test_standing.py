from __future__ import annotations

from math import inf

import pytest

from tubeframe.geometry.vector import Vec
from tubeframe.structure.standing import Weight, tips_at

POUND, INCH = 4.4482216152605, 25.4
FEET = [Vec(x * INCH, y * INCH, 0.0) for x in (0, 60) for y in (0, 30)]
TABLE = [Weight(at=Vec(30 * INCH, 15 * INCH, 15 * INCH), force=Vec(0, 0, -44.9 * POUND))]


def _push(way: Vec, at: Vec = Vec(30 * INCH, 15 * INCH, 30 * INCH)) -> float:  # noqa: B008  a frozen value
    return tips_at(FEET, TABLE, [Weight(at=at, force=way * POUND)])


@pytest.mark.parametrize(
    ("way", "pounds"), [(Vec(0, 1, 0), 22.45), (Vec(0, -1, 0), 22.45), (Vec(1, 0, 0), 44.9), (Vec(-1, 0, 0), 44.9)]
)
def test_a_push_at_the_top_of_a_table(way, pounds):
    """60 x 30 x 30 in, 44.9 lb: W (b/2) / h across the short and the long way."""
    assert _push(way) == pytest.approx(pounds, rel=1e-3)


def test_a_load_within_the_feet_never_tips_it_and_one_outside_by_its_arm():
    """Outside by 6 in: 44.9 lb x 15 in / 6 in."""
    assert _push(Vec(0, 0, -1)) == inf
    assert _push(Vec(0, 0, -1), Vec(30 * INCH, -6 * INCH, 30 * INCH)) == pytest.approx(44.9 * 15 / 6, rel=1e-9)


def test_what_stands_on_two_feet_tips_at_nothing():
    assert tips_at(FEET[:2], TABLE, [Weight(at=Vec(0, 0, 100), force=Vec(0, 1, 0))]) == 0.0
