"""Chords put together to circles: exactly, and nothing else taken for one."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from tubeframe.drawing.curves import split_curves
from tubeframe.drawing.picture import Bow, Layer, Ring


def _chords(angles, radius=50.0, centre=(7.0, -3.0), squeeze=1.0):
    points = [(centre[0] + radius * math.cos(a), centre[1] + squeeze * radius * math.sin(a)) for a in angles]
    return np.array([[a, b] for a, b in pairwise(points)])


def _cut(chords, first, last):
    """Leave off a share of the first and of the last chord."""
    cut = chords.copy()
    cut[0, 0] += (cut[0, 1] - cut[0, 0]) * first
    cut[-1, 1] += (cut[-1, 0] - cut[-1, 1]) * last
    return cut


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_whole_circle(way):
    straight, (ring,) = split_curves(_chords(way * np.linspace(0.3, 0.3 + math.tau, 41)), Layer.FITTING)

    assert len(straight) == 0
    assert isinstance(ring, Ring)
    assert (*ring.centre, ring.radius) == pytest.approx((7.0, -3.0, 50.0))


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_part_of_a_circle_runs_counterclockwise(way):
    angles = np.linspace(0.5, 1.7, 13)[:: int(way)]
    _, (bow,) = split_curves(_chords(angles), Layer.TUBE)

    assert isinstance(bow, Bow)
    assert (*bow.centre, bow.radius) == pytest.approx((7.0, -3.0, 50.0))
    assert (bow.start_deg, bow.end_deg) == pytest.approx((math.degrees(0.5), math.degrees(1.7)))


def test_a_bow_may_start_and_end_within_a_chord():
    """Half of a chord of 0.1 rad is left off at the start, a quarter at the end; its share is nearly the arc's."""
    _, (bow,) = split_curves(_cut(_chords(np.linspace(0.0, 1.0, 11)), 0.5, 0.25), Layer.TUBE)

    assert (bow.start_deg, bow.end_deg) == pytest.approx((math.degrees(0.05), math.degrees(0.975)), abs=0.01)


def test_a_tubes_outline_is_parted_into_lines_and_bows():
    """A straight, a bend to the left, a straight: end to end."""
    bend = _chords(np.linspace(-math.pi / 2.0, 0.0, 9), centre=(0.0, 0.0))
    before = np.array([[[-80.0, -50.0], [0.0, -50.0]]])
    after = np.array([[[50.0, 0.0], [50.0, 90.0]]])
    straight, curves = split_curves(np.concatenate([before, bend, after]), Layer.TUBE)

    assert straight.tolist() == [before[0].tolist(), after[0].tolist()]
    assert len(curves) == 1
    assert (curves[0].start_deg, curves[0].end_deg) == pytest.approx((270.0, 360.0))


def test_two_bends_one_after_the_other_are_two():
    first = _chords(np.linspace(-math.pi / 2.0, 0.0, 9), centre=(0.0, 0.0))
    second = _chords(np.linspace(math.pi, math.pi / 2.0, 9), centre=(100.0, 0.0))
    straight, curves = split_curves(np.concatenate([first, second]), Layer.TUBE)

    assert len(straight) == 0
    assert [c.centre for c in curves] == [pytest.approx((0.0, 0.0)), pytest.approx((100.0, 0.0))]


def test_an_ellipse_stays_in_chords():
    chords = _chords(np.linspace(0.0, math.tau, 65), squeeze=0.6)
    straight, curves = split_curves(chords, Layer.FITTING)

    assert curves == ()
    assert len(straight) == 64


def test_a_square_and_parallel_lines_are_no_curves():
    square = _chords(np.linspace(0.0, math.tau, 5))[:2]
    rows = np.array([[[0.0, y], [10.0, y]] for y in range(5)])

    assert split_curves(np.concatenate([square, rows]), Layer.TUBE)[1] == ()
    assert split_curves(np.zeros((0, 2, 2)), Layer.TUBE) == (pytest.approx(np.zeros((0, 2, 2))), ())
