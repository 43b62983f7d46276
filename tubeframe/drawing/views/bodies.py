"""Some of a frame's bodies, bodies drawn off their places, and how large they are seen."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.drawing.shapes.plane import Box
    from tubeframe.drawing.views.part_book import PartBook


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


def seen_box(bodies: Iterable[Body], view: View) -> Box:
    """Return the box round bodies as they are seen [mm], exact, without looking which of them hide others."""
    right, up, toward = view.axes
    onto = Placement(x=right, y=up, z=toward)
    back = _turned_back(right, up, toward)
    extent = joined(
        part
        for body in bodies
        for part in (
            *(of_tube(t.path.seen_from(onto), t.outside) for t in body.tubes),
            *(of_convex(p.placed(back)) for p in body.pieces),
        )
    )
    return (extent.low.x, extent.low.y, extent.high.x, extent.high.y)


def _turned_back(right: Vec, up: Vec, toward: Vec) -> Placement:
    """Return the placement that turns what is in space into a view's own axes."""
    x, y, z = (Vec(a, b, c) for a, b, c in zip(right, up, toward, strict=True))
    return Placement(x=x, y=y, z=z)
