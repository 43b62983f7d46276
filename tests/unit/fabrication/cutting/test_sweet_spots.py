from __future__ import annotations

import pytest

from tubeframe.fabrication.cutting.sweet_spots import Tally, nearest_saving, saved


def _sticks(*, at, saves_down=None, saves_up=None):
    """A cost that falls by one from some changes on, down or up."""

    def tally(steps):
        at.append(steps)
        saving = (saves_down is not None and steps <= -saves_down) or (saves_up is not None and steps >= saves_up)
        return Tally(cost=4.0 - saving, sticks=4 - saving)

    return tally


@pytest.mark.parametrize(("down", "up", "found"), [(5, None, -5), (None, 9, 9), (7, 3, 3), (16, None, -16), (1, 1, -1)])
def test_the_smallest_change_that_saves_is_found(down, up, found):
    steps, tally = nearest_saving(_sticks(at=[], saves_down=down, saves_up=up), 16)

    assert (steps, tally.sticks) == (found, 3)


def test_where_the_far_ends_save_nothing_nothing_else_is_tried():
    tried: list[int] = []

    assert nearest_saving(_sticks(at=tried), 16) is None
    assert sorted(set(tried)) == [-16, 0, 16]


def test_a_change_that_cannot_be_made_is_no_saving():
    assert nearest_saving(lambda steps: None if steps else Tally(cost=4.0, sticks=4), 16) is None


def test_what_is_saved_is_money_or_sticks_or_length():
    now = Tally(cost=20.0, sticks=4)

    assert saved(now, Tally(cost=15.5, sticks=3), priced=True, currency="USD") == (4.5, "USD")
    assert saved(now, Tally(cost=15.5, sticks=3), priced=False, currency="USD") == (1.0, "sticks")
    assert saved(now, Tally(cost=15.5, sticks=4), priced=False, currency=None) == (4.5, "mm")
