"""Every kind of joint once, large: which tube passes, which ends, how far back, and where the bolts' heads are."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.drawing.labels.callouts import Callout, callouts
from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.lettering import BODY, SMALL, TITLE
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import ISOMETRIC, Body
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.shapes.plane import moved
from tubeframe.drawing.sheets.isometric import centred, drawn_at
from tubeframe.drawing.sheets.joint_kinds import heads, joint_kinds, stubs
from tubeframe.drawing.sheets.page_blocks import LEADING, heading, paragraph
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point, Transform
    from tubeframe.drawing.sheets.joint_kinds import Head, JointKind, Stub
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.vector import Vec

_SCALES = (2, 5, 10, 20, 50)
"""Reductions of ISO 5455 (from memory). Never 1:1: a picture aslant at full size would be measured."""
_PAST = (2.5, 2.0, 1.5, 1.0)
"""So many diameters of a tube are drawn past the fitting: more where there is room for it."""
_SIZES = ((58.0, 84.0), (85.0, 100.0), (85.0, 118.0))
"""Least widths and heights of cells, the smallest first [mm]."""
_SMALLEST = 5
"""A joint is drawn at 1 : 5 or larger where its cell lets it."""
_PAD, _GAP = 3.0, 3.0
_ROW = SMALL * LEADING
_UPRIGHT = 1e-3
_SEEN = 1.0
"""So much of a head's outline has to be seen to call it seen [mm]."""


def joint_pages(flow: Flow, book: PartBook) -> None:
    """Set a grid of cells, one for each kind of joint; nothing where the frame has none."""
    kinds = joint_kinds(book)
    if not kinds:
        return
    flow.section("joints", least=104.0)
    heading(flow, "Joints")
    paragraph(
        flow,
        "Every kind once, as it stands in the frame. A run passes through, a branch ends; arrows: heads of bolts.",
        cap=SMALL,
    )
    flow.down(1.5)
    cells = _cells(book, kinds, flow.width)
    high = cells[0].size[1]
    a_row = max(1, round((flow.width + _GAP) / (cells[0].size[0] + _GAP)))
    for first in range(0, len(cells), a_row):
        flow.need(high)
        for n, cell in enumerate(cells[first : first + a_row]):
            corner = (flow.x + n * (cell.size[0] + _GAP), flow.y - high)
            flow.put(item.placed(moved(corner)) for item in cell.items)
        flow.down(high + _GAP)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    """A kind as it is drawn, from its frame's lower left corner: width and height, 1 over its scale [mm on paper].

    Whether all its words found their places.
    """

    items: tuple[Mark, ...]
    size: tuple[float, float]
    scale: int
    is_told: bool


