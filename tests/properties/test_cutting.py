"""What holds of every stick plan, and the least cost of small jobs found by trying everything."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plans import check
from tubeframe.catalog.saw import Saw
from tubeframe.catalog.stock import Stock
from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.plan import Need, PlanStatus
from tubeframe.fabrication.cutting.planning import plan_cuts

NEVER = float("inf")


@st.composite
def jobs(draw, most_pieces):
    """Draw pieces, one or two lengths to buy, some pieces on hand, and a saw."""
    lengths = draw(st.lists(st.integers(80, 1000), min_size=1, max_size=most_pieces))
    lengths = [v // 10 * 10 if draw(st.booleans()) else v for v in lengths]
    bought = [(1000, draw(st.integers(1, 20)))]
    if draw(st.booleans()):
        bought.append((draw(st.sampled_from([500, 620, 1500])), draw(st.integers(1, 20))))
    owned = draw(st.lists(st.integers(90, 900), max_size=2))
    kerf = draw(st.sampled_from([0, 1, 2, 10]))
    return lengths, bought, owned, kerf


def _needs(lengths):
    return [Need(mark=f"T{n}", length=float(v), quantity=1) for n, v in enumerate(lengths)]


def _stocks(bought, owned):
    return [
        *(Stock(tube="t", length=float(v), usable=float(v), price=float(p)) for v, p in bought),
        *(Stock(tube="t", length=float(v), usable=float(v), on_hand=1) for v in owned),
    ]


def _planned(lengths, bought, owned, kerf):
    return plan_cuts(_needs(lengths), _stocks(bought, owned), saw=Saw(kerf=float(kerf)), currency="USD")


def _least(lengths, bought, owned, kerf):
    """Return the least cost and number of bought sticks: every set of pieces in every stick."""
    everything = (1 << len(lengths)) - 1
    taken = [sum(v + kerf for i, v in enumerate(lengths) if s >> i & 1) - kerf for s in range(everything + 1)]
    one = [min(((p, 1) for v, p in bought if t <= v), default=(NEVER, 1)) for t in taken]

    @cache
    def best(left, first):
        if not left:
            return (0, 0)
        if first < len(owned):
            sets = [s for s in _sets(left) if taken[s] <= owned[first]]
            return min([best(left, first + 1), *(best(left & ~s, first + 1) for s in sets)])
        lowest = left & -left
        options = []
        for s in _sets(left):
            if s & lowest and one[s][0] < NEVER:
                cost, sticks = best(left & ~s, first)
                options.append((cost + one[s][0], sticks + 1))
        return min(options, default=(NEVER, 0))

    return best(everything, 0)


def _sets(mask):
    """Return every set within a set but the empty one."""
    found, s = [], mask
    while s:
        found.append(s)
        s = (s - 1) & mask
    return found


@given(job=jobs(most_pieces=7))
@settings(derandomize=True, max_examples=300, deadline=None)
def test_no_plan_of_a_few_pieces_is_cheaper_or_takes_fewer_sticks(job):
    plan = _planned(*job)
    check(plan, _needs(job[0]), _stocks(job[1], job[2]), Saw(kerf=float(job[3])))

    assert plan.status is PlanStatus.OPTIMAL
    assert all(c.proves == c.cost for c in plan.certificates)
    assert (plan.cost, sum(1 for s in plan.sticks if not s.on_hand)) == pytest.approx(_least(*job))


@given(
    lengths=st.lists(st.integers(2, 9), min_size=1, max_size=8),
    owned=st.lists(st.integers(8, 16), min_size=1, max_size=4),
)
@settings(derandomize=True, max_examples=200, deadline=None)
def test_pieces_on_hand_alone_are_enough_or_told_to_be_too_few(lengths, owned):
    """Of few sticks a plan by eye often fails where there is one."""
    longest = max(owned)
    lengths = [min(v, longest) for v in lengths]
    enough = _least(lengths, [], owned, 0)[0] == 0
    stocks = [Stock(tube="t", length=float(v), usable=float(v), on_hand=1) for v in owned]
    if not enough:
        with pytest.raises(PlanError, match="too few"):
            plan_cuts(_needs(lengths), stocks, saw=Saw(kerf=0.0), currency=None)
        return
    check(plan_cuts(_needs(lengths), stocks, saw=Saw(kerf=0.0), currency=None), _needs(lengths), stocks, Saw(kerf=0.0))


@given(lengths=st.lists(st.integers(100, 900), min_size=2, max_size=7), kerf=st.sampled_from([0, 3]))
@settings(derandomize=True, max_examples=60, deadline=None)
def test_no_leftover_of_as_many_sticks_is_longer(lengths, kerf):
    plan = _planned(lengths, [(1000, 1)], [], kerf)
    sticks = len(plan.sticks)
    longest = 0
    for inside in _sets((1 << len(lengths)) - 1):
        mine = [v for i, v in enumerate(lengths) if inside >> i & 1]
        rest = [v for i, v in enumerate(lengths) if not inside >> i & 1]
        if sum(mine) + kerf * (len(mine) - 1) <= 1000 and _least(rest, [(1000, 1)], [], kerf)[0] <= sticks - 1:
            longest = max(longest, 1000 - sum(mine) - kerf * len(mine))

    assert max(s.offcut for s in plan.sticks) == pytest.approx(longest)


@given(job=jobs(most_pieces=24))
@settings(derandomize=True, max_examples=60, deadline=None)
def test_each_stick_adds_up_and_less_work_never_costs_more(job):
    lengths, bought, owned, kerf = job
    plan = _planned(*job)
    check(plan, _needs(lengths), _stocks(bought, owned), Saw(kerf=float(kerf)))
    for stick in plan.sticks:
        cuts = sum(c.length for c in stick.cuts)
        kerfs = min(len(stick.cuts) * kerf, stick.usable - cuts)
        assert cuts + kerfs + stick.offcut == pytest.approx(stick.usable)

    assert plan.status is PlanStatus.OPTIMAL
    assert _cost(lengths, bought, owned, kerf + 1) >= plan.cost
    assert _cost(lengths[1:], bought, owned, kerf) <= plan.cost
    assert _cost(lengths, [(v - 1, p) for v, p in bought], [v - 1 for v in owned], kerf) >= plan.cost


def _cost(lengths, bought, owned, kerf):
    try:
        return _planned(lengths, bought, owned, kerf).cost
    except PlanError:
        return NEVER
