"""Where the shop cuts the sticks that do not fit the car: as few different places as can be, and round ones."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.geometry.units import INCH_MM, Units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.plan import Cut, Stick

_TINY = 1e-6
_ROUND = {
    Units.INCH: tuple(INCH_MM * v for v in (12.0, 6.0, 1.0, 0.5, 0.25, 0.125, 0.0625)),
    Units.MILLIMETRE: (500.0, 100.0, 50.0, 10.0, 5.0, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Divided:
    """A stick, the pieces of each part it travels in, and what no piece comes out of at its end [mm]."""

    stick: Stick
    parts: tuple[tuple[Cut, ...], ...]
    dead: float


def with_shop_cuts(sticks: Sequence[Divided], limit: float, units: Units) -> tuple[Stick, ...]:
    """Choose for each stick where the shop cuts it so that no part is longer than a limit [mm].

    Sticks in two parts share a place where they can: places are chosen one after the other, each for all sticks that
    can be cut there.
    """
    made: dict[int, Stick] = {n: d.stick for n, d in enumerate(sticks) if len(d.parts) == 1}
    spans = {n: _span(d, (), limit) for n, d in enumerate(sticks) if len(d.parts) == 2}
    while spans:
        last = min(high for _, high in spans.values())
        group = [n for n, (low, _) in spans.items() if low <= last + _TINY]
        place = _roundest(max(spans[n][0] for n in group), last, units)
        made |= {n: _cut(sticks[n], (place,)) for n in group}
        spans = {n: span for n, span in spans.items() if n not in group}
    for n, divided in enumerate(sticks):
        if len(divided.parts) > 2:
            places: tuple[float, ...] = ()
            for _ in divided.parts[1:]:
                places = (*places, _roundest(*_span(divided, places, limit), units))
            made[n] = _cut(divided, places)
    return tuple(made[n] for n in range(len(sticks)))


def _span(divided: Divided, before: tuple[float, ...], limit: float) -> tuple[float, float]:
    """Return between which places the next cut may be made, after those before [mm]."""
    kerf, length = divided.stick.kerf, divided.stick.stock_length
    needs = [sum(c.length for c in part) + kerf * max(0, len(part) - 1) for part in divided.parts]
    needs[-1] += divided.dead
    n, start = len(before), before[-1] + kerf if before else 0.0
    rest = needs[n + 1 :]
    low = max(start + needs[n], length - len(rest) * (limit + kerf))
    return low, min(start + limit, length - sum(need + kerf for need in rest))


def _roundest(low: float, high: float, units: Units) -> float:
    """Return the roundest place between two [mm]; the first of them when there is none."""
    for step in _ROUND[units]:
        place = math.ceil((low - _TINY) / step) * step
        if place <= high + _TINY:
            return place
    return low


def _cut(divided: Divided, places: tuple[float, ...]) -> Stick:
    """Give a stick its shop cuts; what is left over is the longest rest of a part."""
    stick, kerf = divided.stick, divided.stick.kerf
    starts = (0.0, *(p + kerf for p in places))
    ends = (*places, stick.stock_length - divided.dead)
    rests = [
        end - start - sum(c.length + kerf for c in part)
        for start, end, part in zip(starts, ends, divided.parts, strict=True)
    ]
    return replace(
        stick,
        cuts=tuple(c for part in divided.parts for c in part),
        offcut=max(0.0, *rests),
        shop_cuts=places,
        cuts_of_parts=tuple(len(part) for part in divided.parts),
    )
