"""Boards of a text frame, from plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.panel import PanelUse, Pocket
from tubeframe.geometry.placement import from_axes
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.catalog.rows import UserTable
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.builder import FrameBuilder


def read_panel(row: UserTable, frame: FrameBuilder, workshop: Workshop) -> str:
    """Read a board into a frame, and return its name; what is wrong with it is noted in its row."""
    name, thickness = row.text("id"), row.length("thickness")
    corners = row.take("corners")
    use = row.one_of("use", tuple(u.value for u in PanelUse), PanelUse.TOP.value)
    material = row.one_of("material", tuple(m.key for m in workshop.catalog.materials), "plywood")
    pockets = [_pocket(row, n, p) for n, p in enumerate(row.take("pockets") or [], start=1)]
    row.close()
    if not isinstance(corners, list) or len(corners) != 4:
        row.wrong("corners", "the four corners of the underside are needed")
        return name
    found = [read_point(row, f"corners[{n}]", c) for n, c in enumerate(corners, start=1)]
    points = [p for p in found if p is not None]
    if not thickness:
        row.wrong("thickness", "a board needs a thickness over 0")
    if len(points) < 4 or not thickness:
        return name
    a, b, c, d = points
    along, across = b - a, d - a
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
        pockets=[p for p in pockets if p is not None],
    )
    return name


def read_point(row: UserTable, key: str, value: object) -> Vec | None:
    """Read a point; lengths may be negative here."""
    if not isinstance(value, list) or len(value) != 3:
        row.wrong(key, f"{value!r} is not a point", "write [x, y, z]")
        return None
    found = [row.as_coordinate(f"{key}[{n}]", v) for n, v in enumerate(value, start=1)]
    known = [f for f in found if f is not None]
    return Vec(*known) if len(known) == 3 else None


def _pocket(row: UserTable, number: int, value: object) -> Pocket | None:
    """Read a recess: least x and y, greatest x and y, depth."""
    if not isinstance(value, list) or len(value) != 5:
        row.wrong(f"pockets[{number}]", f"{value!r} is not a recess", "write [x0, y0, x1, y1, depth]")
        return None
    found = [row.as_length(f"pockets[{number}]", v) for v in value]
    known = [f for f in found if f is not None]
    if len(known) < 5:
        return None
    x0, y0, x1, y1, depth = known
    return Pocket(low=Vec(x0, y0, 0.0), high=Vec(x1, y1, depth))
