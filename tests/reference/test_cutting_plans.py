"""Stick plans against known optima. Where each instance and its optimum come from: cutting/SOURCES.md."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.unit.fabrication.test_cutting import check
from tubeframe.catalog.stock import Stock
from tubeframe.fabrication.cutting.plan import Need, PlanStatus, Saw, plan_cuts

FILES = sorted((Path(__file__).parent / "cutting").glob("*.cut"))


def _read(path):
    rows = [line.split("#")[0].split() for line in path.read_text(encoding="utf-8").splitlines()]
    rows = [row for row in rows if row]
    kerf = next((float(r[1]) for r in rows if r[0] == "kerf"), 0.0)
    optimum = next(float(r[1]) for r in rows if r[0] == "optimum")
    pieces = [r for r in rows if r[0] == "piece"]
    needs = [Need(mark=f"T{n}", length=float(r[1]), quantity=int(r[2])) for n, r in enumerate(pieces)]
    stocks = [
        Stock(
            tube="t",
            length=float(r[1]),
            usable=float(r[1]),
            price=float(r[2]) if r[3] == "inf" else None,
            on_hand=None if r[3] == "inf" else int(r[3]),
        )
        for r in rows
        if r[0] == "stock"
    ]
    return needs, stocks, kerf, optimum


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_the_known_optimum_is_reached_and_proved(path):
    needs, stocks, kerf, optimum = _read(path)
    plan = plan_cuts(needs, stocks, saw=Saw(kerf=kerf), currency="USD")
    check(plan, needs, stocks, kerf)

    assert plan.status is PlanStatus.OPTIMAL
    assert plan.cost == pytest.approx(optimum)
