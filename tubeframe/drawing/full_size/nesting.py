"""Rectangles laid on tables: which table, where on it, and which way round."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.shapes.plane import Box

Size = tuple[float, float]
"""Width and height [mm]."""

_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a rectangle lies: on which table, from 0, and its lower left corner there [mm].

    `is_turned` when it lies turned by 90 degrees.
    """

    table: int
    at: tuple[float, float]
    is_turned: bool


def fits(size: Size, table: Size, edge: float) -> bool:
    """Whether a rectangle fits on an empty table, one way or the other, an edge [mm] all round it left free."""
    room = sorted((table[0] - 2.0 * edge, table[1] - 2.0 * edge))
    return all(s <= r + _SAME for s, r in zip(sorted(size), room, strict=True))


def nest(sizes: Sequence[Size], table: Size, *, gap: float, edge: float) -> tuple[Place | None, ...]:
    """Lay rectangles on as few tables as this simple search finds; None for one that fits on none.

    The longest first, equal ones as stated; each on the first table with room, where the shorter side that is left
    over is shortest (maximal rectangles, best short side fit: J. Jylaenki, "A thousand ways to pack the bin", 2010;
    from memory).

    Args:
        sizes: width and height of each [mm].
        table: width and height of every table [mm].
        gap: between two [mm].
        edge: between one and the table's edge [mm].

    """
    places: list[Place | None] = [None] * len(sizes)
    tables: list[_Table] = []
    for index in sorted(range(len(sizes)), key=lambda i: (-max(sizes[i]), -min(sizes[i]))):
        if not fits(sizes[index], table, edge):
            continue
        size = (sizes[index][0] + gap, sizes[index][1] + gap)
        found = next((f for f in ((n, t.best(size)) for n, t in enumerate(tables)) if f[1] is not None), None)
        if found is None:
            tables.append(_Table((edge, edge, table[0] - edge + gap, table[1] - edge + gap)))
            found = (len(tables) - 1, tables[-1].best(size))
        number, spot = found
        if spot is not None:
            tables[number].take(spot.box)
            places[index] = Place(table=number, at=spot.box[:2], is_turned=spot.is_turned)
    return tuple(places)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """A place on one table, and what speaks against it: the least first."""

    against: tuple[float, ...]
    box: Box
    is_turned: bool


class _Table:
    """The free room of a table: all largest rectangles in it, which overlap each other."""

    def __init__(self, room: Box) -> None:
        self._free: list[Box] = [room]

    def best(self, size: Size) -> _Spot | None:
        """Return the best place for a rectangle; None when there is no room."""
        spots = [
            _Spot(
                against=(*sorted(left), box[1], box[0], turned),
                box=(*box[:2], box[0] + w, box[1] + h),
                is_turned=turned,
            )
            for box in self._free
            for turned, (w, h) in ((False, size), (True, size[::-1]))
            if min(left := (box[2] - box[0] - w, box[3] - box[1] - h)) >= -_SAME
        ]
        return min(spots, key=lambda s: s.against, default=None)

    def take(self, box: Box) -> None:
        """Take a rectangle out of the free room."""
        rest = [part for free in self._free for part in _around(free, box)]
        kept: list[Box] = []
        for n, one in enumerate(rest):
            others = kept + rest[n + 1 :]
            if not any(_within(one, other) for other in others):
                kept.append(one)
        self._free = kept


def _around(free: Box, taken: Box) -> list[Box]:
    """Return the largest rectangles of a free one that a taken one leaves."""
    left, bottom, right, top = free
    if taken[0] >= right - _SAME or taken[2] <= left + _SAME or taken[1] >= top - _SAME or taken[3] <= bottom + _SAME:
        return [free]
    parts = [
        (left, bottom, taken[0], top),
        (taken[2], bottom, right, top),
        (left, bottom, right, taken[1]),
        (left, taken[3], right, top),
    ]
    return [p for p in parts if p[2] - p[0] > _SAME and p[3] - p[1] > _SAME]


def _within(one: Box, other: Box) -> bool:
    return one[0] >= other[0] and one[1] >= other[1] and one[2] <= other[2] and one[3] <= other[3]
