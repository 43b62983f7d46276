"""A tube's centreline as a text frame states it: points; corners with a radius, or a number of bends, of their own."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog.bender_document import too_tight
from tubeframe.catalog.ranges import MOST_BENDS
from tubeframe.catalog.rules import LEAST_BETWEEN_BENDS, MOST_BULGE, is_on_shoe
from tubeframe.errors import BendError, nearest_name, shown
from tubeframe.frame.panel_document import read_point
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import joined
from tubeframe.geometry.small_bends import arc_corners, fewest_bends, straight_between
from tubeframe.geometry.tolerance import EXACT_MM
from tubeframe.geometry.units import format_exact, format_length
from tubeframe.geometry.vector import angle_deg

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.user_table import UserTable
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec

_KEYS = ("at", "radius", "bends")
_FEWEST = "fewest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bendable:
    """What a tube is bent to: the radius of corners without their own, and the bender's [mm]."""

    catalog: Catalog
    tube: str
    radius: float
    shoe: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A corner as it is stated: its key, its radius [mm], and in how many bends; None for one, 0 for the fewest."""

    key: str
    at: Vec
    radius: float
    bends: int | None


def read_path(row: UserTable, bendable: Bendable) -> Path | None:
    """Read a centreline; None when something is wrong, which is told."""
    given = row.take("path")
    if not isinstance(given, list) or len(given) < 2:
        row.wrong("path", "at least two points are needed", "write path = [[0, 0, 0], [0, 0, 60]]")
        return None
    if len(given) > MOST_BENDS + 2:
        row.wrong("path", f"it has {len(given):,} points; at most {MOST_BENDS + 2}", "make several tubes of it")
        return None
    corners = [_corner(row, f"path[{n}]", value, bendable) for n, value in enumerate(given, start=1)]
    known = [c for c in corners if c is not None]
    if len(known) < len(corners):
        return None
    for n, (a, b) in enumerate(pairwise(known), start=1):
        if a.at.distance(b.at) < EXACT_MM:
            row.wrong(f"path[{n + 1}]", "two points of a tube are the same place")
            return None
    return _laid(row, known, bendable)


def _corner(row: UserTable, key: str, value: object, bendable: Bendable) -> Corner | None:
    own = value if isinstance(value, dict) else {}
    at = read_point(row, key, own.get("at") if own else value)
    for unknown in (k for k in own if k not in _KEYS):
        row.wrong(f"{key}.{unknown}", "unknown key", nearest_name(unknown, _KEYS))
    radius = row.as_length(f"{key}.radius", own["radius"]) if "radius" in own else bendable.radius
    if at is None or radius is None:
        return None
    least = bendable.catalog.tube(bendable.tube).outside / 2.0
    if radius <= least:
        fault = f"a centreline radius of {format_exact(radius, row.units)} is no more than the tube's half diameter"
        row.wrong(f"{key}.radius", fault, f"give one over {format_exact(least, row.units)}")
        return None
    return Corner(key=key, at=at, radius=radius, bends=_bends(row, f"{key}.bends", own.get("bends")))


def _bends(row: UserTable, key: str, value: object) -> int | None:
    if value is None or value == _FEWEST:
        return None if value is None else 0
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_BENDS:
        return value
    row.wrong(key, f"{shown(value)} is not a number of bends from 1 to {MOST_BENDS}", f"write 9, or '{_FEWEST}'")
    return None


def _laid(row: UserTable, corners: Sequence[Corner], bendable: Bendable) -> Path | None:
    """Lay the centreline; an arc in small bends becomes their corners."""
    points, radii = [corners[0].at], list[float]()
    for before, corner, after in zip(corners, corners[1:], corners[2:], strict=False):
        made = _made(row, (before.at, corner, after.at), bendable)
        points += made
        radii += [corner.radius if corner.bends is None else bendable.shoe] * len(made)
        fault = too_tight(bendable.catalog, bendable.tube, radii[-1], row.units)
        if fault is not None:
            row.wrong(f"{corner.key}.radius", fault, "give a larger one")
            return None
    if len(radii) > MOST_BENDS:
        row.wrong("path", f"it has {len(radii):,} bends; at most {MOST_BENDS}", "give fewer, or a form")
        return None
    try:
        return joined(through([*points, corners[-1].at], radii))
    except BendError as error:
        told = error.problems[0]
        row.wrong("path", f"{told.where}: {told.message}", told.remedy)
        return None


def _made(row: UserTable, place: tuple[Vec, Corner, Vec], bendable: Bendable) -> tuple[Vec, ...]:
    """Return a corner as it stands, or the corners of the small bends that it is made of."""
    before, corner, after = place
    turn = angle_deg(corner.at - before, after - corner.at)
    if corner.bends is None or not 1.0 <= turn <= 179.0:
        return (corner.at,)
    if corner.radius < bendable.shoe and not is_on_shoe(corner.radius, bendable.shoe):
        radius, shoe = (format_exact(v, row.units) for v in (corner.radius, bendable.shoe))
        message = f"an arc of {radius} is tighter than the bender's {shoe}: it cannot be made of its bends"
        row.wrong(f"{corner.key}.bends", message, "give a larger radius")
        return (corner.at,)
    bends = corner.bends or fewest_bends(turn, corner.radius, bendable.shoe, MOST_BULGE)
    straight = straight_between(turn, corner.radius, bendable.shoe, bends)
    if bends > 1 and straight < LEAST_BETWEEN_BENDS:
        have, want = (format_length(max(v, 0.0), row.units) for v in (straight, LEAST_BETWEEN_BENDS))
        message = f"{bends} bends leave {have} of straight between them, where a hand bender wants {want}"
        row.wrong(f"{corner.key}.bends", message, "give fewer bends or a larger radius, or leave bends out: a form")
    return arc_corners(before, corner.at, after, corner.radius, bends)
