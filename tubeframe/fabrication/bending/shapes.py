"""Stubs, offsets and kicks on a tube that lies along x with end A at the left (all in [mm]).

Each is laid out exactly, along the centreline (plane geometry); the trade's rounded figures stand beside.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.laying import Figure, Laid, Quantity, laid_along, laid_out
from tubeframe.fabrication.bending.marks import SetBy, Setting
from tubeframe.fabrication.bending.trade import trade_offset
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.fabrication.bending.marks import BendTool


def stub(tool: BendTool, tube: str, height: float, after: float) -> Laid:
    """Turn an end up by 90 degrees: its end stands a height over the back of the other leg."""
    corner = height - tool.outside / 2.0
    path = laid_along([Vec(0, 0, 0), Vec(corner, 0, 0), Vec(corner, 0, tool.shoe + after)], tool)
    figures = (*_of_90(tool), Figure(of=Quantity.DEVELOPED, exact=path.length))
    return laid_out(path, tool, tube, [Setting(order=1, set_by=SetBy.ARROW)], figures)


def back_to_back(tool: BendTool, tube: str, heights: tuple[float, float], between: float) -> Laid:
    """Turn both ends up by 90 degrees: their heights, and from back to back."""
    half = tool.outside / 2.0
    first, last = heights[0] - half, heights[1] - half
    across = between - tool.outside
    corners = [Vec(0, 0, first), Vec(0, 0, 0), Vec(across, 0, 0), Vec(across, 0, last)]
    path = laid_along(corners, tool)
    settings = [Setting(order=1, set_by=SetBy.ARROW), Setting(order=2, set_by=SetBy.STAR)]
    from_b = last - tool.shoe
    figures = (
        *_of_90(tool),
        Figure(of=Quantity.FROM_B, exact=from_b),
        Figure(of=Quantity.DEVELOPED, exact=path.length),
    )
    return laid_out(path, tool, tube, settings, figures)


def offset(tool: BendTool, tube: str, rise: float, angle: float, ends: tuple[float, float], roll: float = 0.0) -> Laid:
    """Move a tube aside and on: by a rise, and by a roll square to it.

    `ends` are from end A to the first mark, and from the last bend on.
    """
    true, turn = math.hypot(rise, roll), math.radians(angle)
    tangent = tool.shoe * math.tan(turn / 2.0)
    run = true / math.tan(turn)
    first = ends[0] + tangent
    corners = [
        Vec(0, 0, 0),
        Vec(first, 0, 0),
        Vec(first + run, 0, true),
        Vec(first + run + tangent + ends[1], 0, true),
    ]
    path = laid_along(corners, tool)
    trade = trade_offset(angle)
    (start, _), (next_start, _) = path.bends
    figures = [
        Figure(of=Quantity.BETWEEN, exact=next_start - start, trade=trade.multiplier * true if trade else None),
        Figure(of=Quantity.SHRINK, exact=path.length - corners[-1].x, trade=trade.shrink * true if trade else None),
        Figure(of=Quantity.TRAVEL, exact=true / math.sin(turn)),
    ]
    if roll:
        figures.insert(0, Figure(of=Quantity.TRUE_OFFSET, exact=true))
        figures.append(Figure(of=Quantity.LEAN, exact=math.degrees(math.atan2(roll, rise))))
    return laid_out(path, tool, tube, [Setting(order=n, set_by=SetBy.ARROW) for n in (1, 2)], figures)


def kick(tool: BendTool, tube: str, rise: float, angle: float, after: float) -> Laid:
    """Lift an end off the line of the tube by one bend of less than 90 degrees."""
    turn = math.radians(angle)
    run, tangent = rise / math.tan(turn), tool.shoe * math.tan(turn / 2.0)
    path = laid_along([Vec(0, 0, rise), Vec(run, 0, 0), Vec(run + tangent + after, 0, 0)], tool)
    figures = (
        Figure(of=Quantity.TRAVEL, exact=rise / math.sin(turn)),
        Figure(of=Quantity.ALONG, exact=run),
        Figure(of=Quantity.DEVELOPED, exact=path.length),
    )
    return laid_out(path, tool, tube, [Setting(order=1, set_by=SetBy.ARROW)], figures)


def _of_90(tool: BendTool) -> tuple[Figure, ...]:
    return (
        Figure(of=Quantity.TAKE_UP, exact=tool.take_up),
        Figure(of=Quantity.GAIN, exact=2.0 * tool.take_up - math.pi / 2.0 * tool.shoe),
    )
