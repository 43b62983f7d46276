"""Stubs, offsets, saddles and kicks: marks bent again by a program of its own, and the trade's figures beside.

Trade figures: B. Bamford, Bending Conduit/Tubing Using Hand Benders, Albany Technical College, 2007 (take-up 6 in for
3/4, multipliers, shrink), and common practice. All in inches.
"""

from __future__ import annotations

import json
import math
import subprocess
import sys

import numpy as np
import pytest

from tests.bending.bend_back import OUTSIDE, bent
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.fabrication.bending.document import bend_sheet_document
from tubeframe.fabrication.bending.laying import Quantity, TooNearError
from tubeframe.fabrication.bending.marks import bend_tool
from tubeframe.fabrication.bending.saddles import saddle_of_four, saddle_of_three
from tubeframe.fabrication.bending.shapes import back_to_back, kick, offset, stub

TOOL = bend_tool(generic_workshop(), "emt-3/4")
TUBE = "emt-3/4"
INCH = 25.4
D = 0.922
R = 6 - D / 2


def corners(laid):
    """Return the corners of a bent tube [in], by the program that knows its marks alone."""
    return bent(bend_sheet_document(laid.sheet)) / INCH


def figure(laid, of):
    return next(f for f in laid.figures if f.of is of)


def exact(laid, of):
    return figure(laid, of).exact / INCH


def off_line(points, start=0):
    """Return how far each point lies off the line through two that follow each other."""
    way = points[start + 1] - points[start]
    way = way / np.linalg.norm(way)
    gaps = points - points[start]
    return np.linalg.norm(gaps - np.outer(gaps @ way, way), axis=1)


def test_a_stub_of_12_in_is_marked_at_6():
    laid = stub(TOOL, TUBE, 12 * INCH, 12 * INCH)
    (mark,) = laid.sheet.bends
    points = corners(laid)

    assert mark.at / INCH == pytest.approx(6.0)
    assert np.linalg.norm(points[1] - points[0]) + D / 2 == pytest.approx(12.0)
    assert exact(laid, Quantity.TAKE_UP) == pytest.approx(6.0)
    assert exact(laid, Quantity.GAIN) == pytest.approx(3.30, abs=0.005)


def test_back_to_back_by_the_star_and_by_the_arrow_from_the_other_end():
    """Star on the back distance behind the first back; or the arrow 14 - 6 = 8 from end B: the same bend."""
    laid = back_to_back(TOOL, TUBE, (12 * INCH, 14 * INCH), 30 * INCH)
    first, second = laid.sheet.bends
    points = corners(laid)

    assert np.linalg.norm(points[2] - points[1]) + D == pytest.approx(30.0)
    assert [np.linalg.norm(points[n + 1] - points[n]) + D / 2 for n in (0, 2)] == pytest.approx([12.0, 14.0])
    assert exact(laid, Quantity.FROM_B) == pytest.approx(8.0)
    bend_end = (second.start + second.radius * math.radians(90)) / INCH
    assert laid.sheet.rough_length / INCH - bend_end == pytest.approx(8.0)
    # the first back stands 12 + 0 from end A as bent: on the straight tube, a gain of 3.299 before it
    assert second.at / INCH == pytest.approx(12.0 + 30.0 - exact(laid, Quantity.GAIN))
    assert first.at / INCH == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("angle", "multiplier", "trade", "shrink"),
    [
        (10, 5.759, 6.0, 1 / 16),
        (22.5, 2.613, 2.6, 3 / 16),
        (30, 2.000, 2.0, 1 / 4),
        (45, 1.414, 1.4, 3 / 8),
        (60, 1.155, 1.2, 1 / 2),
    ],
)
@pytest.mark.parametrize("rise", [6.0, 12.0, 24.0])
def test_an_offset_beside_the_trades_multipliers(angle, multiplier, trade, shrink, rise):
    """Corner to corner: cosecant x rise (an identity). Shrink: tan(q/2) x rise, less what two bends save."""
    laid = offset(TOOL, TUBE, rise * INCH, angle, (12 * INCH, 12 * INCH))
    q = math.radians(angle)
    saved = 2 * R * math.tan(q / 2) - R * q
    points = corners(laid)

    assert off_line(points)[-1] == pytest.approx(rise)
    assert off_line(points)[-2] == pytest.approx(rise)
    assert exact(laid, Quantity.TRAVEL) == pytest.approx(multiplier * rise, abs=0.001 * rise)
    assert exact(laid, Quantity.BETWEEN) == pytest.approx(rise / math.sin(q) - saved)
    assert exact(laid, Quantity.SHRINK) == pytest.approx(rise * math.tan(q / 2) - 2 * saved)
    assert figure(laid, Quantity.BETWEEN).trade / INCH == pytest.approx(trade * rise)
    assert figure(laid, Quantity.SHRINK).trade / INCH == pytest.approx(shrink * rise)


