"""Lengths, angles and loads as people write them, and as a tape shows them."""

from __future__ import annotations

import math
import re
from enum import StrEnum
from fractions import Fraction

from tubeframe.errors import shown
from tubeframe.geometry.tolerance import SAME_LENGTH_MM, TINY

INCH_MM = 25.4
FOOT_MM = 304.8
POUND_N = 4.4482216152605
MPH = 0.44704
"""A mile an hour [m/s]."""
PSF = POUND_N / FOOT_MM**2
"""A pound on a square foot [MPa]."""


class Units(StrEnum):
    """What a bare number means, and what is printed."""

    INCH = "in"
    MILLIMETRE = "mm"


_METRIC = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
_LOADS = {"lb": POUND_N, "lbs": POUND_N, "n": 1.0, "kn": 1000.0, "kg": 9.80665}
_NUMBER = r"(?:\d+(?:\.\d*)?|\.\d+)"
_MIXED = rf"(?:(?P<whole>\d+)[\s-]+(?P<num>\d+)/(?P<den>\d+)|(?P<num2>\d+)/(?P<den2>\d+)|(?P<dec>{_NUMBER}))"
_FEET = re.compile(rf"(?P<feet>{_NUMBER})\s*(?:ft|feet|foot|')[\s-]*(?P<rest>.*)")
_INCHES = re.compile(rf'{_MIXED}\s*(?P<unit>in|inch|inches|")?')
_OTHER = re.compile(rf"(?P<value>{_NUMBER})\s*(?P<unit>mm|cm|m)")
_LOAD = re.compile(rf"(?P<value>{_NUMBER})\s*(?P<unit>lbs?|kn|n|kg)")

_SPEEDS = {"mph": MPH, "km/h": 1.0 / 3.6, "kmh": 1.0 / 3.6, "m/s": 1.0}
_PRESSURES = {"psf": PSF, "kpa": 1e-3, "kn/m2": 1e-3, "pa": 1e-6}
_WITH_UNIT = re.compile(rf"(?P<value>{_NUMBER})\s*(?P<unit>[a-z/2]+)")

_LEAST_FEET = 4.0
_MOST_CHARACTERS = 100
"""A longer text is no value, and patterns would take long over it."""
LENGTH_EXAMPLES = '34 1/8", 34-1/8in, 2ft 10.125in, 867mm or 0.867m'


def parse_length(text: str | float, units: Units) -> float:
    """Read a length [mm]; a bare number is in `units`.

    Raises:
        ValueError: when it is not a length; the message says what one looks like.

    """
    if isinstance(text, str):
        found = _signed(_short(text).lower().replace("″", '"').replace("′", "'"), units)
        if found is None:
            message = f"{shown(text)} is not a length; write {LENGTH_EXAMPLES}"
            raise ValueError(message)
        value = found
    else:
        value = _as_float(text) * (INCH_MM if units is Units.INCH else 1.0)
    if not math.isfinite(value):
        message = f"{shown(text)} is not a finite length"
        raise ValueError(message)
    return value


def _as_float(value: float) -> float:
    """Return a number; infinite where it is a whole number beyond all others."""
    try:
        return float(value)
    except OverflowError:
        return math.inf


def _short(text: str) -> str:
    """Take the spaces off a text; nothing is left of one that is too long for a value."""
    stripped = text.strip()
    return stripped if len(stripped) <= _MOST_CHARACTERS else ""


def _signed(text: str, units: Units) -> float | None:
    sign, body = (-1.0, text[1:].strip()) if text.startswith("-") else (1.0, text)
    value = _metric(body)
    if value is None:
        value = _feet_and_inches(body, units)
    return None if value is None else sign * value


def _metric(text: str) -> float | None:
    match = _OTHER.fullmatch(text)
    return float(match["value"]) * _METRIC[match["unit"]] if match else None


