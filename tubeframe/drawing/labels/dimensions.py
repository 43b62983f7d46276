"""Dimensions placed outside a view: the shortest inside, none over another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from tubeframe.drawing.labels.free_places import FreePlaces
from tubeframe.drawing.labels.wanted_dimensions import Side
from tubeframe.drawing.model.dimension import Dimension, arrow_room, value_width
from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.geometry.units import Units, format_length, format_number

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.drawing.labels.wanted_dimensions import Wanted
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Axis, Box, Point

FIRST_ROW, ROW = 10.0, 8.0
"""First dimension line off the outline, and between lines [mm on paper] (ISO 129-1, from memory)."""
_MARGIN, _CLEAR = 0.5, 0.4
"""What a value keeps clear of its dimension's ends, and of lines and other values [mm on paper]."""
_NUDGE, _NUDGES = 2.0, 8
"""A value that would cross a line moves along its own in such steps [mm on paper], so many at most."""
_EDGE = 1e-6
_MARK_PAST = 2.0
"""A centre line runs this far past what is drawn [mm on paper]."""


class Held(Protocol):
    """What dimensions stand round and hold on to."""

    @property
    def box(self) -> Box:
        """The box round everything [mm]."""

    def hold(self, axis: Axis, value: float, *, least: bool, within: tuple[float, float] | None = None) -> Point | None:
        """Return a point at a coordinate along an axis, farthest to one side across it [mm]; None when hidden.

        It lies `within` two places across it, where they are told.
        """


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A box to hold on to, before anything is drawn."""

    box: Box

    def hold(self, axis: Axis, value: float, *, least: bool, within: tuple[float, float] | None = None) -> Point | None:
        """Return the point of the box's edge, or of what it lies within."""
        if within is not None:
            return axis.point(value, within[0 if least else 1])
        return axis.point(value, self.box[axis.across + (0 if least else 2)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Dimensions with the centre lines they hold on to, and in words what could not be placed."""

    items: tuple[Item, ...]
    left_out: tuple[str, ...]


def placed(lines: Held, wants: Sequence[Wanted], scale: int, units: Units) -> Placed:
    """Put dimensions round a view, at 1 : scale."""
    room = _Room(lines=lines, scale=scale)
    items: list[Item] = []
    left_out: list[str] = []
    for side in Side:
        rising = sorted((w for w in wants if w.side is side), key=lambda w: w.length)
        for n, want in enumerate(rising):
            text = dimension_text(want.length, units)
            hold = _hold(lines, want, scale)
            farther = tuple(v for w in rising[n + 1 :] for v in (w.low, w.high))
            found = room.put(want, hold, text, farther) if hold else None
            if hold is None or found is None:
                left_out.append(f"{'opening' if side is Side.BELOW else 'height'} {text}")
            else:
                items += [*hold.mark, found]
    return Placed(items=tuple(items), left_out=tuple(left_out))


def dimension_text(length: float, units: Units) -> str:
    """Print a length [mm], rounded to nearest; millimetres without their sign, as the sheet says."""
    return format_length(length, units) if units is Units.INCH else format_number(length, units)


class _Room:
    """What is taken round a view, while dimensions are placed; on each side the shortest comes first."""

    def __init__(self, *, lines: Held, scale: int) -> None:
        self._box = lines.box
        self._scale = scale
        self._rows: dict[Side, list[tuple[int, tuple[float, float]]]] = {side: [] for side in Side}
        self._free = FreePlaces((), _CLEAR * scale)

    def put(self, want: Wanted, hold: _Hold, text: str, farther: Sequence[float]) -> Dimension | None:
        """Place a dimension in the nearest row, its value clear of all that is there and of lines yet to come.

        `farther` are the ends of dimensions that will stand farther out: their extension lines will run past this
        row [mm]. None when there is no place for the value.
        """
        for middle, taken in self._spots(want, text, farther):
            rows = self._rows[want.side]
            row = 1 + max((r for r, (low, high) in rows if low < taken[1] and high > taken[0]), default=-1)
            dimension = self._dimension(want, hold, text, middle, row)
            if self._free.put((dimension.value,)) is not None:
                self._free.take(dimension.segments)
                rows.append((row, taken))
                return dimension
        return None

    def _dimension(self, want: Wanted, hold: _Hold, text: str, middle: float, row: int) -> Dimension:
        left, bottom, right, _ = self._box
        off = self._scale * (FIRST_ROW + ROW * row)
        line_at = {Side.BELOW: bottom - off, Side.LEFT: left - off, Side.RIGHT: right + off}[want.side]
        is_middle = middle == (want.low + want.high) / 2.0
        return Dimension(
            axis=want.side.axis,
            start=hold.start,
            end=hold.end,
            line_at=line_at,
            text=text,
            scale=self._scale,
            text_along=None if is_middle else middle,
        )

    def _spots(self, want: Wanted, text: str, farther: Sequence[float]) -> Iterator[tuple[float, tuple[float, float]]]:
        """List places for a value's middle, the best first, with what the dimension takes along its line there."""
        scale = self._scale
        half, margin = value_width(text, scale) / 2.0, _MARGIN * scale
        past = arrow_room(want.length, scale)
        for middle in self._by_overshoot(want, _middles(want, half + margin, past, scale), half):
            low, high = middle - half - margin, middle + half + margin
            if not any(low < v < high for v in farther):
                yield middle, (min(want.low - past, low), max(want.high + past, high))

    def _by_overshoot(self, want: Wanted, middles: Sequence[float], half: float) -> Sequence[float]:
        """Put those places last at which the value of a height would make the drawing higher: below it there is room.

        As far down as level dimensions stand under the view [mm].
        """
        if want.side is Side.BELOW:
            return middles
        below = max((row for row, _ in self._rows[Side.BELOW]), default=-1)
        floor = self._box[1] - self._scale * (FIRST_ROW + ROW * below if below >= 0 else 0.0)
        return sorted(middles, key=lambda m: m + half > self._box[3] + _EDGE or m - half < floor - _EDGE)


def _middles(want: Wanted, half: float, past: float, scale: int) -> list[float]:
    """List places for a value, the best first: inside from the middle, then past the upper end, then the lower."""
    steps = [n * _NUDGE * scale for n in range(_NUDGES)]
    middle, free = (want.low + want.high) / 2.0, want.length / 2.0 - half
    inside = [middle + way * s for s in steps if s <= free for way in ((1.0, -1.0) if s else (1.0,))]
    above = [want.high + past + half + s for s in steps]
    below = [want.low - past - half - s for s in steps]
    return [*inside, *above, *below]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hold:
    """The points that a dimension holds on to, both on drawn lines [mm], and the centre line that is drawn for it."""

    start: Point
    end: Point
    mark: tuple[Drawn, ...] = ()


def _hold(lines: Held, want: Wanted, scale: int) -> _Hold | None:
    axis, least = want.side.axis, want.side.is_least
    start = lines.hold(axis, want.low, least=least)
    if start is None:
        return None
    if want.centre is not None:
        return _centre_hold(lines, want, start, want.centre, scale)
    end = lines.hold(axis, want.high, least=least, within=want.edge)
    return _Hold(start=start, end=end) if end else None


def _centre_hold(lines: Held, want: Wanted, start: Point, reach: tuple[float, float], scale: int) -> _Hold:
    """Hold on to a line drawn from a tube's middle to a little past everything at that height."""
    axis, least = want.side.axis, want.side.is_least
    inner = reach[0] if least else reach[1]
    edge = lines.hold(axis, want.high, least=least)
    across = edge[axis.across] if edge else inner
    past = _MARK_PAST * scale
    outer = min(across, inner) - past if least else max(across, inner) + past
    ends = (axis.point(want.high, outer), axis.point(want.high, inner))
    return _Hold(start=start, end=ends[0], mark=(strokes(Pen.CENTRE, (ends,)),))
