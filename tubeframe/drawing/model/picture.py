"""A drawing as a CAD file holds it: at true size in mm, with dimensions that know what they measure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.items import Mark

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.shapes.plane import Box, Transform
    from tubeframe.geometry.units import Units

Item = Mark | Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Items at true size, drawn to be printed at 1 : `scale`."""

    title: str
    items: tuple[Item, ...]
    scale: int
    units: Units


def placed(items: Iterable[Item], to: Transform) -> list[Item]:
    """Return items as a transform puts them."""
    return [item.placed(to) for item in items]


def on_paper(items: Iterable[Item], to: Transform) -> list[Mark]:
    """Set items on paper, dimensions drawn out."""
    marks = (mark for item in items for mark in (item.drawn_out() if isinstance(item, Dimension) else (item,)))
    return [mark.placed(to) for mark in marks]


def box_of(items: Iterable[Item]) -> Box:
    """Return the box round items, texts and dimensions included [mm].

    Raises:
        ValueError: when there is nothing.

    """
    xs, ys = zip(*(p for item in items for p in item.extremes()), strict=True)
    return (min(xs), min(ys), max(xs), max(ys))
