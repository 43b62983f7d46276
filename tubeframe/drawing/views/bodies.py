"""Some of a frame's bodies, bodies drawn off their places, and how large they are seen."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.drawing.shapes.plane import Box
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.extent import Extent


_KEPT = 1 << 15
"""So many boxes of bodies are kept."""


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
    left, bottom, right, top = zip(*(_seen(_Same(b), view) for b in bodies if b.tubes or b.pieces), strict=True)
    return (min(left), min(bottom), max(right), max(top))


def extent_of(bodies: Iterable[Body]) -> Extent:
    """Return the exact box round bodies in space [mm]."""
    return joined(_extent(_Same(b)) for b in bodies if b.tubes or b.pieces)


class _Same:
    """A body that is told from others by being the same one: its value would take long to compare."""

    __slots__ = ("body",)

    def __init__(self, body: Body) -> None:
        self.body = body

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.body is other.body

    def __hash__(self) -> int:
        return id(self.body)


@lru_cache(maxsize=_KEPT)
def _seen(same: _Same, view: View) -> Box:
    """Return the box round one body as it is seen: what stands is looked at anew in every step."""
    right, up, toward = view.axes
    onto = Placement(x=right, y=up, z=toward)
    back = _turned_back(right, up, toward)
    tubes = (of_tube(t.path.seen_from(onto), t.outside) for t in same.body.tubes)
    extent = joined((*tubes, *(of_convex(p.placed(back)) for p in same.body.pieces)))
    return (extent.low.x, extent.low.y, extent.high.x, extent.high.y)


@lru_cache(maxsize=_KEPT)
def _extent(same: _Same) -> Extent:
    body = same.body
    return joined((*(of_tube(t.path, t.outside) for t in body.tubes), *(of_convex(p) for p in body.pieces)))


def _turned_back(right: Vec, up: Vec, toward: Vec) -> Placement:
    """Return the placement that turns what is in space into a view's own axes."""
    x, y, z = (Vec(a, b, c) for a, b, c in zip(right, up, toward, strict=True))
    return Placement(x=x, y=y, z=z)
