"""A table of the user's own file while it is read: every value has its type, its unit and its range."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from tubeframe.catalog.ranges import LOAD, MOMENT, MOST_COORDINATE, MOST_NAME, MOST_ROWS, PRICE, Range, as_number
from tubeframe.catalog.rows import Table
from tubeframe.errors import nearest_name, shown
from tubeframe.geometry.units import INCH_MM, POUND_N, Units, format_range, parse_length, parse_load

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Problem

_MOMENT = re.compile(r"(\d+(?:\.\d+)?)\s*(N\.?m|ft-lb|lbf-ft|in-lb)", re.IGNORECASE)
_MOMENTS = {"nm": 1000.0, "ft-lb": POUND_N * 12 * INCH_MM, "lbf-ft": POUND_N * 12 * INCH_MM, "in-lb": POUND_N * INCH_MM}


class UserTable(Table):
    """A table of the user's own file: lengths and loads are texts with a unit, or numbers in the file's units."""

    def __init__(
        self, where: str, data: Mapping[str, object], problems: list[Problem], units: Units, path: str = ""
    ) -> None:
        """Take the table of a user's file."""
        super().__init__(where, data, problems, path)
        self.units = units

    def inner(self, key: str) -> UserTable:
        """Take a table inside this one; empty when it is not there."""
        value = self.take(key)
        if value is not None and not isinstance(value, dict):
            self.wrong(key, f"a table is needed, not {shown(value)}", f"write [{key}] on a line of its own")
        data = value if isinstance(value, dict) else {}
        return UserTable(self._where, data, self._problems, self.units, f"{self._path}.{key}".lstrip("."))

    def inner_rows(self, key: str, most: int = MOST_ROWS) -> list[UserTable]:
        """Take an array of tables; empty when it is not there, or holds more than `most`."""
        value = self.take(key)
        rows = value if isinstance(value, list) else []
        if value is not None and (not isinstance(value, list) or any(not isinstance(r, dict) for r in rows)):
            odd = next((r for r in rows if not isinstance(r, dict)), value)
            self.wrong(key, f"[[{key}]] tables are needed, not {shown(odd)}")
            rows = []
        if len(rows) > most:
            self.wrong(key, f"there are {len(rows):,} of them; at most {most:,}")
            rows = []
        path = f"{self._path}.{key}".lstrip(".")
        return [
            UserTable(self._where, r, self._problems, self.units, f"{path}[{n}]") for n, r in enumerate(rows, start=1)
        ]

    def one_or_rows(self, key: str) -> list[UserTable]:
        """Take one table or an array of tables; empty when it is not there."""
        one = isinstance(self._left.get(key), dict)
        return [self.inner(key)] if one else self.inner_rows(key)

    def tables(self) -> tuple[str, ...]:
        """List the keys of tables that are not taken yet."""
        return tuple(key for key, value in self._left.items() if isinstance(value, dict))

    def price(self, key: str) -> float | None:
        """Take a price; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        number = as_number(value)
        if number is None or not PRICE.holds(number):
            self.wrong(key, f"{shown(value)} is not a price", f"write a number from 0 to {PRICE.words}")
            return None
        return number

    def moment(self, key: str) -> float | None:
        """Take a moment [N mm]; None when it is not there or wrong."""
        return self.read(key, _moment, MOMENT)

    def length(self, key: str, most: float = MOST_COORDINATE) -> float | None:
        """Take a length from 0 to a most [mm]; None when it is not there or wrong."""
        return self.as_length(key, self.take(key), most)

    def as_length(self, key: str, value: object, most: float = MOST_COORDINATE) -> float | None:
        """Read a value as a length from 0 to a most [mm]; None when it is not there or wrong."""
        if value is None:
            return None
        length = self.as_coordinate(key, value, most)
        if length is not None and length < 0:
            self.wrong(key, f"{shown(value)} is under 0", "give a length from 0 up")
            return None
        return length

    def as_coordinate(self, key: str, value: object, most: float = MOST_COORDINATE) -> float | None:
        """Read a value as a length of either sign, up to a most [mm]; None when it is wrong."""
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            self.wrong(key, "it is missing" if value is None else f"{shown(value)} is not a length")
            return None
        try:
            length = parse_length(value, self.units)
        except ValueError as error:
            self.wrong(key, str(error))
            return None
        if abs(length) > most:
            span = f"{most / 1000.0:g} m" if most >= 1000.0 else format_range(most, self.units)
            self.wrong(key, f"{shown(value)} is out of range; it goes up to {span}", "check its unit")
            return None
        return length

    def load(self, key: str) -> float | None:
        """Take a load [N]; None when it is not there or wrong."""
        return self.read(key, parse_load, LOAD)

    def read(self, key: str, parse: Callable[[str], float], span: Range) -> float | None:
        """Take a value that a function reads and that lies in a range; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        try:
            found = parse(value if isinstance(value, str) else shown(value))
        except ValueError as error:
            self.wrong(key, str(error))
            return None
        if not span.holds(found):
            self.wrong(key, f"{shown(value)} is out of range; it goes up to {span.words}", "check its unit")
            return None
        return found

    def one_of(self, key: str, known: tuple[str, ...], default: str) -> str:
        """Take one of some words; the default when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return default
        if not isinstance(value, str) or value not in known:
            self.wrong(key, f"{shown(value)} is not known", nearest_name(value, known))
            return default
        return value


def _moment(text: str) -> float:
    """Read a moment [N mm]; ValueError when it is none."""
    match = _MOMENT.fullmatch(text.strip()) if len(text) <= MOST_NAME else None
    if match is None:
        message = f"{shown(text)} is not a moment; write for example '8 Nm' or '70 in-lb'"
        raise ValueError(message)
    return float(match[1]) * _MOMENTS[match[2].lower().replace(".", "")]
