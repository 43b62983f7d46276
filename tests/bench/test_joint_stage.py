"""How long the joint stage takes as a rack grows, stage by stage; run with -m bench -s to see the table.

Processor time of this process: other work on the machine counts little. What does not depend on a machine, the pairs
looked at, is held by the tests of `joints`.
"""

from __future__ import annotations

import math
import sys
import time
from collections import defaultdict

import pytest

from tests.bays import rack_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.joints import resolve
from tubeframe.joints.loops import rings

pytestmark = pytest.mark.bench

_BAYS = (2, 8, 33, 139)
_STAGES = ("meetings", "_selected", "_ways", "turned_for_keys", "split", "end_pieces", "check", "room", "bolt_ways")
_MOST = {66: 0.25, 1008: 4.0}
"""Seconds for so many tubes."""
_GROWTH = 1.1


@pytest.fixture
def spent(monkeypatch):
    """Time each stage while it runs."""
    found = defaultdict(float)

    def timed(name, stage):
        def run(*arguments):
            start = time.process_time()
            done = stage(*arguments)
            found[name] += time.process_time() - start
            return done

        return run

    for name in _STAGES:
        monkeypatch.setattr(resolve, name, timed(name, getattr(resolve, name)))
    return found


def test_the_joint_stage_grows_with_the_frame(spent):
    workshop = generic_workshop()
    resolve.jointed(rack_of(1), workshop)
    rows = []
    for bays in _BAYS:
        frame = rack_of(bays)
        spent.clear()
        start = time.process_time()
        found = resolve.jointed(frame, workshop)
        whole = time.process_time() - start
        start = time.process_time()
        rings(found.tubes, found.joints)
        rows.append((len(found.tubes), whole, {**spent, "rings": time.process_time() - start}))
    names = [*_STAGES, "rings"]
    (few, little, _), (many, much, _) = rows[1], rows[-1]
    growth = math.log(much / little) / math.log(many / few)
    table = ["tubes   whole " + " ".join(f"{n:>15}" for n in names)]
    table += [f"{t:5} {whole:6.2f}s " + " ".join(f"{stages[n]:14.3f}s" for n in names) for t, whole, stages in rows]
    sys.stdout.write("\n".join(["", *table, f"growth from {few} to {many} tubes: {growth:.2f}", ""]))

    assert growth <= _GROWTH
    assert all(whole <= _MOST[tubes] for tubes, whole, _ in rows if tubes in _MOST)
