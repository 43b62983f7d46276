"""What can go wrong, and how it is told.

    TubeframeError
    |-- InputError        the user's parameters or files (exit status 2)
    |-- CatalogError      a table that is shipped or merged is wrong
    |   `-- UnknownItemError
    |-- FrameError        a frame that cannot exist
    |-- BendError         a bend that cannot be made
    |-- PlanError         no stick plan
    |-- OutputError       a file that cannot be written
    `-- MissingLibraryError   a library of the system is not there

A `Finding` is a problem told as data: work goes on.
Messages say what, where, the value and the limit with units, and what to do next.
"""

from __future__ import annotations

import datetime
import difflib
from dataclasses import dataclass
from enum import StrEnum
from itertools import islice
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_MOST_SHOWN = 60
_MOST_NAMED = 40
_MOST_COMPARED = 300
_MOST_LISTED = 100
_MOST_DIGITS = 18
_MOST_SAID = 300


class Severity(StrEnum):
    """How bad a finding is."""

    INFO = "info"
    WARNING = "warning"
    ERROR = "error"


class Fact:
    """What was found, as a typed value: each kind is a frozen dataclass of the stage that finds it."""

    __slots__ = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One problem of a frame: `subjects` names the tubes and boards at fault, `fact` holds what is wrong in numbers.

    Sentences are made of it at the edge, by `words`.
    """

    code: str
    severity: Severity
    subjects: tuple[str, ...]
    fact: Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class Noted(Fact):
    """Something that is told in words of its own, such as a template's."""

    where: str
    message: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One mistake in what the user gave: where, which key, what is wrong and what to do."""

    where: str
    key: str
    message: str
    remedy: str = ""

    def __str__(self) -> str:
        """Print as one line."""
        place = ": ".join(part for part in (cut(self.where, 4 * _MOST_SHOWN), cut(self.key, 2 * _MOST_SHOWN)) if part)
        text = f"{place}: {self.message}" if place else self.message
        return printable(f"{text}; {self.remedy}" if self.remedy else text)


class TubeframeError(Exception):
    """Every error of this package; it carries all problems that were found."""

    def __init__(self, *problems: Problem | str) -> None:
        """Take the problems, each one whole."""
        self.problems = tuple(p if isinstance(p, Problem) else Problem(where="", key="", message=p) for p in problems)
        super().__init__("\n".join(str(p) for p in self.problems))


class InputError(TubeframeError):
    """The user's parameters or files are wrong."""


class CatalogError(TubeframeError):
    """A table of the catalogue is wrong."""


class UnknownItemError(CatalogError):
    """A name that the catalogue does not have."""


class FrameError(TubeframeError):
    """A frame that cannot exist."""


class BendError(TubeframeError):
    """A bend that cannot be made."""


class PlanError(TubeframeError):
    """No stick plan can be made."""


class OutputError(TubeframeError):
    """A file that cannot be written."""


class MissingLibraryError(TubeframeError):
    """A library of the operating system is missing."""


class Problems(list[Problem]):
    """Problems while they are gathered: reading stops at a hundred, which tells enough.

    Raises:
        InputError: when one more is added.

    """

    def append(self, problem: Problem) -> None:
        """Add a problem."""
        if len(self) >= _MOST_LISTED:
            raise InputError(*self, Problem(where=problem.where, key="", message="there is more: mend these first"))
        super().append(problem)

    def extend(self, problems: Iterable[Problem]) -> None:
        """Add problems."""
        for problem in problems:
            self.append(problem)

    def __iadd__(self, problems: Iterable[Problem]) -> Problems:  # type: ignore[misc,override]  # as a list does
        """Add problems."""
        self.extend(problems)
        return self


def nearest_name(name: object, known: Iterable[str]) -> str:
    """Say which known name is meant, or list them when none is near: the first of them where there are many."""
    names = list(known)
    asked = cut(name, _MOST_SHOWN) if isinstance(name, str) else ""
    close = difflib.get_close_matches(asked, names[:_MOST_COMPARED], n=1, cutoff=0.6)
    if close:
        return f"did you mean '{cut(close[0], _MOST_SHOWN)}'?"
    return f"known: {listed(names)}" if names else "there is none"


def listed(names: Iterable[str]) -> str:
    """List names with commas between; of very many the first, and how many more."""
    every = list(names)
    more = f" and {len(every) - _MOST_NAMED} more" if len(every) > _MOST_NAMED else ""
    return ", ".join(cut(name, _MOST_SHOWN) for name in every[:_MOST_NAMED]) + more


def shown(value: object) -> str:
    """Print what a user gave, as a file has it, cut to 60 characters: a text in quotes, a list as far as it goes."""
    return cut("".join(islice(_pieces(value, 2), _MOST_SHOWN)), _MOST_SHOWN)


def cut(text: str, most: int) -> str:
    """Cut a text to a number of characters, with a sign where something is left out."""
    return text if len(text) <= most else f"{text[: most - 1]}…"


def words_of(error: BaseException) -> str:
    """Return what an error says; of one that fails even at that, nothing."""
    try:
        return str(error)[:_MOST_SAID]
    except Exception:
        return ""


def printable(text: str) -> str:
    """Return a text with what is no letter, figure, sign or space written as its code, as JSON does.

    Control characters would drive a terminal, and marks that turn the direction of writing would hide what stands
    there.
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else _code(c) for c in text)


def _code(sign: str) -> str:
    units = sign.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[n]:02x}{units[n + 1]:02x}" for n in range(0, len(units), 2))


def _pieces(value: object, depth: int) -> Iterator[str]:
    """Give the parts of a value as it is written; what lies deep is left out."""
    match value:
        case bool():
            yield str(value).lower()
        case str():
            yield f"'{value[:_MOST_SHOWN]}'"
        case int() if abs(value) >= 10**_MOST_DIGITS:
            yield f"a number of about {int(value.bit_length() * 0.30103) + 1} digits"
        case list() | tuple():
            yield from _inside("[]", (("", v) for v in value), depth)
        case dict():
            yield from _inside("{}", ((f"{str(k)[:_MOST_SHOWN]} = ", v) for k, v in value.items()), depth)
        case datetime.date() | datetime.time():
            yield value.isoformat()
        case _:
            yield str(value)


def _inside(brackets: str, entries: Iterable[tuple[str, object]], depth: int) -> Iterator[str]:
    """Give what a list or a table holds, between its brackets."""
    if not depth:
        yield f"{brackets[0]}…{brackets[1]}"
        return
    comma = ""
    yield brackets[0]
    for key, value in entries:
        yield f"{comma}{key}"
        yield from _pieces(value, depth - 1)
        comma = ", "
    yield brackets[1]
