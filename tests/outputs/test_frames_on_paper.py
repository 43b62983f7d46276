"""Frames that no template makes, on paper: splayed legs, two tube sizes with a rafter, a tube bent in two planes."""

from __future__ import annotations

import io

import pytest

from tests.building import design_of_text
from tests.outputs.readers import dxf, dxf_dimensions, pdf, pdf_faults
from tubeframe.drawing.drawings import Drawings
from tubeframe.output.dxf import write_dxf
from tubeframe.output.pdf import write_pdf

LEGS = ((100, -280, "leg.1.front"), (180, 280, "leg.1.back"), (1040, -280, "leg.2.front"), (1120, 280, "leg.2.back"))
SAWHORSE = (
    {"id": "beam", "path": [[0, 0, 760], [1220, 0, 760]], "ends": ["cap", "cap"]},
    *({"id": name, "path": [[x, 0, 760], [x, y, 0]]} for x, y, name in LEGS),
    {"id": "rail.front", "path": [[100, -140, 380], [1040, -140, 380]]},
    {"id": "rail.back", "path": [[180, 140, 380], [1120, 140, 380]]},
)


def _post(name, x, y, top):
    return {"id": name, "path": [[x, y, 0], [x, y, top]], "ends": ["base-flange", "cap"], "tube": "emt-1"}


LEAN_TO = (
    _post("front.left", 0, 0, 1200),
    _post("back.left", 0, 1000, 2300),
    _post("front.right", 1500, 0, 1200),
    _post("back.right", 1500, 1000, 2300),
    *({"id": f"rafter.{x}", "path": [[x, 0, 1100], [x, 1000, 2100]]} for x in (0, 1500)),
    *({"id": f"tie.{x}", "path": [[x, 0, 300], [x, 1000, 300]]} for x in (0, 1500)),
    {"id": "purlin.low", "path": [[0, 0, 600], [1500, 0, 600]], "tube": "emt-1"},
    {"id": "purlin.high", "path": [[0, 1000, 1700], [1500, 1000, 1700]], "tube": "emt-1"},
)
ARM = (
    {"id": "arm", "path": [[0, 0, 0], [0, 0, 1500], [760, 0, 1500], [760, 610, 1500]], "ends": ["foot", "joint"]},
    {"id": "post.back", "path": [[760, 610, 0], [760, 610, 1800]], "ends": ["foot", "cap"]},
    {"id": "post.front", "path": [[760, 0, 0], [760, 0, 1000]], "ends": ["foot", "cap"]},
    {"id": "post.left", "path": [[0, 610, 0], [0, 610, 1000]], "ends": ["foot", "cap"]},
    *({"id": f"side.{x}", "path": [[x, 0, 500], [x, 610, 500]]} for x in (0, 760)),
    *({"id": f"rail.{y}", "path": [[0, y, 420], [760, y, 420]]} for y in (0, 610)),
    {"id": "guy", "path": [[760, 610, 1200], [1260, 1110, 700]], "ends": ["joint", "open"]},
)
SEAT = {
    "id": "seat",
    "corners": [[-12, 60, 511.8], [772, 60, 511.8], [772, 550, 511.8], [-12, 550, 511.8]],
    "thickness": 19,
}
FRAMES = {
    "sawhorse": lambda: design_of_text(*SAWHORSE),
    "lean-to": lambda: design_of_text(*LEAN_TO, tube="emt-3/4"),
    "arm": lambda: design_of_text(*ARM, panel=[SEAT]),
}


@pytest.fixture(scope="module", params=FRAMES)
def made(request):
    design = FRAMES[request.param]()
    return design, Drawings(design)


def test_every_page_is_legible(made, tmp_path):
    with (tmp_path / "sheets.pdf").open("wb") as target:
        write_pdf(made[1].sheets, target, title="t", author="a", subject="s")
    for sheet in pdf.read(tmp_path / "sheets.pdf").sheets:
        assert not pdf_faults.outside(sheet, 10.0), sheet.number
        assert not pdf_faults.collisions(sheet), sheet.number
        assert not pdf_faults.struck(sheet), sheet.number


@pytest.mark.parametrize("kind", ["elevations", "layout"])
def test_drawings_are_read_and_dimensions_are_what_they_measure(made, tmp_path, kind):
    path = tmp_path / "x.dxf"
    with path.open("wb") as target:
        write_dxf(getattr(made[1], kind), target)
    file = dxf.read(path)

    assert file.unknown_layers() == ()
    for one in dxf_dimensions.dimensions(file):
        assert one.measured == pytest.approx(one.stated)
        assert abs(float(one.override) - one.measured) <= 0.5


def test_the_same_frame_gives_the_same_bytes(made):
    design, drawings = made
    again = Drawings(design)
    written = []
    for one in (drawings, again):
        files = [io.BytesIO() for _ in range(3)]
        write_dxf(one.elevations, files[0])
        write_dxf(one.layout, files[1])
        write_pdf(one.sheets, files[2], title="t", author="a", subject="s")
        written.append([f.getvalue() for f in files])

    assert written[0] == written[1]
