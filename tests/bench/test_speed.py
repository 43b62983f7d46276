"""How long a person waits. Whole processes, the best of three; run with -m bench."""

from __future__ import annotations

import logging
import math
import resource
import subprocess
import sys
import time

import pytest

from tests.bench.long_rack import long_rack

pytestmark = pytest.mark.bench
LOG = logging.getLogger(__name__)


def _seconds(*arguments, cwd):
    """Return the least of three runs [s]."""
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-m", "tubeframe", *arguments], cwd=cwd, check=True, capture_output=True)
        best = min(best, time.perf_counter() - start)
    return best


SIZES = ("--width", "8ft", "--length", "12ft", "--height", "7ft", "--quiet")
"""A greenhouse of 24 tubes with open ends."""


@pytest.mark.parametrize("asked", [("--help",), ("templates",)])
def test_what_there_is_is_told_in_well_under_half_a_second(tmp_path, asked):
    assert _seconds(*asked, cwd=tmp_path) < 0.35


@pytest.mark.parametrize(
    ("formats", "most"),
    [((), 5.0), (("--only", "pdf,csv"), 4.0), (("--only", "csv"), 1.2)],
    ids=["everything", "lists and sheets", "lists"],
)
def test_a_greenhouse_is_there_before_the_tape_is_found(tmp_path, formats, most):
    seconds = _seconds("build", "greenhouse", "--ends", "open", *SIZES, *formats, cwd=tmp_path)
    LOG.info("%s: %.2f s", " ".join(formats) or "everything", seconds)
    assert seconds < most


def test_a_rack_of_a_thousand_tubes_whole_in_two_minutes_and_growth(tmp_path):
    """Everything that is built of a rack of 60 tubes, and of one of 978, as processes; the memory of the larger."""
    taken = {}
    for groups in (1, 18):
        path = tmp_path / f"rack-{groups}.toml"
        path.write_text(long_rack(groups), encoding="utf-8")
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "tubeframe", "build", path.name, "--quiet", "--out", f"out-{groups}"],
            cwd=tmp_path,
            check=True,
            capture_output=True,
        )
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        taken[groups] = after.ru_utime - before.ru_utime
        LOG.info("%d tubes: %.1f s, %.1f s of processor", groups * 54 + 6, time.perf_counter() - start, taken[groups])
    growth = math.log(taken[18] / taken[1]) / math.log(978 / 60)
    LOG.info("growth: exponent %.2f; most memory %.2f GB", growth, after.ru_maxrss / 1e6)
    assert growth < 1.2
    assert after.ru_maxrss < 1.5e6
