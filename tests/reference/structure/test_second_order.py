"""Second order: the benchmark problems of AISC 360-16, commentary C2.1, figures C-C2.2 and C-C2.3.

W14x48, I 484 in^4, A 14.1 in^2, E 29 000 ksi, 28 ft; no shear deformation (the values in brackets there). In kip and
inch throughout.
"""

from __future__ import annotations

import pytest

from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.model import Bar, BarForce, Forces, Held, Model, PointForce, Section
from tubeframe.structure.solver.solve import Answer, second_order

LENGTH = 28 * 12.0
SHAPE = Section(young=29_000.0, shear=11_200.0, area=14.1, inertia=484.0, torsion=968.0)
PARTS = 16
WITHIN = 3e-3
PRINTED = 0.0005
"""Half of the last digit that is printed for a deflection [in]."""


def _solved(held: tuple[Held, ...], forces: Forces) -> Answer:
    points = tuple(Vec(0.0, 0.0, LENGTH * k / PARTS) for k in range(PARTS + 1))
    bars = tuple(Bar(start=k, end=k + 1, section=SHAPE) for k in range(PARTS))
    found = second_order(assembled(Model(points=points, bars=bars, held=held)), forces)
    assert found is not None
    return found


@pytest.mark.parametrize(("axial", "moment", "deflection"), [(0, 235, 0.197), (150, 269, 0.224), (450, 375, 0.311)])
def test_case_1_simple_beam_with_an_even_load(axial, moment, deflection):
    foot = Held(point=0, about=(False, False, True))
    held = (foot, Held(point=PARTS, along=(True, True, False)))
    spread = tuple(BarForce(bar=k, per_length=Vec(0.2 / 12, 0, 0)) for k in range(PARTS))
    top = PointForce(point=PARTS, force=Vec(0, 0, -axial))
    answer = _solved(held, Forces(points=(top,), bars=spread))
    middle = answer.of_bar(PARTS // 2)[0, 4:6]

    assert float((middle**2).sum() ** 0.5) == pytest.approx(moment, rel=WITHIN)
    assert answer.shift(PARTS // 2).x == pytest.approx(deflection, rel=WITHIN, abs=PRINTED)


@pytest.mark.parametrize(("axial", "moment", "deflection"), [(0, 336, 0.901), (100, 469, 1.33), (200, 848, 2.56)])
def test_case_2_cantilever_with_a_load_at_its_tip(axial, moment, deflection):
    held = (Held(point=0, about=(True, True, True)),)
    answer = _solved(held, Forces(points=(PointForce(point=PARTS, force=Vec(1.0, 0, -axial)),)))

    assert answer.reaction(0)[1].length == pytest.approx(moment, rel=WITHIN)
    assert answer.shift(PARTS).x == pytest.approx(deflection, rel=WITHIN, abs=0.005)


def test_a_column_over_its_buckling_load_has_no_answer():
    held = (Held(point=0, about=(True, True, True)),)
    points = (Vec(0, 0, 0), Vec(0, 0, LENGTH))
    model = Model(points=points, bars=(Bar(start=0, end=1, section=SHAPE, elements=8),), held=held)
    euler = 3.14159**2 * 29_000.0 * 484.0 / (4 * LENGTH**2)
    forces = [Forces(points=(PointForce(point=1, force=Vec(0.1, 0, -f * euler)),)) for f in (0.98, 1.02)]

    assert second_order(assembled(model), forces[0]) is not None
    assert second_order(assembled(model), forces[1]) is None
