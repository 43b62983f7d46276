"""What a verdict rests on, in words: each value by its name, in the user's units, with where it comes from."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.geometry.units import INCH_MM, POUND_N, Units

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.limits import Limit

_WHOLE = 1000.0
_A_DEGREE = math.radians(1.0)
_METRIC: Mapping[str, tuple[float, str]] = {
    "MPa": (1.0, "MPa"),
    "N": (1.0, "N"),
    "mm": (1.0, "mm"),
    "N mm": (1e-3, "N m"),
    "N mm/rad": (1e-3 * _A_DEGREE, "N m a degree"),
}
_INCH: Mapping[str, tuple[float, str]] = {
    "MPa": (0.1450377, "ksi"),
    "N": (1.0 / POUND_N, "lb"),
    "mm": (1.0 / INCH_MM, "in"),
    "N mm": (1.0 / POUND_N / INCH_MM, "in lb"),
    "N mm/rad": (_A_DEGREE / POUND_N / INCH_MM, "in lb a degree"),
}
LIMIT_NAMES: Mapping[LimitKey, str] = {
    LimitKey.YOUNG: "Young's modulus",
    LimitKey.SHEAR: "shear modulus",
    LimitKey.YIELD: "yield strength",
    LimitKey.BENDING_YIELD: "yield strength in a bender",
    LimitKey.STRENGTH_FACTOR: "safety factor on strength",
    LimitKey.BUCKLING_FACTOR: "safety factor on buckling",
    LimitKey.SAG_PART: "span over sag",
    LimitKey.SWAY_PUSH: "push of a hand",
    LimitKey.SWAY_FAIR: "sway that is still fair",
    LimitKey.SWAY_WOBBLY: "sway that wobbles",
    LimitKey.CLAMP_LOW: "soft clamp's stiffness",
    LimitKey.CLAMP: "clamp's stiffness",
    LimitKey.CLAMP_HIGH: "stiff clamp's stiffness",
    LimitKey.BOLT_TORQUE: "torque of a bolt",
    LimitKey.BOLT_DIAMETER: "diameter of a bolt",
    LimitKey.NUT_FACTOR: "nut factor",
    LimitKey.CLAMP_FRICTION: "friction in a clamp",
    LimitKey.CLAMP_FACTOR: "safety factor on a clamp's grip",
    LimitKey.FLOOR_FRICTION: "friction on the floor",
    LimitKey.TIP_FACTOR: "safety factor on tipping",
    LimitKey.TIED_OVER: "height over least base that has to be tied",
    LimitKey.WIND_EXPOSURE: "wind: height and exposure",
    LimitKey.WIND_TERRAIN: "wind: hills",
    LimitKey.WIND_DIRECTION: "wind: direction",
    LimitKey.WIND_GUST: "wind: gusts",
    LimitKey.WIND_UPLIFT: "wind: lift of a cover",
    LimitKey.WIND_SIDE: "wind: push on a side",
    LimitKey.WIND_END: "wind: push on an end wall",
    LimitKey.ANCHOR_FACTOR: "safety factor on anchors",
    LimitKey.SNOW_ROOF: "snow: roof over ground",
    LimitKey.SNOW_EXPOSURE: "snow: exposure",
    LimitKey.SNOW_THERMAL: "snow: warmth",
    LimitKey.ROAD: "times the weight on a road",
    LimitKey.OFF_ROAD: "times the weight off the road",
    LimitKey.BRAKING: "weight ahead when braking",
}


def assumption_words(row: Limit, units: Units) -> str:
    """Say what a value is, in the user's units, and where it comes from."""
    factor, unit = (_INCH if units is Units.INCH else _METRIC).get(row.unit, (1.0, ""))
    value = row.value * factor
    shown = f"{value:.0f}" if abs(value) >= _WHOLE else f"{value:.3g}"
    return f"{LIMIT_NAMES[row.key]} {shown} {unit}".rstrip() + f" ({row.source})"
