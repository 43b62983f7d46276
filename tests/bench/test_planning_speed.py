"""How long an order of assembly takes to be found, and how that grows; run with -m bench."""

from __future__ import annotations

import logging
import time

import pytest

from tests.bays import rack_of
from tests.building import greenhouse
from tubeframe.assembly.plan import assemble
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.joints.resolve import jointed
from tubeframe.parts.marks import make_parts

pytestmark = pytest.mark.bench
LOG = logging.getLogger(__name__)
WORKSHOP = generic_workshop()


def _rack(bays):
    frame = rack_of(bays)
    found = jointed(frame, WORKSHOP)
    return frame, found, make_parts(frame, found, WORKSHOP), WORKSHOP


def _seconds(asked):
    """Return the least processor time of three runs [s]."""
    best = float("inf")
    for _ in range(3):
        start = time.process_time()
        assemble(*asked)
        best = min(best, time.process_time() - start)
    return best


def test_24_tubes_within_three_tenths_of_a_second_and_500_within_ten():
    design = greenhouse()
    took = {len(design.parts.pieces): _seconds((design.frame, design.jointed, design.parts, design.workshop))}
    for bays in (8, 33, 66):
        asked = _rack(bays)
        took[len(asked[2].pieces)] = _seconds(asked)
    LOG.info("planning [s] by tubes: %s", {n: round(s, 2) for n, s in took.items()})
    least, *_, most = sorted(took)

    assert took[least] < 0.3
    assert took[66] < 1.0
    assert took[most] < 10.0
