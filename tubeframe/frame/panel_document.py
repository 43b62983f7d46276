"""Boards of a text frame, from plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.ranges import MOST_BENDS
from tubeframe.errors import shown
from tubeframe.frame.panel import PanelUse, Pocket
from tubeframe.geometry.placement import from_axes
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.catalog.user_table import UserTable
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.builder import FrameBuilder

_RECESS = "write [x0, y0, x1, y1, depth]"


def read_panel(row: UserTable, frame: FrameBuilder, workshop: Workshop) -> str:
    """Read a board into a frame, and return its name; what is wrong with it is noted in its row."""
    name, thickness = row.name("id"), row.length("thickness")
    corners = row.take("corners")
    use = row.one_of("use", tuple(u.value for u in PanelUse), PanelUse.TOP.value)
    material = row.one_of("material", tuple(m.key for m in workshop.catalog.materials), "plywood")
    pockets = _pockets(row, row.take("pockets"))
    row.close()
    if not isinstance(corners, list) or len(corners) != 4:
        given = "" if corners is None else f", not {shown(corners)}"
        row.wrong("corners", f"the four corners of the underside are needed{given}", "write four points [x, y, z]")
        return name
    found = [read_point(row, f"corners[{n}]", c) for n, c in enumerate(corners, start=1)]
    points = [p for p in found if p is not None]
    if not thickness:
        row.wrong("thickness", "a board needs a thickness over 0")
    if len(points) < 4 or not thickness:
        return name
    a, b, c, d = points
    along, across = b - a, d - a
    if min(along.length, across.length) < PLANE_MM:
        row.wrong("corners", "two of them are the same place", "give the four corners, one after the other")
        return name
    if (a + along + across).distance(c) > PLANE_MM or abs(along.unit.dot(across.unit)) > 1e-4:
        row.wrong("corners", "they are not a rectangle, one corner after the other")
        return name
    frame.panel(
        name,
        PanelUse(use),
        corner=from_axes(origin=a, x=along.unit, toward=across),
        length=along.length,
        width=across.length,
        thickness=thickness,
        material=material,
        pockets=pockets,
    )
    return name


def read_point(row: UserTable, key: str, value: object) -> Vec | None:
    """Read a point; lengths may be negative here."""
    if not isinstance(value, list) or len(value) != 3:
        row.wrong(key, "it is missing" if value is None else f"{shown(value)} is not a point", "write [x, y, z]")
        return None
    found = [row.as_coordinate(f"{key}[{n}]", v) for n, v in enumerate(value, start=1)]
    known = [f for f in found if f is not None]
    return Vec(*known) if len(known) == 3 else None


def _pockets(row: UserTable, value: object) -> list[Pocket]:
    """Read the recesses of a board."""
    if value is None:
        return []
    if not isinstance(value, list) or len(value) > MOST_BENDS:
        row.wrong("pockets", f"{shown(value)} is not a list of up to {MOST_BENDS} recesses", _RECESS)
        return []
    read = [_pocket(row, f"pockets[{n}]", p) for n, p in enumerate(value, start=1)]
    return [p for p in read if p is not None]


def _pocket(row: UserTable, key: str, value: object) -> Pocket | None:
    """Read a recess: least x and y, greatest x and y, depth."""
    if not isinstance(value, list) or len(value) != 5:
        row.wrong(key, f"{shown(value)} is not a recess", _RECESS)
        return None
    found = [row.as_length(key, v) for v in value]
    known = [f for f in found if f is not None]
    if len(known) < 5:
        return None
    x0, y0, x1, y1, depth = known
    if not (x0 < x1 and y0 < y1 and depth > 0.0):
        row.wrong(key, f"{shown(value)} is empty", f"{_RECESS}, x1 over x0, y1 over y0")
        return None
    return Pocket(low=Vec(x0, y0, 0.0), high=Vec(x1, y1, depth))
