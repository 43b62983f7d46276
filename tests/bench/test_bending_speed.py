"""How long it takes to mark a thousand bent tubes."""

from __future__ import annotations

import logging
import time

import pytest

from tests.bending.drawn_shapes import drawn, shape
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.fabrication.bending.marks import bend_tool
from tubeframe.fabrication.bending.sheet import bend_sheet

WITHIN = 2.0
"""[s]"""


@pytest.mark.bench
def test_a_thousand_shapes_of_up_to_twelve_bends():
    corners = [drawn(seed) for seed in range(1000)]
    tool = bend_tool(generic_workshop(), "emt-3/4")
    start = time.perf_counter()
    for points in corners:
        bend_sheet(shape(points), "T1", 1, tool)
    taken = time.perf_counter() - start

    logging.getLogger(__name__).info("1000 shapes, %d bends: %.2f s", sum(len(c) - 2 for c in corners), taken)
    assert taken < WITHIN
