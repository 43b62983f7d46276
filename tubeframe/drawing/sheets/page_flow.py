"""Filling pages from top to bottom; a page that is full is followed by the next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Text, strokes
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from tubeframe.drawing.model.items import Mark

LEFT, RIGHT, TOP, BOTTOM = 20.0, 12.0, 12.0, 12.0
"""Margins [mm]: 20 to file on the left (ISO 5457, from memory), the rest clear of any printer's edge."""
HEADER = 11.0
FOOTER = 9.0
_APART = 3.0
_LEAST_CAP = SMALL / BODY
"""A long title is set smaller, no smaller than the small text of a page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """What stands on every page: on top left and in the middle, below left, below right."""

    title: str
    units: str
    foot: str
    maker: str


class Flow:
    """Pages while they are filled. `x`, `width` and `y` are where the next thing goes [mm]."""

    def __init__(self, paper: tuple[float, float], running: Running) -> None:
        """Start with an empty first page."""
        self.paper = paper
        self._running = running
        self._pages: list[tuple[str, list[Mark]]] = []
        self.x = LEFT
        self.width = paper[0] - LEFT - RIGHT
        self.y = 0.0
        self._section = ""

    @property
    def room(self) -> float:
        """What is left of the page [mm]."""
        return self.y - BOTTOM - FOOTER

    @property
    def full_room(self) -> float:
        """What an empty page has [mm]."""
        return self.paper[1] - TOP - HEADER - BOTTOM - FOOTER

    def page(self, section: str) -> None:
        """Begin a page of a section."""
        self._section = section
        self._pages.append((section, []))
        self.y = self.paper[1] - TOP - HEADER

    def need(self, height: float) -> None:
        """Begin a new page of the same section unless there is room for a height [mm]."""
        if height > self.room and self.room < self.full_room - 1.0:
            self.page(self._section)

    def measured(self, fill: Callable[[Flow], None]) -> float:
        """Return how high a thing is [mm], by setting it on an endless page beside."""
        beside = Flow((self.paper[0], 1e6), self._running)
        beside.page("")
        top = beside.y
        fill(beside)
        return top - beside.y

    def put(self, items: Iterable[Mark]) -> None:
        """Put items, in page coordinates [mm]."""
        self._pages[-1][1].extend(items)

    def down(self, height: float) -> None:
        """Go down [mm]."""
        self.y -= height

    def sheets(self) -> tuple[Sheet, ...]:
        """Close the pages and give each its number."""
        total = len(self._pages)
        return tuple(
            Sheet(
                width=self.paper[0],
                height=self.paper[1],
                title=section,
                items=(*self._frame(section, n, total), *items),
            )
            for n, (section, items) in enumerate(self._pages, start=1)
        )

    def _frame(self, section: str, number: int, total: int) -> list[Mark]:
        right, top, bottom = self.paper[0] - RIGHT, self.paper[1] - TOP, BOTTOM + FOOTER - 3.0
        rules = (((LEFT, top - 6.5), (right, top - 6.5)), ((LEFT, bottom), (right, bottom)))
        title, sheet = f"{self._running.title}: {section}", f"SHEET {number}/{total}"
        units = text_width(self._running.units, SMALL)
        room = right - LEFT - text_width(sheet, BODY, bold=True) - units - 3.0 * _APART
        cap = BODY * min(1.0, max(_LEAST_CAP, room / text_width(title, BODY, bold=True)))
        middle = max((LEFT + right) / 2.0, LEFT + text_width(title, cap, bold=True) + _APART + units / 2.0)
        return [
            strokes(Pen.NARROW, rules),
            Text(at=(LEFT, top - 4.5), text=title, height=cap, bold=True),
            Text(at=(right, top - 4.5), text=sheet, height=BODY, anchor=Anchor.RIGHT, bold=True),
            Text(at=(middle, top - 4.5), text=self._running.units, height=SMALL, anchor=Anchor.CENTRE),
            Text(at=(LEFT, bottom - 4.5), text=self._running.foot, height=SMALL),
            Text(at=(right, bottom - 4.5), text=self._running.maker, height=SMALL, anchor=Anchor.RIGHT),
        ]
