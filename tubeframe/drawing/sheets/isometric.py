"""Pictures on pages: a view aslant of anything, as large as its room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.exploded.viewpoints import FINEST
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes.plane import Transform, size_of
from tubeframe.drawing.views.bodies import seen_box
from tubeframe.drawing.views.drawn_bodies import drawn_bodies

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.drawing.shapes.plane import Box

_SMALL = 1.0 / 15.0


PaperBox = tuple[float, float, float, float]
"""Left, bottom, width and height [mm on paper]."""


def isometric(bodies: Sequence[Body], box: PaperBox) -> list[Mark]:
    """Draw bodies in an isometric view, as large as a box of the paper takes (left, bottom, width, height) [mm]."""
    items, _ = drawn_at(bodies, fitted(bodies, ISOMETRIC, box))
    return items


def fitted(bodies: Sequence[Body], view: View, box: PaperBox) -> Transform:
    """Lay what is seen of bodies into the middle of a box (left, bottom, width, height) [mm], as large as it takes."""
    seen = seen_box(bodies, view)
    width, height = size_of(seen)
    return _middle(seen, box, min(box[2] / max(width, 1.0), box[3] / max(height, 1.0)))


def drawn_at(
    bodies: Sequence[Body],
    fit: Transform,
    *,
    view: View = ISOMETRIC,
    strong: Collection[str] = (),
    others: Pen = Pen.FINE,
) -> tuple[list[Mark], Sequence[BodyLines]]:
    """Draw bodies as a view of them lies on the paper; return what is seen of each body too.

    Bodies whose key is in `strong` are drawn in wider lines than the rest; all alike when none is.
    """
    seen = visible_lines(bodies, view, sag=0.1, min_size=FINEST / fit.scale)
    return in_pens(seen, fit, strong, others), seen


def in_pens(
    seen: Sequence[BodyLines], fit: Transform, strong: Collection[str] = (), others: Pen = Pen.FINE
) -> list[Mark]:
    """Draw what is seen of bodies, those whose key is in `strong` in wider lines than the rest."""
    items: list[Mark] = []
    for pen, chosen in (
        (others, [v for v in seen if strong and v.key not in strong]),
        (Pen.TUBE if strong else _plain_pen(fit), [v for v in seen if not strong or v.key in strong]),
    ):
        items += [item.placed(fit) for item in drawn_bodies(chosen, pen)]
    return items


def centred(bodies: Sequence[Body], box: PaperBox, scale: float, view: View = ISOMETRIC) -> Transform | None:
    """Lay a view at a scale into the middle of a box (left, bottom, width, height) [mm on paper].

    None where it is too large for the box.
    """
    seen = seen_box(bodies, view)
    across, up = (v * scale for v in size_of(seen))
    return None if across > box[2] or up > box[3] else _middle(seen, box, scale)


def _plain_pen(fit: Transform) -> Pen:
    """Choose a finer line for a small picture, where the outlines of a tube would run together."""
    return Pen.NARROW if fit.scale > _SMALL else Pen.FINE


def _middle(seen: Box, box: PaperBox, scale: float) -> Transform:
    width, height = size_of(seen)
    left, bottom, room_x, room_y = box
    x = left + (room_x - width * scale) / 2.0 - seen[0] * scale
    y = bottom + (room_y - height * scale) / 2.0 - seen[1] * scale
    return Transform(scale=scale, shift=(x, y))
