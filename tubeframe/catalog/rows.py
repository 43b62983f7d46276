"""Reading tables: every key is taken once, what nobody takes is unknown, all mistakes are listed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.catalog.ranges import MOST_COUNT, MOST_NAME, MOST_ROWS, MOST_TEXT, PLAIN, Range, as_number, fault_of_name
from tubeframe.errors import Problem, nearest_name, shown

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping


class Table:
    """One table while it is read; `problems` gathers what is wrong with it."""

    def __init__(self, where: str, data: Mapping[str, object], problems: list[Problem], path: str = "") -> None:
        """Take the table, the place and the path of keys for messages, and the list that problems go to."""
        self._where = where
        self._path = path
        self._left = dict(data)
        self._known: list[str] = []
        self._problems = problems

    def text(self, key: str, default: str | None = None, most: int = MOST_TEXT) -> str:
        """Take a text of letters, figures and signs."""
        value = self.take(key)
        if value is None and default is not None:
            return default
        if value is None:
            self.wrong(key, "it is missing", "a text is needed")
            return ""
        if not isinstance(value, str):
            self.wrong(key, f"a text is needed, not {shown(value)}")
            return ""
        fault = fault_of_name(value, most)
        if fault is not None:
            self.wrong(key, f"{shown(value)} is no text for this: {fault}")
            return ""
        return value

    def name(self, key: str, default: str | None = None) -> str:
        """Take an id or a name."""
        return self.text(key, default, MOST_NAME)

    def texts(self, key: str) -> list[str] | None:
        """Take a list of texts; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        if not isinstance(value, list) or len(value) > MOST_ROWS or any(not isinstance(v, str) for v in value):
            self.wrong(key, f"a list of names is needed, not {shown(value)}", f"write {key} = ['one', 'other']")
            return None
        return value

    def some_of(self, key: str, known: Collection[str], what: str) -> list[str] | None:
        """Take a list of names that are known; None when it is not there or wrong, each unknown one told."""
        names = self.texts(key)
        if names is None:
            return None
        unknown = [n for n in names if n not in known]
        for name in unknown:
            self.wrong(key, f"there is no {what} {shown(name)}", nearest_name(name, known))
        return None if unknown else names

    def number(self, key: str, default: float | None = None, span: Range = PLAIN) -> float:
        """Take a number over or at 0, as it stands."""
        value = self.take(key)
        if value is None and default is not None:
            return default
        number = as_number(value)
        if number is not None and span.holds(number):
            return number
        given = "" if value is None else f", not {shown(value)}"
        self.wrong(key, f"a number from 0 to {span.words} is needed{given}")
        return 0.0

    def whole(self, key: str) -> int:
        """Take a whole number from 1 up."""
        stated = key in self._left
        value = self.optional_count(key)
        if value == 0 or not stated:
            self.wrong(key, "a whole number from 1 up is needed", "how many?")
        return value or 1

    def optional_count(self, key: str) -> int | None:
        """Take a whole number from 0 up; None when it is not there or wrong."""
        value = self.take(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= MOST_COUNT:
            self.wrong(key, f"{shown(value)} is not a whole number from 0 to {MOST_COUNT:,}")
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
