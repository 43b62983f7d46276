"""Boards: a brick less its pockets."""

from __future__ import annotations

import pytest

from tubeframe.frame.panel import Panel, PanelUse, Pocket
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import Vec, X, Y, Z
from tubeframe.solids.panel import panel_solid

SIZES = (800.0, 400.0, 18.0)
POCKETS = (
    Pocket(low=Vec(10.0, 20.0, 0.0), high=Vec(60.0, 50.0, 8.0)),
    Pocket(low=Vec(700.0, 300.0, 0.0), high=Vec(800.0, 400.0, 5.0)),  # open at a corner
)


def board(pockets=()):
    return Panel(
        id="top",
        use=PanelUse.TOP,
        placement=Placement(origin=Vec(1000.0, -50.0, 700.0), x=Y, y=-X, z=Z),
        length=SIZES[0],
        width=SIZES[1],
        thickness=SIZES[2],
        material="plywood",
        pockets=pockets,
    )


def test_a_plain_board_stands_in_its_own_frame():
    box = panel_solid(board()).BoundingBox()

    assert (box.xmin, box.ymin, box.zmin) == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
    assert (box.xmax, box.ymax, box.zmax) == pytest.approx(SIZES, abs=1e-6)


def test_pockets_are_taken_out_of_the_underside():
    whole = SIZES[0] * SIZES[1] * SIZES[2]
    solid = panel_solid(board(POCKETS))

    assert solid.ShapeType() == "Solid"
    assert solid.isValid()
    assert solid.Volume() == pytest.approx(whole - 50.0 * 30.0 * 8.0 - 100.0 * 100.0 * 5.0, rel=1e-12)
