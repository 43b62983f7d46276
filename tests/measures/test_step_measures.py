"""Limits of every step's picture in the gallery; what does not keep them yet is named, and fails when it is mended."""

from __future__ import annotations

import logging

import pytest

from tests.gallery.regenerate import design_of, examples
from tests.measures.steps import Measured, measured, order_faults

LEAST_SEEN, MOST_TUBES, MOST_MARKS, MOST_OVERLAP, MOST_CROSSED = 0.5, 4, 2, 0.05, 1
"""M1, M2, M6 and M7; M4, parts drawn off along no axis, tube or mouth, and offsets without a guide: none."""

KNOWN: dict[str, set[tuple[int, str]]] = {
    "backyard-greenhouse": {(9, "M6"), (11, "M6"), (12, "M7"), (15, "M7")},
    "barrel-stand": {(5, "M1"), (5, "M7")},
    "market-stand": {(9, "M6")},
    "market-tunnel": {(8, "M7"), (9, "M6"), (9, "M7"), (21, "M7"), (23, "M6"), (25, "M7"), (29, "M1"), (29, "M7")},
    "metric-desk": {(4, "M6")},
    "pantry-shelf": {(10, "M7")},
    "pointed-greenhouse": {(11, "M7"), (12, "M7")},
    "rafter-house": {(3, "M6"), (14, "M6"), (14, "M7"), (15, "M6"), (15, "M7"), (16, "M7"), (21, "M1"), (21, "M7")},
    "repair-bench": {(13, "M7"), (14, "M7")},
    "seedling-tunnel": {(10, "M7"), (13, "M7")},
    "shade-house": {(3, "M6")},
    "tote-rack": {(1, "M6"), (6, "M6"), (6, "M7"), (9, "M7")},
}
"""By example: the step, and the measure that it fails."""


def failing(row: Measured) -> set[str]:
    """Return the measures that a picture fails."""
    rules = {
        "M1": row.seen < LEAST_SEEN,
        "M2": row.tubes > MOST_TUBES or row.marks > MOST_MARKS,
        "M4": row.odd_ways > 0,
        "M6": row.overlap > MOST_OVERLAP,
        "M7": row.unguided > 0 or row.crossed > MOST_CROSSED,
    }
    return {name for name, fails in rules.items() if fails}


@pytest.mark.parametrize("path", examples(), ids=lambda p: p.parent.name)
def test_every_picture_keeps_the_limits(path):
    design = design_of(path)
    found = {(row.step, name) for row in measured(design) for name in failing(row)}

    assert order_faults(design) == []
    assert found == KNOWN.get(path.parent.name, set())


@pytest.mark.bench
def test_the_worst_of_every_measure(caplog):
    """Print the worst picture by each measure, and how many keep all limits."""
    rows = [(p.parent.name, r) for p in examples() for r in measured(design_of(p))]
    worst = {
        "M1 least share seen": min(rows, key=lambda r: r[1].seen),
        "M6 largest overlap": max(rows, key=lambda r: r[1].overlap),
        "M7 tubes that a guide crosses": max(rows, key=lambda r: r[1].crossed),
    }
    lines = [f"{what}: {name} step {row.step}: {row}" for what, (name, row) in worst.items()]
    kept = sum(not failing(r) for _, r in rows)
    moved = sum(r.viewer_moved for _, r in rows)
    lines.append(f"{kept} of {len(rows)} pictures keep M1, M2, M4, M6, M7; M5: the viewer moved {moved} times")
    with caplog.at_level("INFO"):
        for line in lines:
            logging.getLogger(__name__).info(line)
    assert kept == len(rows) - len({(name, step) for name, found in KNOWN.items() for step, _ in found})
