"""Visible lines against the exact hidden-line algorithm of OpenCASCADE, on one frame in one run.

Run with -m bench; --log-cli-level=INFO shows the numbers. Both see the very same convex pieces, in front, from the side
and isometrically. Nothing in the rack touches or runs into anything else, for OpenCASCADE doesn't cut solids at each
other, and surfaces on each other hide by chance. Smooth edges and the seams of round surfaces are no lines of a
drawing; they are left out by asking for sharp edges and outlines only.
"""

from __future__ import annotations

import logging
import math
import time
from dataclasses import dataclass
from statistics import fmean

import numpy as np
import pytest
from scipy.spatial import cKDTree

from tests.bench.opencascade import loose_pieces, segments, visible
from tests.bench.rack import rack, tubes_of
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, RIGHT_SIDE
from tubeframe.drawing.shapes import Arc, Lines, Shape

pytestmark = pytest.mark.bench

LOG = logging.getLogger(__name__)
VIEWS = {"front": FRONT, "side": RIGHT_SIDE, "isometric": ISOMETRIC}
STEP = 0.25
"""Lines are sampled this densely [mm]."""
NEAREST = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """Least of several runs [s]."""

    ours: float
    theirs: float
    many: float

    @property
    def ratio(self) -> float:
        return self.theirs / self.ours


def least(call, repeats: int) -> float:
    """Least time of a call [s]."""
    best = math.inf
    for _ in range(repeats):
        begin = time.perf_counter()
        call()
        best = min(best, time.perf_counter() - begin)
    return best


@pytest.fixture(scope="module")
def times() -> dict[str, Times]:
    few, many = rack(6), rack(106)
    solids = loose_pieces(few)
    found = {}
    for name, view in VIEWS.items():
        found[name] = Times(
            ours=least(lambda v=view: visible_lines(few, v), 30),
            theirs=least(lambda v=view: visible(solids, v), 3),
            many=least(lambda v=view: visible_lines(many, v), 7),
        )
        t = found[name]
        text = "%s: %.1f ms, OpenCASCADE %.0f ms, ratio %.1f; 1001 tubes %.0f ms, exponent %.3f"
        LOG.info(text, name, t.ours * 1e3, t.theirs * 1e3, t.ratio, t.many * 1e3, exponent(t))
    return found


def exponent(t: Times) -> float:
    """Growth from 63 to 1001 tubes: the slope in a picture with logarithms on both axes."""
    return math.log(t.many / t.ours) / math.log(tubes_of(rack(106)) / tubes_of(rack(6)))


def test_the_rack_has_63_tubes_or_a_thousand() -> None:
    assert tubes_of(rack(6)) == 63
    assert tubes_of(rack(106)) == 1001


def test_at_least_15_times_as_fast_in_each_view_and_40_times_in_the_mean(times: dict[str, Times]) -> None:
    ratios = [t.ratio for t in times.values()]
    assert min(ratios) >= 15.0
    assert fmean(ratios) >= 40.0


def test_time_grows_with_the_number_of_tubes(times: dict[str, Times]) -> None:
    assert max(exponent(t) for t in times.values()) <= 1.05


def test_a_view_of_a_thousand_tubes_takes_less_than_a_second(times: dict[str, Times]) -> None:
    assert max(t.many for t in times.values()) < 1.0


@pytest.mark.parametrize("name", VIEWS)
def test_visible_lines_are_those_of_the_exact_algorithm(name: str) -> None:
    """Both ways, so that nothing is drawn too much and nothing is missing."""
    bodies, view = rack(6), VIEWS[name]
    ours = np.concatenate([v.segments for v in visible_lines(bodies, view)])
    theirs = segments(visible(loose_pieces(bodies), view))
    for way, (lines, others) in {"ours to theirs": (ours, theirs), "theirs to ours": (theirs, ours)}.items():
        off = distances(in_pieces(lines, STEP).mean(axis=1), others)
        high = float(np.quantile(off, 0.999))
        LOG.info("%s, %s: p99.9 %.4f mm, most %.3f mm of %d samples", name, way, high, off.max(), len(off))
        assert high <= 0.03


@pytest.mark.parametrize("name", VIEWS)
def test_true_curves_are_nearer_still(name: str) -> None:
    bodies, view = rack(6), VIEWS[name]
    ours = np.concatenate([sampled(s) for v in visible_lines(bodies, view) for s in v.shapes])
    theirs = segments(visible(loose_pieces(bodies), view))
    for lines, others in ((ours, theirs), (theirs, ours)):
        off = distances(in_pieces(lines, STEP).mean(axis=1), others)
        LOG.info("%s, true curves: p99.9 %.4f mm, most %.3f mm", name, np.quantile(off, 0.999), off.max())
        assert np.quantile(off, 0.999) <= 0.003


def sampled(shape: Shape) -> np.ndarray:
    """Chords (n, 2, 2) of a straight line, a circle or an ellipse; there are no splines in the rack [mm]."""
    if isinstance(shape, Lines):
        return np.array(shape.segments)
    ends = (shape.start_deg, shape.end_deg) if isinstance(shape, Arc) else (shape.start, shape.end)
    points = np.array([shape.point(t) for t in np.linspace(*ends, 200)])
    return np.stack([points[:-1], points[1:]], axis=1)


def in_pieces(lines: np.ndarray, most: float) -> np.ndarray:
    """Lines (n, 2, 2) cut into equal pieces no longer than `most` [mm]."""
    way = lines[:, 1] - lines[:, 0]
    count = np.maximum(1, np.ceil(np.linalg.norm(way, axis=1) / most).astype(int))
    row = np.repeat(np.arange(len(lines)), count)
    place = np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
    step = way[row] / count[row][:, None]
    start = lines[row, 0] + place[:, None] * step
    return np.stack([start, start + step], axis=1)


def distances(points: np.ndarray, lines: np.ndarray) -> np.ndarray:
    """Distances of points (n, 2) from the nearest of the lines (m, 2, 2) [mm].

    Looked for among those with the nearest middles, the short and the long ones apart: many short ones would crowd out
    a long one that passes by.
    """
    pieces = in_pieces(lines, 2.0)
    long = np.linalg.norm(pieces[:, 1] - pieces[:, 0], axis=1) > 0.5
    return np.minimum(_distances(points, pieces[long]), _distances(points, pieces[~long]))


def _distances(points: np.ndarray, pieces: np.ndarray) -> np.ndarray:
    if len(pieces) < NEAREST:
        return np.full(len(points), np.inf)
    _, near = cKDTree(pieces.mean(axis=1)).query(points, NEAREST)
    start, way = pieces[near, 0], pieces[near, 1] - pieces[near, 0]
    aside, square = points[:, None] - start, (way**2).sum(axis=2)
    share = np.clip((aside * way).sum(axis=2) / np.where(square > 0.0, square, 1.0), 0.0, 1.0)
    return np.linalg.norm(aside - share[..., None] * way, axis=2).min(axis=1)
