"""A frame's parts as bodies: all or some, in place or moved."""

from __future__ import annotations

import pytest

from tests.building import table
from tubeframe.drawing.views.bodies import chosen_bodies, moved_off
from tubeframe.drawing.views.part_book import part_book
from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.vector import Vec


def _box(body):
    return joined([*(of_tube(t.path, t.outside) for t in body.tubes), *(of_convex(p) for p in body.pieces)])


def test_everything_is_there_once_in_order():
    design = table()

    assert list(part_book(design).bodies) == [
        *(p.id for p in design.parts.pieces),
        *(j.id for j in design.jointed.joints),
        *(p.id for p in design.frame.panels),
    ]


def test_a_tube_is_as_thick_as_the_catalogue_says():
    """3/4 in conduit: outside 0.922 in, wall 0.049 in (ANSI C80.3, from memory)."""
    (tube,) = part_book(table()).bodies["leg.front.left"].tubes

    assert tube.outside == pytest.approx(0.922 * 25.4)
    assert tube.bore == pytest.approx((0.922 - 2 * 0.049) * 25.4)


def test_only_what_is_named():
    keys = [b.key for b in chosen_bodies(part_book(table()), {"rail.left", "J2", "J1"})]

    assert keys == ["rail.left", "J1", "J2"]


@pytest.mark.parametrize("key", ["leg.front.left", "J1", "top"])
def test_a_shift_moves_that_part_alone(key):
    by = Vec(10.0, -20.0, 30.0)
    bodies = part_book(table()).bodies
    still = {k: _box(b) for k, b in bodies.items()}
    moved = {k: _box(moved_off(b, {key: by})) for k, b in bodies.items()}

    assert moved[key].low.distance(still[key].low + by) < 1e-9
    assert moved[key].high.distance(still[key].high + by) < 1e-9
    assert {k for k in still if still[k] != moved[k]} == {key}
