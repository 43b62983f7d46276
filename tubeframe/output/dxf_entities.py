"""Items of a picture as entities of a DXF file, dimensions with the blocks that show them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.const import DXF12

from tubeframe.drawing.model.dimension import ABOVE, TEXT, Dimension
from tubeframe.drawing.model.items import Anchor, Drawn, Text
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Arc, Curve, Ellipse
from tubeframe.drawing.shapes.plane import Axis
from tubeframe.output.dxf_text import dxf_text

if TYPE_CHECKING:
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes import Shape
    from tubeframe.drawing.shapes.plane import Point

STYLE, FONT = "TUBEFRAME", "tubeframe"
"""Names of the dimension style and of the text style that entities refer to."""
_ALIGNMENT = {
    Anchor.LEFT: TextEntityAlignment.LEFT,
    Anchor.CENTRE: TextEntityAlignment.CENTER,
    Anchor.RIGHT: TextEntityAlignment.RIGHT,
}
_BLOCK_IS_ITS_OWN, _TEXT_IS_PLACED = 32, 128
"""Bits of a dimension's type, group 70 (DXF reference, from memory)."""
_MIDDLE = 5
"""The value's reference point, group 11, is the middle of the text (DXF reference, from memory)."""


def draw_item(document: Any, space: Any, item: Item) -> None:  # noqa: ANN401
    """Add an item to a space of a document."""
    match item:
        case Text():
            _text(space, item)
        case Dimension():
            _dimension(document, space, item)
        case Drawn() if item.fill is not None:
            _area(space, item.shape, _on_layer(item))
        case Drawn():
            _outline(space, item.shape, _on_layer(item))


def _on_layer(item: Drawn) -> dict[str, str]:
    return {"layer": (item.pen or Pen.BORDER).value}


def _outline(space: Any, shape: Shape, attributes: dict[str, str]) -> None:  # noqa: ANN401
    """Write a shape's line; R12 has neither ellipses nor splines: chords."""
    is_old = space.doc.dxfversion == DXF12
    match shape:
        case Arc() if shape.closed:
            space.add_circle(shape.centre, shape.radius, dxfattribs=attributes)
        case Arc():
            space.add_arc(shape.centre, shape.radius, shape.start_deg, shape.end_deg, dxfattribs=attributes)
        case Ellipse() if not is_old:
            _ellipse(space, shape, attributes)
        case Curve() if not is_old:
            _spline(space, shape, attributes)
        case _:
            for start, end in shape.chords():
                space.add_line(start, end, dxfattribs=attributes)


def _area(space: Any, shape: Shape, attributes: dict[str, str]) -> None:  # noqa: ANN401
    """Fill what is inside of a shape; R12 has no hatches: solid colour in the largest square."""
    if space.doc.dxfversion == DXF12:
        _outline(space, shape, attributes)
        (x, y), half = _middle_and_half(shape)
        corners = ((x - half, y - half), (x + half, y - half), (x - half, y + half), (x + half, y + half))
        space.add_solid(corners, dxfattribs=attributes)
        return
    paths = space.add_hatch(dxfattribs=attributes).paths
    if isinstance(shape, Arc) and shape.closed:
        paths.add_edge_path().add_arc(shape.centre, shape.radius, 0.0, 360.0)
    else:
        paths.add_polyline_path([start for start, _ in shape.chords()], is_closed=True)


def _middle_and_half(shape: Shape) -> tuple[Point, float]:
    """Return the middle of a round dot, and half the side of the square in it [mm]."""
    xs, ys = zip(*shape.extremes(), strict=True)
    middle = ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0)
    return middle, (max(xs) - min(xs)) / 2.0 * math.sqrt(0.5)


def _ellipse(space: Any, shape: Ellipse, attributes: dict[str, str]) -> None:  # noqa: ANN401
    space.add_ellipse(
        shape.centre,
        major_axis=(*shape.major, 0.0),
        ratio=math.hypot(*shape.minor) / math.hypot(*shape.major),
        start_param=shape.start,
        end_param=shape.end,
        dxfattribs=attributes,
    )


def _spline(space: Any, curve: Curve, attributes: dict[str, str]) -> None:  # noqa: ANN401
    """Write cubic curves as a spline of degree 3 whose inner knots are threefold."""
    pieces = (len(curve.control) - 1) // 3
    spline = space.add_spline(dxfattribs={**attributes, "degree": 3})
    spline.control_points = [(x, y, 0.0) for x, y in curve.control]
    spline.knots = [float(k) for k in (0, *(n for n in range(pieces + 1) for _ in range(3)), pieces)]


def _text(space: Any, text: Text) -> None:  # noqa: ANN401
    attributes = {"layer": text.pen.value, "style": FONT, "rotation": text.angle_deg}
    words = dxf_text(text.text, in_ascii=space.doc.dxfversion == DXF12)
    made = space.add_text(words, height=text.height, dxfattribs=attributes)
    made.set_placement(text.at, align=_ALIGNMENT[text.anchor])


def _dimension(document: Any, space: Any, item: Dimension) -> None:  # noqa: ANN401
    """Write a dimension and the block that shows it."""
    level = item.axis is Axis.HORIZONTAL
    made = space.add_linear_dim(
        base=item.axis.point(item.end[item.axis.along], item.line_at),
        p1=item.start,
        p2=item.end,
        angle=0 if level else 90,
        text=dxf_text(item.text),
        dimstyle=STYLE,
        dxfattribs={"layer": Pen.DIM.value},
    ).dimension
    block = document.blocks.new_anonymous_block(type_char="D")
    attributes = {"layer": Pen.DIM.value}
    for start, end in item.segments:
        block.add_line(start, end, dxfattribs=attributes)
    for tip, one, other in item.arrows:
        block.add_solid([tip, one, other, other], dxfattribs=attributes)
    _text(block, item.value)
    made.dxf.geometry = block.name
    made.dxf.dimtype |= _BLOCK_IS_ITS_OWN | (_TEXT_IS_PLACED if _is_nudged(item) else 0)
    made.dxf.text_midpoint = _text_middle(item)
    made.dxf.attachment_point = _MIDDLE
    made.dxf.actual_measurement = made.get_measurement()


def _is_nudged(item: Dimension) -> bool:
    """Whether a value stands between its ends, but off the middle."""
    low, high = item.span
    return item.text_along is not None and low < item.text_along < high


def _text_middle(item: Dimension) -> Point:
    """Return where a program may draw the value anew.

    For one that stands outside, the middle: programs move a value that is too wide outside by themselves, some of them
    from wherever it is said to be.
    """
    over = (ABOVE + TEXT / 2.0) * item.scale
    along = item.text_middle if _is_nudged(item) else sum(item.span) / 2.0
    return item.axis.point(along, item.line_at + (over if item.axis is Axis.HORIZONTAL else -over))
