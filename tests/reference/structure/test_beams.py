"""Beams and a hoop against closed forms. AISC Steel Construction Manual, table 3-23; Roark, table 8.1: the formulas
from memory, written out beside each check."""

from __future__ import annotations

from math import cos, pi, sin

import pytest

from tests.beams import FIXED, INERTIA, STIFF, TUBE, E, G, at, beam, chain, evenly, solved
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.model import HINGED, RIGID, Held, Model

EI = E * INERTIA
PIN = (True, False, False)
"""About a beam's own axis: it must not spin."""
DOWN = Vec(0, 0, -1)


def _pinned(parts: int, *more: int) -> tuple[Held, ...]:
    return tuple(Held(point=k, about=PIN if k == 0 else (False, False, False)) for k in (0, *more, parts))


def test_simple_span_with_an_even_load():
    """Case 1: M = w L^2 / 8, 5 w L^4 / (384 EI)."""
    w, length = 0.5, 1500.0
    model = beam(length, 8, _pinned(8))
    answer = solved(model, evenly(model, DOWN * w))

    assert -answer.shift(4).z == pytest.approx(30.828, rel=1e-3) == 5 * w * length**4 / (384 * EI)
    assert abs(answer.of_bar(3)[0, 10]) == pytest.approx(1.4062e5, rel=1e-3)


def test_simple_span_with_a_load_in_the_middle():
    """Case 7: M = P L / 4, P L^3 / (48 EI)."""
    answer = solved(beam(1500.0, 2, _pinned(2)), at(1, DOWN * 300.0))

    assert -answer.shift(1).z == pytest.approx(19.73, rel=1e-3)
    assert abs(answer.of_bar(0)[0, 10]) == pytest.approx(1.125e5, rel=1e-3)


def test_fixed_beam_with_an_even_load():
    """Case 15: M = w L^2 / 12 at the ends, w L^4 / (384 EI)."""
    model = beam(1500.0, 4, [Held(point=k, about=FIXED) for k in (0, 4)])
    answer = solved(model, evenly(model, DOWN * 0.5))

    assert -answer.shift(2).z == pytest.approx(6.1656, rel=1e-3)
    assert abs(answer.reaction(0)[1].y) == pytest.approx(93_750.0, rel=1e-3)


def test_cantilever_with_a_load_at_its_tip():
    """Case 22: M = P L, P L^3 / (3 EI); the same up, across and aslant."""
    for way in (DOWN, Vec(0, 1, 0), Vec(0, 0.6, -0.8)):
        answer = solved(beam(600.0, 1, [Held(point=0, about=FIXED)]), at(1, way * 100.0))

        assert answer.shift(1).length == pytest.approx(6.7345, rel=1e-3)
        assert answer.reaction(0)[1].length == pytest.approx(60_000.0, rel=1e-3)


def test_two_equal_spans():
    """Case 29: w L^2 / 8 over the middle support; 3/8, 10/8 and 3/8 of w L in the supports."""
    model = beam(2000.0, 2, _pinned(2, 1))
    answer = solved(model, evenly(model, DOWN))

    assert [answer.reaction(k)[0].z for k in range(3)] == pytest.approx([375.0, 1250.0, 375.0], rel=1e-3)
    assert abs(answer.of_bar(0)[0, 10]) == pytest.approx(125_000.0, rel=1e-3)


def test_l_shaped_cantilever():
    """Castigliano: P (a^3/3EI + b^3/3EI + a b^2/GJ), out of its plane."""
    points = (Vec(0, 0, 0), Vec(500, 0, 0), Vec(500, 300, 0))
    model = Model(points=points, bars=chain(points), held=(Held(point=0, about=FIXED),))
    answer = solved(model, at(2, DOWN * 100.0))

    exact = 100.0 * (500.0**3 / (3 * EI) + 300.0**3 / (3 * EI) + 500.0 * 300.0**2 / (G * TUBE.torsion))
    assert -answer.shift(2).z == pytest.approx(10.205, rel=1e-3) == exact


@pytest.mark.parametrize(("chords", "thrust", "moment"), [(24, 3e-3, 6e-3), (48, 1e-3, 1.5e-3), (60, 5e-4, 1e-3)])
def test_two_hinged_half_circle_with_a_load_at_its_crown(chords, thrust, moment):
    """Timoshenko and Young, Theory of Structures; Roark, table 9.3 (formula from memory): thrust H = P/pi, and with it
    a crown moment of P R / 2 - H R; what the thrust is off, the moment is off 1.75 times as much."""
    radius, load = 1800.0, 1000.0
    angles = [pi * k / chords for k in range(chords + 1)]
    points = tuple(Vec(-radius * cos(a), 0.0, radius * sin(a)) for a in angles)
    held = tuple(Held(point=k, about=(True, False, True)) for k in (0, chords))
    answer = solved(Model(points=points, bars=chain(points, STIFF), held=held), at(chords // 2, DOWN * load))

    assert answer.reaction(0)[0].x == pytest.approx(318.31, rel=thrust)
    assert abs(answer.of_bar(chords // 2)[0, 4]) == pytest.approx(3.2704e5, rel=moment)


def test_a_released_end_leaves_three_eis_over_l():
    """Sennett, Matrix Analysis of Structures, eq. 7.39: with EI/L = 1 and the far end released the near end takes 3."""
    length = 1000.0
    held = [Held(point=0, about=(True, False, True)), Held(point=1, about=FIXED)]
    models = (beam(length, 1, held), beam(length, 1, held, ends=(RIGID, HINGED)))
    stiff, soft = (solved(m, at(0, moment=Vec(0, 1.0, 0))).turn(0).y for m in models)

    assert 1.0 / stiff == pytest.approx(4.0 * EI / length, rel=1e-9)
    assert 1.0 / soft == pytest.approx(3.0 * EI / length, rel=1e-9)
