"""What must come out whatever the frame is."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest

from tests.beams import evenly, solved
from tests.drawn_frames import Drawn, drawn
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.eigen import buckling, modes
from tubeframe.structure.solver.model import Forces, Link, Model, Spring

SEEDS = range(6)


def _moved(frame: Drawn, turn, turn_moment) -> Drawn:
    points = tuple(turn(p) for p in frame.model.points)
    forces = Forces(
        points=tuple(replace(f, force=turn(f.force), moment=turn_moment(f.moment)) for f in frame.forces.points),
        bars=tuple(replace(f, per_length=turn(f.per_length)) for f in frame.forces.bars),
    )
    return Drawn(model=replace(frame.model, points=points), forces=forces)


def _about_z(v: Vec) -> Vec:
    c, s = cos(radians(37.0)), sin(radians(37.0))
    return Vec(c * v.x - s * v.y, s * v.x + c * v.y, v.z)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_turned_frame_moves_the_same_way_turned(seed):
    frame = drawn(seed)
    turned = _moved(frame, _about_z, _about_z)
    one, other = solved(frame.model, frame.forces), solved(turned.model, turned.forces)

    for n in range(len(frame.model.points)):
        assert tuple(other.shift(n)) == pytest.approx(tuple(_about_z(one.shift(n))), abs=1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mirrored_frame_moves_the_same_way_mirrored(seed):
    frame = drawn(seed)
    mirrored = _moved(frame, lambda v: Vec(-v.x, v.y, v.z), lambda m: Vec(m.x, -m.y, -m.z))
    one, other = solved(frame.model, frame.forces), solved(mirrored.model, mirrored.forces)

    for n in range(len(frame.model.points)):
        there = one.shift(n)
        assert tuple(other.shift(n)) == pytest.approx((-there.x, there.y, there.z), abs=1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_twice_the_load_moves_it_twice_as_far_and_halves_the_buckling_factor(seed):
    frame = drawn(seed)
    spread = evenly(frame.model, Vec(0, 0, -0.1)), evenly(frame.model, Vec(0, 0, -0.2))
    one, other = (solved(frame.model, forces) for forces in spread)

    assert other.moves == pytest.approx(2.0 * one.moves, rel=1e-9, abs=1e-12)
    assert buckling(one) == pytest.approx(2.0 * buckling(other), rel=1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_more_elements_change_nothing_to_the_first_order(seed):
    frame = drawn(seed)
    finer = replace(frame.model, bars=tuple(replace(b, elements=3) for b in frame.model.bars))
    one, other = solved(frame.model, frame.forces), solved(finer, frame.forces)

    for n in range(len(frame.model.points)):
        assert tuple(other.shift(n)) == pytest.approx(tuple(one.shift(n)), abs=1e-6)


def _with_arm(frame: Drawn, spring: Spring) -> Model:
    """Hang the last point's bars on an arm from a copy of it, 30 mm aside."""
    last = len(frame.model.points) - 1
    points = (*frame.model.points, frame.model.points[last])
    link = Link(first=last, second=last + 1, axis=Vec(1.0, 0.0, 0.0), spring=spring)
    rest = [k for k, b in enumerate(frame.model.bars) if last in {b.start, b.end}][1:]
    bars = list(frame.model.bars)
    for k in rest:
        b = bars[k]
        bars[k] = replace(b, start=last + 1 if b.start == last else b.start, end=last + 1 if b.end == last else b.end)
    return replace(frame.model, points=points, bars=tuple(bars), links=(link,))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_rigid_arm_of_no_length_changes_nothing(seed):
    frame = drawn(seed)
    one = solved(frame.model, frame.forces)
    for spring in (Spring(), Spring(twist=1e13, bend=1e13), Spring(bend=1e13)):
        other = solved(_with_arm(frame, spring), frame.forces)
        for n in range(len(frame.model.points)):
            assert tuple(other.shift(n)) == pytest.approx(tuple(one.shift(n)), abs=1e-3)


def test_heavier_swings_slower():
    frame = drawn(0)
    section = frame.model.bars[0].section
    heavy = replace(
        frame.model,
        bars=tuple(replace(b, section=replace(section, density=4 * section.density)) for b in frame.model.bars),
    )
    one, other = (modes(assembled(m), 1)[0].frequency for m in (frame.model, heavy))

    assert one == pytest.approx(2.0 * other, rel=1e-6)
