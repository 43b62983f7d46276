"""The three views, on as few pages as keep them large; a wide view has a page that lies."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

from tubeframe.drawing.elevations.elevation import marks_by_view, with_balloons
from tubeframe.drawing.labels.balloons import BalloonSide
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import BODY
from tubeframe.drawing.model.picture import on_paper
from tubeframe.drawing.shapes.plane import Transform, size_of
from tubeframe.drawing.sheets.page_flow import page_room

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.elevations.elevation import Elevation
    from tubeframe.drawing.elevations.view_set import ViewSet
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.sheets.page_flow import Flow

Size = tuple[float, float]
_GAP = 4.0
_COST_OF_PAGE, _COST_OF_FINE = 2.5, 3.0
"""What a page more counts, and a view whose tubes are too thin to tell, beside halving the scale of one view."""
_COST_OF_UNLIKE = 0.6
"""Front and side stand beside each other: heights are read across."""
_FRONT_MORE = 0.5
"""The front counts so much more."""
_FINE_TUBE = 1.0
"""Diameter of a tube that can be told [mm on paper]."""
_USED = 60.0
"""Less room than this on a page is of no use to what follows [mm]."""
_STEPS = 6
"""So many scales below the largest that a page takes are looked at for each view."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Views side by side, by their numbers, and how high they are [mm]."""

    views: tuple[int, ...]
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Rows of views on a page."""

    lies: bool
    rows: tuple[Row, ...]


def elevation_pages(flow: Flow, views: ViewSet) -> None:
    """Set front, right side and plan with their dimensions."""
    rooms = (page_room(flow.paper), page_room(flow.paper[::-1]))
    drawn, pages = _chosen(views, rooms)
    for page in sorted(pages, key=lambda page: _left(page, rooms)):
        flow.page("elevations", lies=page.lies)
        for row in page.rows:
            _row(flow, [drawn[n] for n in row.views], row.height)


def _left(page: Laid, rooms: tuple[Size, Size]) -> float:
    """Return what is left of a page that stands [mm]: the one with the most room is last, so that it is used."""
    used = sum(row.height + _GAP for row in page.rows)
    return 0.0 if page.lies else max(0.0, rooms[0][1] - used - _USED)


def _row(flow: Flow, views: Sequence[Elevation], height: float) -> None:
    """Set views side by side, their lower edges in line, the room between them shared out."""
    widths = [v.size[0] / v.scale for v in views]
    spare = (flow.width - sum(widths)) / (len(views) + 1)
    x = flow.x
    for view, width in zip(views, widths, strict=True):
        x += spare
        left, bottom = (v / view.scale for v in view.outer[:2])
        to = Transform(scale=1.0 / view.scale, shift=(x - left, flow.y - height - bottom))
        flow.put(on_paper([_with_scale(item, view) for item in view.items], to))
        x += width
    flow.down(height + _GAP)


def _with_scale(item: Item, view: Elevation) -> Item:
    """Print a view's scale with its name."""
    if isinstance(item, Text) and item.text == view.named.title:
        return replace(item, text=f"{item.text}, SCALE 1:{view.scale}", height=BODY * view.scale)
    return item


def _chosen(views: ViewSet, rooms: tuple[Size, Size]) -> tuple[tuple[Elevation, ...], Sequence[Laid]]:
    """Return the views and their pages: few pages, and each view large; the same scale for all where it costs less."""
    for scales in sorted(product(*(_scales(views, n, rooms) for n in Named)), key=lambda s: _cost(views, s, rooms)):
        bare = tuple(views.drawn(n, s) for n, s in zip(Named, scales, strict=True))
        marks = marks_by_view(views.book, bare)
        least = len(_blank_pages(views, scales, rooms) or ())
        for sides in product(BalloonSide, repeat=len(bare)):
            outer = [size_of(b.outer(len(marks[b.named]), s)) for b, s in zip(bare, sides, strict=True)]
            pages = packed([(w / s, h / s) for (w, h), s in zip(outer, scales, strict=True)], rooms)
            if pages is not None and len(pages) <= least:
                pairs = zip(bare, sides, strict=True)
                return tuple(with_balloons(views.book, b, marks[b.named], s) for b, s in pairs), pages
    last = views.scales[-1]
    plain = tuple(with_balloons(views.book, views.drawn(n, last), (), BalloonSide.ABOVE) for n in Named)
    return plain, [Laid(lies=False, rows=(Row(views=(n,), height=v.size[1] / last),)) for n, v in enumerate(plain)]


