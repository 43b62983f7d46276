"""The lines of a TOML file that is changed in place: everything else, comments too, stays as it is."""

from __future__ import annotations

import json
import re
import tomllib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

HEADER = re.compile(r"^\s*\[[^\[].*\]\s*(#.*)?$|^\s*\[\[.*\]\]\s*(#.*)?$")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def with_line(lines: Sequence[str], header: int, key: str, line: str) -> list[str]:
    """Put a line into a table: in place of the one of its key, else right below the header."""
    end = end_of(lines, header)
    old = next((n for n in range(header + 1, end) if re.match(rf'^\s*"?{re.escape(key)}"?\s*=', lines[n])), None)
    return [*lines[:old], line, *lines[old + 1 :]] if old else [*lines[: header + 1], line, *lines[header + 1 :]]


def with_table(lines: Sequence[str], header: str) -> tuple[list[str], int]:
    """Put a table at the end, clear of what stands there; return the lines, and the number of its header."""
    gap = [] if not lines or not lines[-1].strip() else [""]
    return [*lines, *gap, header], len(lines) + len(gap)


def end_of(lines: Sequence[str], header: int) -> int:
    """Return the number of the line after a table's last."""
    return next((n for n in range(header + 1, len(lines)) if HEADER.match(lines[n])), len(lines))


def opened(header: str) -> tuple[str, ...]:
    """Return the keys of the table that a header opens; nothing for a line that is none."""
    try:
        inside: Any = tomllib.loads(header)
    except tomllib.TOMLDecodeError:
        return ()
    keys = []
    while isinstance(inside, dict) and inside:
        ((key, inside),) = inside.items()
        keys.append(key)
    return tuple(keys)


def written_key(key: str) -> str:
    """Write a key, in quotes where it needs them."""
    return key if _BARE_KEY.fullmatch(key) else json.dumps(key)
