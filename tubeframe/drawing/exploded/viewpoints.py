"""From where a step is looked at, and what is seen from there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line import lines
from tubeframe.drawing.model.scene import ISOMETRIC, View
from tubeframe.drawing.shapes.plane import size_of
from tubeframe.drawing.views.bodies import seen_box
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.hidden_line import BodyLines, Seen
    from tubeframe.drawing.model.scene import Body
    from tubeframe.geometry.placement import Placement

SEEN_SHARE = 0.5
"""So much of a new part's outline is seen, or another viewpoint is looked for."""
_CLEAR_SINE = 0.342
"""A drawn offset is at least 20 degrees off the tube's own direction, as it is seen."""
_LEAST_SEEN = 0.3
"""An offset is seen at no less than this share of its length: not along the line of sight."""
_SAG = 0.1
FINEST = 0.7
"""Nothing closer than this is drawn [mm on paper] (ISO 128: gap between parallel lines, from memory)."""
Room = tuple[float, float]
"""Width and height [mm on paper]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """A new part's offset [mm], and its own direction where it is a straight tube."""

    part: str
    offset: Vec
    axis: Vec | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seeing:
    """What is seen from a viewpoint, and the least share of a wanted part's outline that is."""

    view: View
    visible: tuple[BodyLines, ...]
    least: float


STANDING_VIEWS = (
    ISOMETRIC,
    *(
        View(to_viewer=Vec(x, y, z), right=Vec(-y, x, 0.0))
        for x, y, z in (
            (1.0, -1.0, 0.5),
            (1.0, -1.0, 1.8),
            (1.6, -1.0, 1.0),
            (-1.0, -1.0, 1.0),
            (-1.0, -1.0, 0.5),
            (1.0, 1.0, 1.0),
            (-1.0, 1.0, 1.0),
            (1.0, -1.0, -1.0),
            (-1.0, -1.0, -1.0),
        )
    ),
)
"""From above over each corner, the front right first and from lower, higher and more aside too; then from below."""


def lying_views(plane: Placement, *, face_up: bool) -> tuple[View, ...]:
    """Look down on what lies on the floor, over each corner, with a plane's own side up, or the other one."""
    right, up, out = (plane.x, plane.y, plane.z) if face_up else (-plane.x, plane.y, -plane.z)
    return tuple(
        View(to_viewer=right * a + up * b + out * 2.0, right=right * -b + up * a)
        for a, b in ((1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))
    )


def seen_from(view: View, bodies: Sequence[Body], wanted: frozenset[str], room: Room) -> Seeing:
    """Look at bodies that are to be drawn as large as a room on the paper takes; what is too fine is left out."""
    seen = lines(bodies, view, sag=_SAG, min_size=FINEST / scale_in(bodies, view, room))
    least = min(seen_shares(seen, wanted).values(), default=1.0)
    return Seeing(view=view, visible=seen.visible, least=least)


def scale_in(bodies: Sequence[Body], view: View, room: Room) -> float:
    """Return how large bodies can be drawn in a room [mm on paper per mm]."""
    width, height = size_of(seen_box(bodies, view))
    return min(room[0] / max(width, 1.0), room[1] / max(height, 1.0))


def seen_shares(seen: Seen, wanted: frozenset[str]) -> Mapping[str, float]:
    """Return how much of some bodies' outlines is seen, each from 0 to 1."""
    shares = {}
    for visible, hidden in zip(seen.visible, seen.hidden, strict=True):
        if visible.key in wanted:
            shown, covered = _length(visible), _length(hidden)
            shares[visible.key] = shown / (shown + covered) if shown + covered > 0.0 else 1.0
    return shares


def _length(found: BodyLines) -> float:
    ends = found.segments
    return float(np.hypot(*(ends[:, 1] - ends[:, 0]).T).sum()) if len(ends) else 0.0


def is_clear(view: View, shift: Shift) -> bool:
    """Whether an offset is seen as one, and not as a tube that slides along itself."""
    if shift.offset.length == 0.0:
        return True
    x, y = view.project(shift.offset)
    seen = float(np.hypot(x, y))
    if seen < _LEAST_SEEN * shift.offset.length:
        return False
    if shift.axis is None:
        return True
    across, up = view.project(shift.axis)
    length = float(np.hypot(across, up))
    return length == 0.0 or abs(x * up - y * across) >= _CLEAR_SINE * seen * length
