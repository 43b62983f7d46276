"""Reads a length as a drawing shows it: `914.4`, `36 7/16"`, `5' 3 1/2"`, `(12)`, `⌀23.4`, `R140.7 mm`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

MM_PER_INCH = 25.4  # exact by definition, 1959


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownLength:
    """A length read from its text.

    Attributes:
        mm: the length [mm].
        step_mm: what one of the last shown place is worth [mm]: 1/16 in for `3/16"`, 0.1 mm for `914.4`, 1 for `914`.
        inches: whether it was shown in inches.
        reference: whether it stood in parentheses.
    """

    mm: float
    step_mm: float
    inches: bool
    reference: bool


_PREFIX = re.compile(r"^(?:⌀|Ø|ø|%%[cC]|R)\s*")
_FEET_INCHES = re.compile(
    r"""^(?:(?P<feet>\d+)\s*(?:'|ft)\s*-?\s*)?
        (?:(?P<whole>\d+)(?:[ -]+(?P<over>\d+)/(?P<under>\d+))?
          |(?P<only_over>\d+)/(?P<only_under>\d+)
          |(?P<decimal>\d*\.\d+))?
        \s*(?P<unit>"|in|mm)?$""",
    re.VERBOSE,
)


def read(text: str, *, bare_inches: bool = False) -> ShownLength:
    """Reads a shown length.

    Args:
        text: as the drawing shows it.
        bare_inches: a plain number without a sign is in inches; otherwise it is in millimetres.

    Raises:
        ValueError: the text is no length.
    """
    stripped = text.strip().replace("″", '"').replace("′", "'").replace("⁄", "/")
    reference = stripped.startswith("(") and stripped.endswith(")")
    plain = _PREFIX.sub("", stripped[1:-1].strip() if reference else stripped)
    match = _FEET_INCHES.match(plain)
    if match is None or not any(match[name] for name in ("feet", "whole", "only_over", "decimal")):
        msg = f"not a length: {text!r}"
        raise ValueError(msg)
    inches = _is_inches(match, bare_inches=bare_inches)
    if match["unit"] == "mm" and (match["feet"] or match["over"] or match["only_over"]):
        msg = f"millimetres with feet or a fraction: {text!r}"
        raise ValueError(msg)
    amount, step = _amount(match)
    factor = MM_PER_INCH if inches else 1.0
    return ShownLength(mm=float(amount) * factor, step_mm=float(step) * factor, inches=inches, reference=reference)


def _is_inches(match: re.Match[str], *, bare_inches: bool) -> bool:
    if match["unit"]:
        return match["unit"] != "mm"
    return bool(match["feet"] or match["over"] or match["only_over"]) or bare_inches


def _amount(match: re.Match[str]) -> tuple[Fraction, Fraction]:
    """The amount and the worth of its last place, in the shown unit."""
    amount, step = Fraction(12 * int(match["feet"] or 0)), Fraction(1)
    over, under = match["over"] or match["only_over"], match["under"] or match["only_under"]
    if match["feet"] and not (match["whole"] or over or match["decimal"]):
        step = Fraction(12)
    amount += int(match["whole"] or 0)
    if over:
        if int(under) == 0 or int(over) >= int(under):
            msg = f"not a proper fraction: {over}/{under}"
            raise ValueError(msg)
        amount, step = amount + Fraction(int(over), int(under)), Fraction(1, int(under))
    if match["decimal"]:
        amount, step = amount + Fraction(match["decimal"]), Fraction(1, 10 ** len(match["decimal"].split(".")[1]))
    return amount, step
