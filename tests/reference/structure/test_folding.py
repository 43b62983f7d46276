"""A table whose every joint is a hinge: how it folds, and what stops it."""

from __future__ import annotations

from itertools import combinations

import pytest

from tests.beams import TUBE
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.eigen import count_slower, modes
from tubeframe.structure.solver.folding import Brace, fewest_braces, ways_to_fold
from tubeframe.structure.solver.model import HINGED, RELEASED, Bar, Held, Model

LENGTH, WIDTH, HEIGHT, LOW = 1524.0, 762.0, 762.0, 180.0
CORNERS = ((0.0, 0.0), (LENGTH, 0.0), (LENGTH, WIDTH), (0.0, WIDTH))


def hinged_table(braces: tuple[Brace, ...] = ()) -> Model:
    """Four legs that go through, four rails and four stretchers; a tube's own spin is tethered at one end only."""
    points = tuple(Vec(x, y, z) for z in (0.0, LOW, HEIGHT) for x, y in CORNERS)
    legs = [Bar(start=4 * k + n, end=4 * k + n + 4, section=TUBE, elements=2) for k in range(2) for n in range(4)]
    between = [(4 * k + n, 4 * k + (n + 1) % 4) for k in (2, 1) for n in range(4)]
    between += [(b.start, b.end) for b in braces]
    across = [
        Bar(start=a, end=b, section=TUBE, start_spring=HINGED, end_spring=RELEASED, elements=2) for a, b in between
    ]
    feet = tuple(Held(point=n, about=(False, False, True)) for n in range(4))
    return Model(points=points, bars=(*legs, *across), held=feet)


def candidates() -> tuple[Brace, ...]:
    """Every diagonal of a side between the floor or the stretchers and the rails, and both of the top."""
    sides = [(n, (n + 1) % 4) for n in range(4)]
    slanting = [Brace(start=4 * k + a, end=8 + b) for k in (0, 1) for m, n in sides for a, b in ((m, n), (n, m))]
    return (*slanting, Brace(start=8, end=10), Brace(start=9, end=11))


def test_it_folds_four_ways():
    """Four legs on pins lean two ways each; four rails tie four of the eight leans: four are left."""
    found = modes(assembled(hinged_table()), 6)

    assert [m.frequency < 0.3 for m in found] == [True] * 4 + [False] * 2
    assert len(ways_to_fold(assembled(hinged_table()))) == 4


@pytest.mark.parametrize("frequency", [0.3, 10.0, 30.0])
def test_pivots_count_what_swings_slower(frequency):
    """Sylvester's law of inertia: as many negative pivots of K - w^2 M as eigenvalues under w^2."""
    for braces in ((), candidates()[:2]):
        system = assembled(hinged_table(braces))
        assert count_slower(system, frequency) == sum(m.frequency < frequency for m in modes(system, 30))


def test_both_ends_a_long_side_and_the_top_braced_stop_it():
    system = assembled(hinged_table())
    places = fewest_braces(system, ways_to_fold(system), candidates())
    assert places is not None
    chosen = tuple(candidates()[k] for k in places)

    kinds = sorted(_kind(system.model.points[b.end] - system.model.points[b.start]) for b in chosen)
    assert kinds == ["end", "end", "long side", "top"]
    assert modes(assembled(hinged_table(chosen)), 1)[0].frequency > 15.0


def _kind(way: Vec) -> str:
    if abs(way.z) < 1.0:
        return "top"
    return "end" if abs(way.x) < 1.0 else "long side"


@pytest.mark.parametrize("less", range(4))
def test_three_of_the_four_are_not_enough(less):
    system = assembled(hinged_table())
    places = fewest_braces(system, ways_to_fold(system), candidates())
    assert places is not None
    chosen = [candidates()[k] for k in places]
    del chosen[less]

    assert len(ways_to_fold(assembled(hinged_table(tuple(chosen))))) == 1


def test_two_braces_of_one_side_stop_no_more_than_one():
    system = assembled(hinged_table())
    folding = ways_to_fold(system)
    one_side = [b for b in candidates() if _kind(system.model.points[b.end] - system.model.points[b.start]) == "top"]

    assert fewest_braces(system, folding, one_side) is None
    assert all(fewest_braces(system, folding[:1], pair) is not None for pair in combinations(candidates()[:4], 2))
