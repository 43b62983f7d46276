from __future__ import annotations

import json

import pytest

from tests.unit.cli.test_commands import run

SHOP = """
currency = "USD"
[[stock]]
tube = "emt-1/2"
length = "10 ft"
[[stock]]
tube = "emt-3/4"
length = "10 ft"
price = 9.5
[[stock]]
tube = "emt-1"
length = "10 ft"
price = 14.5
[fittings.tee]
price = 2.5
[fittings.tee.emt-1]
price = 3.25
"""


def _sizes(folder, *options):
    (folder / "shop.toml").write_text(SHOP)
    done = run("build", "table", "--only", "csv", "--out", "t", "--force", *options, cwd=folder)
    assert done.returncode == 0, done.stderr
    design = json.loads((folder / "t" / "design.json").read_text())
    return {s["tube"]: s for s in design["other_sizes"]}, design


def test_other_tubes_are_told_with_what_they_cost_when_they_are_built(tmp_path):
    """Each row is what a build of that tube says itself; a tube without prices is no row."""
    sizes, _ = _sizes(tmp_path, "--workshop", "shop.toml")
    assert list(sizes) == ["emt-3/4", "emt-1"]
    assert [s["chosen"] for s in sizes.values()] == [True, False]

    again, thick = _sizes(tmp_path, "--workshop", "shop.toml", "--tube", "emt-1")
    bought = [s for s in thick["cut_plan"]["sticks"] if not s["on_hand"]]
    assert (sizes["emt-1"]["sticks"], sizes["emt-1"]["sticks_cost"]) == (len(bought), 14.5 * len(bought))
    tees = next(f["quantity"] for f in thick["fittings"] if f["kind"] == "tee")
    assert sizes["emt-1"]["fittings_cost"] == pytest.approx(3.25 * (tees + 1))
    assert sizes["emt-1"]["unpriced"] == len(thick["fittings"]) - 1
    assert again["emt-1"]["chosen"]


def test_without_prices_no_other_tube_is_laid_out(tmp_path):
    assert _sizes(tmp_path)[0] == {}
