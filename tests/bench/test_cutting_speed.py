"""How long stick plans take, and what they save against filling by eye. `pytest -m bench --log-cli-level=INFO`."""

from __future__ import annotations

import logging
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.plans import ELSEWHERE, read_instance, read_job
from tubeframe.fabrication.cutting.effort import Effort
from tubeframe.fabrication.cutting.planning import plan_cuts
from tubeframe.fabrication.cutting.search import cheapest_cover

log = logging.getLogger(__name__)
FRAMES = sorted((Path(__file__).parents[1] / "reference" / "cutting").glob("frame_*.cut"))
CLASSES = sorted(p.name for p in (ELSEWHERE / "data").glob("*")) if ELSEWHERE.exists() else []
SECONDS = 20.0

pytestmark = pytest.mark.bench


def _filled_by_eye(instance, *, best):
    """Cost of first-fit or best-fit decreasing: pieces on hand are tried first, then long sticks only are bought."""
    kerf = instance.saw.kerf
    longest = max((s for s in instance.stocks if s.bought), key=lambda s: s.usable)
    rests = [s.usable + kerf for s in sorted(instance.stocks, key=lambda s: s.usable) if not s.bought]
    owned, kinds = len(rests), [s for s in instance.stocks if s.bought]
    taken = [0.0] * owned
    for length in sorted((n.length for n in instance.needs for _ in range(n.quantity)), reverse=True):
        room = [k for k, rest in enumerate(rests) if rest >= length + kerf - 1e-6]
        if not room:
            rests.append(longest.usable + kerf)
            taken.append(0.0)
            room = [len(rests) - 1]
        k = min(room, key=lambda k: rests[k]) if best else room[0]
        rests[k] -= length + kerf
        taken[k] += length + kerf
    return sum(min(s.price for s in kinds if s.usable + kerf >= used - 1e-6) for used in taken[owned:])


def test_frames_are_proved_in_well_under_a_second():
    times, first, best = [], [], []
    for path in FRAMES:
        instance = read_instance(path)
        start = time.process_time()
        plan = plan_cuts(instance.needs, instance.stocks, saw=instance.saw, currency="USD")
        times.append(time.process_time() - start)
        assert plan.lower_bound == plan.cost
        first.append(_filled_by_eye(instance, best=False) / plan.cost - 1.0)
        best.append(_filled_by_eye(instance, best=True) / plan.cost - 1.0)
    log.info("%d frames: median %.2f s, worst %.2f s of a processor", len(times), statistics.median(times), max(times))
    for name, more in (("first-fit decreasing", first), ("best-fit decreasing", best)):
        log.info(
            "%s costs %.1f %% more in the median, %.1f %% at most", name, 100 * statistics.median(more), 100 * max(more)
        )

    assert statistics.median(times) < 0.5
    assert max(times) < 3.0


def test_a_list_of_forty_pieces_takes_under_six_tenths_of_a_second_as_a_process(tmp_path):
    rows = [f"T{k},{20 + 2.25 * k}in,{4}" for k in range(10)]
    (tmp_path / "pieces.csv").write_text("\n".join(["mark,length,quantity", *rows]))
    sticks = ["--stock", "10ft@9.50", "--stock", "5ft@5.25", "--on-hand", "44.2in", "--kerf", "1/16in"]
    times, start = [], time.perf_counter()
    for _ in range(5):
        before = _processor_time()
        subprocess.run(
            [sys.executable, "-m", "tubeframe", "cut", "pieces.csv", *sticks, "--json"],
            cwd=tmp_path,
            check=True,
            capture_output=True,
        )
        times.append(_processor_time() - before)
    whole = (time.perf_counter() - start) / 5
    log.info("a whole process: %.2f s of a processor; %.2f s by the clock, whatever else runs", min(times), whole)

    assert min(times) < 0.6


def _processor_time():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


@pytest.mark.parametrize("name", CLASSES)
def test_published_classes(name):
    """Sources of the classes stand beside the data; a line each: proved, of how many, median and worst time."""
    times, proved, paths = [], 0, sorted((ELSEWHERE / "data" / name).glob("*.cut"))
    for path in paths:
        job, optimum = read_job(path)
        start = time.perf_counter()
        cover = cheapest_cover(job, Effort(10**15, seconds=SECONDS))
        times.append(time.perf_counter() - start)
        proved += cover.bound == cover.cost
        if optimum is not None:
            assert cover.bound <= optimum <= cover.cost
    log.info(
        "%s: %d of %d, median %.2f s, worst %.2f s", name, proved, len(paths), statistics.median(times), max(times)
    )
