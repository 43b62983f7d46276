"""A step as it is drawn: bodies, the new ones off their places, and from where they are seen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.exploded.guides import Guide, guides
from tubeframe.drawing.exploded.naming import Names, names_of
from tubeframe.drawing.exploded.offsets import Offsets
from tubeframe.drawing.exploded.viewpoints import STANDING_VIEWS, Seeing, Shift, best_view, is_clear, lying_views
from tubeframe.drawing.views.bodies import chosen_bodies, moved_off
from tubeframe.geometry.extent import joined, of_convex, of_tube
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
_GROWTHS = (1.0, 1.7, 0.6)
"""Offsets on offsets are drawn so much longer until no tube seems to slide along itself in the view that there is."""


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
    views = _views(book, stage, before)
    apart = _apart(bodies)
    tried = [Offsets(book, stage, apart, growth).all() for growth in _GROWTHS]
    offsets = next((o for o in tried if all(is_clear(views[0], s) for s in _shifts(book, o))), tried[0])
    drawn = tuple(moved_off(body, offsets) for body in bodies)
    return Exploded(
        stage=stage,
        bodies=drawn,
        offsets=offsets,
        guides=guides(book, stage, offsets),
        names=names_of(book, stage, offsets),
        seeing=best_view(drawn, tuple(_shifts(book, offsets)), stage.added or stage.new, views, room),
    )


def _views(book: PartBook, stage: Stage, before: View | None) -> Sequence[View]:
    flat = stage.flat
    views = STANDING_VIEWS if flat is None else lying_views(flat.plane, face_up=_faces_up(book, stage, flat.plane.z))
    return (before, *(v for v in views if v != before)) if before in views else views


def _faces_up(book: PartBook, stage: Stage, out: Vec) -> bool:
    """Whether a sub-frame lies with its plane's own side up: so that more open mouths face up than down."""
    here = stage.standing | stage.new
    waiting = [
        u.axis.dot(out)
        for joint in book.joints
        if joint.id in here
        for u in joint.uses
        if u.tube not in here and u.end is not None
    ]
    return sum(waiting) >= 0.0


def _apart(bodies: Sequence[Body]) -> float:
    extent = joined(
        part
        for body in bodies
        for part in (*(of_tube(t.path, t.outside) for t in body.tubes), *(of_convex(p) for p in body.pieces))
    )
    return min(_MOST, max(_LEAST, _APART * extent.size.length))


def _shifts(book: PartBook, offsets: Mapping[str, Vec]) -> Iterator[Shift]:
    for part, offset in offsets.items():
        piece = book.piece_of.get(part)
        straight = piece is not None and all(isinstance(p, Straight) for p in piece.path.pieces)
        axis = piece.path.tangent(0.0) if piece is not None and straight else None
        if offset != ORIGIN:
            yield Shift(part=part, offset=offset, axis=axis)
