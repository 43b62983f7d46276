"""What the tests of hidden lines measure, and short ways to make bodies."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.model.scene import Body, TubeBody
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.path import line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line import VisibleLines
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec


def rod(key: str, start: Vec, end: Vec, radius: float) -> Body:
    return Body(key=key, pieces=(Cylinder(start=start, end=end, radius=radius),))


def tube(key: str, path: Path, outside: float = 24.0, bore: float = 20.0) -> Body:
    return Body(key=key, tubes=(TubeBody(path=path, outside=outside, bore=bore),))


def straight(key: str, start: Vec, end: Vec, outside: float = 24.0, bore: float = 20.0) -> Body:
    return tube(key, line(start, end), outside, bore)


def lengths(segments: np.ndarray) -> np.ndarray:
    return np.linalg.norm(segments[:, 1] - segments[:, 0], axis=1)


def total(seen: VisibleLines) -> float:
    return float(lengths(seen.segments).sum())


def level_at(seen: VisibleLines, y: float) -> list[tuple[float, float]]:
    """Ranges of x of the level lines at a height, in order."""
    s = seen.segments
    on = np.abs(s[:, :, 1] - y).max(axis=1) < 1e-6
    return sorted((float(a), float(b)) for a, b in np.sort(s[on][:, :, 0], axis=1))


def plan_of(seen: Sequence[VisibleLines]) -> np.ndarray:
    return np.concatenate([v.segments for v in seen])
