"""Parting what lies flat into pieces that fit on a table, with marks to lay them in line again."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.full_size.cut_places import crossings, cut_lines, cut_places
from tubeframe.drawing.full_size.drawn_flat import marked
from tubeframe.drawing.full_size.laid_flat import WHOLE, Part, Register
from tubeframe.drawing.full_size.nesting import fits
from tubeframe.drawing.model.items import cut_out
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes.plane import size_of
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from tubeframe.drawing.full_size.cut_places import CutLines, CutPlace
    from tubeframe.drawing.full_size.laid_flat import Flat
    from tubeframe.drawing.full_size.nesting import Size
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Box
    from tubeframe.geometry.units import Units

    _Places = tuple[tuple[CutPlace, ...], tuple[CutPlace, ...]]

_TEXTS = 120.0
"""What texts and titles are first taken to need beside the tubes, one way [mm]."""
_TRIES = 12
_ALPHABET = "ABCDEFGHJKLMNQRUVWXYZ"
"""Of names of lines: no I and O, which look like numbers; no P, S and T, which boards, sub-frames and tubes have."""
_TITLE_WIDTH = 600.0
"""A title is broken into lines where it is wider than its drawing, but not where it is narrower than this [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Drawings of the parts of what lies flat, and on how many lines it was parted."""

    drawings: tuple[list[Item], ...]
    lines: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cuts:
    across: CutLines
    up: CutLines

    @property
    def rank(self) -> tuple[int, int]:
        """Faults, then the number of parts: less is better."""
        parts = (len(self.across.places) + 1) * (len(self.up.places) + 1)
        return (self.across.faults + self.up.faults, parts)


def parted(flat: Flat, room: Size, units: Units, first_line: int) -> Parted | None:
    """Draw what lies flat whole if it fits, else in parts that do; None when no parts fit.

    Args:
        flat: what lies flat.
        room: width and height that a drawing may take, either way round [mm].
        units: of the distances that are written.
        first_line: how many lines have names already.

    """
    width = size_of(box_of(flat.lines))[0]
    whole = marked(flat, WHOLE, max(width, _TITLE_WIDTH))
    if fits(size_of(box_of(whole)), room, 0.0):
        return Parted(drawings=(whole,), lines=0)
    left, bottom, right, top = box_of(flat.lines)
    places = (cut_places(flat, 0, left, right), cut_places(flat, 1, bottom, top))
    tries = [_parted(flat, places, r, units, first_line) for r in dict.fromkeys((room, room[::-1]))]
    found = [t for t in tries if t is not None]
    return min(found, key=lambda t: t[0], default=((0, 0), None))[1]


def _parted(
    flat: Flat, places: _Places, room: Size, units: Units, first_line: int
) -> tuple[tuple[int, int], Parted] | None:
    """Part what lies flat for a room one way round; more is left for texts until all fits."""
    texts = [_TEXTS, _TEXTS]
    for _ in range(_TRIES):
        across = cut_lines(places[0], room[0] - texts[0])
        up = cut_lines(places[1], room[1] - texts[1])
        if across is None or up is None:
            return None
        cuts = _Cuts(across=across, up=up)
        title_width = min(room[0], _TITLE_WIDTH)
        drawings = tuple(marked(flat, part, title_width) for part in _parts(flat, cuts, units, first_line))
        sizes = [size_of(box_of(d)) for d in drawings]
        over = [max(s[k] for s in sizes) - room[k] for k in (0, 1)]
        if max(over) <= 0.0:
            lines = len(across.places) + len(up.places)
            return cuts.rank, Parted(drawings=drawings, lines=lines)
        texts = [t + max(o + 1.0, 0.0) for t, o in zip(texts, over, strict=True)]
    return None


def _parts(flat: Flat, cuts: _Cuts, units: Units, first_line: int) -> list[Part]:
    """Return the parts that hold any tube, with the marks at their edges."""
    registers = _registers(flat, cuts, units, first_line)
    columns = [-math.inf, *cuts.across.places, math.inf]
    rows = [-math.inf, *cuts.up.places, math.inf]
    windows: list[Box] = [(a, c, b, d) for c, d in pairwise(rows) for a, b in pairwise(columns)]
    middles = [i for i in flat.lines if i.pen is Pen.CENTRE]
    held = [w for w in windows if cut_out(middles, w)]
    return [Part(window=w, number=n, count=len(held), registers=registers) for n, w in enumerate(held, start=1)]


def _registers(flat: Flat, cuts: _Cuts, units: Units, first_line: int) -> tuple[Register, ...]:
    """Name each place where a line parts a tube: a letter for the line, a number for the tube."""
    found = []
    lines = [(0, p) for p in cuts.across.places] + [(1, p) for p in cuts.up.places]
    for n, (axis, place) in enumerate(lines, start=first_line):
        for k, crossing in enumerate(crossings(flat, axis, place), start=1):
            piece = crossing.tube.piece
            name = f"{_letters(n)}{k}"
            text = f"{name} {piece.mark} {format_length(crossing.at, units)}"
            found.append(Register(name=name, tube=piece.id, at=crossing.at, text=text))
    return tuple(found)


def _letters(number: int) -> str:
    """Return A, B, ... Z, AA, AB, ... for 0, 1, ..., without letters that other names start with."""
    text = ""
    number += 1
    while number:
        number, digit = divmod(number - 1, len(_ALPHABET))
        text = _ALPHABET[digit] + text
    return text
