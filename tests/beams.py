"""Small frames for the structural checks: chains of bars between points [mm, N, MPa]."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.model import RIGID, Bar, BarForce, Forces, Held, Model, PointForce, Section, Spring
from tubeframe.structure.solver.solve import Answer, linear

if TYPE_CHECKING:
    from collections.abc import Sequence

OUTSIDE, WALL = 0.922 * 25.4, 0.049 * 25.4
INSIDE = OUTSIDE - 2 * WALL
E, G = 200_000.0, 77_000.0
INERTIA = pi / 64 * (OUTSIDE**4 - INSIDE**4)
AREA = pi / 4 * (OUTSIDE**2 - INSIDE**2)
TUBE = Section(young=E, shear=G, area=AREA, inertia=INERTIA, torsion=2 * INERTIA, density=7850.0)
"""3/4 EMT: 0.922 x 0.049 in."""
STIFF = Section(young=E, shear=G, area=1e4 * AREA, inertia=INERTIA, torsion=2 * INERTIA)
"""The same, all but inextensible."""
FIXED = (True, True, True)


def chain(points: Sequence[Vec], section: Section = TUBE, elements: int = 1) -> tuple[Bar, ...]:
    """Bars from each point to the next."""
    return tuple(Bar(start=k, end=k + 1, section=section, elements=elements) for k in range(len(points) - 1))


def beam(length: float, parts: int, held: Sequence[Held], ends: tuple[Spring, Spring] = (RIGID, RIGID)) -> Model:
    """A beam along x of so many bars, with springs at its two ends."""
    points = tuple(Vec(length * k / parts, 0.0, 0.0) for k in range(parts + 1))
    bars = [Bar(start=k, end=k + 1, section=TUBE) for k in range(parts)]
    bars[0] = Bar(start=0, end=1, section=TUBE, start_spring=ends[0])
    bars[-1] = Bar(start=parts - 1, end=parts, section=TUBE, end_spring=ends[1])
    return Model(points=points, bars=tuple(bars), held=tuple(held))


def evenly(model: Model, per_length: Vec) -> Forces:
    """A load on every bar [N/mm]."""
    return Forces(bars=tuple(BarForce(bar=k, per_length=per_length) for k in range(len(model.bars))))


def at(point: int, force: Vec = ORIGIN, moment: Vec = ORIGIN) -> Forces:
    """A load at one point."""
    return Forces(points=(PointForce(point=point, force=force, moment=moment),))


def solved(model: Model, forces: Forces) -> Answer:
    """Solve one case to the first order."""
    found = linear(assembled(model), [forces])
    assert found is not None
    return found[0]
