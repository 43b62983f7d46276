"""Pictures on pages: an isometric view of anything, and where its labels go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes import circle
from tubeframe.drawing.shapes.plane import Transform
from tubeframe.drawing.views.drawn_bodies import drawn_bodies

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.scene import Body
    from tubeframe.geometry.vector import Vec

_FINEST = 0.7
"""Nothing closer than this is drawn [mm on paper] (ISO 128: gap between parallel lines, from memory)."""
_BALLOON = 4.6
_SMALL = 1.0 / 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A text in a circle on a point in space [mm]."""

    at: Vec
    text: str


def isometric(
    bodies: Sequence[Body], box: tuple[float, float, float, float], *, strong: Collection[str] = ()
) -> tuple[list[Mark], Transform]:
    """Draw bodies in an isometric view, as large as a box of the paper takes (left, bottom, width, height) [mm].

    Bodies whose key is in `strong` are drawn in wider lines than the rest; all alike when none is.
    """
    rough = _points(visible_lines(bodies, ISOMETRIC, min_size=8.0))
    fit = _fit(rough, box)
    items, _ = drawn_at(bodies, fit, strong=strong)
    return items, fit


def drawn_at(
    bodies: Sequence[Body], fit: Transform, *, strong: Collection[str] = (), others: Pen = Pen.FINE
) -> tuple[list[Mark], Sequence[BodyLines]]:
    """Draw bodies in an isometric view as it lies on the paper; return what is seen of each body too.

    Bodies whose key is in `strong` are drawn in wider lines than the rest; all alike when none is.
    """
    seen = visible_lines(bodies, ISOMETRIC, sag=0.1, min_size=_FINEST / fit.scale)
    items: list[Mark] = []
    for pen, chosen in (
        (others, [v for v in seen if strong and v.key not in strong]),
        (Pen.TUBE if strong else _plain_pen(fit), [v for v in seen if not strong or v.key in strong]),
    ):
        items += [item.placed(fit) for item in drawn_bodies(chosen, pen)]
    return items, seen


def centred(bodies: Sequence[Body], box: tuple[float, float, float, float], scale: float) -> Transform | None:
    """Lay an isometric view of a scale into the middle of a box (left, bottom, width, height) [mm on paper].

    None where it is too large for the box.
    """
    points = _points(visible_lines(bodies, ISOMETRIC))
    low, high = points.min(axis=0), points.max(axis=0)
    left, bottom, width, height = box
    across, up = (float(v) * scale for v in high - low)
    if across > width or up > height:
        return None
    return Transform(
        scale=scale,
        shift=(
            left + (width - across) / 2.0 - float(low[0]) * scale,
            bottom + (height - up) / 2.0 - float(low[1]) * scale,
        ),
    )


def _plain_pen(fit: Transform) -> Pen:
    """Choose a finer line for a small picture, where the outlines of a tube would run together."""
    return Pen.NARROW if fit.scale > _SMALL else Pen.FINE


def balloons(labels: Sequence[Label], fit: Transform) -> list[Mark]:
    """Put labels into circles on their points; one that would cover another moves aside."""
    placed: list[tuple[float, float]] = []
    items: list[Mark] = []
    for label in labels:
        x, y = fit.point(ISOMETRIC.project(label.at))
        x, y = _free(x, y, placed)
        placed.append((x, y))
        items.append(Drawn(shape=circle((x, y), _BALLOON), pen=Pen.NARROW, fill=Fill.WHITE))
        items.append(Text(at=(x, y - BODY / 2.0), text=label.text, height=BODY, anchor=Anchor.CENTRE, bold=True))
    return items


def guide(start: Vec, end: Vec, fit: Transform) -> Drawn:
    """Draw the way a part takes."""
    ends = (fit.point(ISOMETRIC.project(start)), fit.point(ISOMETRIC.project(end)))
    return strokes(Pen.CENTRE, (ends,))


def _free(x: float, y: float, placed: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return the nearest free place on a spiral of steps round a point."""
    apart = 2.0 * _BALLOON + 0.8
    for ring in range(12):
        for dx, dy in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1)):
            at = (x + dx * ring * apart / 2.0, y + dy * ring * apart / 2.0)
            if all((at[0] - p[0]) ** 2 + (at[1] - p[1]) ** 2 >= apart**2 for p in placed):
                return at
    return x, y


def _points(seen: Sequence[BodyLines]) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.concatenate([v.segments.reshape(-1, 2) for v in seen])


def _fit(
    points: np.ndarray[tuple[int, ...], np.dtype[np.float64]], box: tuple[float, float, float, float]
) -> Transform:
    low, high = points.min(axis=0), points.max(axis=0)
    width, height = (float(v) for v in high - low)
    left, bottom, room_x, room_y = box
    scale = min(room_x / max(width, 1.0), room_y / max(height, 1.0))
    return Transform(
        scale=scale,
        shift=(
            left + (room_x - width * scale) / 2.0 - float(low[0]) * scale,
            bottom + (room_y - height * scale) / 2.0 - float(low[1]) * scale,
        ),
    )
