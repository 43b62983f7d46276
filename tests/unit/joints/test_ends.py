"""What slanting tubes stand on: the plate flat on the floor, the tube short by what the pivot takes."""

from __future__ import annotations

import math

import pytest

from tests.building import words_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.member import EndKind
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.overlap import farthest
from tubeframe.geometry.vector import Vec, Z, angle_deg
from tubeframe.joints.resolve import jointed
from tubeframe.parts.cut import cut_pieces

INCH = 25.4
HEIGHT = (1 / 8 + 0.922 / 2) * INCH
"""Of the pivot over the floor, by hand: the plate, and half a diameter so that the tube's edge clears it."""


def leg(degrees, around=0.0, kind=EndKind.SWIVEL_FOOT, shop=None):
    """One tube 1 m long that stands on the floor at an angle to it, leaning any way."""
    way = Vec(
        math.cos(math.radians(degrees)) * math.cos(math.radians(around)),
        math.cos(math.radians(degrees)) * math.sin(math.radians(around)),
        math.sin(math.radians(degrees)),
    )
    frame = FrameBuilder(name="leg", tube="emt-3/4")
    frame.tube("leg", (Vec(100, 200, 0), Vec(100, 200, 0) + way * 1000.0), ends=(kind, EndKind.CAP))
    return jointed(frame.build(), shop or generic_workshop()), way


@pytest.mark.parametrize("kind", [EndKind.SWIVEL_FOOT, EndKind.SWIVEL_BASE])
@pytest.mark.parametrize(("degrees", "around"), [(90, 0), (60, 0), (60, 137), (45, 270), (30, 20)])
def test_the_plate_is_flat_on_the_floor(kind, degrees, around):
    found, way = leg(degrees, around, kind)
    foot = next(j for j in found.joints if j.kind == kind.value)
    plate = foot.body[0]

    assert isinstance(plate, Cylinder)
    assert angle_deg(plate.end - plate.start, Z) == pytest.approx(0.0, abs=1e-6)
    assert min(farthest(p, -Z).z for p in foot.body) == pytest.approx(0.0, abs=1e-9)
    assert foot.at.z == pytest.approx(HEIGHT)
    assert angle_deg(foot.uses[0].axis, way) == pytest.approx(0.0, abs=1e-6)
    port = foot.fitting.ports[0]
    assert angle_deg(foot.placement.direction(port.axis), way) == pytest.approx(0.0, abs=1e-6)
    assert [f.code for f in found.findings if f.code in {"J-foot-slope", "J-off-floor", "J-below-floor"}] == []


@pytest.mark.parametrize(("degrees", "taken_off"), [(90, 0.586), (60, 0.6766), (45, 0.8287), (30, 1.172)])
def test_what_it_takes_off_the_tube(degrees, taken_off):
    """0.586 in upright; over the sine of the angle when it leans: 0.586/0.8660, 0.586/0.7071, 0.586/0.5."""
    found, _ = leg(degrees)
    (piece,) = cut_pieces(found, generic_workshop())

    assert piece.cut_length == pytest.approx(1000.0 - taken_off * INCH, abs=0.01)


def test_a_measured_pivot():
    shop = workshop_from_document({"fittings": {"swivel-foot": {"thickness": "1 in"}}}, "my.toml")
    found, _ = leg(30, shop=shop)

    assert found.joints[0].at.z == pytest.approx(INCH)


def test_a_tube_that_leans_too_far_is_told():
    found, _ = leg(20)
    told = [words_of(f) for f in found.findings if f.code == "J-foot-slope"]

    assert [t.message for t in told] == ["it leans 70 degrees, but its swivel-foot turns 60 at most"]