def _scales(views: ViewSet, named: Named, rooms: tuple[Size, Size]) -> Sequence[int]:
    """Return the largest scales at which a view fits a page."""
    fitting = [s for s in views.scales if packed([_blank_size(views, named, s)], rooms) is not None]
    return fitting[:_STEPS]


def _cost(views: ViewSet, scales: Sequence[int], rooms: tuple[Size, Size]) -> tuple[float, int]:
    """Count pages and how small views are; scales that differ come after those that are one."""
    pages = _blank_pages(views, scales, rooms)
    if pages is None:
        return (math.inf, 0)
    thinnest = min((t.outside for b in views.book.bodies.values() for t in b.tubes), default=_FINE_TUBE)
    small = sum(math.log2(s) + (_COST_OF_FINE if thinnest / s < _FINE_TUBE else 0.0) for s in scales)
    small += _FRONT_MORE * math.log2(scales[0])
    small += _COST_OF_UNLIKE if scales[0] != scales[1] else 0.0
    return (_COST_OF_PAGE * len(pages) + small, len(set(scales)))


def _blank_pages(views: ViewSet, scales: Sequence[int], rooms: tuple[Size, Size]) -> list[Laid] | None:
    """Return the pages of views before they are drawn, each with a row of balloons where it takes least."""
    best: list[Laid] | None = None
    for sides in product((BalloonSide.ABOVE, BalloonSide.RIGHT), repeat=len(scales)):
        sizes = [_blank_size(views, n, s, side) for n, s, side in zip(Named, scales, sides, strict=True)]
        pages = packed(sizes, rooms)
        if pages is not None and (best is None or len(pages) < len(best)):
            best = pages
    return best


def _blank_size(views: ViewSet, named: Named, scale: int, side: BalloonSide = BalloonSide.ABOVE) -> Size:
    """Return what a view takes on the paper with a balloon at a side [mm]."""
    width, height = size_of(views.blank(named, scale).outer(1, side))
    return (width / scale, height / scale)


def packed(sizes: Sequence[Size], rooms: tuple[Size, Size]) -> list[Laid] | None:
    """Put views in turn into rows and the rows on pages, upright or lying, whichever takes more, upright rather [mm].

    None when one is too large for a page.
    """
    pages: list[Laid] = []
    first = 0
    while first < len(sizes):
        upright, lying = (_rows(sizes, first, room) for room in rooms)
        count = [sum(len(r.views) for r in rows) for rows in (upright, lying)]
        if not any(count):
            return None
        rows = upright if count[0] >= count[1] else lying
        pages.append(Laid(lies=count[1] > count[0], rows=tuple(rows)))
        first += max(count)
    return pages


def _rows(sizes: Sequence[Size], first: int, room: Size) -> list[Row]:
    """Fill a page with rows, from a view on."""
    rows: list[Row] = []
    left, used = room[1], room[0]
    for number in range(first, len(sizes)):
        width, height = sizes[number]
        if width > room[0] or height > room[1]:
            break
        last = rows[-1] if rows else None
        if last is not None and used + _GAP + width <= room[0] and left + last.height - max(last.height, height) >= 0.0:
            tall = max(last.height, height)
            left, used = left + last.height - tall, used + _GAP + width
            rows[-1] = Row(views=(*last.views, number), height=tall)
        elif height + (_GAP if rows else 0.0) <= left:
            left, used = left - height - (_GAP if rows else 0.0), width
            rows.append(Row(views=(number,), height=height))
        else:
            break
    return rows
