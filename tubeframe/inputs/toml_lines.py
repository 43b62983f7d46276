"""The lines of a TOML file that is changed in place: everything else, comments too, stays as it is."""

from __future__ import annotations

import difflib
import json
import re
import tomllib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

HEADER = re.compile(r"^\s*\[[^\[].*\]\s*(#.*)?$|^\s*\[\[.*\]\]\s*(#.*)?$")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


_COMMENT = re.compile(
    r"""^[^=]*=\s*(?:"[^"]*"|'[^']*'|\{[^}]*\}|[^\s"'{\[\#]+)  # a value on one line
    \s*\#\s*(?P<words>.*?)\s*$""",
    re.VERBOSE,
)
_OWN_NOTE = re.compile(r"(measured \d{4}-\d\d-\d\d|from a trial bend(, \d{4}-\d\d-\d\d)?)(; )?")


def split_lines(text: str) -> list[str]:
    """Split a text at its line feeds, and at nothing else; each line keeps its carriage return."""
    lines = text.split("\n")
    return lines if lines[-1] else lines[:-1]


def join_lines(lines: Sequence[str]) -> str:
    """Put lines together again; those that were put in end as the first one does."""
    ending = "\r" if lines and lines[0].endswith("\r") else ""
    return "".join(f"{line.removesuffix(ending)}{ending}\n" if ending else f"{line}\n" for line in lines)


def with_line(lines: Sequence[str], header: int, key: str, line: str) -> list[str]:
    """Put a line into a table: in place of the one of its key, whose comment it takes, else right below the header."""
    end = end_of(lines, header)
    old = next((n for n in range(header + 1, end) if re.match(rf'^\s*"?{re.escape(key)}"?\s*=', lines[n])), None)
    if old is None:
        return [*lines[: header + 1], line, *lines[header + 1 :]]
    said = _COMMENT.match(lines[old])
    words = _OWN_NOTE.sub("", said["words"], count=1) if said else ""
    return [*lines[:old], f"{line}; {words}" if words else line, *lines[old + 1 :]]


def changed_lines(before: str, after: str) -> list[str]:
    """Say which lines of a text are others now: each with - as it was, with + as it is."""
    told = difflib.ndiff([x.rstrip("\r") for x in split_lines(before)], [x.rstrip("\r") for x in split_lines(after)])
    return [line.rstrip() for line in told if line[:1] in {"-", "+"} and line[1:].strip()]


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
        inside: Any = tomllib.loads(header.strip())
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
