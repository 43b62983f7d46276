"""A DXF file, tag by tag: each setting that other programs were seen to trip over.

The file is read by a reader of our own that knows nothing of the library that wrote it.
"""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys

import pytest

from tests.building import greenhouse, table
from tests.outputs.readers import dxf, dxf_dimensions, dxf_tags
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.picture import Picture, box_of
from tubeframe.drawing.shapes import Arc, circle
from tubeframe.drawing.shapes.plane import Axis
from tubeframe.geometry.units import Units
from tubeframe.output.dxf import _LAYERS, write_dxf

SCALE = 10
LENGTH = 914.4
PICTURE = Picture(
    title="try",
    items=(
        strokes(Pen.TUBE, (((0.0, 0.0), (LENGTH, 0.0)), ((0.0, 0.0), (0.0, 50.0)))),
        Drawn(shape=Arc(centre=(0.0, 0.0), radius=30.0, start_deg=10.0, end_deg=80.0), pen=Pen.TUBE),
        Drawn(shape=circle((200.0, 200.0), 60.0), pen=Pen.BALLOON),
        Drawn(shape=circle((300.0, 200.0), 6.0), pen=Pen.BALLOON, fill=Fill.BLACK),
        Text(at=(100.0, 300.0), text="FRONT", height=50.0, anchor=Anchor.CENTRE, angle_deg=30.0),
        Dimension(axis=Axis.HORIZONTAL, start=(0.0, 0.0), end=(LENGTH, 0.0), line_at=-180.0, text="914", scale=SCALE),
        Dimension(
            axis=Axis.VERTICAL,
            start=(0.0, 0.0),
            end=(0.0, 50.0),
            line_at=-100.0,
            text="50",
            text_along=150.0,
            scale=SCALE,
        ),
    ),
    scale=SCALE,
    units=Units.MILLIMETRE,
)


def _bytes(picture):
    target = io.BytesIO()
    write_dxf(picture, target)
    return target.getvalue()


def _written(picture, path):
    path.write_bytes(_bytes(picture))
    return dxf.read(path)


@pytest.fixture
def file(tmp_path):
    return _written(PICTURE, tmp_path / "try.dxf")


@pytest.fixture
def style(file):
    return file.dimstyles["TUBEFRAME"]


def test_units_are_millimetres(file):
    """The library's default for a drawing with styles is 6, metres."""
    assert file.number("$INSUNITS") == 4
    assert file.number("$MEASUREMENT") == 1


def test_a_length_is_shown_as_it_is(file, style):
    """The library's own styles show a hundredfold (DIMLFAC 100)."""
    assert style.number(144, 1.0) == 1.0
    assert file.number("$DIMLFAC") == 1.0
    assert set(file.dimstyles) == {"TUBEFRAME", "Standard"}


def test_no_rounding_is_left_to_programs(file, style):
    """DIMRND 0 is none to most programs and whole numbers to the library; so each value is written out."""
    assert style.number(45, 0.0) == 0.0
    assert file.number("$DIMRND") == 0.0
    for one in dxf_dimensions.dimensions(file):
        assert one.override != ""
        assert one.shown == (one.override,)


def test_decimals_have_a_point_and_no_trailing_zeros(style):
    assert style.whole(278) == ord(".")
    assert style.whole(78) == 8
    assert style.whole(271) == 2


def test_the_header_draws_dimensions_as_the_style_does(file, style):
    """Some programs read the header alone; its defaults gave texts of 0.25 mm."""
    assert dxf_dimensions.header_differences(file) == ()
    for variable, code in (("$DIMTXT", 140), ("$DIMASZ", 41), ("$DIMEXO", 42), ("$DIMEXE", 44), ("$DIMGAP", 147)):
        assert file.number(variable) == style.number(code)
    assert file.number("$DIMTXT") == 3.5 * SCALE
    assert file.number("$DIMSCALE") == 1.0


def test_dimensions_are_level_or_upright_and_state_what_they_measure(file):
    level, upright = dxf_dimensions.dimensions(file)

    assert [d.kind.name for d in (level, upright)] == ["LINEAR", "LINEAR"]
    assert (level.angle_deg, upright.angle_deg) == (0.0, 90.0)
    assert (level.measured, level.stated) == (LENGTH, LENGTH)
    assert (upright.measured, upright.stated) == (50.0, 50.0)
    assert (level.line_at, upright.line_at) == ((LENGTH, -180.0), (-100.0, 50.0))


def test_a_dimensions_block_shows_its_value_lines_and_arrows(file):
    level, upright = dxf_dimensions.dimensions(file)
    blocks = [b for name, b in file.blocks.items() if name.startswith("*D")]

    assert (level.shown, upright.shown) == (("914",), ("50",))
    assert ((0.0, -180.0), (LENGTH, -180.0)) in level.segments
    assert all(sum(e.kind == "SOLID" for e in b) == 2 for b in blocks)
    assert {e.layer for b in blocks for e in b} == {"DIM"}
    assert upright.boxes[0].height == 35.0


def test_a_value_outside_may_be_placed_anew_by_a_program(file):
    """Programs move a value that is too wide by themselves; so the point told is the plain middle, above the line."""
    level, upright = file.of("DIMENSION")

    assert level.point(11) == pytest.approx((LENGTH / 2.0, -180.0 + (0.9 + 1.75) * SCALE))
    assert upright.point(11) == pytest.approx((-100.0 - (0.9 + 1.75) * SCALE, 25.0))
    assert (level.whole(70), upright.whole(70)) == (32, 32)


