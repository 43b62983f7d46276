"""How long all verdicts take; run with -m bench, --log-cli-level=INFO shows the numbers."""

from __future__ import annotations

import logging
import resource
import subprocess
import sys
from math import inf

import pytest

from tests.bench.test_structure import least
from tubeframe.catalog.conditions import Conditions
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.frame.document import frame_from_document
from tubeframe.joints.resolve import resolved
from tubeframe.structure.check import verdicts

pytestmark = pytest.mark.bench
LOG = logging.getLogger(__name__)
BAY, DEEP, RISE = 700.0, 600.0, 400.0


def rack(bays: int, levels: int):
    """Posts through, with rails along and across at every level: a side-outlet tee or cross at each."""
    members = [
        {"id": f"post.{i}.{k}", "path": [[BAY * i, y, 0], [BAY * i, y, RISE * levels + 150]], "ends": ["foot", "cap"]}
        for i in range(bays + 1)
        for k, y in enumerate((0.0, DEEP))
    ]
    for n in range(1, levels + 1):
        z = RISE * n
        members += [
            {"id": f"long.{n}.{k}.{i}", "path": [[BAY * i, y, z], [BAY * (i + 1), y, z]]}
            for k, y in enumerate((0.0, DEEP))
            for i in range(bays)
        ]
        members += [{"id": f"short.{n}.{i}", "path": [[BAY * i, 0, z], [BAY * i, DEEP, z]]} for i in range(bays + 1)]
    load = [{"name": "on a rail", "member": f"long.{levels}.0.0"}]
    load += [{"name": "push", "member": f"long.{levels}.0.0", "use": "push", "direction": d} for d in ([1, 0, 0],)]
    document = {"schema": "tubeframe.frame/1", "name": "rack", "units": "mm", "member": members, "load": load}
    shop = generic_workshop()
    frame = frame_from_document(document, shop, "rack.toml")
    return frame, resolved(frame, shop), shop


@pytest.mark.parametrize(("bays", "levels", "seconds"), [(3, 5, 0.3), (41, 7, 5.0)], ids=["60 tubes", "950 tubes"])
def test_all_verdicts(bays, levels, seconds):
    asked = rack(bays, levels)
    found = least(lambda: verdicts(*asked, Conditions(load=500.0)), 5 if bays < 10 else 2)
    LOG.info("%d tubes: %.2f s", len(asked[1].tubes), found)

    assert found <= seconds


def test_a_check_from_the_command_line_within_two_seconds(tmp_path):
    best = inf
    command = [sys.executable, "-m", "tubeframe", "check", "table", "--load", "200lb", "--json"]
    for _ in range(3):
        start = _of_children()
        subprocess.run(command, cwd=tmp_path, check=True, capture_output=True)
        best = min(best, _of_children() - start)
    LOG.info("tubeframe check table: %.2f s", best)

    assert best < 2.0


def _of_children() -> float:
    """Return how long processes that this one started kept a processor busy [s]."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime
