"""Marks in circles above a view, each with a leader to its part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.picture import Layer, Note, PictureItem, Ring, Strokes
from tubeframe.drawing.sheet import Anchor

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.picture import Point
    from tubeframe.drawing.view_lines import ViewLines

RADIUS = 5.0
"""Circles of 10 mm (ISO 6433, from memory) [mm on paper]."""
_ABOVE = 12.0
_APART = 11.5
_TEXT = 3.5
_DOT = 0.6
ROOM = _ABOVE + RADIUS + 2.0
"""What the row takes above a view [mm on paper]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A mark, and where its leader ends [mm]."""

    mark: str
    at: Point


def balloon_row(lines: ViewLines, marks: Mapping[str, Sequence[str]], scale: int) -> tuple[PictureItem, ...]:
    """Put marks over a view; `marks` gives the parts of each."""
    targets = sorted((t for m, ids in marks.items() if (t := _target(lines, m, ids))), key=lambda t: t.at)
    if not targets:
        return ()
    top = lines.box[3]
    places = _spread([t.at[0] for t in targets], _APART * scale)
    level = top + _ABOVE * scale
    items: list[PictureItem] = []
    for target, x in zip(targets, places, strict=True):
        items += [
            Ring(layer=Layer.BALLOON, centre=(x, level), radius=RADIUS * scale),
            Note(
                layer=Layer.BALLOON,
                at=(x, level - _TEXT * scale / 2.0),
                text=target.mark,
                height=_TEXT * scale,
                anchor=Anchor.CENTRE,
            ),
            Ring(layer=Layer.BALLOON, centre=target.at, radius=_DOT * scale),
            Strokes(layer=Layer.BALLOON, segments=((_on_circle((x, level), target.at, RADIUS * scale), target.at),)),
        ]
    return tuple(items)


def seen_length(lines: ViewLines, ids: Sequence[str]) -> float:
    """Return how much is seen of some parts [mm]."""
    found = [lines.lines[i] for i in ids if i in lines.lines]
    return float(sum(np.linalg.norm(v[:, 1] - v[:, 0], axis=1).sum() for v in found))


def _target(lines: ViewLines, mark: str, ids: Sequence[str]) -> Target | None:
    """Return the middle of the longest line that is seen of a mark, the highest of equal ones."""
    found = [v for i in ids if len(v := lines.lines[i])]
    if not found:
        return None
    all_lines = np.concatenate(found)
    lengths = np.linalg.norm(all_lines[:, 1] - all_lines[:, 0], axis=1).round(1)
    middles = all_lines.mean(axis=1)
    best = int(np.lexsort((middles[:, 0], -middles[:, 1], -lengths))[0])
    return Target(mark=mark, at=(float(middles[best, 0]), float(middles[best, 1])))


def _spread(wanted: Sequence[float], apart: float) -> list[float]:
    """Return places in rising order, at least a distance apart, near the wanted ones [mm]."""
    places: list[float] = []
    for x in wanted:
        places.append(max(x, places[-1] + apart) if places else x)
    shift = (sum(wanted) - sum(places)) / len(places)
    return [p + shift for p in places]


def _on_circle(centre: Point, toward: Point, radius: float) -> Point:
    dx, dy = toward[0] - centre[0], toward[1] - centre[1]
    length = max((dx * dx + dy * dy) ** 0.5, 1e-9)
    return (centre[0] + dx * radius / length, centre[1] + dy * radius / length)