def _feet_and_inches(text: str, units: Units) -> float | None:
    feet = _FEET.fullmatch(text)
    rest = feet["rest"] if feet else text
    total = float(feet["feet"]) * FOOT_MM if feet else 0.0
    if feet and not rest:
        return total
    match = _INCHES.fullmatch(rest)
    if match is None:
        return None
    number = _mixed_number(match)
    if number is None:
        return None
    inches = bool(match["unit"]) or bool(feet) or units is Units.INCH
    return total + number * (INCH_MM if inches else 1.0)


def _mixed_number(match: re.Match[str]) -> float | None:
    if match["dec"]:
        return float(match["dec"])
    top, bottom = int(match["num"] or match["num2"]), int(match["den"] or match["den2"])
    return int(match["whole"] or 0) + top / bottom if bottom else None


def parse_load(text: str) -> float:
    """Read a load [N] from pounds, newtons, kilonewtons or kilograms.

    Raises:
        ValueError: when it is not a load.

    """
    match = _LOAD.fullmatch(_short(text).lower())
    if match is None:
        message = f"{shown(text)} is not a load; write 200 lb, 90 kg or 900 N"
        raise ValueError(message)
    return float(match["value"]) * _LOADS[match["unit"]]


def parse_speed(text: str) -> float:
    """Read a speed [m/s] from miles or kilometres an hour or metres a second.

    Raises:
        ValueError: when it is not a speed.

    """
    return _measured(text, _SPEEDS, "a speed; write 100 mph, 160 km/h or 45 m/s")


def parse_pressure(text: str) -> float:
    """Read a load on an area [MPa] from pounds a square foot or kilonewtons a square metre.

    Raises:
        ValueError: when it is none.

    """
    return _measured(text, _PRESSURES, "a load on an area; write 25 psf or 1.2 kPa")


def _measured(text: str, known: dict[str, float], what: str) -> float:
    match = _WITH_UNIT.fullmatch(_short(text).lower())
    if match is None or match["unit"] not in known:
        message = f"{shown(text)} is not {what}"
        raise ValueError(message)
    return float(match["value"]) * known[match["unit"]]


def cut_rounded(length: float, units: Units) -> float:
    """Round a cut length [mm] down to what a tape shows: 1/16 in or 1 mm.

    A length that is shorter than a whole step by no more than two pieces cut alike may differ is that step.
    """
    step = INCH_MM / 16.0 if units is Units.INCH else 1.0
    return math.floor((length + SAME_LENGTH_MM) / step + TINY) * step


def format_length(length: float, units: Units, denominator: int = 16) -> str:
    """Print a length [mm], rounded to the nearest 1/16 in (or another fraction) or 1 mm, with its unit."""
    if units is Units.MILLIMETRE:
        return f"{format_number(length, units)} mm"
    return f'{format_number(length, units, denominator)}"'


def format_number(length: float, units: Units, denominator: int = 16) -> str:
    """Print a length [mm] as `format_length` does, without the unit."""
    if units is Units.MILLIMETRE:
        return str(math.floor(length + 0.5))
    sign = "-" if length < 0 else ""
    steps = math.floor(abs(length) / INCH_MM * denominator + 0.5)
    whole, part = divmod(steps, denominator)
    if not part:
        return f"{sign if whole else ''}{whole}"
    fraction = Fraction(part, denominator)
    shown = f"{fraction.numerator}/{fraction.denominator}"
    return f"{sign}{whole} {shown}" if whole else f"{sign}{shown}"


def format_exact(length: float, units: Units) -> str:
    """Print a length [mm] to 0.001 in or 0.01 mm, with its unit."""
    return f"{length / INCH_MM:.3f} in" if units is Units.INCH else f"{length:.2f} mm"


def format_range(length: float, units: Units) -> str:
    """Print a limit [mm] shortly: feet where it is whole feet, else inches or millimetres."""
    if units is Units.MILLIMETRE:
        return f"{length:g} mm"
    feet = length / FOOT_MM
    if feet >= _LEAST_FEET - 1e-9 and abs(feet - round(feet)) < 1e-9:
        return f"{round(feet)} ft"
    return f"{length / INCH_MM:g} in"
