from __future__ import annotations

from itertools import pairwise

import pytest

from tests.plans import check
from tubeframe.catalog.saw import Saw
from tubeframe.catalog.stock import Stock
from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.plan import Change, Need, PlanStatus, joined_plan
from tubeframe.fabrication.cutting.planning import plan_cuts
from tubeframe.geometry.units import Units


def _stock(length, price=None, on_hand=None, usable=None):
    return Stock(tube="t", length=length, usable=usable or length, price=price, on_hand=on_hand)


def _need(length, quantity=1, mark="T1"):
    return Need(mark=mark, length=length, quantity=quantity)


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
    check(plan, [_need(1200.0, 3)], stocks, Saw(kerf=0.0))

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


def test_a_saw_s_grip_is_lost_at_each_stick_with_the_cut_before_it():
    """2 x 950 + 1 kerf of 3 = 1903; a grip of 94 and the cut before it: 1903 + 94 + 3 = 2000."""
    needs = [_need(950.0, 2)]

    assert len(plan_cuts(needs, [_stock(2000.0)], saw=Saw(kerf=3.0, grip=94.0), currency=None).sticks) == 1
    assert len(plan_cuts(needs, [_stock(2000.0)], saw=Saw(kerf=3.0, grip=94.1), currency=None).sticks) == 2


def test_an_exact_fit_is_kept_where_lengths_are_odd():
    """Three pieces of 39 15/16 in and two kerfs of 3/32 in fill 120 in, an odd rough length beside them or not."""
    inch = 25.4
    needs = [_need(39.9375 * inch, 3), _need(333.3333333, 1, "T2")]
    plan = plan_cuts(needs, [_stock(120.0 * inch), _stock(400.0)], saw=Saw(kerf=3.0 / 32.0 * inch), currency=None)

    assert [len(s.cuts) for s in plan.sticks] == [3, 1]


def test_at_equal_cost_the_fewest_sticks_are_bought():
    """Two short ones cost as much as a long one when nothing has a price."""
    plan = plan_cuts([_need(700.0, 4)], [_stock(1500.0), _stock(3000.0)], saw=Saw(kerf=0.0), currency=None)

    assert [s.stock_length for s in plan.sticks] == [3000.0]


def test_at_equal_cost_one_long_leftover_is_better_than_two_short_ones():
    """600 + 300 twice leaves 300 twice; 600 + 300 + 300 and 600 leaves 600."""
    needs = [_need(600.0, 2), _need(300.0, 2, "T2")]
    plan = plan_cuts(needs, [_stock(1200.0)], saw=Saw(kerf=0.0), currency=None)

    assert max(s.offcut for s in plan.sticks) == 600.0


def test_at_equal_cost_and_leftover_sticks_are_cut_alike():
    """Six sticks of 60 + 40: no more than one pattern is needed."""
    needs = [_need(600.0, 6), _need(390.0, 6, "T2")]
    plan = plan_cuts(needs, [_stock(1000.0)], saw=Saw(kerf=0.0), currency=None)

    assert len({tuple(c.length for c in s.cuts) for s in plan.sticks}) == 1


def test_the_same_job_gives_the_same_plan():
    needs = [_need(float(200 + 37 * k), 3 + k % 4, f"T{k}") for k in range(12)]
    stocks = [_stock(3000.0, price=9.0), _stock(1500.0, price=5.0), _stock(1100.0, on_hand=2)]

    assert plan_cuts(needs, stocks, saw=Saw(kerf=1.6), currency="USD") == plan_cuts(
        needs, stocks, saw=Saw(kerf=1.6), currency="USD"
    )


def _carried(needs, length, limit, kerf=0.0):
    stocks = [_stock(length)]
    plan = plan_cuts(needs, stocks, saw=Saw(kerf=kerf), currency=None, carry=limit, units=Units.MILLIMETRE)
    check(plan, needs, stocks, Saw(kerf=kerf))
    for stick in plan.sticks:
        places = (-kerf, *stick.shop_cuts, length)
        assert all(b - a - kerf <= limit + 1e-6 for a, b in pairwise(places))
        assert all(
            not at - cut.length < place < at
            for cut, at in zip(stick.cuts, stick.ends, strict=True)
            for place in stick.shop_cuts
        )
    return plan


