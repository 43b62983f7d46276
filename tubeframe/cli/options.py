"""What options of a command say, read; and a changed file written back."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

from tubeframe.errors import Problem, nearest_name, shown
from tubeframe.geometry.units import parse_length
from tubeframe.inputs.toml_lines import changed_lines
from tubeframe.output.one_file import write_whole_file

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from tubeframe.geometry.units import Units


def wrong(key: str, message: str, remedy: str = "") -> Problem:
    """Say what is wrong with an option."""
    return Problem(where="", key=key, message=message, remedy=remedy)


def as_length(option: str, text: str, units: Units, problems: list[Problem]) -> float:
    """Read a length [mm]; 0 when it is none, which is told."""
    try:
        return parse_length(text, units)
    except ValueError as error:
        problems.append(wrong(option, str(error)))
        return 0.0


def as_angle(option: str, text: str, between: tuple[float, float], problems: list[Problem]) -> float:
    """Read an angle between two others [degree]; the lower one when it is none, which is told."""
    low, high = between
    try:
        angle = float(text)
    except ValueError:
        problems.append(wrong(option, f"{shown(text)} is not a number of degrees", "write for example 45"))
        return low
    if not low <= angle <= high:
        problems.append(wrong(option, f"{text} degrees is out of range", f"{low:g} to {high:g} degrees"))
        return low
    return angle


def as_name(option: str, text: str, known: Sequence[str], problems: list[Problem]) -> str:
    """Take one of some names; the first when it is none, which is told."""
    if text in known:
        return text
    problems.append(wrong(option, f"{shown(text)} is not known", nearest_name(text, known)))
    return known[0]


def check_day(option: str, text: str, problems: list[Problem]) -> None:
    """Tell of a day that is none."""
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        problems.append(wrong(option, f"{shown(text)} is not a day", "write 2026-05-01"))


def write_back(path: Path, before: str, after: str) -> list[str]:
    """Write a changed file, whole or not at all; return what changed in it, a line each."""
    write_whole_file(path, after.encode())
    return [f"  {line}" for line in changed_lines(before, after)] or ["  nothing: it says so already"]
