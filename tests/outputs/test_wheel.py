"""A wheel, installed in a clean environment outside the checkout, builds a greenhouse."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_an_installed_wheel_builds_a_greenhouse(tmp_path):
    def run(*command):
        done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr

    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(tmp_path), str(ROOT))
    (wheel,) = tmp_path.glob("*.whl")
    run(sys.executable, "-m", "venv", "clean")
    constraint = str(ROOT / "requirements.lock")
    run("clean/bin/python", "-m", "pip", "install", "--quiet", "--no-compile", "--constraint", constraint, str(wheel))
    run(
        "clean/bin/tubeframe", "build", "greenhouse", "--width", "8ft", "--length", "12ft", "--height", "7ft", "--quiet"
    )

    assert (tmp_path / "greenhouse" / "sheets.pdf").stat().st_size > 10_000
    assert (tmp_path / "greenhouse" / "model.step").stat().st_size > 10_000
    assert not list(tmp_path.glob("clean/lib/python*/site-packages/templates"))
