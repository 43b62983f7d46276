"""A measured bender put into the text of a workshop file; everything else, comments too, stays as it is."""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, Any

from tubeframe.inputs.toml_lines import HEADER, end_of, join_lines, opened, split_lines, with_line, with_table
from tubeframe.inputs.workshop_text import untouchable

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

_ONE = ("bender",)
_MEASURED = {"take_up", "radius", "springback"}
_SINGLE = re.compile(r"^(\s*)\[(\s*bender\s*)\](.*)$")


def with_bender(text: str, tube: str, sizes: Mapping[str, str], springback: str | None, note: str) -> str:
    """Return a workshop file's text with a measured bender in it, and a note behind each value.

    Args:
        text: the file's text.
        tube: the tube size that the bender is for.
        sizes: `take_up` and `radius` as they are written; the one that stands there already is replaced.
        springback: how far past 90 it has to go, as it is written; None where nobody looked.
        note: what is said behind them.

    A bender of another tube stays: a table of its own becomes one of several.

    """
    lines = split_lines(text)
    start = next((n for n in _headers(lines) if _block(lines, n).get("tube") == tube), None)
    if start is None:
        lines = [_SINGLE.sub(r"\1[[\2]]\3", line) for line in lines]
        lines, start = with_table(lines, "[[bender]]")
        lines.append(f'tube = "{tube}"')
    given = next((k for k in sizes if k in _block(lines, start)), "take_up")
    values = {} if springback is None else {"springback": springback}
    for key, value in {**values, given: f'"{sizes[given]}"'}.items():
        lines = with_line(lines, _after_tube(lines, start, key), key, f"{key} = {value}  # {note}")
    return join_lines(lines)


def check_only_bender(before: Mapping[str, Any], after: Mapping[str, Any], tube: str, path: Path) -> None:
    """Raise InputError when a change of the text changed, or lost, anything but what is measured of one bender."""
    if _without(before, tube) != _without(after, tube):
        what = f"the bender of {tube}"
        raise untouchable(what, path)


def _headers(lines: Sequence[str]) -> list[int]:
    return [n for n, line in enumerate(lines) if HEADER.match(line) and opened(line)[:1] == _ONE]


def _block(lines: Sequence[str], header: int) -> dict[str, Any]:
    """Return the values of the table that a header opens; nothing where they cannot be read alone."""
    try:
        return tomllib.loads(join_lines(lines[header + 1 : end_of(lines, header)]))
    except tomllib.TOMLDecodeError:
        return {}


def _after_tube(lines: Sequence[str], header: int, key: str) -> int:
    """Return the line below which a value that is not there yet is put: that of the tube."""
    if key in _block(lines, header):
        return header
    inside = range(header + 1, end_of(lines, header))
    return next((n for n in inside if re.match(r"^\s*tube\s*=", lines[n])), header)


def _without(values: Mapping[str, Any], tube: str) -> dict[str, Any]:
    """Return values with what is measured of a tube's bender left out."""
    stated = values.get("bender", [])
    rows = [stated] if isinstance(stated, dict) else stated
    kept = [{k: v for k, v in row.items() if row.get("tube") != tube or k not in _MEASURED} for row in rows]
    return {**{k: v for k, v in values.items() if k != "bender"}, "bender": [k for k in kept if set(k) != {"tube"}]}
