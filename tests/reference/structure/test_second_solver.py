"""The same frames through PyNiteFEA, a solver that shares nothing with ours."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from Pynite import FEModel3D

from tests.beams import solved
from tests.drawn_frames import Drawn, drawn

if TYPE_CHECKING:
    from tubeframe.structure.solver.solve import Answer

WITHIN = 1e-3
"""Of the largest value in the frame."""
COMBO = "Combo 1"


def second_opinion(frame: Drawn) -> FEModel3D:
    """Build the frame in the other program and solve it."""
    model, other = frame.model, FEModel3D()
    for n, point in enumerate(model.points):
        other.add_node(f"N{n}", *point)
    section = model.bars[0].section
    other.add_material("steel", section.young, section.shear, 0.3, 0.0)
    other.add_section("tube", section.area, section.inertia, section.inertia, section.torsion)
    for k, bar in enumerate(model.bars):
        other.add_member(f"M{k}", f"N{bar.start}", f"N{bar.end}", "steel", "tube")
        loose = [s.bend == 0.0 for s in (bar.start_spring, bar.end_spring)]
        if any(loose):
            other.def_releases(f"M{k}", Ryi=loose[0], Rzi=loose[0], Ryj=loose[1], Rzj=loose[1])
    for held in model.held:
        other.def_support(f"N{held.point}", *held.along, *held.about)
    for load in frame.forces.points:
        for way, value in zip(("FX", "FY", "FZ", "MX", "MY", "MZ"), (*load.force, *load.moment), strict=True):
            other.add_node_load(f"N{load.point}", way, value)
    for spread in frame.forces.bars:
        for way, value in zip(("FX", "FY", "FZ"), spread.per_length, strict=True):
            other.add_member_dist_load(f"M{spread.bar}", way, value, value)
    other.analyze_linear(check_stability=False)
    return other


def _moves(other: FEModel3D) -> tuple[np.ndarray, np.ndarray]:
    nodes = list(other.nodes.values())
    return tuple(
        np.array([[getattr(n, f"{kind}{axis}")[COMBO] for axis in "XYZ"] for n in nodes]) for kind in ("D", "R")
    )


def _carried(other: FEModel3D) -> np.ndarray:
    """Tension, shear, torsion and moments at both ends of each bar, whatever its local axes."""
    ends = np.array([m.f(COMBO).ravel() for m in other.members.values()])
    return _invariant(ends)


def _invariant(ends: np.ndarray) -> np.ndarray:
    pairs = [np.hypot(ends[:, a], ends[:, b]) for a, b in ((1, 2), (4, 5), (7, 8), (10, 11))]
    return np.stack([ends[:, 0], ends[:, 6], ends[:, 3], *pairs], axis=1)


def _agree(ours: np.ndarray, theirs: np.ndarray) -> None:
    assert np.max(np.abs(ours - theirs)) <= WITHIN * np.max(np.abs(theirs))


def _compare(seed: int) -> None:
    frame = drawn(seed)
    answer, other = solved(frame.model, frame.forces), second_opinion(frame)
    shifts, turns = _moves(other)
    count = range(len(frame.model.points))
    _agree(np.array([list(answer.shift(n)) for n in count]), shifts)
    _agree(np.array([list(answer.turn(n)) for n in count]), turns)
    theirs = _carried(other)
    ours = _invariant(answer.carried)
    for column in range(ours.shape[1]):
        _agree(ours[:, column], theirs[:, column])


@pytest.mark.parametrize("seed", range(40))
def test_forty_drawn_frames(seed):
    _compare(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(40, 340))
def test_three_hundred_more(seed):
    _compare(seed)


@pytest.mark.parametrize("seed", range(8))
def test_the_ground_gives_back_what_acts(seed):
    """Forces, and moments about the origin."""
    frame = drawn(seed)
    answer = solved(frame.model, frame.forces)
    given, acting = _from_the_ground(answer), _acting(frame)

    assert given == pytest.approx(-acting, abs=1e-6 * float(np.max(np.abs(acting))))


def _from_the_ground(answer: Answer) -> np.ndarray:
    model, total = answer.system.model, np.zeros(6)
    for held in model.held:
        force, moment = answer.reaction(held.point)
        total += [*force, *(model.points[held.point].cross(force) + moment)]
    return total


def _acting(frame: Drawn) -> np.ndarray:
    total, points = np.zeros(6), frame.model.points
    for load in frame.forces.points:
        total += [*load.force, *(points[load.point].cross(load.force) + load.moment)]
    for spread in frame.forces.bars:
        bar = frame.model.bars[spread.bar]
        start, end = points[bar.start], points[bar.end]
        force = spread.per_length * start.distance(end)
        total += [*force, *((start + end) * 0.5).cross(force)]
    return total
