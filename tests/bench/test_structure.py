"""How fast the solver is: run with -m bench; --log-cli-level=INFO shows the numbers."""

from __future__ import annotations

import logging
import time
from math import inf, log

import pytest

from tests.beams import TUBE
from tests.drawn_frames import FIXED, Drawn
from tests.reference.structure.test_second_solver import second_opinion
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.model import HINGED, Bar, BarForce, Forces, Held, Model, PointForce
from tubeframe.structure.solver.solve import linear

pytestmark = pytest.mark.bench
LOG = logging.getLogger(__name__)


def grid(nx: int, ny: int, nz: int) -> Drawn:
    """Columns and beams of a regular grid; every third beam is hinged at its end."""
    spots = [(i, j, k) for k in range(nz + 1) for j in range(ny) for i in range(nx)]
    number = {spot: n for n, spot in enumerate(spots)}
    ends = [
        (n, number[other])
        for (i, j, k), n in number.items()
        for other in ((i, j, k + 1), (i + 1, j, k), (i, j + 1, k))
        if other in number and (k > 0 or other[2] > 0)
    ]
    bars = tuple(
        Bar(start=a, end=b, section=TUBE, **({"end_spring": HINGED} if m % 3 == 2 else {}))
        for m, (a, b) in enumerate(ends)
    )
    held = tuple(Held(point=n, about=FIXED) for n in range(nx * ny))
    push = tuple(PointForce(point=n, force=Vec(5.0, 3.0, -50.0)) for n in range(nx * ny, len(spots)))
    spread = tuple(BarForce(bar=k, per_length=Vec(0, 0, -0.05)) for k in range(0, len(bars), 2))
    points = tuple(Vec(600.0 * i, 500.0 * j, 400.0 * k) for i, j, k in spots)
    return Drawn(model=Model(points=points, bars=bars, held=held), forces=Forces(points=push, bars=spread))


def least(call, repeats: int) -> float:
    """Return the least time that a call keeps a processor busy [s]: others on the machine do not count."""
    best = inf
    for _ in range(repeats):
        begin = time.process_time()
        call()
        best = min(best, time.process_time() - begin)
    return best


def ours(frame: Drawn) -> float:
    return least(lambda: linear(assembled(frame.model), [frame.forces]), 7)


@pytest.mark.parametrize(("sides", "ratio"), [((24, 3, 5), 15.0), ((5, 10, 7), 8.0)], ids=["a rack", "a block"])
def test_945_members_against_the_second_solver(sides, ratio):
    """A rack of 24 bays, and a block in which everything lies near everything, as no frame of tubes does."""
    frame = grid(*sides)
    other = second_opinion(frame)
    theirs = least(lambda: other.analyze_linear(check_stability=False), 3)
    mine = ours(frame)
    LOG.info("945 members: %.3f s, PyNiteFEA %.2f s, ratio %.1f", mine, theirs, theirs / mine)

    assert len(frame.model.bars) == 945
    assert theirs / mine >= ratio


def test_time_grows_little_faster_than_the_members():
    few, many = grid(8, 3, 5), grid(51, 3, 5)
    times = [ours(f) for f in (few, many)]
    sizes = [len(f.model.bars) for f in (few, many)]
    growth = log(times[1] / times[0]) / log(sizes[1] / sizes[0])
    LOG.info("%d members %.3f s, %d members %.3f s: exponent %.2f", sizes[0], times[0], sizes[1], times[1], growth)

    assert growth <= 1.6
