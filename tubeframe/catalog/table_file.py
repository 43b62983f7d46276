"""A table file of the catalogue: its rows, each with the line that it begins on; the unit is in the key."""

from __future__ import annotations

import math
import re
import tomllib
from typing import TYPE_CHECKING, Any

from tubeframe.catalog.rows import Table
from tubeframe.errors import Problem, shown
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

_UNIT_OFF = 1e-6


class Row(Table):
    """A row of a table file."""

    def length(self, key: str, default: float | None = None) -> float:
        """Take a length from `key_mm` or `key_in` [mm]."""
        millimetres, inches = self.take(f"{key}_mm"), self.take(f"{key}_in")
        if millimetres is None and inches is None and default is not None:
            return default
        given = [v for v in (millimetres, inches) if v is not None]
        if len(given) == 1 and _is_number(given[0]) and given[0] >= 0:
            return float(given[0]) * (INCH_MM if millimetres is None else 1.0)
        self.wrong(f"{key}_mm", f"one length from 0 up is needed, in mm or in; found {given}")
        return 0.0

    def optional_length(self, key: str) -> float | None:
        """Take a length [mm] that need not be there."""
        found = self.length(key, default=-1.0)
        return None if found < 0 else found

    def flag(self, key: str, *, default: bool = False) -> bool:
        """Take true or false; also 1 or 0."""
        value = self.take(key)
        if value is None:
            return default
        if value not in (0, 1):
            self.wrong(key, f"true or false is needed, not {shown(value)}")
        return value in (1, True)

    def known(self, key: str, names: Collection[str], default: str = "") -> str:
        """Take one of some names; the first of them when it is wrong, the default when it is not there."""
        value = self.take(key)
        if value is None and default:
            return default
        if isinstance(value, str) and value in names:
            return value
        self.wrong(
            key, f"{shown(value)} is not known" if value is not None else "it is missing", f"known: {', '.join(names)}"
        )
        return next(iter(names), "")

    def unit_vector(self, key: str, value: object = None) -> Vec | None:
        """Take three numbers that make a direction one long; None when they do not."""
        value = self.take(key) if value is None else value
        if not isinstance(value, list) or len(value) != 3 or not all(map(_is_number, value)):
            self.wrong(key, f"three numbers are needed, not {shown(value)}" if value is not None else "it is missing")
            return None
        found = Vec(*map(float, value))
        if abs(found.length - 1.0) > _UNIT_OFF:
            self.wrong(key, f"it is {found.length:.6f} long, not 1", "give a unit vector, to six places")
            return None
        return found.unit if abs(found.length - 1.0) > TINY else found

    def optional_unit_vector(self, key: str) -> Vec | None:
        """Take a direction one long that need not be there."""
        value = self.take(key)
        return None if value is None else self.unit_vector(key, value)

    def rows(self, key: str) -> list[Row]:
        """Take a list of tables that has to be there."""
        value = self.take(key)
        if not isinstance(value, list) or not value or not all(isinstance(v, dict) for v in value):
            self.wrong(key, "a list of tables is needed" if value is not None else "it is missing")
            return []
        return [Row(self._where, v, self._problems, f"{self._path}.{key}[{n}]") for n, v in enumerate(value, start=1)]


class TableFile:
    """A table file while it is read; `problems` gathers what is wrong with it."""

    def __init__(self, name: str, text: str, problems: list[Problem]) -> None:
        """Take the file's name for messages, its text, and the list that problems go to."""
        self._name = f"{name}.toml"
        self._text = text
        self._problems = problems
        self._data: Mapping[str, Any] = {}
        try:
            self._data = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            problems.append(Problem(where=self._name, key="", message=f"it is not TOML: {error}"))

    def table(self, key: str) -> Row:
        """Return a table that stands alone."""
        data = self._data.get(key, {})
        return Row(self._where(rf"\[\s*{key}\s*\]", 0), data if isinstance(data, dict) else {}, self._problems, key)

    def rows(self, key: str) -> list[Row]:
        """Return the tables of an array, each under its own key; equal keys are told."""
        data = self._data.get(key, [])
        rows = data if isinstance(data, list) else [data]
        made, seen = list[Row](), dict[str, None]()
        if not rows:
            self._problems.append(Problem(where=self._name, key=key, message=f"there is no [[{key}]]"))
        for n, row in enumerate(rows):
            where = self._where(rf"\[\[\s*{key}\s*\]\]", n)
            if not isinstance(row, dict):
                self._problems.append(
                    Problem(where=where, key=f"{key}[{n + 1}]", message=f"a table is needed, not {shown(row)}")
                )
                continue
            name = str(row.get("key", f"{key}[{n + 1}]"))
            if name in seen:
                self._problems.append(Problem(where=where, key=name, message="this key is there twice"))
            seen[name] = None
            made.append(Row(where, row, self._problems, name))
        return made

    def _where(self, header: str, number: int) -> str:
        """Name the file and the line of the header of that number, from 0."""
        lines = [n for n, line in enumerate(self._text.splitlines(), start=1) if re.match(rf"\s*{header}", line)]
        return f"{self._name}, line {lines[number]}" if number < len(lines) else self._name


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
