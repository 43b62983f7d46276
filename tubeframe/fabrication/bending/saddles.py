"""Saddles: over a thing and down again, on a tube that lies along x with end A at the left (all in [mm])."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.laying import Figure, Laid, Quantity, laid_along, laid_out, marked
from tubeframe.fabrication.bending.marks import SetBy, Setting
from tubeframe.fabrication.bending.trade import (
    TRADE_SADDLE_ANGLE,
    TRADE_SADDLE_OUTER,
    TRADE_SADDLE_SHIFT,
    trade_offset,
)
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.fabrication.bending.marks import BendTool


def saddle_of_three(tool: BendTool, tube: str, rise: float, angle: float, ends: tuple[float, float]) -> Laid:
    """Go over a thing and down again: an angle in the middle, half of it at both sides.

    The tube's middle is lifted by the rise where the middle bend is highest. `ends` are from end A to the middle of
    the thing, and from the last bend on.
    """
    turn = math.radians(angle)
    half = turn / 2.0
    top = rise + tool.shoe * (1.0 / math.cos(half) - 1.0)
    run, tangent = top / math.tan(half), tool.shoe * math.tan(half / 2.0)
    middle = ends[0]
    corners = [
        Vec(0, 0, 0),
        Vec(middle - run, 0, 0),
        Vec(middle, 0, top),
        Vec(middle + run, 0, 0),
        Vec(middle + run + tangent + ends[1], 0, 0),
    ]
    path = laid_along(corners, tool)
    settings = [
        Setting(order=2, set_by=SetBy.ARROW, hook=TubeEnd.B),
        Setting(order=1, set_by=SetBy.NOTCH),
        Setting(order=3, set_by=SetBy.ARROW),
    ]
    marks = marked(path, tool, settings)
    is_trade = abs(angle - TRADE_SADDLE_ANGLE) < TINY
    figures = (
        Figure(
            of=Quantity.OUTER, exact=marks[1].at - marks[0].at, trade=TRADE_SADDLE_OUTER * rise if is_trade else None
        ),
        Figure(
            of=Quantity.CENTRE_SHIFT,
            exact=marks[1].at - middle,
            trade=TRADE_SADDLE_SHIFT * rise if is_trade else None,
        ),
        Figure(of=Quantity.SHRINK, exact=path.length - corners[-1].x),
    )
    return laid_out(path, tool, tube, settings, figures)


def saddle_of_four(
    tool: BendTool, tube: str, rise: float, angle: float, width: float, ends: tuple[float, float]
) -> Laid:
    """Go up, level over a width between the inner corners, and down again: two offsets.

    `ends` are from end A to the first mark, and from the last bend on.
    """
    turn = math.radians(angle)
    run, tangent = rise / math.tan(turn), tool.shoe * math.tan(turn / 2.0)
    first = ends[0] + tangent
    xs = (0.0, first, first + run, first + run + width, first + 2.0 * run + width)
    last = xs[-1] + tangent + ends[1]
    corners = [
        *(Vec(x, 0, z) for x, z in zip(xs, (0.0, 0.0, rise, rise, 0.0), strict=True)),
        Vec(last, 0, 0),
    ]
    path = laid_along(corners, tool)
    starts = [start for start, _ in path.bends]
    trade = trade_offset(angle)
    figures = (
        Figure(of=Quantity.BETWEEN, exact=starts[1] - starts[0], trade=trade.multiplier * rise if trade else None),
        Figure(of=Quantity.SHRINK, exact=path.length - last, trade=2.0 * trade.shrink * rise if trade else None),
    )
    return laid_out(path, tool, tube, [Setting(order=n, set_by=SetBy.ARROW) for n in range(1, 5)], figures)