def test_an_offset_of_6_in_by_30():
    """11.93 between marks and a shrink of 1.47, worked by hand; the trade says 12 and 1-1/2."""
    laid = offset(TOOL, TUBE, 6 * INCH, 30, (12 * INCH, 12 * INCH))

    assert exact(laid, Quantity.BETWEEN) == pytest.approx(11.93, abs=0.005)
    assert exact(laid, Quantity.SHRINK) == pytest.approx(1.47, abs=0.005)
    assert [m.at / INCH for m in laid.sheet.bends] == pytest.approx([12.0, 23.93], abs=0.005)


def test_a_rolling_offset():
    """Rise 8 and roll 6: a true offset of 10, a travel of 14.142 at 45 degrees (geometry)."""
    laid = offset(TOOL, TUBE, 8 * INCH, 45, (12 * INCH, 12 * INCH), 6 * INCH)

    assert exact(laid, Quantity.TRUE_OFFSET) == pytest.approx(10.0)
    assert exact(laid, Quantity.TRAVEL) == pytest.approx(14.142, abs=0.001)
    assert figure(laid, Quantity.LEAN).exact == pytest.approx(36.87, abs=0.01)
    assert off_line(corners(laid))[-1] == pytest.approx(10.0)


def test_an_angle_that_the_trade_has_no_figures_for():
    assert figure(offset(TOOL, TUBE, 6 * INCH, 25, (300, 300)), Quantity.BETWEEN).trade is None


@pytest.mark.parametrize("rise", [1.5, 2.0, 3.0, 6.0])
def test_a_saddle_of_three_bends(rise):
    """The middle of the tube is lifted by the rise; both ends are in line. The trade: 2.5 x rise, middle 3/16 on.

    Its marks are hooked toward the middle, as the arrows of the outer bends are.
    """
    laid = saddle_of_three(TOOL, TUBE, rise * INCH, 45, (40 * INCH, 12 * INCH))
    points = corners(laid)
    angle = math.radians(45)

    assert off_line(points)[[1, 3, 4]] == pytest.approx([0, 0, 0], abs=1e-6)
    assert off_line(points)[2] - R * (1 / math.cos(angle / 2) - 1) == pytest.approx(rise)
    assert (points[2] - points[0]) @ (points[4] - points[0]) / np.linalg.norm(points[4]) == pytest.approx(40.0)
    assert [m.order for m in laid.sheet.bends] == [2, 1, 3]
    outer, shift = figure(laid, Quantity.OUTER), figure(laid, Quantity.CENTRE_SHIFT)
    assert outer.trade / INCH == pytest.approx(2.5 * rise)
    assert outer.exact / outer.trade == pytest.approx(1.0, abs=0.06)
    assert shift.exact / INCH == pytest.approx(shift.trade / INCH, abs=0.15)
    assert laid.sheet.bends[2].at - laid.sheet.bends[1].at == pytest.approx(outer.exact)


def test_a_saddle_of_four_bends_is_two_offsets():
    laid = saddle_of_four(TOOL, TUBE, 6 * INCH, 30, 14 * INCH, (12 * INCH, 12 * INCH))
    points = corners(laid)

    assert off_line(points) == pytest.approx([0, 0, 6, 6, 0, 0], abs=1e-6)
    assert np.linalg.norm(points[3] - points[2]) == pytest.approx(14.0)
    assert exact(laid, Quantity.BETWEEN) == pytest.approx(11.93, abs=0.005)
    assert exact(laid, Quantity.SHRINK) == pytest.approx(2 * 1.4715, abs=0.005)


