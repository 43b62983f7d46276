"""How bent tubes are bent: what is bent alike once, with its marks, its sketch, and room for the trial bend."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.shapes.plane import Transform
from tubeframe.drawing.sheets.bend_sketch import sketch
from tubeframe.drawing.sheets.bend_strip import strip, strip_height
from tubeframe.drawing.sheets.page_blocks import LEADING, caution_box, heading, paragraph, table
from tubeframe.drawing.sheets.page_flow import page_room
from tubeframe.drawing.sheets.table_columns import Column
from tubeframe.fabrication.bending.alike import bent_alike, flat_runs
from tubeframe.fabrication.bending.marks import SetBy
from tubeframe.frame.caution import Moment
from tubeframe.geometry.units import format_length, format_number
from tubeframe.words.bending import (
    chalk_words,
    degrees,
    hook_words,
    running_title,
    running_words,
    slip_words,
    take_words,
    trial_words,
    turn_table_words,
    turn_words,
    ways_words,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.frame.caution import Caution

    Fill = Callable[[Flow], None]
    Cell = tuple[Column, Callable[[BendMark], str]]

_SKETCH, _NARROW = (71.0, 70.0), (58.0, 70.0)
"""Room for the sketch; beside a table of more columns it is less [mm]."""
_GUTTER = 4.0
_TO_WRITE = (("angle left", "stub"), ("marks move by", "readings by"))
_WRITING = 7.5
"""Height of a line to write on [mm]."""


def bend_pages(flow: Flow, book: PartBook, bend_sheets: tuple[BendSheet, ...], cautions: Sequence[Caution]) -> None:
    """Set how every bent mark is bent; what is bent alike stands once."""
    if not bend_sheets:
        return
    own = [c for c in cautions if c.before is Moment.BENDING]
    entries = _entries(bend_sheets, book)

    def begin(at: Flow) -> None:
        heading(at, "Bend")
        for caution in own:
            caution_box(at, caution)
        paragraph(at, ways_words(book.units), cap=SMALL)

    first = flow.measured(begin) + min(flow.measured(e.fill) for e in entries[0])
    flow.section("bend sheet", least=min(first, page_room(flow.paper)[1]))
    begin(flow)
    for sizes in entries:
        entry = _fitting(flow, sizes)
        flow.need(flow.measured(entry.fill))
        entry.fill(flow)


def _entries(bend_sheets: tuple[BendSheet, ...], book: PartBook) -> list[tuple[_Entry, ...]]:
    """Put together what is bent alike, set large and small; the trial bend goes with the first of a tube size."""
    tried: set[str] = set()
    made = []
    for alike in bent_alike(bend_sheets):
        with_trial = alike[0].tube not in tried and any(m.set_by is SetBy.ARROW for m in alike[0].bends)
        tried |= {alike[0].tube} if with_trial else set()
        made.append(tuple(_Entry(alike, book, cap, with_trial=with_trial) for cap in (BODY, SMALL)))
    return made


def _fitting(flow: Flow, entries: Sequence[_Entry]) -> _Entry:
    """Return the first that goes on this page; where none does, on a page of its own."""
    heights = [flow.measured(e.fill) for e in entries]
    for room in (flow.room, page_room(flow.paper)[1]):
        for entry, height in zip(entries, heights, strict=True):
            if height <= room:
                return entry
    return entries[-1].stacked()


class _Entry:
    """What is bent alike; its table in letters of a height [mm]."""

    def __init__(
        self,
        sheets: Sequence[BendSheet],
        book: PartBook,
        cap: float,
        *,
        with_trial: bool,
        is_stacked: bool = False,
    ) -> None:
        self._sheets = sheets
        self._sheet = sheets[0]
        self._book = book
        self._cap = cap
        self._with_trial = with_trial
        self._is_stacked = is_stacked
        groups = {g.mark: g for g in book.parts.groups}
        self._groups = [groups[s.mark] for s in sheets]

    def stacked(self) -> _Entry:
        """Return the same with nothing beside its table, which may then go on over pages."""
        return _Entry(self._sheets, self._book, self._cap, with_trial=self._with_trial, is_stacked=True)

    @property
    def _is_turned(self) -> bool:
        return any(round(m.roll) % 360 for m in self._sheet.bends)

    @property
    def _hooks(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(hook_words(m) for m in self._sheet.bends))

    @property
    def _room(self) -> tuple[float, float]:
        return _NARROW if self._is_turned or len(self._hooks) > 1 else _SKETCH

    def fill(self, flow: Flow) -> None:
        """Set what is taken and its strip; then its sketch and its clamps beside its table and the trial bend."""
        sheet, units = self._sheet, self._book.units
        count = sum(s.quantity for s in self._sheets)
        marks = ", ".join(s.mark for s in self._sheets)
        heading(flow, f"{count} x {marks}" if len(self._sheets) == 1 else f"{marks}: {count} bent alike")
        paragraph(flow, take_words(sheet, self._book.catalog.tube(sheet.tube).name, units))
        flow.down(strip_height(sheet, flow.width) + 1.0)
        flow.put(_moved(strip(sheet, flow.width), flow.x, flow.y))
        flow.down(1.0)
        if not sheet.is_flat:
            paragraph(flow, turn_table_words())
        if self._is_stacked:
            _side_by_side(flow, self._room[0], (self._sketches,), (self._clamps, self._trial))
            self._marks(flow)
        else:
            _side_by_side(flow, self._room[0], (self._sketches, self._clamps), (self._marks, self._trial))

    def _marks(self, flow: Flow) -> None:
        sheet, units = self._sheet, self._book.units
        right = Anchor.RIGHT
        hook: Cell = (Column(title="Hook", share=12), hook_words)
        turn: Cell = (Column(title="Turn", share=11, anchor=right), lambda m: turn_words(m.roll))
        wanted: list[Cell] = [
            (Column(title="Bend", share=9, anchor=right), lambda m: str(m.number)),
            (Column(title="Mark at", share=18, anchor=right), lambda m: format_length(m.at, units)),
            *([hook] if len(self._hooks) > 1 else []),
            *([turn] if self._is_turned else []),
            (Column(title="By", share=11, anchor=right), lambda m: degrees(m.angle)),
            (Column(title="Pull to", share=13, anchor=right), lambda m: degrees(m.reading)),
            (Column(title=running_title(sheet), share=36, anchor=right), lambda m: running_words(sheet, m, units)),
        ]
        rows = [[cell(m) for _, cell in wanted] for m in sorted(sheet.bends, key=lambda m: m.order)]
        table(flow, [c for c, _ in wanted], rows, cap=self._cap)
        for words in chalk_words(sheet, units):
            paragraph(flow, words)
        for words in slip_words(sheet, units):
            paragraph(flow, words, cap=SMALL)

    def _sketches(self, flow: Flow) -> None:
        """Draw the piece, or each part of it that lies in one plane."""
        sheet, path = self._sheet, self._groups[0].first.path
        runs = flat_runs(path, sheet.bends) if not sheet.is_flat else ((path, sheet.bends),)
        units = self._book.units if sheet.is_flat else None
        room = (self._room[0], self._room[1] / len(runs) - (0.0 if sheet.is_flat else 6.0))
        for n, (part, marks) in enumerate(runs):
            names = ("A" if n == 0 else "", "B" if n == len(runs) - 1 else "")
            drawn = sketch(part, marks, names, room, units)
            flow.down(drawn.height)
            flow.put(_moved(drawn.items, flow.x, flow.y))
            title = f"1:{drawn.scale}"
            if not sheet.is_flat:
                numbers = f"{marks[0].number}-{marks[-1].number}" if len(marks) > 1 else f"{marks[0].number}"
                title += f"  bend {numbers}, turned {turn_words(marks[0].roll)}"
            flow.down(SMALL * LEADING)
            flow.put([Text(at=(flow.x, flow.y), text=title, height=SMALL)])
            flow.down(1.5)

    def _trial(self, flow: Flow) -> None:
        """Set the box of the trial bend, with lines to write on, once for a tube size."""
        if not self._with_trial:
            return
        top = flow.y
        flow.down(1.5)
        left, width = flow.x, flow.width
        with flow.inset(2.0, width - 4.0):
            self._trial_lines(flow)
            bottom = flow.y
        flow.y = bottom
        corners = ((left, flow.y), (left + width, flow.y), (left + width, top), (left, top))
        flow.put([Drawn(shape=Area(corners=corners), pen=Pen.NARROW)])

    def _trial_lines(self, flow: Flow) -> None:
        paragraph(flow, "TRIAL BEND FIRST", bold=True)
        for words in trial_words(self._sheet.tool, self._book.units):
            paragraph(flow, words, cap=SMALL)
        for titles in _TO_WRITE:
            flow.down(_WRITING)
            for n, title in enumerate(titles):
                x = flow.x + n * flow.width / 2.0
                flow.put([Text(at=(x, flow.y), text=title, height=SMALL)])
                line = ((x + text_width(title, SMALL) + 1.0, flow.y), (x + flow.width / 2.0 - 2.0, flow.y))
                flow.put([strokes(Pen.NARROW, (line,))])
        flow.down(2.5)

    def _clamps(self, flow: Flow) -> None:
        """List where clamps go, along the straight tube from its rough end A."""
        units = self._book.units
        rows = [
            f"{g.mark}:  {',  '.join(format_number(s.from_a + sheet.trim_a, units) for s in g.first.stations)}"
            for g, sheet in zip(self._groups, self._sheets, strict=True)
            if g.first.stations
        ]
        if not rows:
            return
        paragraph(flow, "Clamps from rough end A:", bold=True)
        cap = BODY if max(text_width(row, BODY) for row in rows) <= flow.width else SMALL
        for row in rows:
            paragraph(flow, row, cap=cap)


def _side_by_side(flow: Flow, width: float, left: Sequence[Fill], right: Sequence[Fill]) -> None:
    """Set things beside each other, those on the left in a width [mm]."""
    lowest = flow.y
    for fills, x, wide in ((left, 0.0, width), (right, width + _GUTTER, flow.width - width - _GUTTER)):
        with flow.inset(x, wide):
            for fill in fills:
                fill(flow)
            lowest = min(lowest, flow.y)
    flow.y = lowest - 1.0


def _moved(items: Sequence[Mark], x: float, y: float) -> list[Mark]:
    return [item.placed(Transform(shift=(x, y))) for item in items]
