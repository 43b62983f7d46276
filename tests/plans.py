"""Reading jobs of sticks and pieces, and judging plans of them by hand-made rules and by a verifier that is not ours.

The verifier and more published instances may lie in a folder that the environment names; tests skip them elsewhere.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.certificate_check import faults
from tubeframe.catalog.saw import Saw
from tubeframe.catalog.stock import Stock
from tubeframe.fabrication.cutting.document import cut_plan_document
from tubeframe.fabrication.cutting.job import Job, StickType
from tubeframe.fabrication.cutting.plan import CutPlan, Need, PlanStatus

ELSEWHERE = Path(os.environ.get("TUBEFRAME_CUTTING", "no such folder"))
"""A folder with `check_cut.py` and `data/<class>/*.cut`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Instance:
    """A job as a file states it, one unit being one millimetre here, and its least cost when that is known."""

    path: Path
    needs: tuple[Need, ...]
    stocks: tuple[Stock, ...]
    saw: Saw
    optimum: int | None


def read_instance(path: Path) -> Instance:
    """Read a .cut file; see tests/reference/cutting/SOURCES.md."""
    rows = [line.split("#")[0].split() for line in path.read_text(encoding="utf-8").splitlines()]
    rows = [row for row in rows if row]
    return Instance(
        path=path,
        needs=tuple(
            Need(mark=f"T{n}", length=float(r[1]), quantity=int(r[2]))
            for n, r in enumerate(r for r in rows if r[0] == "piece")
        ),
        stocks=tuple(
            Stock(
                tube="t",
                length=float(r[1]),
                usable=float(r[1]),
                price=float(r[2]) if int(r[2]) else None,
                on_hand=None if r[3] == "inf" else int(r[3]),
            )
            for r in rows
            if r[0] == "stock"
        ),
        saw=Saw(kerf=next((float(r[1]) for r in rows if r[0] == "kerf"), 0.0)),
        optimum=next((int(r[1]) for r in rows if r[0] == "optimum"), None),
    )


def read_job(path: Path) -> tuple[Job, int | None]:
    """Read a .cut file as the whole numbers that the search itself works on, and its least cost when that is known."""
    rows = [line.split("#")[0].split() for line in path.read_text(encoding="utf-8").splitlines()]
    kerf = next((int(r[1]) for r in rows if r and r[0] == "kerf"), 0)
    demands: Counter[int] = Counter()
    for r in rows:
        if r and r[0] == "piece":
            demands[int(r[1]) + kerf] += int(r[2])
    lengths = tuple(sorted(demands, reverse=True))
    sticks = tuple(
        StickType(capacity=int(r[1]) + kerf, cost=int(r[2]), limit=None if r[3] == "inf" else int(r[3]))
        for r in rows
        if r and r[0] == "stock"
    )
    job = Job(lengths=lengths, demands=tuple(demands[v] for v in lengths), sticks=sticks)
    return job, next((int(r[1]) for r in rows if r and r[0] == "optimum"), None)


def check(plan: CutPlan, needs, stocks, saw: Saw) -> None:
    """Tell whether a plan can be cut and is proved as it says: every piece once, each stick within its length."""
    cut = sorted((c.mark, c.length) for s in plan.sticks for c in s.cuts)
    assert cut == sorted((n.mark, n.length) for n in needs for _ in range(n.quantity))
    for stick in plan.sticks:
        lengths = [c.length for c in stick.cuts]
        kerfs = max(len(lengths) - 1, 0) * saw.kerf
        assert sum(lengths) + kerfs + (saw.grip + saw.kerf if saw.grip else 0.0) <= stick.usable + 1e-6
        assert stick.ends[-1] <= stick.usable - (saw.grip + saw.kerf if saw.grip else 0.0) + 1e-6
        if not stick.shop_cuts:
            assert stick.offcut == pytest.approx(max(0.0, stick.usable - sum(lengths) - len(lengths) * saw.kerf))
            assert lengths == sorted(lengths, reverse=True)
    for stock in stocks:
        if stock.on_hand is not None:
            used = sum(1 for s in plan.sticks if s.on_hand and s.stock_length == stock.length)
            assert used <= sum(s.on_hand or 0 for s in stocks if s.length == stock.length)
    assert plan.lower_bound <= plan.cost + 1e-6
    assert (plan.status is PlanStatus.OPTIMAL) == (plan.lower_bound >= plan.cost)
    for certificate in cut_plan_document(plan)["certificate"]:
        assert faults(certificate) == []


def check_elsewhere(plan: CutPlan, instance: Instance, folder: Path) -> None:
    """Have the verifier judge a plan in whole numbers, where it is at hand."""
    verifier = ELSEWHERE / "check_cut.py"
    if not verifier.exists():
        return
    sticks = [
        {
            "stock": round(s.stock_length),
            "price": round(s.price or 0),
            "cuts": [round(c.length) for c in s.cuts],
            "leftover": round(s.offcut),
        }
        for s in plan.sticks
    ]
    told = folder / "plan.json"
    told.write_text(json.dumps({"sticks": sticks, "cost": round(plan.cost), "lower_bound": round(plan.lower_bound)}))
    done = subprocess.run(
        [sys.executable, str(verifier), str(instance.path), str(told)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert json.loads(done.stdout)["lb"] <= round(plan.cost)
