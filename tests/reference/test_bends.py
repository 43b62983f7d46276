"""Bends against published values, each with its source. Inches.

NEC: NFPA 70, chapter 9, table 2, column "One Shot and Full Shoe Benders", as quoted in an open catalogue file.
Bamford: B. Bamford, Bending Conduit/Tubing Using Hand Benders, Albany Technical College, 2007, and the family of
handouts after it (trade practice: a bender's own take-up rules).
Guide: a published guide to offset bending, its worked example.
STI: Steel Tube Institute, table "EMT Weights and Dimensions" (outside diameters).
"""

from __future__ import annotations

import math

import pytest

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.fabrication.bending.laying import Quantity
from tubeframe.fabrication.bending.marks import bend_tool
from tubeframe.fabrication.bending.shapes import offset, stub
from tubeframe.geometry.corners import through
from tubeframe.geometry.vector import Vec

INCH = 25.4
OUTSIDE = {"emt-1/2": 0.706, "emt-3/4": 0.922, "emt-1": 1.163}
"""STI."""


def tool(tube, **bender):
    shop = workshop_from_document({"bender": {"tube": tube, **bender}}, "my.toml") if bender else generic_workshop()
    return bend_tool(shop, tube)


def exact(laid, of):
    return next(f.exact for f in laid.figures if f.of is of) / INCH


def trade(laid, of):
    return next(f.trade for f in laid.figures if f.of is of) / INCH


@pytest.mark.parametrize(("tube", "take_up"), [("emt-1/2", 5), ("emt-3/4", 6), ("emt-1", 8)])
def test_take_ups_of_hand_benders(tube, take_up):
    """Bamford: 5, 6 and 8 in. A stub is marked its take-up short of its height; the radius is half a tube less."""
    bender = tool(tube)
    (mark,) = stub(bender, tube, 20 * INCH, 12 * INCH).sheet.bends

    assert bender.take_up / INCH == pytest.approx(take_up)
    assert mark.at / INCH == pytest.approx(20 - take_up)
    assert bender.shoe / INCH == pytest.approx(take_up - OUTSIDE[tube] / 2)


def test_a_stub_of_12_in_of_three_quarters():
    """Bamford: take 6 off 12."""
    (mark,) = stub(tool("emt-3/4"), "emt-3/4", 12 * INCH, 12 * INCH).sheet.bends

    assert mark.at / INCH == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("angle", "cosecant", "multiplier", "shrink", "of_an_inch"),
    [
        (10, 5.759, 6.0, 0.0875, 1 / 16),
        (22.5, 2.613, 2.6, 0.1989, 3 / 16),
        (30, 2.000, 2.0, 0.2679, 1 / 4),
        (45, 1.414, 1.4, 0.4142, 3 / 8),
        (60, 1.155, 1.2, 0.5774, 1 / 2),
    ],
)
def test_multipliers_and_shrink(angle, cosecant, multiplier, shrink, of_an_inch):
    """Bamford: the trade's figures. Exact ones are the cosecant, and tan(q/2) of sharp corners; bends save a little."""
    rise, q = 12.0, math.radians(angle)
    laid = offset(tool("emt-3/4"), "emt-3/4", rise * INCH, angle, (12 * INCH, 12 * INCH))
    radius = 6 - OUTSIDE["emt-3/4"] / 2
    saved = 2 * radius * math.tan(q / 2) - radius * q

    assert exact(laid, Quantity.TRAVEL) / rise == pytest.approx(cosecant, abs=0.001)
    assert (exact(laid, Quantity.SHRINK) + 2 * saved) / rise == pytest.approx(shrink, abs=0.001)
    assert trade(laid, Quantity.BETWEEN) / rise == pytest.approx(multiplier)
    assert trade(laid, Quantity.SHRINK) / rise == pytest.approx(of_an_inch)


def test_an_offset_of_4_in_by_30():
    """Guide: 8 in between the bends, a shrink of 1 in; 1.072 of sharp corners, less what bends save twice."""
    laid = offset(tool("emt-3/4"), "emt-3/4", 4 * INCH, 30, (12 * INCH, 12 * INCH))
    radius, q = 6 - OUTSIDE["emt-3/4"] / 2, math.radians(30)

    assert trade(laid, Quantity.BETWEEN) == pytest.approx(8.0)
    assert trade(laid, Quantity.SHRINK) == pytest.approx(1.0)
    assert exact(laid, Quantity.TRAVEL) == pytest.approx(8.0)
    saved = 2 * radius * math.tan(q / 2) - radius * q
    assert exact(laid, Quantity.SHRINK) + 2 * saved == pytest.approx(1.072, abs=0.001)


def test_a_rolling_offset_of_8_and_6():
    """Geometry: a true offset of 10.000, a travel of 14.142 at 45 degrees."""
    laid = offset(tool("emt-3/4"), "emt-3/4", 8 * INCH, 45, (12 * INCH, 12 * INCH), 6 * INCH)

    assert exact(laid, Quantity.TRUE_OFFSET) == pytest.approx(10.0, abs=0.001)
    assert exact(laid, Quantity.TRAVEL) == pytest.approx(14.142, abs=0.001)


def test_length_and_gain_of_a_bend_at_the_codes_least_radius():
    """NEC 4-1/2 in for 3/4: pi R/2 = 7.069; gain 2 (R + D/2) - pi R/2 = 2.853, legs to the outside."""
    bender = tool("emt-3/4", radius="4.5 in")
    laid = stub(bender, "emt-3/4", 20 * INCH, 12 * INCH)
    path = through([Vec(0, 0, 0), Vec(0, 0, 20), Vec(20, 0, 20)], [4.5])

    assert path.bends[0][1].length == pytest.approx(7.069, abs=0.001)
    assert exact(laid, Quantity.GAIN) == pytest.approx(2.853, abs=0.002)


def test_gain_of_a_stamped_take_up_is_the_trades():
    """Bamford: 3-1/4 in for 3/4; 3.30 of a take-up of 6. From the code's 4-1/2 it would be 0.4 in off: never mix."""
    stamped, code = (
        exact(stub(t, "emt-3/4", 20 * INCH, 12 * INCH), Quantity.GAIN)
        for t in (tool("emt-3/4"), tool("emt-3/4", radius="4.5 in"))
    )

    assert stamped == pytest.approx(3.30, abs=0.005)
    assert stamped == pytest.approx(3.25, abs=1 / 16)
    assert stamped - code > 0.4
