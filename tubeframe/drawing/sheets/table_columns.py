"""How wide the columns of a table are: as wide as makes the table low."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Anchor
from tubeframe.drawing.model.lettering import SMALL

if TYPE_CHECKING:
    from collections.abc import Sequence

TICK = 5.0
"""Side of a box to tick [mm]."""
TICK_BOX = "[ ]"
"""A cell that is drawn as a box to tick."""
CELL = 1.5
"""Between a cell's text and its neighbour's [mm]."""
_SLACK = 0.2
_UNIT = 2.0
"""Columns are widened by so much at a time [mm]."""
_WAYS = 20_000
"""So many ways to widen the columns are looked at."""
_A_LINE = 0.1
"""A line less in one cell is worth so much of a row that gets lower."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table: its title, its share of the width that no text needs, and how it is set."""

    title: str
    share: float
    anchor: Anchor = Anchor.LEFT


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    """A width of a column, in units over its least, and the lines that each of its cells takes."""

    units: int
    lines: tuple[int, ...]


def wrapped_cell(text: str, width: float, cap: float) -> tuple[str, ...]:
    """Return the lines of a cell in a column so wide, in letters so high [mm]."""
    return wrap(text, width - 2.0 * CELL, cap) or ("",)


def least_widths(columns: Sequence[Column], rows: Sequence[Sequence[str]], cap: float) -> list[float]:
    """Return how wide columns have to be for their titles and longest words; a number keeps its unit beside it [mm]."""
    return [_least_width(column, [row[n] for row in rows], cap) for n, column in enumerate(columns)]


def column_widths(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: float, cap: float) -> list[float]:
    """Return widths that fill a width [mm], each column wide enough for a word.

    The table is as low as can be; what no text needs goes by the shares.
    """
    least = least_widths(columns, rows, cap)
    if sum(least) >= width:
        return [w * width / sum(least) for w in least]
    room = int((width - sum(least)) // _UNIT)
    most = max(2, int(_WAYS ** (1.0 / len(columns))))
    choices = [_choices([row[n] for row in rows], w, room, cap, most) for n, w in enumerate(least)]
    widths = [w + _UNIT * n for w, n in zip(least, _lowest(choices, room), strict=True)]
    spare, shares = width - sum(widths), sum(c.share for c in columns)
    return [w + spare * c.share / shares for w, c in zip(widths, columns, strict=True)]


def _lowest(choices: Sequence[Sequence[_Choice]], room: int) -> list[int]:
    """Return by how many units each column is widened so that the table is lowest: all ways are looked at."""
    ways = np.stack([n.ravel() for n in np.indices([len(c) for c in choices])])
    units = np.stack([np.array([c.units for c in column])[way] for column, way in zip(choices, ways, strict=True)])
    lines = np.stack([np.array([c.lines for c in column])[way] for column, way in zip(choices, ways, strict=True)])
    cost = lines.max(axis=0).sum(axis=1) + _A_LINE * lines.sum(axis=(0, 2))
    cost[units.sum(axis=0) > room] = math.inf
    return [int(n) for n in units[:, int(cost.argmin())]]


def _choices(cells: Sequence[str], least: float, room: int, cap: float, most: int) -> list[_Choice]:
    """Return the widths at which a column's cells take other numbers of lines, in units over its least width [mm]."""
    found: list[_Choice] = []
    for units in range(room + 1):
        lines = tuple(len(wrapped_cell(text, least + _UNIT * units, cap)) for text in cells)
        if not found or lines != found[-1].lines:
            found.append(_Choice(units=units, lines=lines))
        if max(lines, default=1) == 1:
            break
    while len(found) > most:
        found = [found[0], *found[1:-1:2], found[-1]]
    return found


def _least_width(column: Column, cells: Sequence[str], cap: float) -> float:
    whole = column.anchor is Anchor.RIGHT
    words = [word for text in cells for word in ((text,) if whole or text == TICK_BOX else text.split())]
    title = text_width(column.title, SMALL, bold=True) + 2.0 * CELL + _SLACK
    return max(title, *(_inner(w, cap) for w in words)) if words else title


def _inner(text: str, cap: float) -> float:
    """Return how wide a column has to be for a text in one line [mm]."""
    return (TICK if text == TICK_BOX else text_width(text, cap)) + 2.0 * CELL + _SLACK
