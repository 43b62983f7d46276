"""Front, right side and plan, with dimensions and balloons, on one sheet."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from tubeframe.catalog.drafting import Projection
from tubeframe.drawing.elevations.elevation import BareView, Blank, Elevation, marks_by_view, with_balloons
from tubeframe.drawing.elevations.title_block import BORDER, TITLE_HEIGHT, frame_and_title
from tubeframe.drawing.labels.balloons import BalloonSide
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.picture import Picture, placed
from tubeframe.drawing.shapes.plane import Point, Transform, joined_boxes, moved, size_of
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.elevations.parts_list import PartsList
    from tubeframe.drawing.elevations.title_block import TitleBlock
    from tubeframe.drawing.elevations.view_set import ViewSet
    from tubeframe.drawing.shapes.plane import Box

Size = tuple[float, float]
_BIG_SHEETS = {Units.INCH: (431.8, 279.4), Units.MILLIMETRE: (420.0, 297.0)}
_FILING = 10.0
"""The frame stands so much farther from the left edge [mm on paper] (ISO 5457, from memory)."""
_GAP = 6.0
"""Between views, with all that stands round them [mm on paper]."""
_ALL_ABOVE = (BalloonSide.ABOVE,) * len(Named)


def three_views(views: ViewSet, parts: PartsList, title: TitleBlock) -> Picture:
    """Draw all three views on a large sheet, at the largest scale that fits.

    Third angle: plan above the front, right side at its right; first angle: plan below, right side at the left
    (ISO 5456-2, ASME Y14.3, from memory).
    """
    units = views.book.units
    sheet = _BIG_SHEETS[units]
    room = (sheet[0] - 2.0 * BORDER - _FILING, sheet[1] - 2.0 * BORDER - TITLE_HEIGHT)
    laid = _laid(views, room)
    at = laid.free_corner(views.projection, parts.size)
    if at is None:
        beside = parts.size[0] + _GAP
        laid = _laid(views, (room[0] - beside, room[1]))
        at = (laid.field[2] + _GAP * laid.scale, laid.field[3])
    scale, corner = laid.scale, (laid.field[0], laid.field[1])
    items = [item.placed(moved(laid.places[v.named])) for v in laid.views for item in v.items]
    items += placed(parts.drawn(), Transform(scale=scale, shift=at))
    lower_left = (corner[0] - (BORDER + _FILING) * scale, corner[1] - (BORDER + TITLE_HEIGHT) * scale)
    items += placed(
        frame_and_title(title, sheet, scale, _unseen(views, scale)), Transform(scale=scale, shift=lower_left)
    )
    return Picture(title=f"{title.name}: elevations", items=tuple(items), scale=scale, units=units)


def _unseen(views: ViewSet, scale: int) -> tuple[str, ...]:
    """Return the marks of parts that something hides in all three views."""
    shares = marks_by_view(views.book, tuple(views.drawn(n, scale) for n in Named))
    seen = {mark for marks in shares.values() for mark in marks}
    return tuple(mark for mark in views.book.marked_ids() if mark not in seen)


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


def _laid(views: ViewSet, room: Size) -> _Laid:
    """Lay three views into the middle of a room on paper [mm]."""
    scale, drawn = _fitting(views, room)
    boxes = {v.named: v.outer for v in drawn}
    places = _places(views.projection, boxes, scale)
    left, bottom, right, top = joined_boxes(_placed_boxes(boxes, places))
    spare = ((room[0] * scale - (right - left)) / 2.0, (room[1] * scale - (top - bottom)) / 2.0)
    x, y = left - spare[0], bottom - spare[1]
    field = (x, y, x + room[0] * scale, y + room[1] * scale)
    return _Laid(scale=scale, views=drawn, places=places, field=field)


def _fits(size: Size, room: Size, scale: int) -> bool:
    return size[0] <= room[0] * scale and size[1] <= room[1] * scale


def _fitting(views: ViewSet, room: Size) -> tuple[int, tuple[Elevation, ...]]:
    """Return the largest scale at which all views fit a room on paper [mm], and the views at that scale.

    Where they fit at no scale, balloons are left out.
    """
    last = views.scales[-1]
    bare: tuple[BareView, ...] = ()
    for scale in views.scales:
        blank = tuple(views.blank(n, scale) for n in Named)
        if scale != last and not _fits(_together(views.projection, blank, {}, _ALL_ABOVE), room, scale):
            continue
        bare = tuple(views.drawn(n, scale) for n in Named)
        marks = marks_by_view(views.book, bare)
        counts = {named: len(found) for named, found in marks.items()}
        for sides in product(BalloonSide, repeat=len(bare)):
            if _fits(_together(views.projection, bare, counts, sides), room, scale):
                pairs = zip(bare, sides, strict=True)
                return scale, tuple(with_balloons(views.book, b, marks[b.named], s) for b, s in pairs)
    return last, tuple(with_balloons(views.book, b, (), BalloonSide.ABOVE) for b in bare)


def _together(
    projection: Projection, views: Sequence[Blank], counts: Mapping[Named, int], sides: Sequence[BalloonSide]
) -> Size:
    """Return what three views take together with so many balloons, each at its side [mm]."""
    boxes = {v.named: v.outer(counts.get(v.named, 0), s) for v, s in zip(views, sides, strict=True)}
    return size_of(joined_boxes(_placed_boxes(boxes, _places(projection, boxes, views[0].scale))))


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
