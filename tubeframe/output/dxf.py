"""Pictures as DXF (R2010), in mm at true size, with true DIMENSION entities.

The settings below were each found necessary by reading files back with programs that did not write them: the library's
defaults give metres, a hundredfold measurement, whole numbers, and a header that some programs draw dimensions from.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

import ezdxf
from ezdxf import options, units
from ezdxf.enums import TextEntityAlignment

from tubeframe.drawing.picture import Axis, Dimension, Layer, Note, Ring, Strokes
from tubeframe.drawing.sheet import Anchor

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.drawing.picture import Picture, PictureItem

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
}
"""Colour number, line type, line width [1/100 mm] (ISO 128-2: wide twice narrow, from memory)."""
_LINETYPES = {"HIDDEN": (12.0, 3.0), "CENTER": (24.0, 3.0, 0.5, 3.0)}
"""Dashes and gaps in line widths of 0.25 mm (ISO 128-2, types 02 and 04, from memory)."""
_TEXT, _ARROW, _GAP, _PAST = 3.5, 2.5, 1.5, 2.0
_ALIGNMENT = {
    Anchor.LEFT: TextEntityAlignment.LEFT,
    Anchor.CENTRE: TextEntityAlignment.CENTER,
    Anchor.RIGHT: TextEntityAlignment.RIGHT,
}


def write_dxf(picture: Picture, target: BinaryIO) -> None:
    """Write a DXF file; the same picture gives the same bytes."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        text = io.StringIO()
        _document(picture).write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
    target.write(text.getvalue().encode("utf-8"))


def _document(picture: Picture) -> Any:  # noqa: ANN401  the library's own type
    document = ezdxf.new("R2010", units=units.MM)
    document.header["$MEASUREMENT"] = 1
    document.header["$DIMASSOC"] = 1
    document.header["$LTSCALE"] = 1.0
    for name, pattern in _LINETYPES.items():
        lengths = [0.25 * p * picture.scale * sign for p, sign in zip(pattern, (1, -1, 1, -1), strict=False)]
        document.linetypes.add(name, pattern=[sum(map(abs, lengths)), *lengths])
    for layer, (colour, linetype, width) in _LAYERS.items():
        document.layers.add(layer.value, color=colour, linetype=linetype, lineweight=width)
    document.styles.add(_FONT, font="DejaVuSans.ttf")
    _dimension_style(document, picture.scale)
    space = document.modelspace()
    for item in picture.items:
        _draw(space, item)
    return document


def _dimension_style(document: Any, scale: int) -> None:  # noqa: ANN401
    style = document.dimstyles.new(_STYLE)
    values = {
        "dimtxsty": _FONT,
        "dimtxt": _TEXT * scale,
        "dimasz": _ARROW * scale,
        "dimexo": _GAP * scale,
        "dimexe": _PAST * scale,
        "dimgap": 0.8 * scale,
        "dimscale": 1.0,
        "dimlfac": 1.0,
        "dimdec": 2,
        "dimzin": 8,
        "dimdsep": ord("."),
        "dimtad": 1,
        "dimtih": 0,
        "dimtoh": 0,
        "dimtix": 1,
        "dimclrd": 256,
        "dimclre": 256,
        "dimclrt": 256,
        "dimlwd": -1,
        "dimlwe": -1,
    }
    for name, value in values.items():
        style.set_dxf_attrib(name, value)
    style.copy_to_header(document)


def _draw(space: Any, item: PictureItem) -> None:  # noqa: ANN401
    if isinstance(item, Strokes):
        for start, end in item.segments:
            space.add_line(start, end, dxfattribs={"layer": item.layer.value})
    elif isinstance(item, Ring):
        space.add_circle(item.centre, item.radius, dxfattribs={"layer": item.layer.value})
    elif isinstance(item, Note):
        _note(space, item)
    else:
        _dimension(space, item)


def _note(space: Any, note: Note) -> None:  # noqa: ANN401
    attributes = {"layer": note.layer.value, "style": _FONT, "rotation": note.angle}
    text = space.add_text(note.text, height=note.height, dxfattribs=attributes)
    text.set_placement(note.at, align=_ALIGNMENT[note.anchor])


def _dimension(space: Any, item: Dimension) -> None:  # noqa: ANN401
    level = item.axis is Axis.HORIZONTAL
    made = space.add_linear_dim(
        base=(item.start[0], item.line_at) if level else (item.line_at, item.start[1]),
        p1=item.start,
        p2=item.end,
        angle=0 if level else 90,
        text=item.text,
        dimstyle=_STYLE,
        dxfattribs={"layer": Layer.DIM.value},
    )
    made.render()
    made.dimension.dxf.actual_measurement = made.dimension.get_measurement()
