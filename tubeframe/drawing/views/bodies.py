"""Some of a frame's bodies, and bodies drawn off their places."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.geometry.placement import Placement

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from tubeframe.drawing.model.scene import Body
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.vector import Vec


def chosen_bodies(book: PartBook, ids: Collection[str]) -> tuple[Body, ...]:
    """Return the bodies of some parts, in the order of the book."""
    return tuple(body for key, body in book.bodies.items() if key in ids)


def moved_off(body: Body, shifts: Mapping[str, Vec]) -> Body:
    """Return a body moved off its place by its own shift [mm], if it has one."""
    shift = shifts.get(body.key)
    if shift is None:
        return body
    back, forth = Placement(origin=-shift), Placement(origin=shift)
    return replace(
        body,
        tubes=tuple(replace(t, path=t.path.seen_from(back)) for t in body.tubes),
        pieces=tuple(p.placed(forth) for p in body.pieces),
    )
