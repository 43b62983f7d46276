"""Reading tables: every key is taken once, what nobody takes is unknown, all mistakes are listed."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any

from tubeframe.errors import Problem, nearest_name
from tubeframe.geometry.units import INCH_MM, POUND_N, Units, parse_length, parse_load

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


_MOMENT = re.compile(r"(\d+(?:\.\d+)?)\s*(N\.?m|ft-lb|lbf-ft|in-lb)", re.IGNORECASE)
_MOMENTS = {"nm": 1000.0, "ft-lb": POUND_N * 12 * INCH_MM, "lbf-ft": POUND_N * 12 * INCH_MM, "in-lb": POUND_N * INCH_MM}


class Table:
    """One table while it is read; `problems` gathers what is wrong with it."""

    def __init__(self, where: str, data: Mapping[str, object], problems: list[Problem], path: str = "") -> None:
        """Take the table, the place and the path of keys for messages, and the list that problems go to."""
        self._where = where
        self._path = path
        self._left = dict(data)
        self._known: list[str] = []
        self._problems = problems

    def text(self, key: str, default: str | None = None) -> str:
        """Take a text."""
        value = self.take(key)
        if value is None and default is not None:
            return default
        if isinstance(value, str) and value:
            return value
        self.wrong(key, f"a text is needed, not {value!r}")
        return ""

    def number(self, key: str, default: float | None = None) -> float:
        """Take a number over or at 0, as it stands."""
        value = self.take(key)
        if value is None and default is not None:
            return default
        if isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < math.inf:
            return float(value)
        self.wrong(key, f"a number from 0 up is needed, not {value!r}")
        return 0.0

    def optional_count(self, key: str) -> int | None:
        """Take a whole number from 0 up; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or value < 0:
            self.wrong(key, f"{value!r} is not a whole number from 0 up")
            return None
        return value

    def names(self) -> tuple[str, ...]:
        """List the keys that are not taken yet."""
        return tuple(self._left)

    def take(self, key: str) -> Any:  # noqa: ANN401  a value of any type is what a file holds
        """Take what is there, as it stands; None when it is not."""
        self._known.append(key)
        return self._left.pop(key, None)

    def wrong(self, key: str, message: str, remedy: str = "") -> None:
        """Note a problem of a key."""
        full = f"{self._path}.{key}" if self._path else key
        self._problems.append(Problem(where=self._where, key=full, message=message, remedy=remedy))

    def close(self) -> None:
        """Complain of every key that nobody took."""
        for key in self._left:
            self.wrong(key, "unknown key", nearest_name(key, self._known))


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
            self.wrong(key, f"a table is needed, not {value!r}")
        data = value if isinstance(value, dict) else {}
        return UserTable(self._where, data, self._problems, self.units, f"{self._path}.{key}".lstrip("."))

    def inner_rows(self, key: str) -> list[UserTable]:
        """Take an array of tables; empty when it is not there."""
        value = self.take(key)
        rows = value if isinstance(value, list) else []
        if value is not None and (not isinstance(value, list) or any(not isinstance(r, dict) for r in rows)):
            self.wrong(key, f"[[{key}]] tables are needed")
            rows = []
        return [
            UserTable(self._where, r, self._problems, self.units, f"{key}[{n}]") for n, r in enumerate(rows, start=1)
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
        if isinstance(value, bool) or not isinstance(value, int | float) or value < 0:
            self.wrong(key, f"{value!r} is not a price", "write a number from 0 up")
            return None
        return float(value)

    def moment(self, key: str) -> float | None:
        """Take a moment [N mm]; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        match = _MOMENT.fullmatch(str(value).strip())
        if match is None:
            self.wrong(key, f"{value!r} is not a moment", "write for example '8 Nm' or '70 in-lb'")
            return None
        return float(match[1]) * _MOMENTS[match[2].lower().replace(".", "")]

    def length(self, key: str) -> float | None:
        """Take a length over or at 0 [mm]; None when it is not there or wrong."""
        return self.as_length(key, self.take(key))

    def as_length(self, key: str, value: object) -> float | None:
        """Read a value as a length over or at 0 [mm]; None when it is not there or wrong."""
        if value is None:
            return None
        length = self.as_coordinate(key, value)
        if length is not None and length < 0:
            self.wrong(key, f"'{value}' is under 0", "give a length from 0 up")
            return None
        return length

    def as_coordinate(self, key: str, value: object) -> float | None:
        """Read a value as a length of either sign [mm]; None when it is wrong."""
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            self.wrong(key, f"{value!r} is not a length")
            return None
        try:
            return parse_length(value, self.units)
        except ValueError as error:
            self.wrong(key, str(error))
            return None

    def load(self, key: str) -> float | None:
        """Take a load [N]; None when it is not there or wrong."""
        return self.read(key, parse_load)

    def read(self, key: str, parse: Callable[[str], float]) -> float | None:
        """Take a value that a function reads; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        try:
            return parse(str(value))
        except ValueError as error:
            self.wrong(key, str(error))
            return None

    def one_of(self, key: str, known: tuple[str, ...], default: str) -> str:
        """Take one of some words; the default when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return default
        if value not in known:
            self.wrong(key, f"{value!r} is not known", nearest_name(str(value), known))
            return default
        return str(value)
