"""Steps go into columns as cheaply as by trying every way; checked against all ways there are."""

from __future__ import annotations

import math
from itertools import combinations_with_replacement

import numpy as np
import pytest

from tubeframe.drawing.sheets.step_packing import Room, Size, packed

HEIGHTS = (60.0, 45.0, 30.0)
ROOM = Room(columns=2, first=80.0, full=120.0, gap=3.0, below=20.0)


def _steps(seed: int, count: int) -> list[tuple[Size, ...]]:
    """Steps with words of their own, and a picture that may shrink; some have none."""
    rnd = np.random.default_rng(seed)
    steps = []
    for _ in range(count):
        words, has_picture = float(rnd.uniform(15.0, 50.0)), bool(rnd.random() < 0.7)
        pictures = HEIGHTS if has_picture else (0.0,) * len(HEIGHTS)
        steps.append(tuple(Size(height=words + p, lost=1.0 - p / HEIGHTS[0] if p else 0.0) for p in pictures))
    return steps


def _fewest_pages(steps: list[tuple[Size, ...]]) -> int:
    """Try all ways to part the steps, each picture at its smallest."""
    least = [s[-1].height for s in steps]
    for pages in range(1, 8):
        columns = pages * ROOM.columns
        rooms = [ROOM.first if c < ROOM.columns else ROOM.full for c in range(columns)]
        rooms = [r - (ROOM.below if c >= columns - ROOM.columns else 0.0) for c, r in enumerate(rooms)]
        for cuts in combinations_with_replacement(range(len(steps) + 1), columns - 1):
            parts = zip((0, *cuts), (*cuts, len(steps)), strict=True)
            if all(
                math.fsum(least[a:b]) + ROOM.gap * max(0, b - a - 1) <= room - 0.1
                for (a, b), room in zip(parts, rooms, strict=True)
            ):
                return pages
    raise AssertionError


@pytest.mark.parametrize("seed", range(20))
def test_the_fewest_pages_that_any_way_takes(seed: int):
    steps = _steps(seed, 5)
    assert math.ceil(len(packed(steps, ROOM)) / ROOM.columns) == _fewest_pages(steps)


@pytest.mark.parametrize("seed", range(20))
def test_all_steps_in_their_order_and_each_column_holds_its_own(seed: int):
    steps = _steps(seed, 12)
    columns = packed(steps, ROOM)
    assert [n for c in columns for n in range(c.first, c.end)] == list(range(12))
    for number, column in enumerate(columns):
        room = ROOM.first if number < ROOM.columns else ROOM.full
        high = math.fsum(s[column.size].height for s in steps[column.first : column.end])
        assert high + ROOM.gap * max(0, column.end - column.first - 1) <= room


def test_pictures_keep_their_size_where_nothing_is_saved_by_less():
    steps = _steps(1, 2)
    assert [c.size for c in packed(steps, Room(columns=1, first=300.0, full=300.0, gap=3.0))] == [0]


def test_what_ends_the_sheets_goes_on_the_last_page():
    """Two columns full to the brim have no room below: the last step goes on to a page with what ends the sheets."""
    steps = [(Size(height=118.0, lost=0.0),)] * 2
    room = Room(columns=2, first=120.0, full=120.0, gap=3.0)
    assert len(packed(steps, room)) == 2
    lower = Room(columns=2, first=120.0, full=120.0, gap=3.0, below=1.9)
    assert len(packed(steps, lower)) == 2
    with_end = Room(columns=2, first=240.0, full=240.0, gap=3.0, below=130.0)
    assert len(packed(steps * 2, with_end)) == 4


def test_a_step_that_no_page_takes_stands_alone():
    steps = [(Size(height=500.0, lost=0.0),), (Size(height=30.0, lost=0.0),)]
    columns = packed(steps, Room(columns=1, first=240.0, full=240.0, gap=3.0))
    assert [(c.first, c.end) for c in columns if c.end > c.first] == [(0, 1), (1, 2)]
