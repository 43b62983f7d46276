"""Front, right side and plan, with dimensions and balloons, on one sheet or one by one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.balloons import ROOM as BALLOON_ROOM
from tubeframe.drawing.balloons import balloon_row, seen_length
from tubeframe.drawing.dimensions import Placed, placed
from tubeframe.drawing.picture import Layer, Note, Picture, PictureItem, Point, moved
from tubeframe.drawing.sheet import Anchor
from tubeframe.drawing.title_block import BORDER, TITLE_HEIGHT, frame_and_title
from tubeframe.drawing.view_lines import FINEST, ViewLines, view_lines
from tubeframe.drawing.wanted import Named, wanted
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.design import Design

_ISO_SCALES = (1, 2, 5, 10, 20, 50, 100)
"""Reductions of ISO 5455 (from memory)."""
_INCH_SCALES = (1, 2, 4, 5, 8, 10, 20, 50, 100)
_BIG_SHEETS = {Units.INCH: (431.8, 279.4), Units.MILLIMETRE: (420.0, 297.0)}
_LABEL, _NOTE = 5.0, 3.5
_GAP = 14.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Elevation:
    """A view with what stands round it, and the room that takes left, below, right and above its outline [mm]."""

    named: Named
    lines: ViewLines
    items: tuple[PictureItem, ...]
    room: tuple[float, float, float, float]

    @property
    def outer(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top with all that stands round it [mm]."""
        box = self.lines.box
        return (box[0] - self.room[0], box[1] - self.room[1], box[2] + self.room[2], box[3] + self.room[3])

    @property
    def size(self) -> tuple[float, float]:
        """Width and height with all that stands round it [mm]."""
        left, bottom, right, top = self.outer
        return (right - left, top - bottom)


def elevations(design: Design) -> Picture:
    """Draw all three views on a large sheet, at the largest scale that fits.

    Third angle for inches: plan above the front, right side at its right; first angle for millimetres: plan below,
    right side at the left (ISO 5456-2, ASME Y14.3, from memory).
    """
    units = design.workshop.units
    sheet = _BIG_SHEETS[units]
    room = (sheet[0] - 2.0 * BORDER - 10.0, sheet[1] - 2.0 * BORDER - TITLE_HEIGHT - 4.0)
    scale, views = _fitting(design, room)
    places = _third_angle(views, scale) if units is Units.INCH else _first_angle(views, scale)
    left = min(v.outer[0] + places[v.named][0] for v in views)
    bottom = min(v.outer[1] + places[v.named][1] for v in views)
    right = max(v.outer[2] + places[v.named][0] for v in views)
    top = max(v.outer[3] + places[v.named][1] for v in views)
    spare = ((room[0] * scale - (right - left)) / 2.0, (room[1] * scale - (top - bottom)) / 2.0)
    corner = (left - spare[0] - (BORDER + 10.0) * scale, bottom - spare[1] - (BORDER + TITLE_HEIGHT + 2.0) * scale)
    items = [moved(item, places[v.named]) for v in views for item in v.items]
    items += frame_and_title(design, sheet, scale, corner)
    return Picture(title=f"{design.frame.name}: elevations", items=tuple(items), scale=scale, units=units)


def single_view(design: Design, named: Named, room: tuple[float, float]) -> tuple[Picture, Elevation]:
    """Draw one view at the largest scale that fits a room on paper (width, height) [mm]."""
    for scale in _scales(design):
        view = _views(design, scale, (named,))[0]
        if view.size[0] <= room[0] * scale and view.size[1] <= room[1] * scale:
            break
    picture = Picture(title=named.title, items=view.items, scale=scale, units=design.workshop.units)
    return picture, view


def _scales(design: Design) -> tuple[int, ...]:
    """List scales, the largest drawing first; those hopelessly large are left out."""
    known = _INCH_SCALES if design.workshop.units is Units.INCH else _ISO_SCALES
    largest = max(design.extent.size)
    return tuple(s for s in known if largest / s < 500.0) or known[-1:]


def _fitting(design: Design, room: tuple[float, float]) -> tuple[int, tuple[Elevation, ...]]:
    for scale in _scales(design):
        views = _views(design, scale, tuple(Named))
        front, side, plan = (v.size for v in views)
        width = max(front[0], plan[0]) + side[0] + _GAP * scale
        height = max(front[1], side[1]) + plan[1] + _GAP * scale
        if width <= room[0] * scale and height <= room[1] * scale:
            break
    return scale, views


def _views(design: Design, scale: int, names: Sequence[Named]) -> tuple[Elevation, ...]:
    seen = {n: view_lines(design, n.view, finest=FINEST * scale) for n in names}
    shares = _marks_by_view(design, seen)
    return tuple(_elevation(design, n, seen[n], scale, shares[n]) for n in names)


def _elevation(
    design: Design, named: Named, lines: ViewLines, scale: int, marks: Mapping[str, Sequence[str]]
) -> Elevation:
    units = design.workshop.units
    around: Placed = placed(lines, wanted(design, named), scale, units)
    left, bottom, right, _ = lines.box
    below = bottom - around.below - (_LABEL + 5.0) * scale
    middle = (left + right) / 2.0
    items: list[PictureItem] = [*lines.strokes(), *around.items, *balloon_row(lines, marks, scale)]
    items.append(
        Note(layer=Layer.TEXT, at=(middle, below), text=named.title, height=_LABEL * scale, anchor=Anchor.CENTRE)
    )
    room_below = bottom - below + 2.0 * scale
    if around.left_out:
        text = f"not drawn: {', '.join(around.left_out)}"
        at = (middle, below - 6.5 * scale)
        items.append(Note(layer=Layer.TEXT, at=at, text=text, height=_NOTE * scale, anchor=Anchor.CENTRE))
        room_below += 6.5 * scale
    over = BALLOON_ROOM * scale if marks else 2.0 * scale
    return Elevation(
        named=named,
        lines=lines,
        items=tuple(items),
        room=(around.left + 2.0 * scale, room_below, 6.0 * scale, over),
    )


def _marks_by_view(design: Design, seen: Mapping[Named, ViewLines]) -> dict[Named, dict[str, tuple[str, ...]]]:
    """Give each mark to the view that shows most of it."""
    shares: dict[Named, dict[str, tuple[str, ...]]] = {n: {} for n in seen}
    marks = {g.mark: tuple(str(p.id) for p in g.pieces) for g in design.parts.groups}
    marks |= {g.mark: tuple(p.id for p in g.panels) for g in design.parts.panel_groups}
    for mark, ids in marks.items():
        best = max(seen, key=lambda n: seen_length(seen[n], ids))
        shares[best][mark] = ids
    return shares


def _third_angle(views: Sequence[Elevation], scale: int) -> dict[Named, Point]:
    front, side, plan = views
    gap = _GAP * scale
    right = max(front.outer[2], plan.outer[2])
    return {
        Named.FRONT: (0.0, 0.0),
        Named.RIGHT_SIDE: (right + gap - side.outer[0], 0.0),
        Named.PLAN: (0.0, max(front.outer[3], side.outer[3]) + gap - plan.outer[1]),
    }


def _first_angle(views: Sequence[Elevation], scale: int) -> dict[Named, Point]:
    front, side, plan = views
    gap = _GAP * scale
    left = min(front.outer[0], plan.outer[0])
    return {
        Named.FRONT: (0.0, 0.0),
        Named.RIGHT_SIDE: (left - gap - side.outer[2], 0.0),
        Named.PLAN: (0.0, min(front.outer[1], side.outer[1]) - gap - plan.outer[3]),
    }
