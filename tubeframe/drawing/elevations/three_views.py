"""Front, right side and plan, with dimensions and balloons, on one sheet or one by one."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from tubeframe.catalog.drafting import Projection
from tubeframe.drawing.elevations.elevation import BareView, Elevation, bare_view, marks_by_view, with_balloons
from tubeframe.drawing.elevations.parts_list import parts_list
from tubeframe.drawing.elevations.title_block import BORDER, TITLE_HEIGHT, frame_and_title
from tubeframe.drawing.labels.balloons import BalloonSide
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.picture import Picture, placed
from tubeframe.drawing.shapes.plane import Point, Transform, joined_boxes, moved, size_of
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.design import Design
    from tubeframe.drawing.shapes.plane import Box

_ISO_SCALES = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Reductions of ISO 5455 (from memory)."""
_INCH_SCALES = (1, 2, 4, 5, 8, 10, 20, 50, 100, 200, 500)
_BIG_SHEETS = {Units.INCH: (431.8, 279.4), Units.MILLIMETRE: (420.0, 297.0)}
_FILING = 10.0
"""The frame stands so much farther from the left edge [mm on paper] (ISO 5457, from memory)."""
_GAP = 6.0
"""Between views, with all that stands round them [mm on paper]."""
_MUCH_SMALLER = 2.5
"""Balloons may cost a view this factor of its scale, no more."""


def elevations(design: Design) -> Picture:
    """Draw all three views on a large sheet, at the largest scale that fits.

    Third angle: plan above the front, right side at its right; first angle: plan below, right side at the left
    (ISO 5456-2, ASME Y14.3, from memory).
    """
    units = design.workshop.units
    sheet = _BIG_SHEETS[units]
    room = (sheet[0] - 2.0 * BORDER - _FILING, sheet[1] - 2.0 * BORDER - TITLE_HEIGHT)
    parts = parts_list(design)
    laid = _laid(design, room)
    at = laid.free_corner(design.workshop.drafting.projection, parts.size)
    if at is None:
        beside = parts.size[0] + _GAP
        laid = _laid(design, (room[0] - beside, room[1]))
        at = (laid.field[2] + _GAP * laid.scale, laid.field[3])
    scale, corner = laid.scale, (laid.field[0], laid.field[1])
    items = [item.placed(moved(laid.places[v.named])) for v in laid.views for item in v.items]
    items += placed(parts.drawn(), Transform(scale=scale, shift=at))
    lower_left = (corner[0] - (BORDER + _FILING) * scale, corner[1] - (BORDER + TITLE_HEIGHT) * scale)
    items += placed(frame_and_title(design, sheet, scale), Transform(scale=scale, shift=lower_left))
    return Picture(title=f"{design.frame.name}: elevations", items=tuple(items), scale=scale, units=units)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Laid:
    """Three views at 1 : `scale`, where the origin of each goes, and the field that they have [mm]."""

    scale: int
    views: tuple[Elevation, ...]
    places: Mapping[Named, Point]
    field: Box

    def free_corner(self, projection: Projection, size: tuple[float, float]) -> Point | None:
        """Return the upper left corner of a thing of a size [mm on paper] in the quarter that no view takes.

        In third angle it is above the right side and right of the plan, in first angle below and left of them; None
        when it is too small.
        """
        boxes = {v.named: v.outer for v in self.views}
        _, side, plan = _placed_boxes(boxes, self.places)
        left, bottom, right, top = self.field
        gap, (width, height) = _GAP * self.scale, (v * self.scale for v in size)
        if projection is Projection.THIRD:
            fits = right - plan[2] - gap >= width and top - side[3] - gap >= height
            return (right - width, top) if fits else None
        fits = plan[0] - gap - left >= width and side[1] - gap - bottom >= height
        return (left, bottom + height) if fits else None


def _laid(design: Design, room: tuple[float, float]) -> _Laid:
    """Lay three views into the middle of a room on paper [mm]."""
    scale, views = _fitting(design, room)
    boxes = {v.named: v.outer for v in views}
    places = _places(design.workshop.drafting.projection, boxes, scale)
    left, bottom, right, top = joined_boxes(_placed_boxes(boxes, places))
    spare = ((room[0] * scale - (right - left)) / 2.0, (room[1] * scale - (top - bottom)) / 2.0)
    x, y = left - spare[0], bottom - spare[1]
    field = (x, y, x + room[0] * scale, y + room[1] * scale)
    return _Laid(scale=scale, views=views, places=places, field=field)


