"""Springs at ends, and portals with them, against closed forms."""

from __future__ import annotations

from math import inf, pi, tan

import pytest
from scipy.optimize import brentq

from tests.beams import INERTIA, STIFF, E, at, beam, evenly, solved
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.eigen import buckling
from tubeframe.structure.solver.model import RIGID, Bar, Forces, Held, Model, PointForce, Spring

EI = E * INERTIA
FIXED = (True, True, True)
HEIGHT, SPAN = 762.0, 1524.0


@pytest.mark.parametrize(("spring", "moment", "sag"), [(0.2e6, 11_535.0, 27.793), (1.0e6, 38_652.0, 20.66)])
def test_even_load_on_a_beam_with_springs_at_its_ends(spring, moment, sag):
    """M = w L^2/12 / (1 + 2 EI/kL) (McGuire et al., Matrix Structural Analysis, 2nd ed., 13.31; Chen and Lui)."""
    w, length = 0.5, 1500.0
    ends = Spring(bend=spring)
    model = beam(length, 4, [Held(point=k, about=FIXED) for k in (0, 4)], ends=(ends, ends))
    answer = solved(model, evenly(model, Vec(0, 0, -w)))
    exact = w * length**2 / 12 / (1 + 2 * EI / (spring * length))

    assert abs(answer.of_bar(0)[0, 4]) == pytest.approx(exact, rel=1e-6)
    assert exact == pytest.approx(moment, rel=1e-3)
    assert -answer.shift(2).z == pytest.approx(5 * w * length**4 / (384 * EI) - exact * length**2 / (8 * EI), rel=1e-6)
    assert -answer.shift(2).z == pytest.approx(sag, rel=1e-3)


def _portal(spring: float) -> Model:
    """Two legs on pins and a beam sprung to them, in the xz plane; legs that are all but inextensible."""
    points = (Vec(0, 0, 0), Vec(0, 0, HEIGHT), Vec(SPAN, 0, HEIGHT), Vec(SPAN, 0, 0))
    ends = Spring(bend=spring)
    beam_bar = Bar(start=1, end=2, section=STIFF, start_spring=ends, end_spring=ends, elements=4)
    legs = (Bar(start=0, end=1, section=STIFF, elements=8), Bar(start=3, end=2, section=STIFF, elements=8))
    flat = (False, True, False)
    held = (
        *(Held(point=k, about=(True, False, True)) for k in (0, 3)),
        *(Held(point=k, along=flat, about=(True, False, True)) for k in (1, 2)),
    )
    return Model(points=points, bars=(*legs, beam_bar), held=held)


@pytest.mark.parametrize(
    ("spring", "stiffness", "load"), [(0.2e6, 0.62911, 239.6), (1e6, 2.335, 884.84), (inf, 7.2491, 2618.2)]
)
def test_sway_of_a_portal_on_pins(spring, stiffness, load):
    """1/K = h^3/6EI + h^2 L/12EI + h^2/2k; x tan x = h kt/EI with 1/kt = L/6EI + 1/k (after Kassimali; Chen and Lui).

    The closed forms count both legs; load is a leg's.
    """
    answer = solved(_portal(spring), at(1, Vec(1.0, 0, 0)))
    exact = 1 / (HEIGHT**3 / (6 * EI) + HEIGHT**2 * SPAN / (12 * EI) + HEIGHT**2 / (2 * spring))

    assert exact == pytest.approx(stiffness, rel=1e-3)
    assert 1.0 / answer.shift(1).x == pytest.approx(exact, rel=1e-3)

    down = Forces(points=tuple(PointForce(point=k, force=Vec(0, 0, -1.0)) for k in (1, 2)))
    found = buckling(solved(_portal(spring), down))
    turning = 1 / (SPAN / (6 * EI) + 1 / spring)
    x = brentq(lambda x: x * tan(x) - HEIGHT * turning / EI, 1e-6, pi / 2 - 1e-9)
    assert x**2 * EI / HEIGHT**2 == pytest.approx(load, rel=1e-3)
    assert found is not None
    assert found == pytest.approx(load, rel=1e-3)


def test_a_stiff_spring_is_rigid_and_none_a_release():
    held = [Held(point=0, about=FIXED), Held(point=4, about=FIXED)]

    def end_moment(spring: Spring) -> float:
        model = beam(1500.0, 4, held, ends=(spring, spring))
        return abs(float(solved(model, evenly(model, Vec(0, 0, -0.5))).of_bar(0)[0, 4]))

    assert end_moment(Spring(bend=1e13)) == pytest.approx(end_moment(RIGID), rel=1e-4)
    assert end_moment(Spring(bend=1e-3)) == pytest.approx(0.0, abs=1e-3)
    assert end_moment(Spring(bend=0.0)) == pytest.approx(0.0, abs=1e-6)