def test_a_kick():
    """From the end to the corner: the rise over the sine; level, over the tangent."""
    laid = kick(TOOL, TUBE, 6 * INCH, 30, 12 * INCH)
    points = corners(laid)

    assert off_line(points[::-1])[-1] == pytest.approx(6.0)
    assert exact(laid, Quantity.TRAVEL) == pytest.approx(12.0)
    assert exact(laid, Quantity.ALONG) == pytest.approx(6 * math.sqrt(3))
    assert laid.sheet.bends[0].at / INCH == pytest.approx(12 - R * math.tan(math.radians(15)))


def test_bends_without_room_say_by_how_much():
    """Rise 1 at 30: 2 in from corner to corner, where the bends take 2 x 5.539 tan 15 = 2.968."""
    with pytest.raises(TooNearError) as caught:
        offset(TOOL, TUBE, 1 * INCH, 30, (300, 300))

    assert caught.value.short / INCH == pytest.approx(0.968, abs=0.001)


def test_the_programs_tube_is_ours():
    assert pytest.approx(TOOL.outside) == OUTSIDE
    assert pytest.approx(R) == TOOL.shoe / INCH


def _run(*arguments, cwd=None):
    command = [sys.executable, "-m", "tubeframe", "bend", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd=cwd)


@pytest.mark.parametrize(
    "arguments",
    [
        ("stub", "--height", "12in"),
        ("back-to-back", "--height", "12in", "--between", "30in"),
        ("offset", "--tube", "emt-3/4", "--rise", "6in", "--angle", "30"),
        ("saddle", "--rise", "2in"),
        ("saddle", "--rise", "6in", "--bends", "4"),
        ("kick", "--rise", "150mm", "--units", "mm"),
    ],
)
def test_the_command_draws_its_marks(arguments):
    done = _run(*arguments)
    lines = done.stdout.splitlines()
    bends = sum(line.startswith("bend ") for line in lines)
    bar = next(line for line in lines if line.startswith("  A ="))
    numbers = lines[lines.index(bar) + 1]

    assert done.returncode == 0, done.stderr
    assert bar.count("|") == bends
    assert all(bar[numbers.index(str(n))] == "|" for n in range(1, bends + 1))
    assert "calculated, not tested" in lines[-1]
    assert max(map(len, lines)) <= 120


def test_the_command_gives_its_marks_as_the_design_has_them():
    entry = json.loads(_run("offset", "--rise", "6in", "--angle", "45", "--json").stdout)

    assert off_line(bent(entry) / INCH)[-1] == pytest.approx(6.0)


def test_the_command_takes_the_bender_of_the_shop(tmp_path):
    (tmp_path / "my.toml").write_text('[bender]\ntube = "emt-3/4"\nradius = "5 in"\nspringback = 4\n')
    done = _run("stub", "--height", "12in", "--workshop", "my.toml", cwd=tmp_path)

    # 12 - 5 - 0.461
    assert 'mark at 6 9/16" (6.539 in)' in done.stdout
    assert "pull to 94°" in done.stdout
    assert "springback measured" in done.stdout


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("offset", "--rise", "1in"), "have no room: a straight is 0.968 in too short"),
        (("offset", "--rise", "lots"), "'lots' is not a length"),
        (("offset", "--rise", "0in"), "'0in' is too little"),
        (("offset", "--rise", "6in", "--angle", "89"), "5 to 75 degrees"),
        (("stub", "--height", "3in"), "too short"),
        (("kick", "--rise", "6in", "--tube", "emt-34"), "did you mean 'emt-3/4'?"),
    ],
)
def test_the_command_refuses_with_the_value(arguments, words):
    done = _run(*arguments)

    assert done.returncode == 2
    assert words in done.stderr
    assert "Traceback" not in done.stderr
