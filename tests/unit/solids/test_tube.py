"""Tubes: volume by the closed formula, pi (OD t - t^2) L; bent by Pappus, L along the centreline."""

from __future__ import annotations

import math

import pytest

from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import Vec
from tubeframe.solids.tube import tube_solid

OUTSIDE, WALL = 23.4188, 1.2446
AREA = math.pi * (OUTSIDE * WALL - WALL**2)
RADIUS = 140.6906

BENT = {
    "one bend": through([Vec(0, 0, 0), Vec(0, 0, 600), Vec(500, 0, 900)], [RADIUS]),
    "out of plane": through(
        [Vec(0, 0, 0), Vec(0, 0, 600), Vec(500, 0, 900), Vec(700, 600, 1000), Vec(700, 900, 1500)], [RADIUS] * 3
    ),
    "no straight at all": through([Vec(0, 0, 0), Vec(0, 0, 600), Vec(600, 0, 600)], [600.0]),
    "a bend of half a degree": through(
        [Vec(0, 0, 0), Vec(0, 0, 500), Vec(500 * math.sin(math.radians(0.5)), 0, 999.98)], [RADIUS]
    ),
}


def solid(path):
    return tube_solid(path, OUTSIDE, OUTSIDE - 2 * WALL)


@pytest.mark.parametrize("size", shipped_catalog().tubes, ids=lambda s: s.key)
def test_straight_tube_of_every_size(size):
    length = 1234.5678
    made = tube_solid(line(Vec(10, 20, 30), Vec(10, 20, 30) + Vec(0.6, 0, 0.8) * length), size.outside, size.bore)

    formula = math.pi * (size.outside * size.wall - size.wall**2) * length
    assert made.Volume() == pytest.approx(formula, rel=1e-9)


@pytest.mark.parametrize("name", BENT)
def test_bent_tube_by_pappus(name):
    assert solid(BENT[name]).Volume() == pytest.approx(AREA * BENT[name].length, rel=1e-6)


@pytest.mark.parametrize("name", BENT)
def test_bent_tube_is_one_sound_solid_of_exact_faces(name):
    made = solid(BENT[name])
    kinds = [f.geomType() for f in made.Faces()]
    pieces = len(BENT[name].pieces)

    assert made.ShapeType() == "Solid"
    assert made.isValid()
    assert kinds.count("PLANE") == 2
    assert kinds.count("TORUS") == 2 * len(BENT[name].bends)
    assert kinds.count("CYLINDER") == 2 * (pieces - len(BENT[name].bends))


def test_ends_stand_square_where_the_centreline_ends():
    path = BENT["out of plane"]
    ends = [f for f in solid(path).Faces() if f.geomType() == "PLANE"]
    found = sorted((f.Center().toTuple(), tuple(map(abs, f.normalAt().toTuple()))) for f in ends)
    wanted = sorted(
        (tuple(p), tuple(map(abs, path.tangent(at)))) for p, at in ((path.start, 0), (path.end, path.length))
    )

    for (at, normal), (point, way) in zip(found, wanted, strict=True):
        assert at == pytest.approx(point, abs=1e-6)
        assert normal == pytest.approx(way, abs=1e-9)
