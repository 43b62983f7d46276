"""Pictures as DXF (R2010), in mm at true size, with true DIMENSION entities.

The settings below were each found necessary by reading files back with programs that did not write them: the library's
defaults give metres, a hundredfold measurement, whole numbers, and a header that some programs draw dimensions from.
What a dimension looks like is drawn here, not by the library: so it doesn't depend on the fonts of a computer.
"""

from __future__ import annotations

import io
import itertools
import logging
import math
from typing import TYPE_CHECKING, Any

import ezdxf
from ezdxf import options, units
from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.const import DXF12

from tubeframe._version import __version__
from tubeframe.catalog.drafting import DxfRelease
from tubeframe.drawing.model.dimension import ABOVE, ARROW, GAP, PAST, TEXT, Dimension
from tubeframe.drawing.model.items import Anchor, Drawn, Text
from tubeframe.drawing.model.pens import PEN_STYLES, Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes import Arc, Curve, Ellipse
from tubeframe.drawing.shapes.plane import Axis, size_of

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.drawing.model.picture import Item, Picture
    from tubeframe.drawing.shapes import Shape
    from tubeframe.drawing.shapes.plane import Box, Point


_STYLE, _FONT = "TUBEFRAME", "tubeframe"
_WIDE, _NARROW = 50, 25
_LAYERS: dict[Pen, tuple[int, str, int]] = {
    Pen.TUBE: (7, "CONTINUOUS", _WIDE),
    Pen.FITTING: (7, "CONTINUOUS", _WIDE),
    Pen.PANEL: (7, "CONTINUOUS", _WIDE),
    Pen.HIDDEN: (8, "HIDDEN", _NARROW),
    Pen.CENTRE: (8, "CENTER", _NARROW),
    Pen.DIM: (7, "CONTINUOUS", _NARROW),
    Pen.TEXT: (7, "CONTINUOUS", _NARROW),
    Pen.BALLOON: (7, "CONTINUOUS", _NARROW),
    Pen.BORDER: (7, "CONTINUOUS", _WIDE),
    Pen.STRIP: (7, "CONTINUOUS", _WIDE),
}
"""Colour number, line type, line width [1/100 mm] (ISO 128-2: wide twice narrow, from memory)."""
_ALIGNMENT = {
    Anchor.LEFT: TextEntityAlignment.LEFT,
    Anchor.CENTRE: TextEntityAlignment.CENTER,
    Anchor.RIGHT: TextEntityAlignment.RIGHT,
}
_BLOCK_IS_ITS_OWN, _TEXT_IS_PLACED = 32, 128
"""Bits of a dimension's type, group 70 (DXF reference, from memory)."""
_MIDDLE = 5
"""The value's reference point, group 11, is the middle of the text (DXF reference, from memory)."""
_PROGRAM = "tubeframe"


def write_dxf(picture: Picture, target: BinaryIO, release: DxfRelease = DxfRelease.R2010) -> None:
    """Write a DXF file; the same picture gives the same bytes.

    R12 knows no ellipses, splines, line widths or units: curves are written in chords, and its text is ASCII.
    """
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    log = logging.getLogger("ezdxf")
    level = log.level
    log.setLevel(logging.ERROR)  # for R12 it says on the console that it keeps no units
    try:
        text = io.StringIO()
        _document(picture, release).write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
        log.setLevel(level)
    target.write(text.getvalue().encode("utf-8" if release is DxfRelease.R2010 else "ascii", "replace"))


def _document(picture: Picture, release: DxfRelease) -> Any:  # noqa: ANN401  the library's own type
    document = ezdxf.new(release.value.upper(), units=units.MM if release is DxfRelease.R2010 else 0)
    document.header["$MEASUREMENT"] = 1
    document.header["$DIMASSOC"] = 1
    document.header["$LTSCALE"] = 1.0
    document.header.custom_vars.append("generator", f"{_PROGRAM} {__version__}")
    document.header.custom_vars.append("title", picture.title)
    document.header.custom_vars.append("scale", f"1:{picture.scale}")
    for pen in (Pen.HIDDEN, Pen.CENTRE):
        signs = itertools.cycle((1.0, -1.0))
        lengths = [d * picture.scale * sign for d, sign in zip(PEN_STYLES[pen].dashes, signs, strict=False)]
        document.linetypes.add(pen.value, pattern=[sum(map(abs, lengths)), *lengths])
    has_strips = any(isinstance(item, Drawn) and item.pen is Pen.STRIP for item in picture.items)
    for pen, (colour, linetype, width) in _LAYERS.items():
        if pen is not Pen.STRIP or has_strips:
            document.layers.add(pen.value, color=colour, linetype=linetype, lineweight=width)
    document.styles.add(_FONT, font="DejaVuSans.ttf")
    _dimension_style(document, picture.scale)
    _first_look(document, box_of(picture.items))
    space = document.modelspace()
    for item in picture.items:
        _draw(document, space, item)
    for name in sorted(document.entitydb.dxf_types_in_use()):  # the library adds them from a set: in any order
        document.classes.add_class(name)
    return document


def _first_look(document: Any, box: Box) -> None:  # noqa: ANN401
    """Say how large the drawing is, and have it fill the window when it is opened."""
    left, bottom, right, top = box
    space = document.modelspace()
    space.dxf.extmin, space.dxf.extmax = (left, bottom, 0.0), (right, top, 0.0)
    space.dxf.limmin, space.dxf.limmax = (left, bottom), (right, top)
    width, height = size_of(box)
    document.set_modelspace_vport(
        height=max(height, width / 1.5) * 1.05, center=(left + width / 2, bottom + height / 2)
    )


def _dimension_style(document: Any, scale: int) -> None:  # noqa: ANN401
    style = document.dimstyles.new(_STYLE)
    values = {
        "dimtxsty": _FONT,
        "dimtxt": TEXT * scale,
        "dimasz": ARROW * scale,
        "dimexo": GAP * scale,
        "dimexe": PAST * scale,
        "dimgap": ABOVE * scale,
        "dimscale": 1.0,
        "dimlfac": 1.0,
        "dimdec": 2,
        "dimzin": 8,
        "dimdsep": ord("."),
        "dimtad": 1,
        "dimtih": 0,
        "dimtoh": 0,
        "dimtix": 0,
        "dimclrd": 256,
        "dimclre": 256,
        "dimclrt": 256,
        "dimlwd": -1,
        "dimlwe": -1,
    }
    for name, value in values.items():
        style.set_dxf_attrib(name, value)
    style.copy_to_header(document)


def _draw(document: Any, space: Any, item: Item) -> None:  # noqa: ANN401
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
    attributes = {"layer": text.pen.value, "style": _FONT, "rotation": text.angle_deg}
    made = space.add_text(text.text, height=text.height, dxfattribs=attributes)
    made.set_placement(text.at, align=_ALIGNMENT[text.anchor])


def _dimension(document: Any, space: Any, item: Dimension) -> None:  # noqa: ANN401
    """Write a dimension and the block that shows it."""
    level = item.axis is Axis.HORIZONTAL
    made = space.add_linear_dim(
        base=item.axis.point(item.end[item.axis.along], item.line_at),
        p1=item.start,
        p2=item.end,
        angle=0 if level else 90,
        text=item.text,
        dimstyle=_STYLE,
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
