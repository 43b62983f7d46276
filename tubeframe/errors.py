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

import difflib
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


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
        place = ": ".join(part for part in (self.where, self.key) if part)
        text = f"{place}: {self.message}" if place else self.message
        return f"{text}; {self.remedy}" if self.remedy else text


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


def nearest_name(name: str, known: Iterable[str]) -> str:
    """Say which known name is meant, or list them all when none is near."""
    names = list(known)
    close = difflib.get_close_matches(name, names, n=1, cutoff=0.6)
    return f"did you mean '{close[0]}'?" if close else f"known: {', '.join(names)}"
