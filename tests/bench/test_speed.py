"""How long a person waits. Whole processes, the best of three; run with -m bench."""

from __future__ import annotations

import subprocess
import sys
import time

import pytest

pytestmark = pytest.mark.bench


def _seconds(*arguments, cwd):
    """Return the least of three runs [s]."""
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-m", "tubeframe", *arguments], cwd=cwd, check=True, capture_output=True)
        best = min(best, time.perf_counter() - start)
    return best


def test_help_within_half_a_second(tmp_path):
    assert _seconds("--help", cwd=tmp_path) < 0.5


def test_a_greenhouse_within_15_seconds(tmp_path):
    sizes = ("--width", "8ft", "--length", "12ft", "--height", "7ft")

    assert _seconds("build", "greenhouse", *sizes, "--quiet", cwd=tmp_path) < 15.0
