"""One view of a design: its visible lines on their layers, and the points that dimensions hold on to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.bodies import bodies
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.picture import Axis, Layer, Point, Segment, Strokes

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.scene import View

    Floats = np.ndarray[tuple[int, ...], np.dtype[np.float64]]

FINEST = 0.7
"""Nothing closer than this is drawn [mm on paper] (ISO 128: gap between parallel lines, from memory)."""
_EXACT = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ViewLines:
    """Lines (n, 2, 2) of every part by its id, in the view's plane [mm]."""

    lines: dict[str, Floats]
    layers: dict[str, Layer]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top [mm]."""
        points = self.all.reshape(-1, 2)
        low, high = points.min(axis=0), points.max(axis=0)
        return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))

    @property
    def all(self) -> Floats:
        """All lines, (n, 2, 2) [mm]."""
        return np.concatenate([v for v in self.lines.values() if len(v)])

    def strokes(self) -> tuple[Strokes, ...]:
        """Return the lines layer by layer."""
        made = []
        for layer in (Layer.TUBE, Layer.FITTING, Layer.PANEL):
            segments = tuple(s for key, v in self.lines.items() if self.layers[key] is layer for s in as_segments(v))
            made += [Strokes(layer=layer, segments=segments)] if segments else []
        return tuple(made)

    def hold(self, axis: Axis, value: float, *, least: bool) -> Point | None:
        """Return the point on a drawn line at a coordinate [mm] along an axis, farthest to one side across it.

        None when no line is there: the place is hidden.
        """
        along = 0 if axis is Axis.HORIZONTAL else 1
        lines = self.all
        a, b = lines[:, 0, along], lines[:, 1, along]
        there = (np.minimum(a, b) <= value + _EXACT) & (np.maximum(a, b) >= value - _EXACT)
        if not there.any():
            return None
        found = lines[there]
        a, b = found[:, 0, along], found[:, 1, along]
        c, d = found[:, 0, 1 - along], found[:, 1, 1 - along]
        level = np.abs(b - a) < _EXACT
        share = np.where(level, 0.0, (value - a) / np.where(level, 1.0, b - a)).clip(0.0, 1.0)
        across = np.where(level, np.minimum(c, d) if least else np.maximum(c, d), c + share * (d - c))
        best = float(across.min() if least else across.max())
        return (value, best) if along == 0 else (best, value)


def view_lines(design: Design, view: View, *, finest: float) -> ViewLines:
    """Look at a design; parts that are seen smaller than `finest` are left out [mm]."""
    layers: dict[str, Layer] = {p.id: Layer.TUBE for p in design.parts.pieces}
    layers |= {j.id: Layer.FITTING for j in design.jointed.joints}
    layers |= {p.id: Layer.PANEL for p in design.frame.panels}
    seen = visible_lines(bodies(design), view, min_size=finest)
    return ViewLines(lines={v.key: v.segments for v in seen}, layers=layers)


def as_segments(lines: Floats) -> tuple[Segment, ...]:
    """Turn an array (n, 2, 2) into plain segments [mm]."""
    return tuple(((a[0], a[1]), (b[0], b[1])) for a, b in lines.tolist())