def _cells(book: PartBook, kinds: Sequence[JointKind], width: float) -> list[_Cell]:
    """Draw all kinds in the smallest cells that show each large enough, with all its words; else in the largest."""
    cells: list[_Cell] = []
    for least, high in _SIZES:
        columns = max(1, int((width + _GAP) // (least + _GAP)))
        cells = [_cell(book, kind, ((width + _GAP) / columns - _GAP, high)) for kind in kinds]
        if all(c.is_told and c.scale <= _SMALLEST for c in cells):
            break
    return cells


def _cell(book: PartBook, kind: JointKind, size: tuple[float, float]) -> _Cell:
    """Draw one kind in a frame."""
    width, height = size
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    words = [row for text in _words(book, kind) for row in wrap(text, width - 2.0 * _PAD, SMALL)]
    top = height - _PAD - TITLE - 2.0
    under = top - len(words) * _ROW
    scale, picture, is_told = _picture(book, kind, (_PAD, _PAD + SMALL, width - _PAD, under - _PAD))
    name_x = _PAD + text_width(kind.sign, TITLE, bold=True) + 4.0
    room = width - _PAD - name_x
    cap = max(SMALL, min(BODY, BODY * room / text_width(kind.name, BODY, bold=True)))
    items = (
        Drawn(shape=Area(corners=corners), pen=Pen.NARROW),
        Text(at=(_PAD, top + 2.0), text=kind.sign, height=TITLE, bold=True),
        Text(at=(name_x, top + 2.0), text=kind.name, height=cap, bold=True),
        Text(at=(_PAD, _PAD / 2.0), text=f"1:{scale}", height=SMALL),
        *(Text(at=(_PAD, top - (n + 1) * _ROW), text=t, height=SMALL) for n, t in enumerate(words)),
        *picture,
    )
    return _Cell(items=items, size=size, scale=scale, is_told=is_told)


def _words(book: PartBook, kind: JointKind) -> list[str]:
    bolts = {0: "no bolt", 1: "1 bolt each"}.get(kind.shown.bolts, f"{kind.shown.bolts} bolts each")
    number = len(kind.joints)
    pieces = "1 piece" if number == 1 else f"{number} pieces"
    slanted = [a for a in kind.angles if a % 90] if not kind.fitting.kind.swings else []
    angle = f" {slanted[0]}° to the run." if slanted else ""
    rows = [f"{pieces} for {kind.tubes}, {bolts}", f"{kind.about[:1].upper()}{kind.about[1:]}.{angle}"]
    if kind.has_branch:
        rows.append(_setback(book, kind))
    elif kind.fitting.kind.is_sleeve:
        rows.append("Both ends meet in the middle of the fitting.")
    if kind.shown.bolts > len(kind.fitting.bolts):
        rows.append("Bolts not drawn: their places depend on the make.")
    return rows


def _setback(book: PartBook, kind: JointKind) -> str:
    low, high = (format_length(v, book.units) for v in kind.setbacks)
    size = low if low == high else f"{low} to {high}, by the angle"
    has_run = any(u.role is PortRole.RUN for u in kind.shown.uses)
    return f"Setback {size}: cut end to {'centreline of the run' if has_run else 'middle of the joint'}."


def _picture(
    book: PartBook, kind: JointKind, area: tuple[float, float, float, float]
) -> tuple[int, Sequence[Mark], bool]:
    """Draw a joint at the largest scale at which it and its words fit an area.

    Returns 1 over the scale, the items, and whether the words found their places.
    """
    screws = heads(book, kind)
    fitting = Body(key=kind.shown.id, pieces=kind.shown.body)
    strong = {fitting.key, *(h.body.key for h in screws)}
    items: Sequence[Mark] = ()
    for scale, past in product(_SCALES, _PAST):
        tubes = stubs(book, kind, past)
        scene = [fitting, *(h.body for h in screws), *(s.body for s in tubes)]
        fit = centred(scene, (area[0], area[1], area[2] - area[0], area[3] - area[1]), 1.0 / scale)
        if fit is None:
            continue
        items, seen = drawn_at(scene, fit, strong=strong, others=Pen.NARROW)
        placed = callouts(_callouts(fit, tubes, screws, seen), items, area)
        if placed is not None:
            return scale, [*items, *placed], True
    return _SCALES[-1], items, False


def _callouts(
    fit: Transform, tubes: Sequence[Stub], screws: Sequence[Head], seen: Sequence[BodyLines]
) -> list[Callout]:
    lengths = {v.key: float(abs(v.segments[:, 1] - v.segments[:, 0]).sum()) for v in seen}
    found = []
    for head in screws:
        words = "head" if lengths[head.body.key] > _SEEN else "head, behind"
        found.append(Callout(tip=_on_paper(fit, head.at), toward=_way(head.way), text=words, arrow=True))
    middle = _on_paper(fit, tubes[0].at)
    for stub in tubes:
        tip = _on_paper(fit, stub.at)
        away = (tip[0] - middle[0], tip[1] - middle[1])
        toward = (1.0 if away[0] >= 0.0 else -1.0, 0.5 if away[1] >= 0.0 else -0.5)
        found.append(Callout(tip=tip, toward=toward, text=stub.label, arrow=False))
    return found


def _on_paper(fit: Transform, at: Vec) -> Point:
    return fit.point(ISOMETRIC.project(at))


def _way(way: Vec) -> Point:
    """Return how a direction is seen; to the right when it is seen end-on."""
    x, y = ISOMETRIC.project(way)
    return (x, y) if abs(x) + abs(y) > _UPRIGHT else (1.0, 0.0)
