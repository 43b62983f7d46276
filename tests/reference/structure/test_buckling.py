"""Columns against their closed forms, and a cantilever that swings."""

from __future__ import annotations

from math import inf, pi, sqrt, tan

import pytest
from scipy.optimize import brentq

from tests.beams import AREA, FIXED, INERTIA, E, at, beam, solved
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.eigen import buckling, modes
from tubeframe.structure.solver.model import Bedding, Held, Model

EI = E * INERTIA
SPIN = (True, False, False)
ACROSS = (False, True, True)


def _factor(model: Model, point: int) -> float:
    found = buckling(solved(model, at(point, Vec(-1.0, 0, 0))))
    assert found is not None
    return found


@pytest.mark.parametrize(("elements", "within"), [(8, 1e-3), (4, 1e-2)])
@pytest.mark.parametrize(
    ("start", "end", "newtons"),
    [
        (Held(point=0, about=SPIN), ACROSS, 10_552.0),
        (Held(point=0, about=FIXED), (False, False, False), 2_638.0),
        (Held(point=0, about=FIXED), ACROSS, 21_587.0),
    ],
    ids=["pinned at both ends", "fixed and free", "fixed and pinned"],
)
def test_euler_loads(elements, within, start, end, newtons):
    """Timoshenko and Gere, Theory of Elastic Stability: pi^2 EI/L^2, a quarter of it, 20.1907 EI/L^2 (from memory)."""
    model = beam(1000.0, elements, [start, Held(point=elements, along=end)])

    assert _factor(model, elements) == pytest.approx(newtons, rel=within)


@pytest.mark.parametrize(("spring", "newtons"), [(0.2e6, 250.46), (1.0e6, 1052.3)])
def test_column_whose_sprung_top_sways(spring, newtons):
    """Chen and Lui, Structural Stability: x tan x = k L / EI, P = x^2 EI / L^2, pinned below."""
    length = 762.0
    foot, top = Held(point=0, about=SPIN), Bedding(point=8, about=Vec(0.0, spring, spring))
    plain = beam(length, 8, [foot])
    model = Model(points=plain.points, bars=plain.bars, held=plain.held, beddings=(top,))
    x = brentq(lambda x: x * tan(x) - spring * length / EI, 1e-6, pi / 2 - 1e-9)

    assert x**2 * EI / length**2 == pytest.approx(newtons, rel=1e-4)
    assert _factor(model, 8) == pytest.approx(newtons, rel=1e-3)


def test_a_bar_in_tension_does_not_buckle():
    model = beam(1000.0, 4, [Held(point=0, about=FIXED)])

    assert _factor(Model(points=model.points, bars=model.bars, held=model.held), 4) < inf
    found = buckling(solved(model, at(4, Vec(1.0, 0, 0))))
    assert found is not None
    assert found == inf


def test_first_frequency_of_a_cantilever():
    """Blevins, Formulas for Natural Frequency and Mode Shape: 1.8751^2 / (2 pi) sqrt(EI / m L^4) (from memory)."""
    found = modes(assembled(beam(1000.0, 8, [Held(point=0, about=FIXED)])), 2)
    per_length = AREA * 7850.0 * 1e-12
    exact = 1.8751**2 / (2 * pi) * sqrt(EI / per_length / 1000.0**4)

    assert found[0].frequency == pytest.approx(22.179, rel=2e-3) == exact
    assert found[1].frequency == pytest.approx(found[0].frequency, rel=1e-6)


def test_a_stick_on_one_pin_folds():
    """It can turn three ways: two of them over, one about itself."""
    found = modes(assembled(beam(1000.0, 4, [Held(point=0)])), 4)

    assert [m.frequency < 0.3 for m in found] == [True, True, True, False]
