"""Which balloon points where: checked on cases where the obvious choice would cross."""

from __future__ import annotations

from itertools import combinations

import numpy as np

from tubeframe.drawing.labels.leader_targets import Target, distances
from tubeframe.drawing.labels.leaders import Slot, best_leaders

NOTHING = np.array([[[1000.0, 1000.0], [1001.0, 1000.0]]])
SLOTS = tuple(Slot(centre=(x, 100.0)) for x in (0.0, 14.0, 28.0, 42.0, 56.0))


def _side(a, b, p):
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _cross(one, other):
    (a, b), (c, d) = one, other
    return _side(a, b, c) * _side(a, b, d) < 0.0 and _side(c, d, a) * _side(c, d, b) < 0.0


def _best(targets, lines=NOTHING, slots=SLOTS):
    return best_leaders({m: [Target(at=p) for p in ps] for m, ps in targets.items()}, slots, lines, 6.0, 1)


def _crossings(leaders):
    segments = [leader.segment(6.0) for leader in leaders]
    return sum(_cross(a, b) for a, b in combinations(segments, 2))


def test_marks_against_the_order_of_their_parts_do_not_cross():
    """Parts stand from right to left: balloons in the order of the marks would cross ten times."""
    leaders = _best({f"T{n}": [(56.0 - 14.0 * n, 40.0)] for n in range(5)})

    assert _crossings(leaders) == 0
    assert [leader.mark for leader in leaders] == ["T0", "T1", "T2", "T3", "T4"]


def test_order_is_kept_where_nothing_crosses():
    leaders = _best({f"T{n}": [(6.0 + 14.0 * n, 40.0)] for n in range(5)})

    assert [leader.slot for leader in leaders] == list(SLOTS)


def test_every_mark_has_a_balloon_of_its_own():
    leaders = _best({f"T{n}": [(20.0, 40.0 + n), (30.0, 20.0 - n)] for n in range(5)})

    assert len({leader.slot for leader in leaders}) == 5
    assert _crossings(leaders) == 0


def test_a_leader_keeps_off_the_dots_of_others():
    """The near target of T1 lies on the way to the only target of T2."""
    leaders = _best({"T1": [(20.0, 60.0), (50.0, 60.0)], "T2": [(18.0, 20.0)]}, slots=SLOTS[1:3])
    dots = [leader.target.at for leader in leaders]
    lines = np.array([leader.segment(6.0) for leader in leaders])

    assert distances(dots[0], lines[1:])[0] >= 1.5
    assert distances(dots[1], lines[:1])[0] >= 1.5


def test_a_leader_rather_crosses_nothing():
    """Ten lines stand over the left target, none over the right one, which is as far."""
    fence = np.array([[[-10.0, y], [25.0, y]] for y in range(50, 80, 3)], dtype=float)
    (leader,) = _best({"T1": [(14.0, 40.0), (42.0, 40.0)]}, lines=fence, slots=SLOTS[2:3])

    assert leader.target.at == (42.0, 40.0)


def test_a_leader_does_not_run_upright_or_level():
    (leader,) = _best({"T1": [(28.0, 50.0), (38.0, 50.0)]}, slots=SLOTS[2:3])

    assert leader.target.at == (38.0, 50.0)
