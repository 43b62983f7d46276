"""One view of a design: its visible lines by their pens, and the points that dimensions hold on to."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line import lines, visible_lines
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Arc, Ellipse, Lines
from tubeframe.drawing.views.drawn_bodies import drawn_bodies
from tubeframe.drawing.views.side_views import LinesAlong

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.items import Drawn
    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.drawing.shapes.plane import Axis, Box, Point
    from tubeframe.drawing.views.part_book import PartBook

FINEST = 0.7
"""Nothing closer than this is drawn [mm on paper] (ISO 128: gap between parallel lines, from memory)."""
_EXACT = 1e-6
_VISIBLE = (Pen.TUBE, Pen.FITTING, Pen.PANEL)


@dataclass(frozen=True, kw_only=True, eq=False)
class ViewLines:
    """What is seen of a design in one view, in the view's plane [mm].

    `lines` (n, 2, 2) are those of every part by its id, curves in chords. `drawn` are the same, pen by pen, with
    true curves; `straight` (n, 2, 2) are the straight ones of those. `hidden` are the tubes' hidden lines, where
    they are wanted.
    """

    lines: dict[str, Floats]
    drawn: tuple[Drawn, ...]
    straight: Floats
    hidden: tuple[Drawn, ...] = ()

    @cached_property
    def all(self) -> Floats:
        """All lines, (n, 2, 2) [mm]."""
        return np.concatenate([v for v in self.lines.values() if len(v)])

    @cached_property
    def along(self) -> LinesAlong:
        """All lines, looked up by where they run."""
        return LinesAlong(self.all)

    @cached_property
    def box(self) -> Box:
        """The box round everything."""
        points = self.all.reshape(-1, 2)
        low, high = points.min(axis=0), points.max(axis=0)
        return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))

    def hold(self, axis: Axis, value: float, *, least: bool, within: tuple[float, float] | None = None) -> Point | None:
        """Return the point on a drawn line at a coordinate [mm] along an axis, farthest to one side across it.

        Of points `within` two places across it, where they are told [mm]. None when no line is there: it is hidden.
        """
        found = [*_on_lines(self.straight, axis, value, least=least)]
        found += [v for d in self.drawn if isinstance(d.shape, Arc | Ellipse) for v in d.shape.meets(axis, value)]
        if within is not None:
            found = [v for v in found if within[0] - _EXACT <= v <= within[1] + _EXACT]
        if not found:
            return None
        return axis.point(value, min(found) if least else max(found))


def view_lines(book: PartBook, view: View, *, finest: float, hidden_lines: bool = False) -> ViewLines:
    """Look at a frame; parts that are seen smaller than `finest` are left out [mm]."""
    pens: dict[str, Pen] = {p.id: Pen.TUBE for p in book.parts.pieces}
    pens |= {j.id: Pen.FITTING for j in book.joints}
    pens |= {p.id: Pen.PANEL for p in book.boards}
    seen, dark = _looked_at(tuple(book.bodies.values()), view, finest, hidden_lines=hidden_lines)
    drawn = [d for pen in _VISIBLE for d in drawn_bodies((v for v in seen if pens[v.key] is pen), pen)]
    hidden = drawn_bodies((v for v in dark if pens[v.key] is Pen.TUBE), Pen.HIDDEN)
    straight = [s for d in drawn if isinstance(d.shape, Lines) for s in d.shape.segments]
    return ViewLines(
        lines={v.key: v.segments for v in seen},
        drawn=tuple(drawn),
        straight=np.array(straight, dtype=float).reshape(-1, 2, 2),
        hidden=tuple(hidden),
    )


def _looked_at(
    bodies: Sequence[Body], view: View, finest: float, *, hidden_lines: bool
) -> tuple[tuple[BodyLines, ...], tuple[BodyLines, ...]]:
    """Return what is seen, and what is hidden where that is wanted."""
    if hidden_lines:
        both = lines(bodies, view, min_size=finest)
        return both.visible, both.hidden
    return visible_lines(bodies, view, min_size=finest), ()


def _on_lines(lines: Floats, axis: Axis, value: float, *, least: bool) -> list[float]:
    """Return where straight lines (n, 2, 2) have a coordinate, across the axis [mm]."""
    along, across = axis.along, axis.across
    a, b = lines[:, 0, along], lines[:, 1, along]
    found = lines[(np.minimum(a, b) <= value + _EXACT) & (np.maximum(a, b) >= value - _EXACT)]
    a, b = found[:, 0, along], found[:, 1, along]
    c, d = found[:, 0, across], found[:, 1, across]
    level = np.abs(b - a) < _EXACT
    share = np.where(level, 0.0, (value - a) / np.where(level, 1.0, b - a)).clip(0.0, 1.0)
    outer = np.minimum(c, d) if least else np.maximum(c, d)
    places: list[float] = np.where(level, outer, c + share * (d - c)).tolist()
    return places
