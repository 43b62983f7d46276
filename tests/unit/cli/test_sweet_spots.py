from __future__ import annotations

import json

from tests.unit.cli.test_commands import run
from tubeframe.geometry.units import INCH_MM


def _design(folder, *options):
    done = run("build", "greenhouse", "--only", "csv", "--out", "g", "--force", *options, cwd=folder)
    assert done.returncode == 0, done.stderr
    return done.stdout, json.loads((folder / "g" / "design.json").read_text())


def _bought(design):
    return sum(1 for s in design["cut_plan"]["sticks"] if not s["on_hand"])


def test_a_near_size_that_saves_a_stick_is_told_and_holds_when_it_is_built(tmp_path):
    told, design = _design(tmp_path, "--sweet-spots", "--height", "7ft")
    spot = next(s for s in design["sweet_spots"] if s["parameter"] == "height")

    assert spot["from"] == 84.0 * INCH_MM
    assert (spot["unit"], spot["saves"]) == ("sticks", _bought(design) - spot["sticks"])
    line = next(row for row in told.splitlines() if row.startswith("info: height:"))
    option = line.rpartition("--height ")[2]

    made = _design(tmp_path, "--height", option)[1]
    assert made["parameters"]["height"] == f"{spot['to'] / INCH_MM:g}in"
    assert _bought(made) == spot["sticks"]
    nearer = (spot["to"] + (1 if spot["to"] < spot["from"] else -1) * INCH_MM / 8.0) / INCH_MM
    assert _bought(_design(tmp_path, "--height", f"{nearer}in")[1]) > spot["sticks"]


def test_without_the_option_nothing_is_tried(tmp_path):
    assert _design(tmp_path)[1]["sweet_spots"] == []
