"""A step as it is drawn: bodies, the new ones off their places, and from where they are seen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.lying import up_side
from tubeframe.drawing.exploded.clutter import Clutter
from tubeframe.drawing.exploded.guides import Guide, guides
from tubeframe.drawing.exploded.naming import Names, names_of
from tubeframe.drawing.exploded.offsets import Offsets
from tubeframe.drawing.exploded.viewpoints import (
    SEEN_SHARE,
    STANDING_VIEWS,
    Seeing,
    Shift,
    is_clear,
    lying_views,
    seen_from,
)
from tubeframe.drawing.views.bodies import chosen_bodies, extent_of, moved_off
from tubeframe.geometry.path import Straight
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.drawing.exploded.stages import Stage
    from tubeframe.drawing.exploded.viewpoints import Room
    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.vector import Vec

_APART, _LEAST, _MOST = 0.09, 90.0, 420.0
"""Two parts are drawn apart by this share of what is shown, within limits [mm]."""
_LENGTHS = ((1.0, 1.0), (1.0, 1.7), (1.0, 0.6), (1.4, 1.0), (1.4, 0.6), (0.7, 1.0), (0.7, 1.7), (1.8, 1.0), (0.45, 1.0))
"""Offsets are tried so much longer, and offsets on offsets so much longer again."""
_BLURRED, _TURNED = 20.0, 1.5
"""What an offset counts that is not seen as one, and another viewpoint than before, beside a covered part."""
_MOST_DRAWN = 4
"""So many ways are drawn until one shows every new part."""
_BETTER = 0.05
"""A later way has to show so much more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exploded:
    """A step taken apart: bodies and offsets of new parts [mm] as they are drawn, guides, names, and from where."""

    stage: Stage
    bodies: tuple[Body, ...]
    offsets: Mapping[str, Vec]
    guides: tuple[Guide, ...]
    names: Names
    seeing: Seeing

    @property
    def new(self) -> frozenset[str]:
        """What is drawn in strong lines."""
        return self.stage.new


def exploded(book: PartBook, stage: Stage, room: Room, before: View | None) -> Exploded | None:
    """Take a step apart for a room on the paper, seen as the picture before it where that shows all.

    None where nothing is added or raised.
    """
    if not stage.new:
        return None
    bodies = chosen_bodies(book, stage.standing | stage.new)
    best: Exploded | None = None
    for view, offsets in _ways(book, stage, _apart(bodies), before)[:_MOST_DRAWN]:
        drawn = tuple(moved_off(body, offsets) for body in bodies)
        seeing = seen_from(view, drawn, stage.added or stage.new, room)
        if best is None or seeing.least > best.seeing.least + _BETTER:
            best = Exploded(
                stage=stage,
                bodies=drawn,
                offsets=offsets,
                guides=guides(book, stage, offsets),
                names=names_of(book, stage, offsets),
                seeing=seeing,
            )
        if seeing.least >= SEEN_SHARE:
            break
    return best


def _ways(book: PartBook, stage: Stage, apart: float, before: View | None) -> list[tuple[View, Mapping[str, Vec]]]:
    """Return the best offsets for each viewpoint, the least cluttered first; the viewpoint before counts as better."""
    clutter = Clutter(book, stage)
    tried = [Offsets(book, stage, apart * more, growth).all() for more, growth in _LENGTHS]
    led = [guides(book, stage, o) for o in tried]
    shifted = [clutter.shifted(o) for o in tried]
    shifts = [tuple(_shifts(book, o)) for o in tried]
    found: list[tuple[float, View, Mapping[str, Vec]]] = []
    for rank, view in enumerate(_views(book, stage, before)):
        best: tuple[float, Mapping[str, Vec]] | None = None
        for offsets, lines, own, places in zip(tried, led, shifts, shifted, strict=True):
            blurred = sum(not is_clear(view, s) for s in own)
            cost = _BLURRED * blurred + clutter.count(view, places, lines)
            if best is None or cost < best[0]:
                best = (cost, offsets)
            if cost == 0:
                break
        if best is not None:
            found.append((best[0] + (_TURNED if rank else 0.0), view, best[1]))
            if not rank and best[0] == 0:
                break
    ordered = sorted(found, key=lambda f: f[0])
    return [(view, offsets) for _, view, offsets in ordered]


def _views(book: PartBook, stage: Stage, before: View | None) -> Sequence[View]:
    flat = stage.flat
    up = None if flat is None else up_side(flat, book.jointed, stage.standing | stage.new)
    views = (
        STANDING_VIEWS if flat is None or up is None else lying_views(flat.plane, face_up=up.dot(flat.plane.z) > 0.0)
    )
    return (before, *(v for v in views if v != before)) if before in views else views


def _apart(bodies: Sequence[Body]) -> float:
    return min(_MOST, max(_LEAST, _APART * extent_of(bodies).size.length))


def _shifts(book: PartBook, offsets: Mapping[str, Vec]) -> Iterator[Shift]:
    for part, offset in offsets.items():
        piece = book.piece_of.get(part)
        straight = piece is not None and all(isinstance(p, Straight) for p in piece.path.pieces)
        axis = piece.path.tangent(0.0) if piece is not None and straight else None
        if offset != ORIGIN:
            yield Shift(part=part, offset=offset, axis=axis)
