"""Sticks as the command line has them: `10ft@9.50`, `emt-1:10ft@14`, and on hand `44.2in` or `44.2in x 3`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.catalog.ranges import MOST_COORDINATE
from tubeframe.catalog.stock import Stock
from tubeframe.errors import Problem, listed, shown
from tubeframe.geometry.units import format_range, parse_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.geometry.units import Units

_STOCK = re.compile(r"(?:(?P<tube>[^:@]+):)?(?P<length>[^:@]+)(?:@\s*(?P<price>\d{1,7}(?:\.\d{1,4})?)\s*)?")
_ON_HAND = re.compile(r"(?:(?P<tube>[^:@]+):)?(?P<length>[^:@]+?)(?:\s*[x×*]\s*(?P<number>\d{1,4}))?")

_MOST_CHARACTERS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class SticksAsked:
    """Sticks as text: to buy, on hand, and usable lengths, each for the shortest stick to buy that is as long."""

    stock: Sequence[str]
    on_hand: Sequence[str]
    usable: Sequence[str]


def sticks_for(asked: SticksAsked, tubes: Sequence[str], units: Units, problems: list[Problem]) -> tuple[Stock, ...]:
    """Return the sticks of every tube; what is wrong is added to the problems."""
    found: list[Stock] = []
    if not asked.stock and not asked.on_hand:
        remedy = "give for example --stock 10ft@9.50"
        problems.append(Problem(where="", key="--stock", message="there is no stick to cut", remedy=remedy))
    for text in asked.stock:
        found += _sticks(_STOCK, "--stock", text, tubes, units, problems)
    for text in asked.on_hand:
        found += _sticks(_ON_HAND, "--on-hand", text, tubes, units, problems)
    for text in asked.usable:
        length = _length("--usable", text, units, problems)
        found = found if length is None else _with_usable(found, text, length, problems)
    problems += _half_priced(found)
    return tuple(found)


def _sticks(
    form: re.Pattern[str], key: str, text: str, tubes: Sequence[str], units: Units, problems: list[Problem]
) -> Iterator[Stock]:
    match = form.fullmatch(text.strip()) if len(text) <= _MOST_CHARACTERS else None
    example = "10ft@9.50" if form is _STOCK else "44.2in or 44.2inx3"
    length = _length(key, match["length"], units, problems) if match else None
    if match is None:
        problems.append(Problem(where="", key=key, message=f"{shown(text)} is not a stick", remedy=f"write {example}"))
    if match is None or length is None:
        return
    parts = match.groupdict()
    tube, price, number = ((parts.get(k) or "").strip() for k in ("tube", "price", "number"))
    if tube and tube not in tubes:
        known = listed(tubes)
        problems.append(
            Problem(where="", key=key, message=f"no piece is of tube {shown(tube)}", remedy=f"known: {known}")
        )
        return
    if form is _ON_HAND and not tube and len(tubes) > 1:
        remedy = f"write {tubes[0]}:{text}"
        problems.append(Problem(where="", key=key, message=f"of which tube is {shown(text)}?", remedy=remedy))
        return
    if price and not float(price):
        problems.append(
            Problem(where="", key=key, message=f"{shown(text)} has no price", remedy="leave the price away")
        )
        return
    for name in [tube] if tube else tubes:
        yield Stock(
            tube=name,
            length=length,
            usable=length,
            price=float(price) if price else None,
            on_hand=int(number or 1) if form is _ON_HAND else None,
        )


def _length(key: str, text: str, units: Units, problems: list[Problem]) -> float | None:
    try:
        length = parse_length(text, units)
    except ValueError as error:
        problems.append(Problem(where="", key=key, message=str(error)))
        return None
    if length <= 0.0:
        problems.append(Problem(where="", key=key, message=f"{shown(text)} is not longer than nothing"))
        return None
    if length > MOST_COORDINATE:
        message = f"{shown(text)} is over {format_range(MOST_COORDINATE, units)}"
        problems.append(Problem(where="", key=key, message=message, remedy="check its unit"))
        return None
    return length


def _with_usable(sticks: Sequence[Stock], text: str, usable: float, problems: list[Problem]) -> list[Stock]:
    """Shorten what is usable of the shortest sticks to buy that are as long."""
    long_enough = [s.length for s in sticks if s.bought and s.length >= usable - 1e-6]
    if not long_enough:
        problems.append(
            Problem(
                where="", key="--usable", message=f"no --stock is as long as {shown(text)}", remedy="check the lengths"
            )
        )
        return list(sticks)
    length = min(long_enough)
    return [replace(s, usable=min(usable, s.length)) if s.bought and s.length == length else s for s in sticks]


def _half_priced(sticks: Sequence[Stock]) -> Iterator[Problem]:
    for tube in dict.fromkeys(s.tube for s in sticks):
        bought = [s for s in sticks if s.tube == tube and s.bought]
        without = [s for s in bought if s.price is None]
        if without and len(without) < len(bought):
            yield Problem(
                where="",
                key="--stock",
                message=f"some sticks have a price and that of {without[0].length:g} mm has none",
                remedy="give every stick a price, or none",
            )
