"""DXF files as a reader of our own takes them apart, tag by tag."""

from __future__ import annotations

import shutil
import subprocess

import pytest

from tests.building import design_of, greenhouse, table
from tests.outputs.readers import dxf, dxf_dimensions, lengths
from tubeframe.drawing.drawings import Drawings
from tubeframe.output.dxf import write_dxf

DESIGNS = {
    "table": table,
    "greenhouse": greenhouse,
    "metric table": lambda: design_of("table", {"units": "mm", "tube": "tube-25x1.5"}),
    "metric greenhouse": lambda: design_of("greenhouse", {"units": "mm"}),
    "notched": lambda: design_of("table", seat="notched", length="8ft"),
    "small": lambda: design_of("greenhouse", width="4ft", length="4ft", height="5ft"),
}
LAYERS = {"TUBE", "FITTING", "PANEL", "HIDDEN", "CENTER", "DIM", "TEXT", "BALLOON", "BORDER"}
DRAWN = ("TUBE", "FITTING", "PANEL", "HIDDEN", "CENTER")


def _written(picture, path):
    with path.open("wb") as target:
        write_dxf(picture, target)
    return path


@pytest.fixture(scope="module", params=DESIGNS)
def drawn(request, tmp_path_factory):
    design = DESIGNS[request.param]()
    folder = tmp_path_factory.mktemp(request.param.replace(" ", "-"))
    return design, Drawings(design).elevations, _written(Drawings(design).elevations, folder / "elevations.dxf")


def test_units_are_millimetres_and_said_so(drawn):
    """$INSUNITS 4 is mm; the library's default would be metres."""
    file = dxf.read(drawn[2])

    assert file.number("$INSUNITS") == 4
    assert file.number("$MEASUREMENT") == 1
    assert file.number("$DIMASSOC") == 1
    assert file.version == "AC1024"


def test_layers_are_there_and_two_widths_are_two_to_one(drawn):
    file = dxf.read(drawn[2])
    widths = {name: layer.lineweight for name, layer in file.layers.items() if name in LAYERS}

    assert set(widths) == LAYERS
    assert set(widths.values()) == {0.25, 0.5}
    assert file.unknown_layers() == ()


def test_every_text_of_a_dimension_is_what_it_measures(drawn):
    """Half a step of rounding at most: 1/32 in or 0.5 mm."""
    found = dxf_dimensions.dimensions(dxf.read(drawn[2]))

    assert len(found) >= 4
    for one in found:
        shown = lengths.read(one.shown[0])
        assert abs(shown.mm - one.measured) <= shown.step_mm / 2 + 1e-6
        assert one.factor == 1.0
        assert one.stated == pytest.approx(one.measured, abs=1e-6)


def test_dimensions_hold_on_to_drawn_lines(drawn):
    file = dxf.read(drawn[2])
    gaps = dxf_dimensions.anchor_gaps(dxf_dimensions.dimensions(file), dxf.lines(file.model, DRAWN))

    assert all(gap.gap <= 0.01 for gap in gaps)


def test_the_asked_size_is_dimensioned(drawn):
    design, _, path = drawn
    measured = [one.measured for one in dxf_dimensions.dimensions(dxf.read(path))]

    for size in design.overall.size:
        assert any(abs(m - size) < 0.01 for m in measured)


def test_no_value_twice(drawn):
    found = dxf_dimensions.dimensions(dxf.read(drawn[2]))
    spans = [(round(one.angle_deg), *(round(v, 1) for p in sorted(one.anchors) for v in p)) for one in found]

    assert len(spans) == len(set(spans))


def test_no_text_covers_another(drawn):
    file = dxf.read(drawn[2])
    boxes = dxf.texts(file.model) + tuple(b for d in dxf_dimensions.dimensions(file) for b in d.boxes)

    assert dxf.overlapping(boxes) == ()


def test_rows_are_at_least_7_mm_apart_on_paper(drawn):
    _, picture, path = drawn

    assert dxf_dimensions.nearest_rows(dxf_dimensions.dimensions(dxf.read(path))) >= 7.0 * picture.scale - 1e-6


def test_header_draws_dimensions_as_the_style_does(drawn):
    """Some programs draw dimensions from the header's variables and leave the style alone."""
    assert not dxf_dimensions.header_differences(dxf.read(drawn[2]))


def test_texts_are_plain_and_large_enough(drawn):
    _, picture, path = drawn
    file = dxf.read(path)

    assert "MTEXT" not in file.kinds()
    assert all(t.height >= 2.5 * picture.scale - 1e-6 for t in dxf.texts(file.model))


def test_the_parts_list_names_every_mark_once_with_its_number(drawn):
    """Mark, quantity, part and cut stand in one row each (ISO 7573, from memory); rows are told by their baseline."""
    design, picture, path = drawn
    small = [t for t in dxf.texts(dxf.read(path).model) if t.height == pytest.approx(2.5 * picture.scale)]
    rows: dict[float, list[str]] = {}
    for text in sorted(small, key=lambda t: t.corners[0][0]):
        rows.setdefault(round(text.corners[0][1], 1), []).append(text.text)
    found = {row[0]: row for row in rows.values() if len(row) >= 3}

    for group in design.parts.groups:
        row = found[group.mark]
        assert row[1] == str(group.quantity)
        assert lengths.read(row[3]).mm == pytest.approx(group.first.cut_rounded, abs=0.5)
    for boards in design.parts.panel_groups:
        assert found[boards.mark][1] == str(boards.quantity)
    for fitting in design.fabrication.fittings:
        assert [str(fitting.quantity), f"{fitting.kind}, {fitting.tubes}"] in rows.values()


def test_layout_is_full_size(tmp_path):
    """A leg of the table is 30.7655 in between its cut ends, so is its outline."""
    design = table()
    file = dxf.read(_written(Drawings(design).layout, tmp_path / "layout.dxf"))
    lines = dxf.lines(file.model, ("TUBE",))
    tallest = max(abs(b[1] - a[1]) for a, b in lines.segments)

    assert tallest <= 30.7655 * 25.4 + 0.01
    bars = [abs(b[0] - a[0]) for a, b in dxf.lines(file.model, ("DIM",)).segments]
    assert any(b == pytest.approx(100.0, abs=1e-6) for b in bars)
    assert any(b == pytest.approx(101.6, abs=1e-6) for b in bars)


def test_layout_of_a_greenhouse_lays_every_kind_of_hoop_flat(tmp_path):
    file = dxf.read(_written(Drawings(greenhouse()).layout, tmp_path / "layout.dxf"))
    shown = [t.text for t in dxf.texts(file.model)]

    assert [t for t in shown if t.startswith("S1 ")] == ["S1 S5: 1 x T2, 1 x T3"]
    assert sum(1 for t in shown if t == "bend 6") == 6
    assert dxf.overlapping(dxf.texts(file.model)) == ()


@pytest.mark.skipif(shutil.which("ogrinfo") is None, reason="ogrinfo is not installed")
def test_another_program_reads_all_texts(drawn):
    _, picture, path = drawn
    done = subprocess.run(["ogrinfo", "-al", "-q", str(path)], capture_output=True, text=True, check=True)

    for item in picture.items:
        if hasattr(item, "text"):
            assert item.text in done.stdout
