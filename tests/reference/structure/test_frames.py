"""Frames of textbooks, in kip and inch."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.beams import at, chain, solved
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.model import HINGED, Bar, BarForce, Bedding, Forces, Held, Model, PointForce, Section

FIXED = (True, True, True)


def test_space_frame():
    """Logan, A First Course in the Finite Element Method, 4th ed., example 5.8."""
    points = (Vec(0, 0, 0), Vec(-100, 0, 0), Vec(0, 0, -100), Vec(0, -100, 0))
    bar = Section(young=30_000, shear=10_000, area=10, inertia=100, torsion=50)
    model = Model(
        points=points,
        bars=tuple(Bar(start=k, end=0, section=bar) for k in (1, 2, 3)),
        held=tuple(Held(point=k, about=FIXED) for k in (1, 2, 3)),
    )
    answer = solved(model, at(0, Vec(0, -50, 0), Vec(-1000, 0, 0)))

    assert answer.shift(0).x == pytest.approx(7.098e-5, rel=1e-3)
    assert answer.shift(0).y == pytest.approx(-0.014, rel=5e-3)
    assert answer.shift(0).z == pytest.approx(-2.352e-3, rel=1e-3)
    assert tuple(answer.turn(0)) == pytest.approx((-3.996e-3, 1.78e-5, -1.033e-4), rel=1e-3)


def test_gable_frame():
    """Logan, 4th ed., problem 5.30: fixed below, two loads of 30 kip at the ends of the ridge."""
    points = tuple(Vec(x, 0, z) for x, z in ((0, 0), (0, 360), (180, 480), (420, 480), (600, 360), (600, 0)))
    bar = Section(young=30_000, shear=250, area=12, inertia=200, torsion=1)
    loads = Forces(points=tuple(PointForce(point=k, force=Vec(0, 0, -30)) for k in (2, 3)))
    held = (*(Held(point=k, about=FIXED) for k in (0, 5)), *(Held(point=k, along=(False, True, False)) for k in (2, 3)))
    answer = solved(Model(points=points, bars=chain(points, bar), held=held), loads)
    force, moment = answer.reaction(0)

    assert (force.x, force.z) == pytest.approx((11.6877, 30.0), rel=5e-3)
    assert abs(moment.y) == pytest.approx(1810.07, rel=5e-3)
    assert answer.shift(2).z == pytest.approx(-6.66676, rel=5e-3)


def test_beam_on_springs():
    """McGuire, Gallagher and Ziemian, Matrix Structural Analysis, 2nd ed., example 4.15."""
    points = tuple(Vec(15.0 * k, 0, 0) for k in range(17))
    bar = Section(young=29_000, shear=11_200, area=10, inertia=128.5, torsion=10)
    model = Model(
        points=points,
        bars=chain(points, bar),
        held=(Held(point=0, along=(True, True, True), about=(True, False, False)),),
        beddings=tuple(Bedding(point=k, along=Vec(0, 1.0, 22.5)) for k in range(1, 16)),
    )
    ends = Held(point=16, along=(False, True, True))
    answer = solved(
        Model(points=points, bars=model.bars, held=(*model.held, ends), beddings=model.beddings), at(8, Vec(0, 0, -40))
    )

    assert answer.shift(8).z == pytest.approx(-0.238, rel=5e-2)
    assert abs(answer.of_bar(8)[0, 4]) == pytest.approx(547.0, rel=5e-2)


def test_frame_with_a_hinge():
    """Kassimali, Structural Analysis, example 3.35: pinned at A and B, hinged at the ridge E. In feet, x is up."""
    points = (Vec(0, 0, 0), Vec(0, 0, 24), Vec(12, 0, 0), Vec(12, 0, 24), Vec(24, 0, 12))
    inch = 1.0 / 12.0
    bar = Section(young=29e3 * 144, shear=11.2e3 * 144, area=7.65 * inch**2, inertia=204 * inch**4, torsion=inch**4)
    bars = (
        Bar(start=0, end=2, section=bar),
        Bar(start=1, end=3, section=bar),
        Bar(start=2, end=4, section=bar, end_spring=HINGED),
        Bar(start=4, end=3, section=bar),
    )
    flat = Held(point=0, along=(False, True, False), about=(True, False, True))
    held = tuple(replace(flat, point=k, along=(k < 2, True, k < 2)) for k in range(5))
    roof = tuple(BarForce(bar=k, per_length=Vec(-1.5, 0, 0)) for k in (2, 3))
    push = PointForce(point=2, force=Vec(0, 0, 20))
    answer = solved(Model(points=points, bars=bars, held=held), Forces(points=(push,), bars=roof))
    (a, _), (b, _) = (answer.reaction(k) for k in (0, 1))

    assert (a.z, a.x) == pytest.approx((-8.63, 15.46), rel=1e-3)
    assert (b.z, b.x) == pytest.approx((-11.37, 35.45), rel=1e-3)
