"""Odd values: what a file or an option may hold beside what is meant."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from random import Random  # noqa: TID251  drawn with a seed: the same every time


@dataclass(frozen=True, slots=True)
class Bare:
    """A value that is written as it stands, without quotes."""

    text: str


NAMES = (
    *("", " ", "\t", "a\nb", "a\rb", "%%c", "\\X2\\00E9\\X0\\", "\\", "'", '"', "=1+1", "@x", "-1", "+1", "\t=1"),
    *("\ufeff", "a\ufeffb", "\x7f", "\x1b[31mred\x1b[0m", "\u202eabc", "\u200f", "שלום", "é", "漢字", "😀", "\u0301"),
    *("x" * 65, "x" * 5000, "../../up", "/etc/passwd", "a/b", "con", ".", "..", "nul\x00", "$PATH", "`id`", "{0}"),
    *("{x}", "{", "%s", "%n", "&amp;<b>", "#1=PRODUCT('", "ENDSEC;", "ISO-10303-21;", "\u2028", "\u0085", "[red]x[/]"),
)
LENGTHS = (
    *("0", "-1", "-0", "1e308", "1e-308", "nan", "inf", "-inf", "1/0", "0/0", "1 1/2/3", "12 inches wide", "10 ft 3"),
    *("99999999 ft", "1" * 400, "1" * 5001, " " * 100_000 + "1 in", "1" + " " * 100_000 + "in", "1in" * 5000),
    *(
        "2.5km",
        "101 m",
        "100 m",
        "4000in",
        "0.001mm",
        "1,5 in",
        "½ in",
        "１２in",
        "٣in",
        "12”",
        "5'",
        "5' 3",
        "1-1/2-in",
    ),
    *("in", "ft", "'", '"', "1e3", "0x10", "1_000", "1 - - 2/3", "24in inside", "24in nowhere", "3 of 1 x 1 x 1"),
)
SCALARS: tuple[Any, ...] = (
    *(0, -1, 1, 2, 1.5, -0.0, 1e308, -1e308, 5e-324, float("nan"), float("inf"), float("-inf"), True, False),
    *(
        2**31,
        2**63,
        2**64,
        10**400,
        Bare("1" * 5001),
        Bare("0x" + "f" * 5000),
        Bare("1e400"),
        Bare("-nan"),
        100_000,
        Bare("[" * 20_000 + "]" * 20_000),
    ),
    *(datetime.date(2026, 5, 1), datetime.time(12, 0), Bare("2026-05-01T00:00:00Z"), [], {}, [[]], [{}], {"": 1}),
    *([1, 2, 3], [1, 2], [0, 0, 0], [1e308, 1e308, 1e308], ["a", "b", "c"], [1] * 1000, {"at": [0, 0, 0]}, {"a": {}}),
    *([True, False, True], [float("nan")] * 3, [[1, 2, 3], [4, 5, 6]], {"x" * 100: "y"}),
)


def odd_value(draw: Random) -> Any:
    """A value of any type, mostly a wrong one."""
    return draw.choice((draw.choice(SCALARS), draw.choice(NAMES), draw.choice(LENGTHS), deep(draw)))


def odd_text(draw: Random) -> str:
    """A text, mostly a wrong one."""
    return draw.choice((draw.choice(NAMES), draw.choice(LENGTHS)))


def deep(draw: Random) -> Any:
    """Lists or tables in each other."""
    made: Any = draw.choice((0, "x"))
    as_table = draw.random() < 0.5
    for _ in range(draw.choice((3, 50, 200))):
        made = {"a": made} if as_table else [made]
    return made
