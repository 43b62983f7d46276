"""How large a value of the user's may be: far beyond what anybody builds, and no more than is reckoned with soon.

The README says those that people may meet: what is past them is refused before anything is built.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

MOST_COORDINATE = 100_000.0
"""From the origin along each axis, and any other length [mm]."""
MOST_MEMBERS = 2_000
MOST_ROWS = 2_000
"""Tables of one kind in a file, and values in a list."""
MOST_BENDS = 64
"""Bends of one tube."""
MOST_NAME = 64
"""Characters of an id or a name."""
MOST_TEXT = 1_000
"""Characters of a sentence."""
MOST_COUNT = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """The greatest value of a quantity, and that value as it is told; the least is 0."""

    most: float
    words: str

    def holds(self, value: float) -> bool:
        """Whether a value is a number that lies in it."""
        return math.isfinite(value) and 0.0 <= value <= self.most


LOAD = Range(most=1e7, words="10,000 kN")
MOMENT = Range(most=1e9, words="1,000 kNm")
SPEED = Range(most=200.0, words="200 m/s")
PRESSURE = Range(most=0.1, words="100 kPa")
PRICE = Range(most=1e9, words="1,000,000,000")
PLAIN = Range(most=1e9, words="1,000,000,000")


def as_number(value: object) -> float | None:
    """Return a value of a file as a finite number; None when it is none."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        number = float(value)
    except OverflowError:
        return None
    return number if math.isfinite(number) else None


def fault_of_name(text: str, most: int = MOST_NAME) -> str | None:
    """Say why a text cannot be a name; None where it can."""
    if not text.strip():
        return "it is empty"
    if len(text) > most:
        return f"it has {len(text):,} characters; at most {most:,}"
    odd = next((c for c in text if not c.isprintable()), None)
    return None if odd is None else f"it holds a sign that cannot be printed (U+{ord(odd):04X})"
