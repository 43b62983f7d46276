"""Fittings on arcs so wide that a clamp or a sleeve sits on them as on a straight."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.building import design_of_text
from tubeframe.catalog.rules import takes_fitting
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.geometry.closest import approaches, gap_to, nearest_on
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import line
from tubeframe.geometry.tolerance import WIDE_ARC_MM
from tubeframe.geometry.vector import Vec
from tubeframe.template.shop import Shop

D = 23.4188
OUT = D + 4.7625
"""Between the middles of two tubes of 3/4 in a coupler [mm]."""


def test_a_template_may_ask_what_sits_on_an_arc():
    """A coupler's grip of 1.875 in: 47.6^2 / 4.8 = 472.5 mm; a sleeve of 3 D: 70.26^2 / 4.8 = 1028.4 mm."""
    shop = Shop(workshop=generic_workshop())

    assert shop.fitting("right-angle-coupler", "emt-3/4").least_arc == pytest.approx(472.5, abs=0.5)
    assert shop.fitting("sleeve-coupler", "emt-3/4").least_arc == pytest.approx(1028.4, abs=0.5)


def _bow(radius, leg=400.0):
    top = leg + radius
    corners = [Vec(0, 0, 0), Vec(0, 0, top), Vec(2 * radius, 0, top), Vec(2 * radius, 0, 0)]
    return through(corners, [radius, radius])


@pytest.mark.parametrize(
    ("radius", "length", "takes"), [(1219.2, 70.25, True), (1000, 70.25, False), (480, 47.6, True)]
)
def test_how_far_a_tube_bows_in_a_fitting(radius, length, takes):
    """L^2/(8 R), the sagitta of a chord: 0.51, 0.62 and 0.59 mm, where a clamp gives 0.6."""
    assert takes_fitting(radius, length) is takes
    assert length**2 / (8 * radius) == pytest.approx(radius - math.sqrt(radius**2 - (length / 2) ** 2), rel=1e-3)


@pytest.mark.parametrize("seed", range(12))
def test_a_line_by_an_arc_is_nearest_where_it_is(seed):
    """Against both centrelines in steps of 1 mm and less."""
    draw = np.random.default_rng(seed)
    bow = _bow(900.0)
    start = Vec(*draw.uniform([-200, -800, 100], [2000, -200, 1500]))
    other = line(start, Vec(*draw.uniform([-200, 200, 100], [2000, 800, 1500])))
    a, b = (np.array([tuple(p.point(p.length * k / n)) for k in range(n + 1)]) for p, n in ((bow, 4000), (other, 1500)))
    least = min(float(np.linalg.norm(b - p, axis=1).min()) for p in a)
    found = min((n for n in approaches(bow, other, math.inf)), key=lambda n: n.distance)

    assert found.distance == pytest.approx(least, abs=1.0)
    assert found.distance <= least + 1e-6
    assert bow.point(found.at_first).distance(other.point(found.at_second)) == pytest.approx(found.distance)


@pytest.mark.parametrize("turn", [0.0, 0.4, 1.2, 2.0, 3.0, math.pi])
@pytest.mark.parametrize("off", [-60.0, 0.0, 45.0])
def test_a_point_by_an_arc_is_nearest_square_to_it(turn, off):
    bow = _bow(900.0)
    point = Vec(900 - (900 + off) * math.cos(turn), 0, 400 + (900 + off) * math.sin(turn))
    at, gap = nearest_on(bow, point)

    assert gap == pytest.approx(abs(off))
    assert at == pytest.approx(400 + 900 * turn)
    assert gap_to(bow, point) == pytest.approx(abs(off))


def _tunnel(radius, turn):
    legs = 300.0
    bow = [[0, 0, 0], {"at": [0, 0, legs + radius], "radius": radius}]
    bow += [{"at": [2 * radius, 0, legs + radius], "radius": radius}, [2 * radius, 0, 0]]
    inner = radius - OUT
    x, z = radius - inner * math.cos(turn), legs + inner * math.sin(turn)
    return design_of_text(
        {"id": "bow", "path": bow, "ends": ["open", "open"]},
        {"id": "purlin", "path": [[x, -100, z], [x, 500, z]], "ends": ["cap", "cap"]},
    )


@pytest.mark.parametrize("turn", [0.5, 1.0, 2.4])
def test_a_coupler_sits_on_an_arc_square_to_it(turn):
    made = _tunnel(550.0, turn)
    joint = next(j for j in made.jointed.joints if j.kind == "right-angle-coupler")
    (station,) = next(p for p in made.parts.pieces if p.member == "bow").stations

    assert station.from_a == pytest.approx(300 + 550 * turn, abs=0.01)
    assert not [f for f in made.findings if f.code.startswith("J-") and f.severity.value == "error"]
    middle = 550 - OUT / 2
    assert joint.at.distance(Vec(550 - middle * math.cos(turn), 0, 300 + middle * math.sin(turn))) < 0.01


def test_a_coupler_on_a_tighter_arc_is_told():
    """R 460: over the grip of 47.6 the tube bows by 0.62 mm. Under 450 no fitting is looked for on an arc."""
    assert "J-bend" in {f.code for f in _tunnel(460.0, 1.0).findings}
    assert WIDE_ARC_MM == 450.0
    assert all(j.kind != "right-angle-coupler" for j in _tunnel(440.0, 1.0).jointed.joints)


def test_a_bow_longer_than_a_stick_has_its_sleeve_on_the_arc():
    """R 1250: legs of 300 and 3927 round, two sticks of 3048 with 304.8 of straight at each cut on the form."""
    made = _tunnel(1250.0, 1.0)
    parts = [p for p in made.parts.pieces if p.member == "bow"]

    assert len(parts) == 2
    assert sum(p.cut_length for p in parts) == pytest.approx(600 + math.pi * 1250)
    assert parts[0].allowance_b == pytest.approx(304.8)
    assert parts[1].allowance_b == pytest.approx(304.8)
