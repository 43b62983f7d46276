"""Filling pages from top to bottom, in one column or several; what is full is followed by the next.

Sections follow each other on a page. What may not be parted asks for its room first.
"""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Text, strokes
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.sheet import Sheet
from tubeframe.drawing.sheets.page_columns import Columns

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from tubeframe.drawing.model.items import Mark

LEFT, RIGHT, TOP, BOTTOM = 20.0, 12.0, 12.0, 12.0
"""Margins [mm]: 20 to file on the left (ISO 5457, from memory), the rest clear of any printer's edge."""
HEADER = 9.5
FOOTER = 8.0
_APART = 3.0
_LEAST_CAP = SMALL / BODY
"""A long title is set smaller, no smaller than the small text of a page."""
SECTION_APART = 4.0
"""Between sections on one page [mm]."""
_SECTION_LEAST = 60.0
"""A section begins on a page only where so much is left of it [mm]."""
_TINY = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """What stands on every page: on top left and in the middle, below left, below right."""

    title: str
    units: str
    foot: str
    maker: str


def page_room(paper: tuple[float, float]) -> tuple[float, float]:
    """Return width and height of what a page takes [mm]."""
    return (paper[0] - LEFT - RIGHT, paper[1] - TOP - HEADER - BOTTOM - FOOTER)


@dataclass(slots=True, kw_only=True)
class _Page:
    paper: tuple[float, float]
    sections: list[str] = field(default_factory=list)
    items: list[Mark] = field(default_factory=list)


class Flow:
    """Pages while they are filled. `x`, `width` and `y` are where the next thing goes [mm]; `body` is its letters'."""

    def __init__(self, paper: tuple[float, float], running: Running) -> None:
        """Start without a page."""
        self.paper = paper
        self.body = BODY
        self._running = running
        self._pages: list[_Page] = []
        self._columns: Columns | None = None
        self.x = LEFT
        self.width = paper[0] - LEFT - RIGHT
        self.y = 0.0
        self._section = ""

    @property
    def room(self) -> float:
        """What is left of the page, or of the column [mm]."""
        return self.y - BOTTOM - FOOTER

    @property
    def _top(self) -> float:
        paper = self._pages[-1].paper if self._pages else self.paper
        return paper[1] - TOP - HEADER

    @property
    def _full_room(self) -> float:
        return self._top - BOTTOM - FOOTER

    def section(self, name: str, *, least: float = _SECTION_LEAST) -> None:
        """Begin a section: under the one before where so much is left of the page [mm], else on a new one."""
        if self._columns is not None:
            self.across()
        if not self._pages or self.room < least + SECTION_APART or self._pages[-1].paper != self.paper:
            self.page(name)
            return
        self._section = name
        self._pages[-1].sections.append(name)
        if self.y < self._top - _TINY:
            self.down(SECTION_APART)

    def page(self, section: str, *, lies: bool = False) -> None:
        """Begin a page of a section, upright or lying."""
        self._section = section
        paper = self.paper[::-1] if lies else self.paper
        self._pages.append(_Page(paper=paper, sections=[section]))
        self.x, self.width, self.y = LEFT, paper[0] - LEFT - RIGHT, self._top

    def columns(self, count: int) -> None:
        """Go on in columns side by side, from here down."""
        self._columns = Columns(count=count, left=self.x, whole=self.width, top=self.y, lowest=self.y)
        self._enter()

    def across(self) -> None:
        """Go on over the whole width again, below the longest column."""
        columns = self._columns
        if columns is not None:
            self.x, self.width, self.y = columns.left, columns.whole, min(columns.lowest, self.y)
            self._columns = None

    def _enter(self) -> None:
        columns = self._columns
        if columns is not None:
            self.x, self.width, self.y = columns.x, columns.width, columns.top

    def need(self, height: float) -> None:
        """Go to the next column or page unless there is room for a height [mm], or this one is empty."""
        if height <= self.room:
            return
        columns = self._columns
        if columns is None:
            if self.room < self._full_room - _TINY:
                self.page(self._section, lies=self._pages[-1].paper != self.paper)
            return
        if self.y < columns.top - _TINY or columns.top < self._top - _TINY:
            self.next_column()

    def next_column(self) -> None:
        """Go to the next column, or to the first of a new page."""
        columns = self._columns
        if columns is None:
            return
        columns.lowest = min(columns.lowest, self.y)
        if columns.number + 1 < columns.count:
            columns.number += 1
        else:
            self.page(self._section)
            self._columns = Columns(count=columns.count, left=self.x, whole=self.width, top=self.y, lowest=self.y)
        self._enter()

    @contextmanager
    def inset(self, left: float, width: float) -> Iterator[None]:
        """Fill a strip beside something: so far from the left, so wide [mm]; then go on where it began."""
        kept = (self.x, self.width, self.y)
        self.x, self.width = self.x + left, width
        yield
        self.x, self.width, self.y = kept

    def measured(self, fill: Callable[[Flow], None], width: float | None = None) -> float:
        """Return how high a thing is [mm], by setting it on an endless page beside."""
        beside = Flow((self.paper[0], 1e6), self._running)
        beside.page("")
        beside.body, beside.width = self.body, self.width if width is None else width
        top = beside.y
        fill(beside)
        return top - beside.y

    def put(self, items: Iterable[Mark]) -> None:
        """Put items, in page coordinates [mm]."""
        self._pages[-1].items.extend(items)

    def down(self, height: float) -> None:
        """Go down [mm]."""
        self.y -= height

    def sheets(self) -> tuple[Sheet, ...]:
        """Close the pages and give each its number."""
        total = len(self._pages)
        return tuple(
            Sheet(
                width=page.paper[0],
                height=page.paper[1],
                title=", ".join(page.sections),
                items=(*_frame(self._running, page, n, total), *page.items),
            )
            for n, page in enumerate(self._pages, start=1)
        )


