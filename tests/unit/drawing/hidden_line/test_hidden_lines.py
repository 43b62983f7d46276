"""The hidden stretches of edges, and that with the visible ones they make up the whole."""

from __future__ import annotations

import numpy as np
import pytest

from tests.unit.drawing.hidden_line.seeing import lengths, level_at, rod, total
from tests.unit.drawing.hidden_line.test_ray_casts import SAG, small_frame
from tubeframe.drawing.hidden_line import lines, visible_lines
from tubeframe.drawing.hidden_line.engine import candidate_edges
from tubeframe.drawing.hidden_line.occluders import occluders_of
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.hidden_line.search import visible_pieces
from tubeframe.drawing.hidden_line.uncovered import all_but
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, RIGHT_SIDE, View
from tubeframe.drawing.shapes import Arc
from tubeframe.geometry.vector import Vec

ASLANT = View(to_viewer=Vec(0.31, -1.0, 0.22), right=Vec(1.0, 0.31, 0.01))


@pytest.mark.parametrize("view", [FRONT, RIGHT_SIDE, ISOMETRIC, ASLANT])
def test_visible_and_hidden_stretches_make_up_each_edge(view: View) -> None:
    primitives = taken_apart(small_frame(), view, sag=SAG, min_size=0.0)
    edges = candidate_edges(primitives, sag=SAG, min_size=0.0)
    seen = visible_pieces(edges, occluders_of(primitives))
    dark = all_but(seen, len(edges.part))
    share = np.zeros(len(edges.part))
    for pieces in (seen, dark):
        assert (pieces.high > pieces.low).all()
        np.add.at(share, pieces.edge, pieces.high - pieces.low)
    assert share == pytest.approx(np.ones(len(share)), abs=1e-8)


def test_in_a_tilted_view_the_lines_have_the_length_of_all_edges() -> None:
    """Nothing lies on anything else there but the parts of one tube, so that no line is drawn for two."""
    both = lines(small_frame(), ASLANT)
    drawn = sum(total(v) for v in (*both.visible, *both.hidden))
    primitives = taken_apart(small_frame(), ASLANT, sag=SAG, min_size=0.0)
    edges = candidate_edges(primitives, sag=SAG, min_size=0.0)
    assert drawn == pytest.approx(edges.seen_length.sum(), rel=1e-5)


@pytest.mark.parametrize("view", [FRONT, RIGHT_SIDE, ISOMETRIC, ASLANT])
def test_what_is_visible_is_the_same_with_hidden_lines_and_without(view: View) -> None:
    for alone, among in zip(visible_lines(small_frame(), view), lines(small_frame(), view).visible, strict=True):
        assert alone.key == among.key
        assert sum(lengths(alone.segments)) == pytest.approx(sum(lengths(among.segments)), abs=1e-6)
        assert len(alone.shapes) == len(among.shapes)


def test_a_rod_across_hides_its_diameter() -> None:
    behind = rod("behind", Vec(-500.0, 100.0, 0.0), Vec(500.0, 100.0, 0.0), 10.0)
    across = rod("across", Vec(0.0, 0.0, -300.0), Vec(0.0, 0.0, 300.0), 12.0)
    hidden, front = lines((behind, across), FRONT).hidden
    for y in (-10.0, 10.0):
        assert level_at(hidden, y) == [pytest.approx((-12.0, 12.0), abs=0.01)]
    assert len(front.segments) == 0


def test_a_hidden_line_on_a_visible_one_is_not_drawn() -> None:
    near, far = (
        rod("near", Vec(0, 0, 0), Vec(300.0, 0, 0), 10.0),
        rod("far", Vec(0, 90.0, 0), Vec(300.0, 90.0, 0), 10.0),
    )
    both = lines((near, far), FRONT)
    assert [len(v.segments) for v in both.hidden] == [0, 0]
    assert total(both.visible[0]) == pytest.approx(640.0)


def test_a_hidden_circle_is_one_circle() -> None:
    disc = rod("disc", Vec(0, 50.0, 0), Vec(0, 60.0, 0), 10.0)
    wall = rod("wall", Vec(-100.0, 0, 0), Vec(100.0, 0, 0), 30.0)
    hidden, _ = lines((disc, wall), FRONT).hidden
    (circle,) = hidden.shapes
    assert isinstance(circle, Arc)
    assert (circle.radius, circle.sweep_deg) == pytest.approx((10.0, 360.0))


def test_nothing_gives_nothing() -> None:
    assert lines((), FRONT).visible == ()
    assert lines((), FRONT).hidden == ()
