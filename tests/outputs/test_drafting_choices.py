"""Choices of how drawings are made: projection, hidden lines, release of DXF; read back by a reader of our own."""

from __future__ import annotations

import math
import shutil
import subprocess

import pytest

from tests.building import design_of
from tests.outputs.readers import dxf, dxf_dimensions
from tubeframe.catalog.drafting import DxfRelease
from tubeframe.drawing.drawings import Drawings
from tubeframe.output.dxf import write_dxf


def _file(tmp_path, template, shop=None, make="elevations", **values):
    design = design_of(template, shop or {}, **values)
    path = tmp_path / "drawing.dxf"
    with path.open("wb") as target:
        write_dxf(getattr(Drawings(design), make), target, design.workshop.drafting.dxf)
    return dxf.read(path), path


def _title(file, word):
    return next(t for t in dxf.texts(file.model) if t.text == word).corners[0]


@pytest.mark.parametrize(
    ("shop", "angle"),
    [
        ({}, "third"),
        ({"units": "mm"}, "first"),
        ({"projection": "first"}, "first"),
        ({"units": "mm", "projection": "third"}, "third"),
    ],
)
def test_views_stand_as_the_projection_has_them(tmp_path, shop, angle):
    """Third angle: right side right of the front, plan above; first angle: left, and below (ISO 5456-2, memory)."""
    file, _ = _file(tmp_path, "table", shop)
    front, side, plan = (_title(file, word) for word in ("FRONT", "RIGHT SIDE", "PLAN"))

    assert (side[0] > front[0]) is (angle == "third")
    assert (plan[1] > front[1]) is (angle == "third")
    assert f"{angle} angle" in [t.text for t in dxf.texts(file.model)]


@pytest.mark.parametrize(
    ("template", "shop", "some"),
    [
        ("table", {}, True),
        ("table", {"hidden_lines": "left-out"}, False),
        ("greenhouse", {}, False),
        ("greenhouse", {"hidden_lines": "shown"}, True),
    ],
)
def test_hidden_tubes_are_dashed_where_they_are_wanted(tmp_path, template, shop, some):
    file, _ = _file(tmp_path, template, shop)
    hidden = [e for e in file.model if e.layer == "HIDDEN"]

    assert bool(hidden) is some


def test_rails_under_a_table_top_are_seen_in_the_plan(tmp_path):
    """The long rails, under the top, are dashed over their cut length: 57 in less two corner setbacks."""
    file, _ = _file(tmp_path, "table", length="57in", width="27in", height="33in")
    lengths = [
        abs(e.number(11) - e.number(10)) / 25.4
        for e in file.of("LINE", ["HIDDEN"])
        if abs(e.number(21) - e.number(20)) < 1e-6
    ]

    assert any(abs(length - 55.031) < 0.002 for length in lengths)


def test_oblique_circles_are_true_ellipses(tmp_path):
    """A clamp at 45 degrees to the view: its ends are ellipses, minor axis 1 / sqrt 2 of the major."""
    file, _ = _file(tmp_path, "greenhouse")
    ratios = {round(e.number(40), 4) for e in file.of("ELLIPSE")}

    assert ratios
    assert all(0.0 < r <= 1.0 for r in ratios)
    assert all(math.hypot(e.number(11), e.number(21)) > 1.0 for e in file.of("ELLIPSE"))


@pytest.mark.parametrize("make", ["elevations", "layout"])
@pytest.mark.parametrize("template", ["table", "greenhouse"])
def test_r12_has_only_what_r12_knows(tmp_path, template, make):
    """AC1009 has no ELLIPSE, SPLINE, HATCH, LWPOLYLINE or MTEXT (DXF reference of release 12, from memory)."""
    file, path = _file(tmp_path, template, {"dxf": "r12"}, make)

    assert file.version == "AC1009"
    assert not set(file.kinds()) & {"ELLIPSE", "SPLINE", "HATCH", "LWPOLYLINE", "MTEXT"}
    assert path.read_bytes().isascii()


def test_r12_shows_the_same_dimensions(tmp_path):
    old, _ = _file(tmp_path, "table", {"dxf": "r12"})
    new, _ = _file(tmp_path, "table")
    values = [sorted(d.shown for d in dxf_dimensions.dimensions(f)) for f in (old, new)]

    assert values[0] == values[1] != []


@pytest.mark.skipif(shutil.which("ogrinfo") is None, reason="needs gdal-bin")
def test_another_program_reads_r12(tmp_path):
    _, path = _file(tmp_path, "greenhouse", {"dxf": "r12"})
    done = subprocess.run(["ogrinfo", "-al", "-q", str(path)], capture_output=True, text=True, check=True)

    assert "RIGHT SIDE" in done.stdout
    assert "warning" not in done.stderr.lower()


def test_the_release_is_told_by_name():
    assert [r.value for r in DxfRelease] == ["r2010", "r12"]
