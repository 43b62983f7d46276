from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tubeframe.catalog.stock import Stock
from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.plan import CutPlan, Need, PlanStatus, Saw, joined_plan, plan_cuts


def _stock(length, price=None, on_hand=None, usable=None):
    return Stock(tube="t", length=length, usable=usable or length, price=price, on_hand=on_hand)


def _need(length, quantity=1, mark="T1"):
    return Need(mark=mark, length=length, quantity=quantity)


def check(plan: CutPlan, needs, stocks, kerf):
    """Tell whether a plan can be cut: every piece once, every stick within its length, no stick more than there is."""
    cut = sorted((c.mark, c.length) for s in plan.sticks for c in s.cuts)
    assert cut == sorted((n.mark, n.length) for n in needs for _ in range(n.quantity))
    for stick in plan.sticks:
        lengths = [c.length for c in stick.cuts]
        assert sum(lengths) + (len(lengths) - 1) * kerf <= stick.usable + 1e-6
        assert stick.offcut == pytest.approx(max(0.0, stick.usable - sum(lengths) - len(lengths) * kerf))
        assert lengths == sorted(lengths, reverse=True)
    for stock in stocks:
        if stock.on_hand is not None:
            used = sum(1 for s in plan.sticks if s.on_hand and s.stock_length == stock.length)
            assert used <= sum(s.on_hand or 0 for s in stocks if s.length == stock.length)
    assert plan.lower_bound <= plan.cost + 1e-6


def test_a_kerf_between_two_pieces_counts_and_the_last_one_need_not_fit():
    """999 + 1 + 1000 = 2000: one stick; with a kerf of 2 it is two."""
    needs = [_need(999.0), _need(1000.0, mark="T2")]

    assert len(plan_cuts(needs, [_stock(2000.0)], saw=Saw(kerf=1.0), currency=None).sticks) == 1
    assert len(plan_cuts(needs, [_stock(2000.0)], saw=Saw(kerf=2.0), currency=None).sticks) == 2


def test_without_prices_the_cost_is_the_bought_length():
    plan = plan_cuts([_need(1200.0, 3)], [_stock(3000.0), _stock(1500.0)], saw=Saw(kerf=0.0), currency="USD")

    assert (plan.cost, plan.currency, plan.status) == (4500.0, None, PlanStatus.OPTIMAL)


def test_with_prices_the_cheaper_sticks_are_bought():
    stocks = [_stock(3000.0, price=9.5), _stock(1500.0, price=4.0)]
    plan = plan_cuts([_need(1200.0, 4)], stocks, saw=Saw(kerf=0.0), currency="USD")

    assert (plan.cost, plan.currency) == (16.0, "USD")
    assert {s.stock_length for s in plan.sticks} == {1500.0}


def test_what_lies_in_the_garage_is_used_and_no_more_of_it_than_helps():
    stocks = [_stock(3000.0, price=9.0), _stock(1250.0, on_hand=3), _stock(2500.0, on_hand=1)]
    plan = plan_cuts([_need(1200.0, 3)], stocks, saw=Saw(kerf=0.0), currency="USD")
    check(plan, [_need(1200.0, 3)], stocks, 0.0)

    assert plan.cost == 0.0
    assert sum(s.stock_length for s in plan.sticks) == 3750.0


def test_equal_lengths_of_two_marks_go_out_in_order():
    needs = [_need(500.0, 2, "T1"), _need(500.0, 2, "T2")]
    plan = plan_cuts(needs, [_stock(1000.0)], saw=Saw(kerf=0.0), currency=None)

    assert [[c.mark for c in s.cuts] for s in plan.sticks] == [["T1", "T1"], ["T2", "T2"]]


def test_a_piece_longer_than_every_stick_is_told_with_its_mark():
    with pytest.raises(PlanError, match=r"T9: 2500\.0 mm is longer than the longest usable stick, 2000\.0 mm"):
        plan_cuts([_need(2500.0, mark="T9")], [_stock(2100.0, usable=2000.0)], saw=Saw(kerf=0.0), currency=None)


def test_too_few_pieces_on_hand_are_told():
    with pytest.raises(PlanError, match="too few"):
        plan_cuts([_need(900.0, 3)], [_stock(1000.0, on_hand=2)], saw=Saw(kerf=0.0), currency=None)


def test_nothing_to_cut_costs_nothing():
    plan = plan_cuts([], [_stock(1000.0)], saw=Saw(kerf=0.0), currency=None)

    assert (plan.cost, plan.sticks, plan.status) == (0.0, (), PlanStatus.OPTIMAL)


def test_plans_of_two_sizes_add_up():
    one = plan_cuts([_need(900.0)], [_stock(1000.0, price=3.0)], saw=Saw(kerf=0.0), currency="USD")

    assert joined_plan([one, one]).cost == 6.0


def _least_by_trying_everything(lengths, stocks, kerf):
    """Put each piece into each open stick or a new one: every plan of a few pieces."""
    best = float("inf")
    for choice in product(range(len(lengths)), repeat=len(lengths)):
        bins: dict[int, float] = {}
        for length, b in zip(lengths, choice, strict=True):
            bins[b] = bins.get(b, -kerf) + length + kerf
        costs = [
            min((s.price for s in stocks if s.usable >= used - 1e-9), default=float("inf")) for used in bins.values()
        ]
        best = min(best, sum(costs))
    return best


@given(
    lengths=st.lists(st.integers(min_value=200, max_value=1900), min_size=1, max_size=5),
    kerf=st.sampled_from([0.0, 1.6]),
    prices=st.tuples(st.integers(1, 9), st.integers(1, 9)),
)
@settings(derandomize=True, max_examples=40, deadline=None)
def test_no_plan_of_a_few_pieces_is_cheaper(lengths, kerf, prices):
    stocks = [_stock(2000.0, price=float(prices[0])), _stock(1000.0, price=float(prices[1]))]
    needs = [_need(float(w), mark=f"T{n}") for n, w in enumerate(lengths)]
    plan = plan_cuts(needs, stocks, saw=Saw(kerf=kerf), currency="USD")
    check(plan, needs, stocks, kerf)

    assert plan.status is PlanStatus.OPTIMAL
    assert plan.cost == pytest.approx(_least_by_trying_everything([float(w) for w in lengths], stocks, kerf))
