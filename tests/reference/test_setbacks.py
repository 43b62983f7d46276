"""Setbacks by hand: plane geometry of a square-cut end beside a tube, and of a tape laid along the branch."""

from __future__ import annotations

import math

import pytest

from tubeframe.catalog.calibration import setback_read
from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.geometry.units import INCH_MM

OVER = 1.0 / 16.0
"""What the shipped table leaves over the floor [in]."""


@pytest.mark.parametrize(
    ("angle", "factor"),
    [
        # (D/2)/sin A + (D/2)/tan A = (D/2)(1 + cos A)/sin A, in diameters:
        (90, 0.5),  # (1 + 0)/1 / 2
        (60, 0.866),  # (1 + 1/2)/(sqrt 3/2) / 2 = sqrt(3)/2
        (45, 1.207),  # (1 + 0.7071)/0.7071 / 2
        (30, 1.866),  # (1 + 0.8660)/0.5 / 2
    ],
)
@pytest.mark.parametrize(("tube", "diameter"), [("emt-3/4", 0.922), ("emt-1-1/4", 1.510)])
@pytest.mark.parametrize("mirrored", [False, True])
def test_floor_of_a_swinging_branch_beside_an_equal_run(angle, factor, tube, diameter, mirrored):
    shop = generic_workshop()
    kind, size = shop.catalog.kind("swivel-tee"), shop.catalog.tube(tube)
    sized = shop.sized(kind, {"run": size, "branch": size}, 180.0 - angle if mirrored else angle)

    assert sized.port("branch").setback / INCH_MM == pytest.approx(factor * diameter + OVER, abs=1e-3)


@pytest.mark.parametrize(
    ("kind", "run", "branch", "floor"),
    [
        ("tee", "emt-1", "emt-3/4", 1.163 / 2),  # half of the run
        ("tee", "emt-3/4", "emt-1", 0.922 / 2),
        ("angle-tee", "emt-1", "emt-3/4", (1.163 + 0.922 * math.cos(math.pi / 4)) / 2 / math.sin(math.pi / 4)),
        ("angle-tee", "emt-3/4", "emt-1", (0.922 + 1.163 * math.cos(math.pi / 4)) / 2 / math.sin(math.pi / 4)),
    ],
)
def test_floor_beside_a_run_of_another_size(kind, run, branch, floor):
    """(D_run/2)/sin A + (D_branch/2)/tan A."""
    shop = generic_workshop()
    found = shop.catalog.kind(kind)
    sized = shop.sized(found, {"run": shop.catalog.tube(run), "branch": shop.catalog.tube(branch)})

    assert sized.port("branch").setback / INCH_MM == pytest.approx(floor + OVER, abs=1e-9)


def test_floor_of_two_ends():
    """(D/2)/tan(A/2): at 135 degrees 0.461/tan 67.5 = 0.461/2.41421 = 0.191 in; square to each other D/2."""
    shop = generic_workshop()
    size = shop.catalog.tube("emt-3/4")
    for key, floor in (("obtuse-elbow", 0.191), ("elbow", 0.461)):
        sized = shop.sized(shop.catalog.kind(key), {"first": size, "second": size})
        assert [p.setback / INCH_MM for p in sized.ports] == pytest.approx([floor + OVER] * 2, abs=1e-3)


@pytest.mark.parametrize(
    ("angle", "reading", "setback"),
    [
        (90.0, 12.961, 0.500),  # 12.961 - 12 - 0.461
        (45.0, 13.827, 1.175),  # the far face 0.461/0.70711 = 0.652 beyond the centreline
        (135.0, 13.827, 1.175),
        (30.0, 14.722, 1.800),  # 0.461/0.5 = 0.922 beyond
    ],
)
def test_calibration(angle, reading, setback):
    """s = M - B - D/(2 sin A), D 0.922 in, B 12.000 in."""
    assert setback_read(reading=reading, offcut=12.0, outside=0.922, angle=angle) == pytest.approx(setback, abs=5e-4)


@pytest.mark.parametrize(
    ("kind", "swing", "floors"),
    [
        ("eave-tee", None, [0.461, 0.461]),  # the rail's half diameter; the other end asks 0.191 only
        ("eave-corner", None, [0.461, 0.461, 0.461]),  # square to the rail's end: half a diameter each
        ("swivel-elbow", 120.0, [0.266, 0.266]),  # 0.461/tan 60
        ("swivel-eave-tee", 60.0, [0.798, 0.798]),  # 0.461/tan 30, more than beside the rail
        ("double-angle-tee", None, [1.113, 1.113]),  # 1.207 D beside the run; square to each other 0.461
        ("double-side-outlet-cross", None, [0.461] * 4),
    ],
)
def test_floors_of_several_ends(kind, swing, floors):
    shop = generic_workshop()
    found, size = shop.catalog.kind(kind), shop.catalog.tube("emt-3/4")
    sized = shop.sized(found, dict.fromkeys((p.name for p in found.ports), size), swing)

    branches = [p.setback / INCH_MM for p in sized.ports if p.role is PortRole.BRANCH]
    assert branches == pytest.approx([f + OVER for f in floors], abs=1e-3)
