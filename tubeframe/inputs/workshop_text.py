"""The text of a workshop file: read, and one measured value put in; everything else, comments too, stays as it is."""

from __future__ import annotations

import json
import re
import tomllib
from typing import TYPE_CHECKING, Any

from tubeframe.errors import InputError, Problem
from tubeframe.inputs.text_file import read_text
from tubeframe.inputs.toml_lines import (
    HEADER,
    end_of,
    join_lines,
    opened,
    split_lines,
    with_line,
    with_table,
    written_key,
)
from tubeframe.inputs.toml_text import parsed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

_BARE_SIZE = re.compile(
    r"""^(\s*\[\s*fittings\s*\.\s*[\w-]+\s*\.\s*)   # the kind's table
    ([\w-][^\]"'#]*?(?:/|\ x\ |\d\.\d)[^\]"'#]*?)   # a size that TOML wants quotes for: emt-3/4, tube-25x1.5
    (\s*(?:\.\s*setback\s*)?\]\s*(?:\#.*)?)$""",
    re.VERBOSE,
)


def read_workshop(path: Path) -> dict[str, Any]:
    """Read a workshop file; a tube size may stand in a table's name without quotes. InputError when it is not TOML."""
    return workshop_values(read_text(path), path)


def workshop_values(text: str, path: Path) -> dict[str, Any]:
    """Return the values of a workshop file's text; InputError when it is not TOML."""
    return parsed("\n".join(map(_quoted, text.split("\n"))), path)


def with_setback(text: str, place: tuple[str, ...], angle: str | None, value: str, note: str) -> str:
    """Return a workshop file's text with a measured setback in it, and a note behind it.

    Args:
        text: the file's text.
        place: the keys of the table that it goes into, as `("fittings", "tee", "emt-3/4")`.
        angle: the angle that it was measured at, beside those that are there; None for one that holds at every angle.
        value: the setback as it is written.
        note: what is said behind it.

    A line that is there is replaced, else one is put below the table's own header, else a table at the end.

    """
    lines = split_lines(text)
    inner = _header_of(lines, (*place, "setback"))
    if inner is not None and angle is not None:
        lines = with_line(lines, inner, angle, f'{written_key(angle)} = "{value}"  # {note}')
        return join_lines(lines)
    start = _header_of(lines, place)
    if start is None:
        lines, start = with_table(lines, f"[{'.'.join(map(written_key, place))}]")
    there = _setback_of(lines, start) if angle is not None else {}
    written = f'"{value}"' if angle is None else _by_angle({**there, angle: value})
    return join_lines(with_line(lines, start, "setback", f"setback = {written}  # {note}"))


def _header_of(lines: Sequence[str], place: tuple[str, ...]) -> int | None:
    """Return the number of the line that opens a table."""
    return next((n for n, line in enumerate(lines) if HEADER.match(line) and opened(_quoted(line)) == place), None)


def _setback_of(lines: Sequence[str], header: int) -> dict[str, str]:
    """Return the setbacks by angle that a table has already, on one line."""
    for line in lines[header + 1 : end_of(lines, header)]:
        if re.match(r"^\s*setback\s*=\s*\{", line):
            try:
                found = tomllib.loads(line.strip())["setback"]
            except tomllib.TOMLDecodeError:
                return {}
            return {angle: str(value) for angle, value in found.items()}
    return {}


def _by_angle(setbacks: Mapping[str, str]) -> str:
    """Write setbacks by angle, the sharpest first."""
    ordered = sorted(setbacks.items(), key=lambda entry: float(entry[0]))
    return "{" + ", ".join(f'{written_key(angle)} = "{value}"' for angle, value in ordered) + "}"


def _quoted(line: str) -> str:
    """Put the quotes round a tube size in a table's name."""
    found = _BARE_SIZE.match(line)
    return f"{found[1]}{json.dumps(found[2])}{found[3]}" if found else line


def check_only_changed(before: Mapping[str, Any], after: Mapping[str, Any], place: tuple[str, ...], path: Path) -> None:
    """Raise InputError when a change of the text changed, or lost, anything outside of one table."""
    if _without(before, place) != _without(after, place):
        what = f"the setback of [{'.'.join(map(written_key, place))}]"
        raise untouchable(what, path)


def untouchable(what: str, path: Path) -> InputError:
    """Say that a value cannot be put into a file without touching other lines."""
    message = f"{what} cannot be put in without touching other lines"
    return InputError(Problem(where=str(path), key="", message=message, remedy="write it in by hand"))


def _without(values: Mapping[str, Any], place: tuple[str, ...]) -> dict[str, Any]:
    """Return values with the setback of a table, and the tables that it alone makes, left out."""
    first, rest = (place or ("setback",))[0], place[1:]
    if not place:
        return {k: v for k, v in values.items() if k != first}
    inner = values.get(first, {})
    left = _without(inner, rest) if isinstance(inner, dict) else inner
    others = {k: v for k, v in values.items() if k != first}
    return {**others, **({first: left} if left else {})}
