"""Every command of the README runs; the two that make an environment are what .ci/run and a test of the wheel do."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = [line for block in re.findall(r"```sh\n(.*?)```", README, re.DOTALL) for line in block.splitlines() if line]
MAKING_AN_ENVIRONMENT = [c for c in COMMANDS if c.startswith("python3.11 -m venv")]
BUILDING = MAKING_AN_ENVIRONMENT[0].split(" && ")[-1]


def test_two_commands_need_nothing_but_python():
    assert len(MAKING_AN_ENVIRONMENT) == 2
    assert "build greenhouse --width 8ft --length 12ft --height 7ft --out my-greenhouse" in MAKING_AN_ENVIRONMENT[0]
    assert MAKING_AN_ENVIRONMENT[1].endswith(".venv/bin/pytest")


def test_ci_runs_the_test_command():
    assert MAKING_AN_ENVIRONMENT[1] in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()


def test_every_other_command_runs(tmp_path):
    for command in [BUILDING, *(c for c in COMMANDS if c not in MAKING_AN_ENVIRONMENT)]:
        program, *arguments = shlex.split(command)
        assert program == ".venv/bin/tubeframe"
        done = subprocess.run(
            [sys.executable, "-m", "tubeframe", *arguments], cwd=tmp_path, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, f"{command}\n{done.stderr}"

    assert (tmp_path / "my-greenhouse" / "sheets.pdf").is_file()
    assert not (tmp_path / "lists-only" / "sheets.pdf").exists()


@pytest.mark.parametrize("library", ["libGL", "libXrender", "libgl1", "libxrender1"])
def test_system_libraries_are_named(library):
    assert library in README


def test_files_of_a_build_are_all_told(tmp_path):
    from tubeframe.output.build_files import EVERYTHING, build_files

    assert all(f"`{name}`" in README for name in build_files(EVERYTHING))
