"""A table is as low as its widths can make it; checked against a fine search over all widths."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from tubeframe.drawing.sheets.table_columns import Column, column_widths, least_widths, wrapped_cell

CAP, WIDTH = 2.6, 90.0
COLUMNS = (Column(title="One", share=1), Column(title="Two", share=1), Column(title="Three", share=3))


def _rows(seed: int) -> list[list[str]]:
    rnd = np.random.default_rng(seed)
    words = ("clamp", "tube", "along the ridge", "needs", "input", "of the frame", "7", "slipping")
    return [[" ".join(rnd.choice(words, rnd.integers(1, most + 1))) for most in (2, 4, 8)] for _ in range(5)]


def _high(rows: list[list[str]], widths: tuple[float, ...] | list[float]) -> int:
    return sum(max(len(wrapped_cell(t, w, CAP)) for t, w in zip(row, widths, strict=True)) for row in rows)


@pytest.mark.parametrize("seed", range(10))
def test_no_widths_make_it_lower(seed: int):
    rows = _rows(seed)
    least = least_widths(COLUMNS, rows, CAP)
    widths = column_widths(COLUMNS, rows, WIDTH, CAP)
    assert sum(widths) == pytest.approx(WIDTH)
    assert all(w >= n - 1e-9 for w, n in zip(widths, least, strict=True))
    finer = [[n + 3.0 * k for k in range(20)] for n in least[:2]]
    others = ((a, b, WIDTH - a - b) for a, b in product(*finer) if WIDTH - a - b >= least[2])
    assert _high(rows, widths) <= min(_high(rows, w) for w in others) + 1


def test_columns_that_do_not_fit_share_what_there_is():
    rows = [["a" * 60, "b" * 60, "c"]]
    assert sum(column_widths(COLUMNS, rows, WIDTH, CAP)) == pytest.approx(WIDTH)


def test_a_table_without_rows_has_columns():
    assert sum(column_widths(COLUMNS, [], WIDTH, CAP)) == pytest.approx(WIDTH)
