"""What the check of strength rests on: values with their unit and where each comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.catalog.ranges import as_number
from tubeframe.errors import shown

if TYPE_CHECKING:
    from tubeframe.catalog.table_file import Row
    from tubeframe.catalog.user_table import UserTable

_OWN = "the user's own"
_TIMES = 1e6
"""A value that is further off the shipped one is a slip."""
_MOST_CHARACTERS = 40
_CONVERTED = {("ksi", "MPa"): 6.894757, ("psi", "MPa"): 6.894757e-3, ("Nm", "N mm"): 1e3, ("kNm/rad", "N mm/rad"): 1e6}


class LimitKey(StrEnum):
    """Everything that is assumed, chosen or taken from a standard."""

    YOUNG = "young"
    SHEAR = "shear"
    YIELD = "yield"
    BENDING_YIELD = "bending_yield"
    STRENGTH_FACTOR = "strength_factor"
    BUCKLING_FACTOR = "buckling_factor"
    SAG_PART = "sag_part"
    SWAY_PUSH = "sway_push"
    SWAY_FAIR = "sway_fair"
    SWAY_WOBBLY = "sway_wobbly"
    CLAMP_LOW = "clamp_stiffness_low"
    CLAMP = "clamp_stiffness"
    CLAMP_HIGH = "clamp_stiffness_high"
    BOLT_TORQUE = "bolt_torque"
    BOLT_DIAMETER = "bolt_diameter"
    NUT_FACTOR = "nut_factor"
    CLAMP_FRICTION = "clamp_friction"
    CLAMP_FACTOR = "clamp_factor"
    FLOOR_FRICTION = "floor_friction"
    TIP_FACTOR = "tip_factor"
    TIED_OVER = "tied_over"
    WIND_EXPOSURE = "wind_exposure"
    WIND_TERRAIN = "wind_terrain"
    WIND_DIRECTION = "wind_direction"
    WIND_GUST = "wind_gust"
    WIND_UPLIFT = "wind_uplift"
    WIND_SIDE = "wind_side"
    WIND_END = "wind_end"
    ANCHOR_FACTOR = "anchor_factor"
    SNOW_ROOF = "snow_roof"
    SNOW_EXPOSURE = "snow_exposure"
    SNOW_THERMAL = "snow_thermal"
    ROAD = "road"
    OFF_ROAD = "off_road"
    BRAKING = "braking"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A value in its unit, and its source."""

    key: LimitKey
    value: float
    unit: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """All of them."""

    rows: tuple[Limit, ...]

    def row(self, key: LimitKey) -> Limit:
        """Return the row of a key."""
        return next(r for r in self.rows if r.key is key)

    def __getitem__(self, key: LimitKey) -> float:
        """Return the value of a key, in its row's unit."""
        return self.row(key).value


def limits_from(rows: list[Row]) -> Limits:
    """Read the shipped rows; a key without a row is told."""
    made = []
    for row in rows:
        key = LimitKey(row.known("key", [k.value for k in LimitKey]))
        made.append(Limit(key=key, value=row.number("value"), unit=row.text("unit"), source=row.text("source")))
        row.close()
    missing = [k for k in LimitKey if all(m.key is not k for m in made)]
    if missing and rows:
        rows[0].wrong("key", f"no row for {', '.join(missing)}")
    return Limits(rows=tuple(made))


def own_limits(table: UserTable, shipped: Limits) -> Limits:
    """Put the user's own values, under `limits`, over the shipped ones: numbers in the row's unit, or with a unit."""
    own = table.inner("limits")
    rows = tuple(_own(own, row) for row in shipped.rows)
    own.close()
    return Limits(rows=rows)


def _own(table: UserTable, row: Limit) -> Limit:
    given = table.take(row.key.value)
    if given is None:
        return row
    value = _in_unit(given, row.unit)
    if value is None or not row.value / _TIMES <= value <= row.value * _TIMES:
        span = f"from {row.value / _TIMES:g} to {row.value * _TIMES:g} {row.unit}".removesuffix(" 1")
        table.wrong(row.key.value, f"{shown(given)} is not a value {span}", f"shipped is {row.value:g} {row.unit}")
        return row
    return replace(row, value=value, source=_OWN)


def _in_unit(given: object, unit: str) -> float | None:
    """Read a value in a unit: a number, or a text with a unit that can be converted; None when it is none."""
    number, _, own = given.strip()[:_MOST_CHARACTERS].partition(" ") if isinstance(given, str) else ("", "", "")
    own = own.replace("·", "").replace(" ", "")
    factor = 1.0 if own in {"", unit.replace(" ", "")} else _CONVERTED.get((own, unit))
    try:
        value = float(number) if isinstance(given, str) else as_number(given)
    except ValueError:
        return None
    return None if value is None or factor is None else value * factor
