"""What is seen of bodies, as things to draw."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.shapes import Lines

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.pens import Pen


def drawn_bodies(seen: Iterable[BodyLines], pen: Pen) -> list[Drawn]:
    """Draw what is seen with a pen: all straight lines together, then curve by curve."""
    shapes = [s for body in seen for s in body.shapes]
    straight = [segment for s in shapes if isinstance(s, Lines) for segment in s.segments]
    curves = [Drawn(shape=s, pen=pen) for s in shapes if not isinstance(s, Lines)]
    return [strokes(pen, straight), *curves] if straight else curves
