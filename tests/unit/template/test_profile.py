"""Shapes across a roof against plane geometry (any text)."""

from __future__ import annotations

import math

import pytest

from tubeframe.template.layout.profile import gable, gothic_arch, round_hoop, segmental_hoop

INCH = 25.4


def test_half_a_round_hoop():
    """8 ft, R 47.539, 6 bends of 15 degrees at r 5.539: pitch 2 (R - r) tan 7.5 + r q; half = 36 + 6 pitches."""
    half = round_hoop(0.461, 47.539, 36.0, 5.539, 6).half
    pitch = 2 * 42 * math.tan(math.radians(7.5)) + 5.539 * math.radians(15)

    assert pitch == pytest.approx(12.509, abs=1e-3)
    assert half.length == pytest.approx(36 + 6 * pitch)
    assert (half.end.x, half.end.z) == (pytest.approx(48.0), pytest.approx(36 + 47.539))


def test_a_gothic_arch():
    """a 48, h 60: R 61.5, sweep 77.3 degrees, arc 83.0, included ridge angle 154.6 (worked example, computed)."""
    arch = gothic_arch(0.0, 48.0, 0.0, 60.0, 5.539, 60)
    last = arch.straights[-1]

    assert pytest.approx(61.5) == (48**2 + 60**2) / 96
    assert math.degrees(math.asin(60 / 61.5)) == pytest.approx(77.3, abs=0.05)
    assert arch.half.length == pytest.approx(83.0, abs=0.1)
    assert 2 * (90 - last.slope_deg) == pytest.approx(180 - (180 - 154.6), abs=0.1)
    assert (arch.half.end.x, arch.half.end.z) == (pytest.approx(48.0), pytest.approx(60.0))


def test_a_segmental_hoop_has_its_rise_and_its_width():
    """a 48, h 24: R = (48^2 + 24^2)/48 = 60; the eave turns 90 - asin(48/60) = 36.87 degrees."""
    hoop = segmental_hoop(0.0, 48.0, 40.0, 24.0, 5.539, 5)
    eave = hoop.half.bends[0][1]

    assert hoop.half.end.z == pytest.approx(64.0)
    assert math.degrees(eave.angle) == pytest.approx(90 - math.degrees(math.asin(0.8)) + 0.0, abs=1e-6)
    assert hoop.whole.end.x == pytest.approx(96.0)


@pytest.mark.parametrize(("pitch", "eave", "ridge"), [(45.0, 135.0, 90.0), (22.5, 112.5, 135.0)])
def test_angles_of_a_gable(pitch, eave, ridge):
    """Eave 90 + pitch, ridge 180 - 2 pitch: only 45 degrees takes 135 degree eaves and a 90 degree ridge."""
    roof = gable(0.0, 48.0, 36.0, 48.0 * math.tan(math.radians(pitch)))
    wall, rafter = (s.way for s in roof.straights)

    assert 180 - math.degrees(math.acos(wall.dot(rafter))) == pytest.approx(eave)
    assert 180 - 2 * roof.straights[-1].slope_deg == pytest.approx(ridge)


def test_what_a_ten_foot_stick_leaves_of_a_leg():
    """A half from one stick: 120 - pi W/4 in of leg for W centre to centre: 63.4, 44.6, 25.8, 6.9 for 6 to 12 ft."""
    left = [120 - math.pi * w * 12 / 4 for w in (6, 8, 10, 12)]

    assert left == [pytest.approx(v, abs=0.1) for v in (63.4, 44.6, 25.8, 6.9)]
    for width, leg in zip((6, 8, 10, 12), left, strict=True):
        half = round_hoop(0.0, width * 6.0, leg, 5.539, 90).half
        assert half.length == pytest.approx(120.0, abs=0.02)