def test_a_value_moved_within_stays_there(tmp_path):
    one = Dimension(
        axis=Axis.HORIZONTAL,
        start=(0.0, 0.0),
        end=(LENGTH, 0.0),
        line_at=-180.0,
        text="914",
        text_along=300.0,
        scale=SCALE,
    )
    picture = Picture(title="try", items=(*PICTURE.items[:1], one), scale=SCALE, units=Units.MILLIMETRE)
    (entity,) = _written(picture, tmp_path / "try.dxf").of("DIMENSION")

    assert entity.point(11)[0] == 300.0
    assert entity.whole(70) == 32 + 128


def test_nothing_says_that_dimensions_follow_the_drawing(file):
    """$DIMASSOC 2 would, and no program that reads the file could keep it."""
    assert file.number("$DIMASSOC") == 1


def test_texts_are_plain(tmp_path):
    """No MTEXT: its codes are shown as they stand. No letters beyond ASCII: a common reader garbles them."""
    for design in (table(), greenhouse()):
        for picture in (Drawings(design).elevations, Drawings(design).layout):
            found = _written(picture, tmp_path / "one.dxf")

            assert "MTEXT" not in found.kinds()
            assert not any(e.kind == "MTEXT" for b in found.blocks.values() for e in b)
            assert all(t.text.isascii() and not t.coded for t in dxf.texts(found.model))


def test_a_text_stands_where_it_should(file):
    (text,) = file.of("TEXT")

    assert (text.point(11), text.number(40), text.number(50), text.whole(72)) == ((100.0, 300.0), 50.0, 30.0, 1)


def test_it_is_r2010_with_model_space_only(file, tmp_path):
    """R2010 is the oldest that keeps UTF-8 and line widths. Paper space is drawn over the model by some programs."""
    assert file.version == "AC1024"
    assert file.paper == ()
    assert not any(e.kind in {"VIEWPORT", "INSERT"} for e in file.model)


def test_layers_have_line_types_and_two_widths(file):
    widths = {name: layer.lineweight for name, layer in file.layers.items()}

    assert all(widths[name.value] in (0.25, 0.5) for name in _LAYERS if name is not Pen.STRIP)
    assert "STRIP" not in widths
    assert (file.layers["HIDDEN"].linetype, file.layers["CENTER"].linetype) == ("HIDDEN", "CENTER")
    assert all(
        layer.shown and layer.plotted for name, layer in file.layers.items() if name in {p.value for p in _LAYERS}
    )
    assert file.unknown_layers() == ()


def test_dashes_grow_with_the_scale(tmp_path):
    """ISO 128-2, from memory: dashes of 12 widths and gaps of 3; at 1:10 of a 0.25 mm line 30 and 7.5 mm."""
    _written(PICTURE, tmp_path / "try.dxf")
    rows = [t for t in dxf_tags.read(tmp_path / "try.dxf").tables if t.kind == "LTYPE" and t.text(2) == "HIDDEN"]

    assert [float(v) for v in rows[0].all(49)] == [30.0, -7.5]
    assert rows[0].number(40) == 37.5


def test_circles_are_true_and_dots_are_filled(file):
    assert file.kinds()["CIRCLE"] == 1
    (arc,) = file.of("ARC")
    assert (arc.point(10), arc.number(40), arc.number(50), arc.number(51)) == ((0.0, 0.0), 30.0, 10.0, 80.0)
    (dot,) = file.of("HATCH")
    assert (dot.layer, dot.text(2), dot.whole(70)) == ("BALLOON", "SOLID", 1)


def test_the_header_says_how_large_it_is(file):
    left, bottom, right, top = box_of(PICTURE.items)

    assert [float(v) for v in file.header["$EXTMIN"][:2]] == pytest.approx([left, bottom])
    assert [float(v) for v in file.header["$EXTMAX"][:2]] == pytest.approx([right, top])


def test_same_bytes_twice():
    assert _bytes(PICTURE) == _bytes(PICTURE)


def test_same_bytes_from_two_processes():
    program = (
        "import sys; from tests.unit.output.test_dxf import _bytes, greenhouse, Drawings;"
        "sys.stdout.buffer.write(_bytes(Drawings(greenhouse()).elevations) + _bytes(Drawings(greenhouse()).layout))"
    )
    written = [
        subprocess.run(
            [sys.executable, "-c", program],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": "."},
        ).stdout
        for seed in ("1", "2")
    ]

    assert len(written[0]) > 100_000
    assert written[0] == written[1]


def test_the_librarys_switch_is_put_back():
    """Fixed dates are asked of the library for this file alone."""
    from ezdxf import options

    before = options.write_fixed_meta_data_for_testing
    _bytes(PICTURE)

    assert options.write_fixed_meta_data_for_testing is before


@pytest.mark.skipif(shutil.which("librecad") is None, reason="librecad is not installed")
def test_a_drawing_program_opens_and_draws_it(tmp_path):
    """An empty sheet of it takes about 1 kB."""
    _written(Drawings(table()).elevations, tmp_path / "x.dxf")
    subprocess.run(
        ["librecad", "dxf2pdf", "-a", "-c", "-m", "-p", "420x297", "-t", str(tmp_path), str(tmp_path / "x.dxf")],
        check=True,
        capture_output=True,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen", "XDG_RUNTIME_DIR": str(tmp_path)},
    )

    assert (tmp_path / "x.pdf").stat().st_size > 10_000
