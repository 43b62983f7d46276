"""The DXF reader reads a good file right, and finds the faults that are planted in a bad one."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import ezdxf
import pytest

from tests.outputs.readers import dxf, dxf_dimensions, lengths, plane

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


def drawing(change: Callable[[Any, dict[str, Any]], None] | None = None) -> Any:
    """A tube of 914.4 mm with its dimension, and a text, at full size."""
    document = ezdxf.new("R2010", setup=True)
    document.units = ezdxf.units.MM
    for name, weight in (("TUBE", 50), ("DIM", 25)):
        document.layers.add(name, lineweight=weight)
    style = document.dimstyles.duplicate_entry("EZDXF", "FRAME")
    style.update_dxf_attribs({"dimlfac": 1.0, "dimdec": 1, "dimzin": 8, "dimdsep": 46, "dimtxt": 35.0, "dimasz": 25.0})
    style.copy_to_header(document)
    given: dict[str, Any] = {"p2": (914.4, 0.0), "text": "<>", "dimstyle": "FRAME"}
    if change is not None:
        change(document, given)
    space = document.modelspace()
    space.add_line((0, 0), (914.4, 0), dxfattribs={"layer": "TUBE"})
    space.add_text("MARK", height=35.0, dxfattribs={"layer": "DIM"}).set_placement((100, 300))
    dimension = space.add_linear_dim(base=(0, -100), p1=(0, 0), dxfattribs={"layer": "DIM"}, **given)
    dimension.render()
    dimension.dimension.dxf.actual_measurement = dimension.dimension.get_measurement()
    return document


def read_dxf(document: Any, folder: Path) -> dxf.Drawing:
    document.saveas(folder / "a.dxf")
    return dxf.read(folder / "a.dxf")


def changed(path: Path, folder: Path, old: str, new: str) -> Path:
    text = path.read_text(encoding="utf-8")
    assert old in text
    copy = folder / path.name
    copy.write_text(text.replace(old, new, 1), encoding="utf-8")
    return copy


def test_dxf_good(tmp_path: Path) -> None:
    read = read_dxf(drawing(), tmp_path)
    assert (read.version, read.number("$INSUNITS")) == ("AC1024", 4.0)
    assert read.layers["TUBE"].lineweight == 0.5
    assert read.layers["0"].lineweight is None
    assert read.unknown_layers() == ()
    assert read.kinds() == {"LINE": 1, "TEXT": 1, "DIMENSION": 1}
    [one] = dxf_dimensions.dimensions(read)
    assert one.kind is dxf_dimensions.DimensionKind.LINEAR
    assert (one.measured, one.factor, one.stated) == (914.4, 1.0, 914.4)
    assert (one.shown, one.override) == (("914.4",), "")
    drawn = dxf.lines(read.model, ("TUBE",))
    assert [gap.gap for gap in dxf_dimensions.anchor_gaps([one], drawn)] == [0.0, 0.0]
    assert dxf_dimensions.header_differences(read) == ()
    assert dxf.overlapping((*dxf.texts(read.model), *one.boxes)) == ()
    assert dxf.crossed(dxf.texts(read.model), drawn.segments) == ()


def test_dxf_dimension_off_the_tube(tmp_path: Path) -> None:
    read = read_dxf(drawing(lambda _, given: given.update(p2=(914.4, 0.5))), tmp_path)
    gaps = dxf_dimensions.anchor_gaps(dxf_dimensions.dimensions(read), dxf.lines(read.model, ("TUBE",)))
    assert [gap.gap for gap in gaps] == pytest.approx([0.0, 0.5])


def test_dxf_wrong_text_by_hand(tmp_path: Path) -> None:
    read = read_dxf(drawing(lambda _, given: given.update(text='36 1/16"')), tmp_path)
    [one] = dxf_dimensions.dimensions(read)
    assert one.override == '36 1/16"'
    assert lengths.read(one.shown[0]).mm - one.measured == pytest.approx(25.4 / 16.0)


def test_dxf_style_that_multiplies(tmp_path: Path) -> None:
    def multiply(document: Any, _: dict[str, Any]) -> None:
        document.dimstyles.get("FRAME").dxf.dimlfac = 100.0

    read = read_dxf(drawing(multiply), tmp_path)
    [one] = dxf_dimensions.dimensions(read)
    assert (one.factor, one.shown) == (100.0, ("91440",))
    assert dxf_dimensions.header_differences(read) == (("$DIMLFAC", 1.0, "FRAME", 100.0),)


def test_dxf_override_of_one_dimension(tmp_path: Path) -> None:
    read = read_dxf(drawing(lambda _, given: given.update(override={"dimlfac": 2.0})), tmp_path)
    assert [one.factor for one in dxf_dimensions.dimensions(read)] == [2.0]


def test_dxf_overlaps_crossings_and_rows(tmp_path: Path) -> None:
    document = drawing()
    space = document.modelspace()
    space.add_text("OVER", height=35.0).set_placement((150, 310))
    space.add_line((90, 310), (400, 320), dxfattribs={"layer": "TUBE"})
    space.add_linear_dim(base=(0, -104), p1=(100, 0), p2=(300, 0), dimstyle="FRAME").render()
    space.add_mtext(r"{\H2x;coded}", dxfattribs={"char_height": 35.0, "layer": "NOWHERE"})
    read = read_dxf(document, tmp_path)
    texts = dxf.texts(read.model)
    assert [(one.text, other.text) for one, other in dxf.overlapping(texts)] == [("MARK", "OVER")]
    crossed = dxf.crossed(texts, dxf.lines(read.model).segments)
    assert [box.text for box, _ in crossed] == ["MARK", "OVER"]
    assert [box.coded for box in texts] == [False, False, True]
    assert dxf_dimensions.nearest_rows(dxf_dimensions.dimensions(read)) == 4.0
    assert read.unknown_layers() == ("NOWHERE",)


def test_dxf_other_dimensions(tmp_path: Path) -> None:
    document = drawing()
    space = document.modelspace()
    space.add_radius_dim(center=(0, 200), radius=50, angle=45, dimstyle="FRAME").render()
    space.add_diameter_dim(center=(0, 300), radius=50, angle=45, dimstyle="FRAME").render()
    space.add_angular_dim_3p(base=(70, 470), center=(0, 400), p1=(100, 400), p2=(0, 500), dimstyle="FRAME").render()
    space.add_aligned_dim(p1=(0, 0), p2=(30, 40), distance=10, dimstyle="FRAME").render()
    space.add_angular_dim_2l(
        base=(580, 430), line1=((500, 400), (600, 400)), line2=((500, 400), (600, 500)), dimstyle="FRAME"
    ).render()
    found = dxf_dimensions.dimensions(read_dxf(document, tmp_path))
    assert [one.measured for one in found] == pytest.approx([914.4, 50.0, 100.0, 90.0, 50.0, 45.0])


def test_dxf_arcs(tmp_path: Path) -> None:
    document = drawing()
    space = document.modelspace()
    tube = {"layer": "TUBE"}
    space.add_lwpolyline([(0, 900), (100, 900, 0, 0, 1), (100, 1000)], close=True, dxfattribs=tube)
    space.add_arc((0, 1200), 50, 300, 60, dxfattribs=tube)
    space.add_ellipse((0, 1400), (0, 50), 0.5, dxfattribs=tube)
    drawn = dxf.lines(read_dxf(document, tmp_path).model, ("TUBE",))
    half, part = drawn.arcs
    # a bulge of 1 is half a circle, to the right of the way from the one vertex to the other
    assert (*half.centre, half.radius, half.sweep_deg) == pytest.approx((100.0, 950.0, 50.0, 180.0))
    assert half.distance((150.0, 950.0)) == pytest.approx(0.0, abs=1e-9)
    assert half.distance((50.0, 950.0)) == pytest.approx(math.hypot(50.0, 50.0))
    assert part.sweep_deg == 120.0
    assert dxf_dimensions.distance((25.0, 1400.0), drawn) < 1e-3
    assert drawn.extents() == (pytest.approx((-25.0, 0.0)), pytest.approx((914.4, 1450.0)))


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("  0\nEOF\n", "", "no EOF"),
        ("  0\nENDSEC\n", "", "never ends"),
        ("  0\nLINE\n", "zero\nLINE\n", "not a group code"),
        ("  0\nEOF\n", "  0\n", "odd number of lines"),
    ],
)
def test_dxf_broken_files(tmp_path: Path, old: str, new: str, words: str) -> None:
    read_dxf(drawing(), tmp_path)
    with pytest.raises(ValueError, match=words):
        dxf.read(changed(tmp_path / "a.dxf", tmp_path, old, new))


def test_dxf_one_handle_twice(tmp_path: Path) -> None:
    document = drawing()
    line = document.modelspace().query("LINE").first
    text = document.modelspace().query("TEXT").first
    read_dxf(document, tmp_path)
    with pytest.raises(ValueError, match=f"handle {text.dxf.handle} is given to"):
        dxf.read(
            changed(tmp_path / "a.dxf", tmp_path, f"LINE\n  5\n{line.dxf.handle}", f"LINE\n  5\n{text.dxf.handle}")
        )


def test_dxf_dimension_without_its_block(tmp_path: Path) -> None:
    read_dxf(drawing(), tmp_path)
    bad = changed(tmp_path / "a.dxf", tmp_path, "AcDbDimension\n280\n0\n  2\n*D1", "AcDbDimension\n280\n0\n  2\n*D9")
    with pytest.raises(ValueError, match="no block"):
        dxf_dimensions.dimensions(dxf.read(bad))


@pytest.mark.parametrize(
    ("text", "mm", "step"),
    [
        ('36 7/16"', (36 + 7 / 16) * 25.4, 25.4 / 16),
        ('7/16"', 7 / 16 * 25.4, 25.4 / 16),
        ("5' 3 1/2\"", 63.5 * 25.4, 12.7),
        ("5'-3\"", 63 * 25.4, 25.4),
        ("5'", 60 * 25.4, 304.8),
        ("2.5 in", 63.5, 2.54),
        ("914.4", 914.4, 0.1),
        ("914 mm", 914.0, 1.0),
        ("⌀23.4", 23.4, 0.1),
        ("R140.7", 140.7, 0.1),
    ],
)
def test_lengths(text: str, mm: float, step: float) -> None:
    read = lengths.read(text)
    assert (read.mm, read.step_mm) == pytest.approx((mm, step))
    assert lengths.read(f"({text})").reference


@pytest.mark.parametrize("text", ["", '"', "TOP", '17/16"', "3/0", "1/2 mm", "12 34", "1,5"])
def test_lengths_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"not a|millimetres with"):
        lengths.read(text)


def test_turned_boxes_that_only_seem_to_overlap() -> None:
    one = plane.turned_box((0.0, 0.0), 45.0, (0.0, 0.0), (10.0, 2.0))
    beside = plane.turned_box((3.0, 0.0), 45.0, (0.0, 0.0), (10.0, 2.0))  # 3 / sqrt 2 = 2.12 to the side
    assert not plane.overlap(one, beside)
    assert plane.overlap(one, plane.turned_box((2.5, 0.0), 45.0, (0.0, 0.0), (10.0, 2.0)))
    assert not plane.overlap(one, ((0.0, 8.0), (3.0, 8.0)))
    assert plane.overlap(one, ((0.0, 5.0), (8.0, 5.0)))
