"""The shop's benders from plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.hardware import Bender, radius_of
from tubeframe.catalog.ranges import as_number
from tubeframe.errors import shown
from tubeframe.geometry.tolerance import EXACT_MM
from tubeframe.geometry.units import INCH_MM, format_exact

if TYPE_CHECKING:
    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.user_table import UserTable
    from tubeframe.geometry.units import Units

_MOST = 2000.0
"""No bender's shoe is larger [mm]."""
_MOST_SPRINGBACK = 30.0
"""A bend that opens by more than this of 90 is a misreading [degree]."""


def benders(table: UserTable, catalog: Catalog) -> tuple[Bender, ...]:
    """Read the shop's benders: one table, or one each where several hang there."""
    made: list[Bender] = []
    for row in table.one_or_rows("bender"):
        bender = _bender(row, catalog)
        if bender and any(b.tube == bender.tube for b in made):
            row.wrong("tube", f"there is a bender for {bender.tube} already", "leave one of them out")
        elif bender:
            made.append(bender)
    return tuple(made)


def too_tight(catalog: Catalog, tube: str, radius: float, units: Units) -> str | None:
    """Say that a radius [mm] is under what the electrical code lets a tube be bent to; None where it is not."""
    least = catalog.least_radius(tube)
    if least is None or radius >= least.radius - EXACT_MM:
        return None
    shown, limit = format_exact(radius, units), format_exact(least.radius, units)
    return f"a centreline radius of {shown} is under {limit}, the least for {catalog.tube(tube).name} ({least.source})"


def _bender(row: UserTable, catalog: Catalog) -> Bender | None:
    tubes = tuple(t.key for t in catalog.tubes)
    stated = "tube" in row.names()
    tube = row.one_of("tube", tubes, "")
    take_up, radius, springback = row.length("take_up", _MOST), row.length("radius", _MOST), _springback(row)
    row.close()
    if not tube and stated:
        return None
    if not tube:
        row.wrong("tube", "which tube?", f"one of {', '.join(tubes)}")
        return None
    outside = catalog.tube(tube).outside
    if radius is None and take_up is None:
        row.wrong("take_up", "either the take-up or the radius is needed", "measure one of them")
        return None
    if radius is not None and take_up is not None:
        apart = abs(radius - radius_of(take_up, outside)) / INCH_MM
        message = "either the take-up or the radius is needed, never both: a take-up of "
        message += f"{format_exact(take_up, row.units)} makes {format_exact(radius_of(take_up, outside), row.units)}, "
        row.wrong("take_up", f"{message}which is {apart:.3f} in off the radius given", "keep the one you measured")
        return None
    found = radius if radius is not None else radius_of(take_up or 0.0, outside)
    fault = too_tight(catalog, tube, found, row.units)
    if fault is None and found <= outside / 2.0:
        fault = f"a centreline radius of {format_exact(found, row.units)} is less than the tube's own half diameter"
    if fault is not None:
        row.wrong("radius" if take_up is None else "take_up", fault, "measure again, or take another bender")
        return None
    return Bender(tube=tube, radius=found, take_up=take_up, springback=springback, source="the user's own")


def _springback(row: UserTable) -> float | None:
    """Take how far past 90 the bender has to go to leave 90 [degree]."""
    value = row.take("springback")
    if value is None:
        return None
    angle = as_number(value)
    if angle is None or not 0.0 <= angle <= _MOST_SPRINGBACK:
        message = f"{shown(value)} is not what a bend of 90 loses: 0 to {_MOST_SPRINGBACK:g} degrees"
        row.wrong("springback", message, "make a trial bend: tubeframe bender calibrate")
        return None
    return angle
