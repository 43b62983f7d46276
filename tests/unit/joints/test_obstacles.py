"""How far a ball goes before it touches: in closed form, against walking in small steps with distances alone."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tubeframe.geometry.convex import Box
from tubeframe.geometry.vector import Vec
from tubeframe.joints.obstacles import NEVER, Bar, Brick, Drum, Face

_SIZE = st.floats(-60.0, 60.0).map(lambda v: round(v, 3))
_POINT = st.builds(Vec, _SIZE, _SIZE, _SIZE)
_FAR = 200.0


def _to_bar(bar, point):
    along = bar.end - bar.start
    share = min(1.0, max(0.0, (point - bar.start).dot(along) / along.dot(along)))
    return point.distance(bar.start + along * share) - bar.radius


def _to_brick(brick, point):
    off = point - brick.brick.centre
    halves = (brick.brick.half_x, brick.brick.half_y, brick.brick.half_z)
    return math.sqrt(sum(max(0.0, abs(off.dot(h)) / h.length - h.length) ** 2 for h in halves))


def _walked(distance, start, way, radius):
    """Go on by what is free all round, as often as it takes: never through anything, since that is what is free."""
    at = 0.0
    while at < _FAR:
        free = distance(start + way * at) - radius
        if free < 1e-6:
            return at
        at += free
    return NEVER


def _agree(found, walked):
    if found < _FAR and walked < _FAR:
        assert found == pytest.approx(walked, abs=0.05)
    else:
        assert found >= _FAR - 0.05
        assert walked >= _FAR - 0.05


@given(ends=st.tuples(_POINT, _POINT), start=_POINT, toward=_POINT, radius=st.sampled_from([0.5, 2.5, 9.0]))
@settings(max_examples=80, deadline=None)
def test_a_ball_before_a_bar(ends, start, toward, radius):
    assume(ends[0].distance(ends[1]) > 1.0)
    assume(toward.length > 1.0)
    bar = Bar(start=ends[0], end=ends[1], radius=11.0)
    way = toward.unit
    nearest = min(_to_bar(bar, start + way * (0.1 * n)) for n in range(int(_FAR * 10)))
    assume(abs(nearest - radius) > 0.02)  # a graze may be told either way

    _agree(bar.free(start, way, radius), _walked(lambda p: _to_bar(bar, p), start, way, radius))


@given(centre=_POINT, halves=st.tuples(*[st.floats(1.0, 40.0)] * 3), start=_POINT, toward=_POINT)
@settings(max_examples=80, deadline=None)
def test_a_ball_before_a_slanting_brick(centre, halves, start, toward):
    assume(toward.length > 1.0)
    x, y, z = Vec(0.6, 0.8, 0.0), Vec(-0.8, 0.6, 0.0), Vec(0.0, 0.0, 1.0)
    brick = Brick(brick=Box(centre=centre, half_x=x * halves[0], half_y=y * halves[1], half_z=z * halves[2]))
    way = toward.unit
    nearest = min(_to_brick(brick, start + way * (0.1 * n)) for n in range(int(_FAR * 10)))
    assume(abs(nearest - 2.5) > 0.02)

    _agree(brick.free(start, way, 2.5), _walked(lambda p: _to_brick(brick, p), start, way, 2.5))


def test_along_a_bar_and_away_from_one():
    bar = Bar(start=Vec(100, 0, 0), end=Vec(200, 0, 0), radius=10.0)

    assert bar.free(Vec(0, 0, 0), Vec(1, 0, 0), 2.0) == pytest.approx(88.0)
    assert bar.free(Vec(300, 0, 0), Vec(-1, 0, 0), 2.0) == pytest.approx(88.0)
    assert bar.free(Vec(0, 0, 0), Vec(-1, 0, 0), 2.0) == NEVER
    assert bar.free(Vec(0, 12.0, 0), Vec(1, 0, 0), 2.0) == NEVER
    assert bar.free(Vec(150, 11.0, 0), Vec(1, 0, 0), 2.0) == 0.0
    assert bar.free(Vec(150, 11.0, 0), Vec(0, 1, 0), 2.0) == 0.0


def test_a_face_stops_what_goes_toward_it():
    floor = Face(at=Vec(0, 0, 0), toward=Vec(0, 0, 1))

    assert floor.free(Vec(0, 0, 50), Vec(0, 0, -1), 2.0) == pytest.approx(48.0)
    assert floor.free(Vec(0, 0, 50), Vec(1, 0, 0), 2.0) == NEVER
    assert floor.free(Vec(0, 0, 1), Vec(0, 0, 1), 2.0) == 0.0
    assert floor.is_in(Vec(0, 0, -1))
    assert not floor.is_in(Vec(0, 0, 1))


def test_a_drum_has_flat_ends():
    """Past its end by more than the ball's radius a ball goes by, where one that is rounded would stop it."""
    drum = Drum(start=Vec(0, 0, 0), end=Vec(0, 0, 40), radius=30.0)

    assert drum.free(Vec(0, 0, 100), Vec(0, 0, -1), 2.0) == pytest.approx(58.0)
    assert drum.free(Vec(29, 0, 100), Vec(0, 0, -1), 2.0) == pytest.approx(58.0)
    assert drum.free(Vec(33, 0, 100), Vec(0, 0, -1), 2.0) == NEVER
    assert drum.free(Vec(100, 0, 39), Vec(-1, 0, 0), 2.0) == pytest.approx(68.0)
    assert drum.free(Vec(100, 0, 43), Vec(-1, 0, 0), 2.0) == NEVER
    assert drum.free(Vec(100, 0, -3), Vec(-1, 0, 0), 2.0) == NEVER
    assert drum.free(Vec(100, 0, 20), Vec(1, 0, 0), 2.0) == NEVER
    assert drum.free(Vec(0, 0, 20), Vec(1, 0, 0), 2.0) == 0.0
    slant = Vec(-1, 0, -1).unit
    assert drum.free(Vec(60, 0, 80), slant, 0.0) == pytest.approx(40 * 2**0.5)
    assert drum.free(Vec(75, 0, 60), slant, 0.0) == pytest.approx(45 * 2**0.5)
