"""Heavy libraries stay out of commands that do not need them: a process of its own tells what it loaded."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

HEAVY = ("cadquery", "OCP", "ezdxf", "highspy", "matplotlib", "numpy", "scipy", "vtkmodules")
SCRIPT = """
import json, sys
from tubeframe.__main__ import main
sys.argv = ["tubeframe", *json.loads(sys.argv[1])]
try:
    main()
except SystemExit as done:
    status = done.code or 0
print("\\n" + json.dumps([status, sorted({name.split(".")[0] for name in sys.modules})]))
"""


def _loaded(*arguments: str) -> tuple[int, set[str]]:
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, json.dumps(arguments)], capture_output=True, text=True, check=True
    )
    status, modules = json.loads(done.stdout.splitlines()[-1])
    return status, set(modules)


@pytest.mark.parametrize(
    "arguments",
    [
        ["--help"],
        ["--version"],
        ["templates"],
        ["build", "table", "--help"],
        ["check", "table", "--help"],
        ["bend", "offset", "--rise", "6in"],
        ["bender", "calibrate", "--help"],
    ],
    ids=" ".join,
)
def test_help_and_templates_load_no_heavy_library(arguments):
    status, modules = _loaded(*arguments)

    assert status == 0
    assert modules.isdisjoint(HEAVY)


def test_lists_load_no_cad_and_no_plotting(tmp_path):
    status, modules = _loaded("build", "table", "--only", "csv", "--quiet", "--out", str(tmp_path / "t"))

    assert status == 0
    assert modules.isdisjoint({"cadquery", "OCP", "ezdxf", "matplotlib", "vtkmodules"})


def test_a_plan_for_a_list_loads_the_solver_and_no_other_heavy_library(tmp_path):
    (tmp_path / "pieces.csv").write_text("mark,length,quantity\nT1,60,4\n")
    status, modules = _loaded("cut", str(tmp_path / "pieces.csv"), "--stock", "10ft")

    assert status == 0
    assert modules.isdisjoint(set(HEAVY) - {"highspy", "numpy"})


def test_a_check_loads_the_solver_but_no_cad_and_no_plotting():
    status, modules = _loaded("check", "table", "--load", "100lb", "--json")

    assert status == 0
    assert "scipy" in modules
    assert modules.isdisjoint({"cadquery", "OCP", "ezdxf", "matplotlib", "vtkmodules"})
