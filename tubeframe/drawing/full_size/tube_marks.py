"""Marks and texts along a tube that lies flat, set where they are free."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import Item, box_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.drawing.full_size.laid_flat import MarkedTube, Part, Register, Tick
    from tubeframe.drawing.labels.free_places import FreePlaces
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Point, Segment

TEXT, MARK = 10.0, 20.0
"""Heights of capitals [mm]."""
CLEAR = 4.0
"""Texts keep so far off what is drawn [mm]."""
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
_FARTHEST, _STEP = 120.0, 6.0
_SAMPLES = 100
_CROSS, _PAST_CUT, _ALONG = 12.0, 15.0, 60.0
"""A register mark runs this far past the tube's outline, past the cut, and back along the tube [mm]."""


class TubeMarks:
    """One tube's marks and texts in one part of a drawing."""

    def __init__(self, tube: MarkedTube, view: View, part: Part, free: FreePlaces) -> None:
        """Take the tube, how it is seen, the part that is drawn, and where texts are free."""
        self._tube = tube
        self._view = view
        self._part = part
        self._free = free

    def ticks(self) -> list[Item]:
        """Draw a line across the tube for each tick in this part, drawn out to its text."""
        return [item for t in self._tube.ticks if self._is_here(t.at) for item in self._tick(t)]

    def crosses(self) -> list[Item]:
        """Draw a cross where the tube goes on in another part, and a line along it."""
        return [self._cross(r) for r in self._registers()]

    def places(self) -> list[Item]:
        """Write the names of the places where the tube goes on, when all lines are drawn."""
        return [note for r in self._registers() if (note := self._place(r)) is not None]

    def names(self) -> list[Item]:
        """Write the tube's mark, and the names of its ends."""
        length = self._tube.piece.cut_length
        near = [k * TEXT for k in range(1, 40) if k * TEXT < length / 2.0]
        wanted = [self._beside(self._middles(), self._label(), MARK, 2.0 * CLEAR if self._tube.says_part else 0.0)]
        wanted += [self._beside(near, "A", TEXT)] if self._is_here(0.0) else []
        wanted += [self._beside([length - v for v in near], "B", TEXT)] if self._is_here(length) else []
        return [note for notes in wanted if (note := self._free.put(notes)) is not None]

    def _label(self) -> str:
        part = self._part
        is_told = self._tube.says_part and part.count > 1
        return f"{self._tube.label}, part {part.number} of {part.count}" if is_told else self._tube.label

    def _middles(self) -> list[float]:
        """List places for the tube's mark from its end A [mm], from the middle of what is in this part outwards."""
        length = self._tube.piece.cut_length
        if self._part.count == 1:
            return [length * s for s in SHARES]
        every = [length * k / _SAMPLES for k in range(_SAMPLES + 1)]
        inside = [at for at in every if self._is_here(at)]
        middle = (len(inside) - 1) / 2.0
        return [inside[k] for k in sorted(range(len(inside)), key=lambda k: abs(k - middle))]

    def _is_here(self, at: float) -> bool:
        return self._part.holds(self._view.project(self._tube.piece.path.point(at)))

    def _tick(self, tick: Tick) -> list[Item]:
        (x, y), (nx, ny) = self._across(tick.at)
        half = self._tube.radius + tick.past
        ends = ((x - nx * half, y - ny * half), (x + nx * half, y + ny * half))
        found = next(self._free_texts(tick, half), None)
        segments: list[Segment] = [ends]
        if found is not None:
            note, leader = found
            self._free.put((note,))
            segments += leader
        self._free.take(segments)
        line = strokes(Pen.CENTRE, tuple(segments))
        return [line] if found is None else [line, found[0]]

    def _free_texts(self, tick: Tick, half: float) -> Iterator[tuple[Text, list[Segment]]]:
        """List free places for a tick's text with the line that leads there, the nearest first."""
        (x, y), (nx, ny) = self._across(tick.at)
        for off in _steps(half + CLEAR):
            for s in (1.0, -1.0):
                note = self._text_at((x, y), (nx * s, ny * s), off, tick.text, TEXT)
                reach = off - CLEAR
                leader: list[Segment] = []
                if off > half + 2.0 * CLEAR:
                    leader = [((x + nx * s * half, y + ny * s * half), (x + nx * s * reach, y + ny * s * reach))]
                if self._free.is_free(note) and not any(self._free.crosses_text(line) for line in leader):
                    yield note, leader

    def _registers(self) -> list[Register]:
        return [r for r in self._part.registers if r.tube == self._tube.piece.id and self._is_here(r.at)]

    def _cross(self, register: Register) -> Item:
        (x, y), (nx, ny) = self._across(register.at)
        inward = self._inward(register.at)
        wx, wy = ny * inward, -nx * inward
        half = self._tube.radius + _CROSS
        segments = (
            ((x - nx * half, y - ny * half), (x + nx * half, y + ny * half)),
            ((x - wx * _PAST_CUT, y - wy * _PAST_CUT), (x + wx * _ALONG, y + wy * _ALONG)),
        )
        self._free.take(segments)
        return strokes(Pen.DIM, segments)

    def _place(self, register: Register) -> Text | None:
        length, inward = self._tube.piece.cut_length, self._inward(register.at)
        near = [at for k in range(40) if 0.0 <= (at := register.at + inward * k * TEXT) <= length]
        return self._free.put(self._beside(near, register.text, TEXT))

    def _inward(self, at: float) -> float:
        """Return 1 when the tube goes on in this part toward its end B, else -1."""
        length = self._tube.piece.cut_length
        return 1.0 if self._is_here(min(at + 1.0, length)) and at < length else -1.0

    def _beside(self, places: list[float], text: str, height: float, more: float = 0.0) -> Iterator[Text]:
        """List places for a text beside the tube, the nearest to it first; all of them farther off by `more` [mm]."""
        for off in _steps(self._tube.radius + 2.0 * CLEAR + more):
            for at in places:
                point, (nx, ny) = self._across(at)
                for sign in (1.0, -1.0):
                    yield self._text_at(point, (nx * sign, ny * sign), off, text, height)

    def _across(self, at: float) -> tuple[Point, Point]:
        """Return the place on the tube and the unit vector square to it, in the plane."""
        path = self._tube.piece.path
        point, way = self._view.project(path.point(at)), self._view.project(path.tangent(at))
        return point, (-way[1], way[0])

    def _text_at(self, point: Point, way: Point, off: float, text: str, height: float) -> Text:
        """Set a text so that its box begins an offset from a point [mm], to one side."""
        note = Text(at=(0.0, 0.0), text=text, height=height, anchor=Anchor.CENTRE)
        left, bottom, right, top = box_of((note,))
        reach = off + abs(way[0]) * (right - left) / 2.0 + abs(way[1]) * (top - bottom) / 2.0
        at = (point[0] + way[0] * reach, point[1] + way[1] * reach - (bottom + top) / 2.0)
        return Text(at=at, text=text, height=height, anchor=Anchor.CENTRE)


def _steps(first: float) -> Iterator[float]:
    """List distances from a first one to the farthest [mm]."""
    off = first
    while off <= first + _FARTHEST:
        yield off
        off += _STEP