def single_view(design: Design, named: Named, room: tuple[float, float]) -> tuple[Picture, Elevation]:
    """Draw one view at the largest scale that fits a room on paper (width, height) [mm].

    Balloons that would make it much smaller are left out.
    """
    plain: Elevation | None = None
    for scale in _scales(design):
        bare = bare_view(design, named, scale)
        marks = marks_by_view(design, (bare,))[named]
        side = next((s for s in BalloonSide if _fits(size_of(bare.outer(len(marks), s)), room, scale)), None)
        if side is not None:
            view = with_balloons(design, bare, marks, side)
            break
        if plain is None and _fits(size_of(bare.outer(0, BalloonSide.ABOVE)), room, scale):
            plain = with_balloons(design, bare, (), BalloonSide.ABOVE)
        if plain is not None and scale > _MUCH_SMALLER * plain.scale:
            view = plain
            break
    else:
        view = plain or with_balloons(design, bare, (), BalloonSide.ABOVE)
    return Picture(title=named.title, items=view.items, scale=view.scale, units=design.workshop.units), view


def _scales(design: Design) -> tuple[int, ...]:
    """List scales, the largest drawing first; those hopelessly large are left out."""
    known = _INCH_SCALES if design.workshop.units is Units.INCH else _ISO_SCALES
    largest = max(design.extent.size)
    return tuple(s for s in known if largest / s < 450.0) or known[-1:]


def _fits(size: tuple[float, float], room: tuple[float, float], scale: int) -> bool:
    return size[0] <= room[0] * scale and size[1] <= room[1] * scale


def _fitting(design: Design, room: tuple[float, float]) -> tuple[int, tuple[Elevation, ...]]:
    """Return the largest scale at which all views fit a room on paper [mm], and the views at that scale.

    Where they fit at no scale, balloons are left out.
    """
    scales = _scales(design)
    for scale in [s for s in scales if _fits(_outlines(design), room, s)] or scales[-1:]:
        bare = tuple(bare_view(design, n, scale) for n in Named)
        marks = marks_by_view(design, bare)
        choices = product(BalloonSide, repeat=len(bare))
        sides = next((s for s in choices if _fits(_together(design, bare, marks, s), room, scale)), None)
        if sides is not None:
            break
    if sides is None:
        return scale, tuple(with_balloons(design, b, (), BalloonSide.ABOVE) for b in bare)
    return scale, tuple(with_balloons(design, b, marks[b.named], s) for b, s in zip(bare, sides, strict=True))


def _outlines(design: Design) -> tuple[float, float]:
    """Return what three views take together with nothing round them [mm]."""
    size = design.extent.size
    return size.x + size.y, size.z + size.y


def _together(
    design: Design,
    views: Sequence[BareView],
    marks: Mapping[Named, Sequence[str]],
    sides: Sequence[BalloonSide],
) -> tuple[float, float]:
    """Return what three views take together with balloons, each at its side [mm]."""
    boxes = {v.named: v.outer(len(marks[v.named]), s) for v, s in zip(views, sides, strict=True)}
    return size_of(
        joined_boxes(_placed_boxes(boxes, _places(design.workshop.drafting.projection, boxes, views[0].scale)))
    )


def _placed_boxes(boxes: Mapping[Named, Box], places: Mapping[Named, Point]) -> list[Box]:
    return [(b[0] + x, b[1] + y, b[2] + x, b[3] + y) for n, b in boxes.items() for x, y in (places[n],)]


def _places(projection: Projection, boxes: Mapping[Named, Box], scale: int) -> dict[Named, Point]:
    """Return where each view's origin goes, by what it takes [mm]."""
    front, side, plan = (boxes[n] for n in Named)
    gap = _GAP * scale
    if projection is Projection.THIRD:
        right = max(front[2], plan[2]) + gap
        above = max(front[3], side[3]) + gap
        return {Named.FRONT: (0.0, 0.0), Named.RIGHT_SIDE: (right - side[0], 0.0), Named.PLAN: (0.0, above - plan[1])}
    left = min(front[0], plan[0]) - gap
    below = min(front[1], side[1]) - gap
    return {Named.FRONT: (0.0, 0.0), Named.RIGHT_SIDE: (left - side[2], 0.0), Named.PLAN: (0.0, below - plan[3])}