def _frame(running: Running, page: _Page, number: int, total: int) -> list[Mark]:
    right, top, bottom = page.paper[0] - RIGHT, page.paper[1] - TOP, BOTTOM + FOOTER - 2.0
    rules = (((LEFT, top - 6.5), (right, top - 6.5)), ((LEFT, bottom), (right, bottom)))
    sheet = f"SHEET {number}/{total}"
    units, numbers = text_width(running.units, SMALL), text_width(sheet, BODY, bold=True)
    room = right - LEFT - numbers - units - 3.0 * _APART
    title = _shortened(running.title, ", ".join(page.sections), room)
    cap = BODY * min(1.0, max(_LEAST_CAP, room / text_width(title, BODY, bold=True)))
    middle = max((LEFT + right) / 2.0, LEFT + text_width(title, cap, bold=True) + _APART + units / 2.0)
    return [
        strokes(Pen.NARROW, rules),
        Text(at=(LEFT, top - 4.5), text=title, height=cap, bold=True),
        Text(at=(right, top - 4.5), text=sheet, height=BODY, anchor=Anchor.RIGHT, bold=True),
        Text(at=(middle, top - 4.5), text=running.units, height=SMALL, anchor=Anchor.CENTRE),
        Text(at=(LEFT, bottom - 4.5), text=running.foot, height=SMALL),
        Text(at=(right, bottom - 4.5), text=running.maker, height=SMALL, anchor=Anchor.RIGHT),
    ]


def _shortened(name: str, sections: str, room: float) -> str:
    """Return a page's title, the name cut until it fits a width at the least height [mm]."""
    title = f"{name}: {sections}"
    least = BODY * _LEAST_CAP
    while text_width(title, least, bold=True) > room and len(name) > 1:
        name = name[:-1].rstrip()
        title = f"{name}...: {sections}"
    return title
