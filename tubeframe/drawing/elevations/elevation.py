"""One view with its dimensions, its balloons and its name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.labels.balloons import ROOM, BalloonSide, balloon_row, row_length
from tubeframe.drawing.labels.dimensions import Outline, placed
from tubeframe.drawing.labels.leader_targets import panel_targets, tube_targets
from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import Item, box_of
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.shapes.plane import Axis, size_of
from tubeframe.drawing.views.centrelines import centrelines

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from tubeframe.drawing.labels.leader_targets import Target
    from tubeframe.drawing.labels.wanted_dimensions import Named, Wanted
    from tubeframe.drawing.shapes.plane import Box
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.drawing.views.view_lines import ViewLines

_LABEL, _NOTE, _LABEL_OFF, _NOTE_STEP, _NOTE_WIDTH = 5.0, 3.5, 5.0, 6.0, 90.0
"""Cap heights of a view's name and of notes, and where they stand under it [mm on paper]."""
_EDGE = 2.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Blank:
    """What stands round a view at 1 : `scale`: dimensions and its name, and the box they take with it [mm]."""

    named: Named
    view_box: Box
    items: tuple[Item, ...]
    around: Box
    scale: int

    def outer(self, marks: int, side: BalloonSide) -> Box:
        """Return the box that the view takes with a row of balloons at a side [mm]."""
        edge = _EDGE * self.scale
        left, bottom, right, top = self.around
        left, right, top = left - edge, right + edge, top + edge
        if not marks:
            return (left, bottom, right, top)
        side = self.side(side)
        half, room, view = row_length(marks, side, self.scale) / 2.0 + edge, (ROOM + _EDGE) * self.scale, self.view_box
        if side.is_above:
            middle = (view[0] + view[2]) / 2.0
            left, right, top = min(left, middle - half), max(right, middle + half), top + room
        if side.is_right:
            middle = (view[1] + view[3]) / 2.0
            bottom, top, right = min(bottom, middle - half), max(top, middle + half), right + room
        return (left, bottom, right, top)

    def side(self, wanted: BalloonSide) -> BalloonSide:
        """Return the side where balloons may stand: above, when dimensions stand on the right."""
        right = self.view_box[2]
        is_taken = any(isinstance(i, Dimension) and i.line_at > right and i.axis is Axis.VERTICAL for i in self.items)
        return BalloonSide.ABOVE if is_taken else wanted


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BareView(Blank):
    """A view that is drawn, with centre lines, dimensions and its name; no balloons yet."""

    lines: ViewLines


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Elevation:
    """A view with all that stands round it, the box that takes [mm], and its scale, 1 : `scale`."""

    named: Named
    lines: ViewLines
    items: tuple[Item, ...]
    outer: Box
    scale: int

    @property
    def size(self) -> tuple[float, float]:
        """Width and height with all that stands round it [mm]."""
        return size_of(self.outer)


def bare_view(book: PartBook, named: Named, lines: ViewLines, wants: Sequence[Wanted], scale: int) -> BareView:
    """Draw a view at 1 : scale, without balloons, from what is seen in it and what it is to measure."""
    around = placed(lines, wants, scale, book.units)
    items: list[Item] = [
        *lines.drawn,
        *lines.hidden,
        *centrelines(book, named.view, lines, scale),
        *around.items,
    ]
    items += _name(lines.box, box_of(items), named.title, around.left_out, scale)
    return BareView(named=named, view_box=lines.box, lines=lines, items=tuple(items), around=box_of(items), scale=scale)


def outlined(book: PartBook, named: Named, wants: Sequence[Wanted], scale: int) -> Blank:
    """Return what a view will take at 1 : scale, before it is drawn: its outline, dimensions and name."""
    low, high = (named.view.project(p) for p in (book.extent.low, book.extent.high))
    outline = Outline(box=(min(low[0], high[0]), min(low[1], high[1]), max(low[0], high[0]), max(low[1], high[1])))
    around = placed(outline, wants, scale, book.units)
    corners = Drawn(shape=Area(corners=(outline.box[:2], outline.box[2:])), pen=None)
    items: list[Item] = [corners, *around.items]
    items += _name(outline.box, box_of(items), named.title, around.left_out, scale)
    return Blank(named=named, view_box=outline.box, items=tuple(items), around=box_of(items), scale=scale)


def with_balloons(book: PartBook, bare: BareView, marks: Collection[str], side: BalloonSide) -> Elevation:
    """Add balloons for some marks to a view, at a side of it."""
    targets = _targets(book, bare, marks)
    row = balloon_row(bare.lines, _dimensioned(bare), targets, bare.side(side), bare.scale)
    return Elevation(
        named=bare.named, lines=bare.lines, items=bare.items + row, outer=bare.outer(len(marks), side), scale=bare.scale
    )


def marks_by_view(book: PartBook, views: Sequence[BareView]) -> dict[Named, tuple[str, ...]]:
    """Give each mark, in order, to the view that shows most of it; one that is seen nowhere to none."""
    shares: dict[Named, list[str]] = {v.named: [] for v in views}
    for mark, ids in book.marked_ids().items():
        lengths = [_seen_length(v.lines, ids) for v in views]
        best = max(range(len(views)), key=lambda n: lengths[n])
        if lengths[best] > 0.0:
            shares[views[best].named].append(mark)
    return {named: tuple(marks) for named, marks in shares.items()}


def _targets(book: PartBook, bare: BareView, marks: Collection[str]) -> Mapping[str, Sequence[Target]]:
    boards = {g.mark for g in book.parts.panel_groups}
    found: dict[str, Sequence[Target]] = {}
    for mark, ids in book.marked_ids().items():
        if mark in marks:
            targets = panel_targets if mark in boards else tube_targets
            found[mark] = targets(book, bare.named.view, bare.lines, ids, bare.scale)
    return found


def _seen_length(lines: ViewLines, ids: Sequence[str]) -> float:
    """Return how much is seen of some parts [mm]."""
    return float(sum(np.linalg.norm(v[:, 1] - v[:, 0], axis=1).sum() for v in (lines.lines[i] for i in ids)))


def _dimensioned(bare: BareView) -> Box:
    """Return the box round a view and its dimensions, its name left out [mm]."""
    return box_of([i for i in bare.items if not (isinstance(i, Text) and i.pen is Pen.TEXT)])


def _name(view: Box, around: Box, title: str, left_out: Sequence[str], scale: int) -> list[Item]:
    """Write a view's name under it, and what could not be placed."""
    middle = (view[0] + view[2]) / 2.0
    y = around[1] - (_LABEL + _LABEL_OFF) * scale
    items: list[Item] = [Text(at=(middle, y), text=title, height=_LABEL * scale, anchor=Anchor.CENTRE)]
    for row in _rows(left_out):
        y -= _NOTE_STEP * scale
        items.append(Text(at=(middle, y), text=row, height=_NOTE * scale, anchor=Anchor.CENTRE))
    return items


def _rows(left_out: Sequence[str]) -> list[str]:
    """Say what is not drawn, in rows that part no value."""
    rows: list[str] = []
    for word in left_out:
        longer = f"{rows[-1]}, {word}" if rows else f"not drawn: {word}"
        if not rows or text_width(longer, _NOTE) <= _NOTE_WIDTH:
            rows[-1:] = [longer]
        else:
            rows.append(word)
    return rows
