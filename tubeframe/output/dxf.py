"""Pictures as DXF (R2010), in mm at true size, with true DIMENSION entities.

The settings below were each found necessary by reading files back with programs that did not write them: the library's
defaults give metres, a hundredfold measurement, whole numbers, and a header that some programs draw dimensions from.
What a dimension looks like is drawn here, not by the library: so it doesn't depend on the fonts of a computer.
"""

from __future__ import annotations

import io
import itertools
import logging
from typing import TYPE_CHECKING, Any

import ezdxf
from ezdxf import options, units

from tubeframe._version import __version__
from tubeframe.catalog.drafting import DxfRelease
from tubeframe.drawing.model.dimension import ABOVE, ARROW, GAP, PAST, TEXT
from tubeframe.drawing.model.items import Drawn
from tubeframe.drawing.model.pens import PEN_STYLES, Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes.plane import size_of
from tubeframe.errors import printable
from tubeframe.output.dxf_entities import FONT, STYLE, draw_item

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.drawing.model.picture import Picture
    from tubeframe.drawing.shapes.plane import Box


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
    document.header.custom_vars.append("title", printable(picture.title))
    document.header.custom_vars.append("scale", f"1:{picture.scale}")
    for pen in (Pen.HIDDEN, Pen.CENTRE):
        signs = itertools.cycle((1.0, -1.0))
        lengths = [d * picture.scale * sign for d, sign in zip(PEN_STYLES[pen].dashes, signs, strict=False)]
        document.linetypes.add(pen.value, pattern=[sum(map(abs, lengths)), *lengths])
    has_strips = any(isinstance(item, Drawn) and item.pen is Pen.STRIP for item in picture.items)
    for pen, (colour, linetype, width) in _LAYERS.items():
        if pen is not Pen.STRIP or has_strips:
            document.layers.add(pen.value, color=colour, linetype=linetype, lineweight=width)
    document.styles.add(FONT, font="DejaVuSans.ttf")
    _dimension_style(document, picture.scale)
    _first_look(document, box_of(picture.items))
    space = document.modelspace()
    for item in picture.items:
        draw_item(document, space, item)
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
    style = document.dimstyles.new(STYLE)
    values = {
        "dimtxsty": FONT,
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
