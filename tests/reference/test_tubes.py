"""Tube data against published tables."""

from __future__ import annotations

import math

import pytest

from tubeframe.catalog.fitting import setback_floor
from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec, X

EMT = [
    # Steel Tube Institute, page "Electrical Metallic Tubing", table "EMT Weights and Dimensions":
    # key, metric designator, outside diameter [in], wall [in], lb per 100 ft
    ("emt-1/2", "16", 0.706, 0.042, 30),
    ("emt-3/4", "21", 0.922, 0.049, 46),
    ("emt-1", "27", 1.163, 0.057, 67),
    ("emt-1-1/4", "35", 1.510, 0.065, 101),
    ("emt-1-1/2", "41", 1.740, 0.065, 116),
    ("emt-2", "53", 2.197, 0.065, 148),
]


@pytest.mark.parametrize(("key", "designator", "outside", "wall", "weight"), EMT)
def test_emt_sizes_and_weights(key, designator, outside, wall, weight):
    tube = shipped_catalog().tube(key)
    pounds = tube.mass_per_length * 100 * 12 * INCH_MM / 0.45359237

    assert tube.designator == designator
    assert tube.outside == pytest.approx(outside * INCH_MM)
    assert tube.wall == pytest.approx(wall * INCH_MM)
    assert pounds == pytest.approx(weight, rel=0.01)


def test_area_of_a_published_hollow_section():
    """EN 10219-2, CHS 33.7 x 3.0: A = 2.89 cm2, 2.27 kg/m, as in the UK 'Blue Book' (rounded)."""
    tube = shipped_catalog().tube("tube-33.7x3")

    assert tube.area / 100 == pytest.approx(2.89, rel=0.006)
    assert tube.mass_per_length * 1000 == pytest.approx(2.27, rel=0.006)


@pytest.mark.parametrize(
    ("key", "radius"),
    # NFPA 70, chapter 9, table 2, one-shot and full-shoe benders [in]
    [("emt-1-1/4", 7.25), ("emt-1-1/2", 8.25), ("emt-2", 9.5)],
)
def test_bend_radii_of_the_electrical_code(key, radius):
    assert generic_workshop().bend_radius(key) == pytest.approx(radius * INCH_MM)


def test_marked_take_up_gives_the_trade_gain():
    """3/4: take-up 6 in gives r = 5.539 in; gain of a 90 degree bend 2 (r + D/2) - pi r/2 = 3.30, trade 3-1/4 in."""
    radius = generic_workshop().bend_radius("emt-3/4") / INCH_MM

    assert radius == pytest.approx(6 - 0.922 / 2)
    assert 2 * (radius + 0.922 / 2) - math.pi * radius / 2 == pytest.approx(3.25, abs=0.06)


@pytest.mark.parametrize(("angle", "diameters"), [(90, 0.5), (60, 0.866), (45, 1.207), (30, 1.866)])
def test_floor_of_a_square_cut_end_on_a_run(angle, diameters):
    """s_min(A) = (D/2)/sin A + (D/2)/tan A for equal tubes, to three digits: plane geometry."""
    way = Vec(math.cos(math.radians(angle)), 0.0, math.sin(math.radians(angle)))

    assert setback_floor(way, ((X, True),), 1.0, 1.0) == pytest.approx(diameters, abs=5e-4)


def test_every_row_names_its_source():
    catalog = shipped_catalog()

    assert all(row.source for rows in (catalog.tubes, catalog.benders, catalog.bolts, catalog.stakes) for row in rows)
