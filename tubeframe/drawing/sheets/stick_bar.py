"""A stick drawn as a bar: its pieces with marks and lengths, saw cuts as wide as they are, where each piece ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.geometry.units import format_number
from tubeframe.words.cut_plan import left_words, place_words

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.fabrication.cutting.plan import Cut, Stick
    from tubeframe.geometry.units import Units

BAR = 6.4
"""How high a bar is [mm]."""
_TICK, _ROW, _CLEAR = 0.9, 3.6, 1.2
_MOST_ROWS = 2
_MARGIN = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class StickBar:
    """A bar whose lower left corner is at 0, 0; what stands below it takes `below` [mm].

    `unwritten` are pieces whose length found no room in them; `offcut_told` and `positions_told` say whether what is
    left, and where the pieces end, stand there.
    """

    items: tuple[Mark, ...]
    below: float
    unwritten: tuple[Cut, ...]
    offcut_told: bool
    positions_told: bool


def stick_bar(stick: Stick, scale: float, width: float, units: Units, bent: Collection[str]) -> StickBar:
    """Draw a stick at a scale, its labels within a width [mm]; pieces white, the rest grey."""
    items: list[Mark] = [_box(0.0, stick.stock_length * scale, Fill.LIGHT)]
    unwritten = []
    for cut, end in zip(stick.cuts, stick.ends, strict=True):
        star = "*" if cut.mark in bent else ""
        items.append(_box((end - cut.length) * scale, end * scale, Fill.WHITE))
        label = _label((end - cut.length) * scale, end * scale, cut.mark + star, format_number(cut.length, units))
        items += label
        unwritten += [] if label else [cut]
    low, high = _offcut(stick)
    left = _label(low * scale, high * scale, left_words(stick, units))
    places = _places(stick, scale, width, units)
    items += [*left, *_ticks(stick, scale), *(places or ())]
    rows = len({t.at[1] for t in places or ()})
    return StickBar(
        items=tuple(items),
        below=_TICK + rows * _ROW if rows else 0.0,
        unwritten=tuple(unwritten),
        offcut_told=bool(left),
        positions_told=places is not None,
    )


def _offcut(stick: Stick) -> tuple[float, float]:
    """Return from where to where the longest rest lies: behind the last piece of a part [mm]."""
    starts = [0.0, *(at + stick.kerf for at in stick.shop_cuts)]
    stops = [*stick.shop_cuts, stick.stock_length]
    rests = [
        (max((e for e in stick.ends if start <= e <= stop), default=start), stop)
        for start, stop in zip(starts, stops, strict=True)
    ]
    return max(rests, key=lambda r: r[1] - r[0])


def _ticks(stick: Stick, scale: float) -> list[Mark]:
    """Mark where pieces end, and in wide lines where the shop cuts."""
    shop = [((at * scale, -_TICK), (at * scale, BAR)) for at in stick.shop_cuts]
    ends = [((at * scale, -_TICK), (at * scale, 0.0)) for at in stick.ends]
    return [strokes(Pen.NARROW, ends), *([strokes(Pen.WIDE, shop)] if shop else [])]


def _places(stick: Stick, scale: float, width: float, units: Units) -> Sequence[Text] | None:
    """Say under each end where it is, in one row or two; None where that is too tight."""
    if len(stick.cuts) == 1:
        return ()
    free = [0.0] * _MOST_ROWS
    found = []
    for end, text in zip(stick.ends, place_words(stick, units), strict=True):
        wide = text_width(text, SMALL)
        middle = min(max(end * scale, wide / 2.0), width - wide / 2.0)
        row = next((n for n, right in enumerate(free) if middle - wide / 2.0 >= right), None)
        if row is None:
            return None
        free[row] = middle + wide / 2.0 + _CLEAR
        at = (middle, -_TICK - 0.3 - SMALL - row * _ROW)
        found.append(Text(at=at, text=text, height=SMALL, anchor=Anchor.CENTRE))
    return found


def _label(left: float, right: float, *words: str) -> list[Text]:
    """Set words into a bar's part: in one row as large as they go, else one over the other; nothing without room."""
    middle, room = (left + right) / 2.0, right - left - _MARGIN
    row = " ".join(words)
    for cap in (BODY, SMALL):
        if text_width(row, cap) < room:
            return [_set(row, middle, (BAR - cap) / 2.0, cap)]
    if all(text_width(w, SMALL) < room for w in words):
        gap = (BAR - len(words) * SMALL) / (len(words) + 1)
        return [_set(w, middle, BAR - (n + 1) * (SMALL + gap), SMALL) for n, w in enumerate(words)]
    return []


def _set(text: str, middle: float, low: float, cap: float) -> Text:
    return Text(at=(middle, low), text=text, height=cap, anchor=Anchor.CENTRE)


def _box(left: float, right: float, fill: Fill) -> Drawn:
    points = ((left, 0.0), (right, 0.0), (right, BAR), (left, BAR))
    return Drawn(shape=Area(corners=points), pen=Pen.NARROW, fill=fill)