def test_the_shop_cuts_a_stick_between_two_pieces():
    """1700 and 1200 of 3000: between 1700 and 1800 both parts hold their piece; 1700 is the roundest."""
    plan = _carried([_need(1700.0), _need(1200.0, mark="T2")], 3000.0, 2000.0)

    assert [(s.shop_cuts, s.ends) for s in plan.sticks] == [((1700.0,), (1700.0, 2900.0))]


def test_sticks_share_a_place_where_they_can():
    """1700 + 1200 may be cut from 1700 to 1800, 1600 + 1210 from 1600 to 1790: both at 1700."""
    needs = [_need(1700.0), _need(1200.0, mark="T2"), _need(1600.0, mark="T3"), _need(1210.0, mark="T4")]
    plan = _carried(needs, 3000.0, 2000.0)

    assert {s.shop_cuts for s in plan.sticks} == {(1700.0,)}


def test_another_plan_of_the_same_cost_is_cut_when_it_travels_in_fewer_parts():
    """900 x 4 and 600 x 2 fill two sticks of 2400; 900 + 900 + 600 does not go into two parts of 1500... but
    900 + 600 and 900 does."""
    plan = _carried([_need(900.0, 4), _need(600.0, 2, "T2")], 2400.0, 1500.0)

    assert len(plan.sticks) == 2
    assert all(len(s.shop_cuts) == 1 for s in plan.sticks)
    assert plan.carried == ()


def test_more_cuts_come_before_more_sticks():
    """Three of 1000 in a stick of 3000: two parts of 1600 hold one each, so it travels in three parts."""
    plan = _carried([_need(1000.0, 3)], 3000.0, 1600.0)

    assert [s.shop_cuts for s in plan.sticks] == [(1000.0, 2000.0)]


def test_it_is_said_when_the_car_costs_a_stick():
    """Seven of 400 in a stick of 2800, parts up to 700: five parts would hold five of them, and seven parts are too
    many cuts; two sticks do."""
    plan = _carried([_need(400.0, 7)], 2800.0, 700.0)

    assert [(c.sticks, c.cost) for c in plan.carried] == [(1, 2800.0)]
    assert plan.status is PlanStatus.BOUND


def test_a_kerf_at_a_shop_cut_is_lost_like_any_other():
    plan = _carried([_need(1498.0, 2)], 3000.0, 1600.0, kerf=3.0)

    assert plan.sticks[0].shop_cuts == (1498.0,)
    assert plan.sticks[0].ends == (1498.0, 2999.0)


def test_what_a_plan_hangs_on_is_told():
    """Two of 1499.5 and a kerf of 1 fill 3000: a kerf of 2 takes a stick more, and so do 5 mm less of a stick."""
    plan = plan_cuts([_need(1499.5, 2)], [_stock(3000.0)], saw=Saw(kerf=1.0), currency=None, units=Units.MILLIMETRE)

    assert [(h.change, h.by, h.sticks, h.cost) for h in plan.hangs_on] == [
        (Change.KERF, 1.0, 1, 3000.0),
        (Change.STICK, 5.0, 1, 3000.0),
    ]


def test_a_piece_that_needs_all_of_a_stick_is_told():
    plan = plan_cuts([_need(2998.0)], [_stock(3000.0)], saw=Saw(kerf=1.0), currency=None, units=Units.MILLIMETRE)

    assert [(h.change, h.sticks, h.cost) for h in plan.hangs_on] == [(Change.STICK, None, None)]


def test_a_plan_with_room_hangs_on_nothing():
    plan = plan_cuts([_need(1400.0, 2)], [_stock(3000.0)], saw=Saw(kerf=1.0), currency=None)

    assert plan.hangs_on == ()


def test_what_cannot_be_used_of_a_stick_travels_with_its_last_part():
    """1620 and 1320 of 3000 with 2950 usable: from 1620 to 3000 - 1320 - 50 = 1630, where 1620 is the roundest."""
    stocks = [_stock(3000.0, usable=2950.0)]
    plan = plan_cuts(
        [_need(1620.0), _need(1320.0, mark="T2")],
        stocks,
        saw=Saw(kerf=0.0),
        currency=None,
        carry=1700.0,
        units=Units.MILLIMETRE,
    )

    assert [(s.shop_cuts, s.ends, s.offcut) for s in plan.sticks] == [((1620.0,), (1620.0, 2940.0), 10.0)]
