"""Files that their schema lets pass, and that nobody would write: parts moved, doubled, stretched, shrunk, left out."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from random import Random  # noqa: TID251  drawn with a seed: the same every time

_FACTORS = (0, 1e-9, 1e-3, 0.04, 0.5, 0.999, 1.0001, 2, 25.4, 60, -1)
_SHIFTS = (1e-9, 1e-4, 0.01, 0.4, 1, 7, 48, 1000, -0.2, -5)
_NAMES = ("%%c", "\\X2\\00E9\\X0\\", "'; DROP", "=1+1", "@x", "שלום", "é漢字😀", "x" * 64, "a b", "#1", "{}", "[red]")


def moved(draw: Random, document: Mapping[str, Any]) -> dict[str, Any]:
    """Change one to four values of a text frame or a workshop so that each still is of its type."""
    made = copy.deepcopy(dict(document))
    for _ in range(draw.randint(1, 4)):
        _step(draw, made)
    return made


def _step(draw: Random, made: dict[str, Any]) -> None:
    members = made.get("member")
    kind = draw.randrange(6)
    if members and kind == 0:
        _doubled(draw, members)
    elif members and kind == 1:
        members.pop(draw.randrange(len(members)))
    elif members and kind == 2:
        _renamed(draw, made)
    else:
        numbers = list(_numbers(made))
        if numbers:
            holder, key = draw.choice(numbers)
            value = holder[key]
            holder[key] = value * draw.choice(_FACTORS) if draw.random() < 0.6 else value + draw.choice(_SHIFTS)


def _doubled(draw: Random, members: list[dict[str, Any]]) -> None:
    """Put copies of a tube in, on it or beside it."""
    one = draw.choice(members)
    off, times = draw.choice((0.0, 0.0, 1e-3, 0.3, 0.922, 1.11, 3.0)), draw.choice((1, 1, 2, 12, 50))
    for n in range(1, times + 1):
        copied = copy.deepcopy(one) | {"id": f"{one['id'][:40]}.{n}"}
        for point in copied["path"]:
            at = point["at"] if isinstance(point, dict) else point
            at[draw.randrange(3)] += off * n
        members.append(copied)


def _renamed(draw: Random, made: dict[str, Any]) -> None:
    """Give a tube another name, wherever it is named."""
    old = draw.choice(made["member"])["id"]
    new = draw.choice(_NAMES)
    for holder, key in list(_texts(made)):
        if holder[key] == old:
            holder[key] = new


def _numbers(inside: Any) -> Iterator[tuple[Any, Any]]:
    for holder, key in _entries(inside):
        if isinstance(holder[key], int | float) and not isinstance(holder[key], bool):
            yield holder, key


def _texts(inside: Any) -> Iterator[tuple[Any, Any]]:
    for holder, key in _entries(inside):
        if isinstance(holder[key], str):
            yield holder, key


def _entries(inside: Any) -> Iterator[tuple[Any, Any]]:
    """Give every place of a value: what holds it, and its key or number there."""
    entries = inside.items() if isinstance(inside, dict) else enumerate(inside) if isinstance(inside, list) else ()
    for key, value in entries:
        yield inside, key
        yield from _entries(value)
