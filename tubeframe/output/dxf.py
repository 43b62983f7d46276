"""Pictures as DXF (R2010), in mm at true size, with true DIMENSION entities.

The settings below were each found necessary by reading files back with programs that did not write them: the library's
defaults give metres, a hundredfold measurement, whole numbers, and a header that some programs draw dimensions from.
What a dimension looks like is drawn here, not by the library: so it doesn't depend on the fonts of a computer.
"""

from __future__ import annotations

import io
import logging
import math
from typing import TYPE_CHECKING, Any

import ezdxf
from ezdxf import options, units
from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.const import DXF12

from tubeframe._version import __version__
from tubeframe.catalog.drafting import DxfRelease
from tubeframe.drawing.model.curves import in_chords
from tubeframe.drawing.model.dimension_lines import ABOVE, ARROW, GAP, PAST, TEXT, drawn_out
from tubeframe.drawing.model.extents import box_of, size_of
from tubeframe.drawing.model.picture import Axis, Bow, Curve, Dimension, Layer, Note, Oval, Ring, Strokes
from tubeframe.drawing.model.sheet import Anchor

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.drawing.model.picture import Box, Picture, PictureItem, Point

_STYLE, _FONT = "TUBEFRAME", "tubeframe"
_WIDE, _NARROW = 50, 25
_LAYERS: dict[Layer, tuple[int, str, int]] = {
    Layer.TUBE: (7, "CONTINUOUS", _WIDE),
    Layer.FITTING: (7, "CONTINUOUS", _WIDE),
    Layer.PANEL: (7, "CONTINUOUS", _WIDE),
    Layer.HIDDEN: (8, "HIDDEN", _NARROW),
    Layer.CENTER: (8, "CENTER", _NARROW),
    Layer.DIM: (7, "CONTINUOUS", _NARROW),
    Layer.TEXT: (7, "CONTINUOUS", _NARROW),
    Layer.BALLOON: (7, "CONTINUOUS", _NARROW),
    Layer.BORDER: (7, "CONTINUOUS", _WIDE),
    Layer.STRIP: (7, "CONTINUOUS", _WIDE),
}
"""Colour number, line type, line width [1/100 mm] (ISO 128-2: wide twice narrow, from memory)."""
_LINETYPES = {"HIDDEN": (12.0, 3.0), "CENTER": (24.0, 3.0, 0.5, 3.0)}
"""Dashes and gaps in line widths of 0.25 mm (ISO 128-2, types 02 and 04, from memory)."""
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
        _document(picture if release is DxfRelease.R2010 else in_chords(picture), release).write(text)
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
    for name, pattern in _LINETYPES.items():
        lengths = [0.25 * p * picture.scale * sign for p, sign in zip(pattern, (1, -1, 1, -1), strict=False)]
        document.linetypes.add(name, pattern=[sum(map(abs, lengths)), *lengths])
    has_strips = any(isinstance(item, Strokes) and item.layer is Layer.STRIP for item in picture.items)
    for layer, (colour, linetype, width) in _LAYERS.items():
        if layer is Layer.STRIP and not has_strips:
            continue
        document.layers.add(layer.value, color=colour, linetype=linetype, lineweight=width)
    document.styles.add(_FONT, font="DejaVuSans.ttf")
    _dimension_style(document, picture.scale)
    _first_look(document, box_of(picture.items, picture.scale))
    space = document.modelspace()
    for item in picture.items:
        _draw(document, space, item, picture.scale)
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


def _draw(document: Any, space: Any, item: PictureItem, scale: int) -> None:  # noqa: ANN401
    if isinstance(item, Strokes):
        for start, end in item.segments:
            space.add_line(start, end, dxfattribs={"layer": item.layer.value})
    elif isinstance(item, Ring):
        _ring(space, item)
    elif isinstance(item, Bow):
        attributes = {"layer": item.layer.value}
        space.add_arc(item.centre, item.radius, item.start_deg, item.end_deg, dxfattribs=attributes)
    elif isinstance(item, Oval):
        _oval(space, item)
    elif isinstance(item, Curve):
        _spline(space, item)
    elif isinstance(item, Note):
        _note(space, item)
    else:
        _dimension(document, space, item, scale)


