"""Who is near whom: boxes sorted into the cells of a grid, so that only neighbours are looked at."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from tubeframe.geometry.extent import Extent

CELL = 200.0
"""Edge of a cell: a fitting lies in few of them, and few things lie in one [mm]."""

Cell = tuple[int, int, int]


class Grid:
    """Things, each of one box or more; filled at once, or as one goes along.

    `looked_at` counts the things that were compared with what was asked for, each once a question.
    """

    __slots__ = ("_cell", "_cells", "_size", "looked_at")

    def __init__(self, things: Iterable[Sequence[Extent]] = (), *, cell: float = CELL) -> None:
        """Take things that are there from the start, and the edge of a cell [mm]."""
        self._cell = cell
        self._cells: dict[Cell, list[tuple[int, Extent]]] = {}
        self._size = 0
        self.looked_at = 0
        for boxes in things:
            self.put(boxes)

    def put(self, boxes: Sequence[Extent]) -> int:
        """Add a thing, and return its number: things are numbered from 0 as they come."""
        number = self._size
        self._size += 1
        for box in boxes:
            entry = (number, box)
            for cell in self._cells_of(box, 0.0):
                self._cells.setdefault(cell, []).append(entry)
        return number

    def near(self, boxes: Sequence[Extent], within: float = 0.0) -> list[int]:
        """Return the things with a box that comes within a distance of one of these [mm], in the order put in."""
        seen, found = set[int](), set[int]()
        for box in boxes:
            for cell in self._cells_of(box, within):
                for number, other in self._cells.get(cell, ()):
                    if number not in found:
                        seen.add(number)
                        if meet(box, other, within):
                            found.add(number)
        self.looked_at += len(seen)
        return sorted(found)

    def _cells_of(self, box: Extent, within: float) -> Iterator[Cell]:
        low, high, cell = box.low, box.high, self._cell
        return product(
            range(math.floor((low.x - within) / cell), math.floor((high.x + within) / cell) + 1),
            range(math.floor((low.y - within) / cell), math.floor((high.y + within) / cell) + 1),
            range(math.floor((low.z - within) / cell), math.floor((high.z + within) / cell) + 1),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearby:
    """Pairs of things by their numbers, the lower first, in the order of all pairs; and how many were looked at."""

    pairs: tuple[tuple[int, int], ...]
    looked_at: int


def near_pairs(things: Iterable[Sequence[Extent]], within: float = 0.0, *, cell: float = CELL) -> Nearby:
    """Return every two things that have boxes within a distance of each other [mm]."""
    grid, pairs = Grid(cell=cell), list[tuple[int, int]]()
    for number, boxes in enumerate(things):
        pairs += [(known, number) for known in grid.near(boxes, within)]
        grid.put(boxes)
    return Nearby(pairs=tuple(sorted(pairs)), looked_at=grid.looked_at)


def meet(a: Extent, b: Extent, within: float = 0.0) -> bool:
    """Whether two boxes come within a distance of each other along every axis [mm]."""
    low, high, other_low, other_high = a.low, a.high, b.low, b.high
    return (
        low.x - within <= other_high.x
        and other_low.x - within <= high.x
        and low.y - within <= other_high.y
        and other_low.y - within <= high.y
        and low.z - within <= other_high.z
        and other_low.z - within <= high.z
    )
