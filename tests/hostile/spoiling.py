"""Documents with one or a few values spoiled."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

from tests.hostile.values import NAMES, odd_value

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from random import Random  # noqa: TID251  drawn with a seed: the same every time


def spoiled(draw: Random, document: Mapping[str, Any], most: int = 3) -> dict[str, Any]:
    """Spoil one to three places of a document."""
    made = copy.deepcopy(dict(document))
    for _ in range(draw.randint(1, most)):
        places = list(_places(made))
        if places:
            _spoil(draw, *draw.choice(places))
    return made


def _places(inside: Any) -> Iterator[tuple[Any, Any]]:
    """Give every place of a value: what holds it, and its key or number there."""
    entries = inside.items() if isinstance(inside, dict) else enumerate(inside) if isinstance(inside, list) else ()
    for key, value in entries:
        yield inside, key
        yield from _places(value)


def _spoil(draw: Random, holder: Any, key: Any) -> None:
    match draw.randrange(9):
        case 0:
            del holder[key]
        case 1 if isinstance(holder, dict):
            holder[draw.choice((key + "s", key.upper(), "unknown", *NAMES))] = holder.pop(key)
        case 2:
            holder[key] = [holder[key]]
        case 3:
            holder[key] = {"a": holder[key]}
        case 4 if isinstance(holder, list):
            holder += [copy.deepcopy(holder[key]) for _ in range(draw.choice((1, 1, 3, 40)))]
        case 5 if isinstance(holder[key], list):
            holder[key] = holder[key][:-1]
        case 6 if isinstance(holder[key], int | float):
            holder[key] = holder[key] * draw.choice((-1, 25.4, 1e-3, 1e3, 1e6, 1e300))
        case _:
            holder[key] = odd_value(draw)