def _ring(space: Any, ring: Ring) -> None:  # noqa: ANN401
    attributes = {"layer": ring.layer.value}
    if not ring.filled:
        space.add_circle(ring.centre, ring.radius, dxfattribs=attributes)
        return
    if space.doc.dxfversion == DXF12:  # it has no hatches: a square of solid colour inside the circle
        space.add_circle(ring.centre, ring.radius, dxfattribs=attributes)
        half = ring.radius * math.sqrt(0.5)
        (x, y) = ring.centre
        corners = ((x - half, y - half), (x + half, y - half), (x - half, y + half), (x + half, y + half))
        space.add_solid(corners, dxfattribs=attributes)
        return
    hatch = space.add_hatch(dxfattribs=attributes)
    hatch.paths.add_edge_path().add_arc(ring.centre, ring.radius, 0.0, 360.0)


def _oval(space: Any, oval: Oval) -> None:  # noqa: ANN401
    space.add_ellipse(
        oval.centre,
        major_axis=(*oval.major, 0.0),
        ratio=math.hypot(*oval.minor) / math.hypot(*oval.major),
        start_param=oval.start,
        end_param=oval.end,
        dxfattribs={"layer": oval.layer.value},
    )


def _spline(space: Any, curve: Curve) -> None:  # noqa: ANN401
    """Write cubic curves as a spline of degree 3 whose inner knots are threefold."""
    pieces = (len(curve.control) - 1) // 3
    spline = space.add_spline(dxfattribs={"layer": curve.layer.value, "degree": 3})
    spline.control_points = [(x, y, 0.0) for x, y in curve.control]
    spline.knots = [float(k) for k in (0, *(n for n in range(pieces + 1) for _ in range(3)), pieces)]


def _note(space: Any, note: Note) -> None:  # noqa: ANN401
    attributes = {"layer": note.layer.value, "style": _FONT, "rotation": note.angle}
    text = space.add_text(note.text, height=note.height, dxfattribs=attributes)
    text.set_placement(note.at, align=_ALIGNMENT[note.anchor])


def _dimension(document: Any, space: Any, item: Dimension, scale: int) -> None:  # noqa: ANN401
    """Write a dimension and the block that shows it."""
    level = item.axis is Axis.HORIZONTAL
    made = space.add_linear_dim(
        base=item.axis.point(item.end[item.axis.along], item.line_at),
        p1=item.start,
        p2=item.end,
        angle=0 if level else 90,
        text=item.text,
        dimstyle=_STYLE,
        dxfattribs={"layer": Layer.DIM.value},
    ).dimension
    drawn = drawn_out(item, scale)
    block = document.blocks.new_anonymous_block(type_char="D")
    attributes = {"layer": Layer.DIM.value}
    for start, end in drawn.segments:
        block.add_line(start, end, dxfattribs=attributes)
    for tip, one, other in drawn.arrows:
        block.add_solid([tip, one, other, other], dxfattribs=attributes)
    _note(block, drawn.value)
    made.dxf.geometry = block.name
    made.dxf.dimtype |= _BLOCK_IS_ITS_OWN | (_TEXT_IS_PLACED if _is_nudged(item) else 0)
    made.dxf.text_midpoint = _text_middle(item, scale)
    made.dxf.attachment_point = _MIDDLE
    made.dxf.actual_measurement = made.get_measurement()


def _is_nudged(item: Dimension) -> bool:
    """Whether a value stands between its ends, but off the middle."""
    low, high = item.span
    return item.text_along is not None and low < item.text_along < high


def _text_middle(item: Dimension, scale: int) -> Point:
    """Return where a program may draw the value anew.

    For one that stands outside, the middle: programs move a value that is too wide outside by themselves, some of them
    from wherever it is said to be.
    """
    over = (ABOVE + TEXT / 2.0) * scale
    along = item.text_middle if _is_nudged(item) else sum(item.span) / 2.0
    return item.axis.point(along, item.line_at + (over if item.axis is Axis.HORIZONTAL else -over))
