"""A bent tube drawn in plain text: straight with its marks, and from the side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd

if TYPE_CHECKING:
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.geometry.path import Path

_WIDE, _HIGH = 68, 14
_TALL = 2.0
"""A letter is about twice as high as it is wide."""


def strip(sheet: BendSheet) -> list[str]:
    """Draw a straight tube with its marks; < and > beside a number show which way the hook faces."""
    bar, below = ["="] * _WIDE, [" "] * (_WIDE + 2)
    for mark in sheet.bends:
        at = min(_WIDE - 1, max(0, round(mark.at / sheet.rough_length * (_WIDE - 1))))
        bar[at] = "|"
        below[at] = str(mark.number % 10)
        way = -1 if mark.hook is TubeEnd.A else 1
        if 0 <= at + way < len(below) and below[at + way] == " ":
            below[at + way] = "<" if way < 0 else ">"
    return [f"  A {''.join(bar)} B", f"    {''.join(below)}".rstrip()]


def side_view(path: Path) -> list[str]:
    """Draw a centreline that lies in the plane of x and z, a letter as high as two are wide."""
    steps = 4 * (_WIDE + _HIGH)
    points = [path.point(path.length * k / steps) for k in range(steps + 1)]
    left, right = min(p.x for p in points), max(p.x for p in points)
    low, high = min(p.z for p in points), max(p.z for p in points)
    scale = max((right - left) / (_WIDE - 1), (high - low) / (_TALL * (_HIGH - 1)), 1e-9)
    rows = round((high - low) / scale / _TALL) + 1
    grid = [[" "] * _WIDE for _ in range(rows)]

    def cell(x: float, z: float) -> tuple[int, int]:
        return round((high - z) / scale / _TALL), round((x - left) / scale)

    for p in points:
        row, column = cell(p.x, p.z)
        grid[row][column] = "o"
    for name, p in (("A", points[0]), ("B", points[-1])):
        row, column = cell(p.x, p.z)
        grid[row][column] = name
    return [f"    {''.join(row).rstrip()}" for row in grid]
