"""What a person should know of a frame, in words, with sizes as the frame is now."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.size import Side
from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.size import Size
    from tubeframe.geometry.extent import Extent


def cover_lines(frame: Frame, workshop: Workshop) -> Iterator[tuple[str, str]]:
    """Give each line's label and text; one that tells a size of what is not there any more is left out."""
    outsides = {m.tube: workshop.catalog.tube(m.tube).outside for m in frame.members}
    for line in frame.facts:
        sizes = [_measured(s, frame, outsides) for s in line.sizes]
        shown = [format_length(s, workshop.units) for s in sizes if s is not None]
        if len(shown) == len(sizes):
            yield line.label, line.text.format(*shown) if shown else line.text


def _measured(size: Size, frame: Frame, outsides: Mapping[str, float]) -> float | None:
    """Return a size as the frame is now [mm]; None when nothing of it is left.

    Args:
        size: what is asked for.
        frame: the frame.
        outsides: the outside diameter of every tube size [mm].

    """
    if size.side is Side.GIVEN:
        return size.length
    boxes = _boxes(frame, outsides)
    found = [boxes[name] for name in size.names if name in boxes]
    if size.side in {Side.BEYOND_X, Side.BEYOND_Y}:
        return _beyond(size, found) if len(found) == len(size.names) else None
    if not found:
        return None
    return min(b.low.z for b in found) if size.side is Side.UNDER else max(b.high.z for b in found)


def _boxes(frame: Frame, outsides: Mapping[str, float]) -> dict[str, Extent]:
    members = {str(m.id): of_tube(m.path, outsides[m.tube]) for m in frame.members}
    return {**members, **{p.id: of_convex(p.box) for p in frame.panels}}


def _beyond(size: Size, boxes: list[Extent]) -> float:
    """Return how far the first box stands past all the others along an axis, on the side where it is more [mm]."""
    first, rest = boxes[0], joined(boxes[1:])
    axis = 0 if size.side is Side.BEYOND_X else 1
    low, high, rest_low, rest_high = (tuple(v)[axis] for v in (first.low, first.high, rest.low, rest.high))
    return max(rest_low - low, high - rest_high, 0.0)
