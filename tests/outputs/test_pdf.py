"""The shop sheets as a PDF reader sees them that did not write them."""

from __future__ import annotations

import re

import pytest

from tests.building import design_of, greenhouse, table
from tests.outputs.readers import pdf, pdf_faults
from tubeframe.drawing.drawings import Drawings
from tubeframe.output.pdf import write_pdf
from tubeframe.words.steps import told_steps

DESIGNS = {
    "table": table,
    "greenhouse": greenhouse,
    "metric": lambda: design_of("greenhouse", {"units": "mm", "paper": "a4"}, length="6m"),
    "large paper": lambda: design_of("table", {"paper": "a3", "units": "mm"}),
}
SIZES = {"letter": (215.9, 279.4), "a4": (210.0, 297.0), "a3": (420.0, 297.0)}


@pytest.fixture(scope="module", params=DESIGNS)
def printed(request, tmp_path_factory):
    design = DESIGNS[request.param]()
    path = tmp_path_factory.mktemp(request.param.replace(" ", "-")) / "sheets.pdf"
    with path.open("wb") as target:
        write_pdf(Drawings(design).sheets, target, title="sheets", author="tubeframe", subject="test")
    return design, path, pdf.read(path)


def test_pages_have_the_papers_size_and_are_numbered(printed):
    design, _, document = printed
    total = len(document.sheets)
    for number, sheet in enumerate(document.sheets, start=1):
        assert sorted((sheet.width, sheet.height)) == pytest.approx(sorted(SIZES[design.workshop.paper]), abs=0.1)
        assert f"SHEET {number}/{total}" in sheet.text


def test_nothing_is_outside_the_margin(printed):
    for sheet in printed[2].sheets:
        assert not pdf_faults.outside(sheet, 10.0), sheet.number


def test_no_letter_covers_another(printed):
    for sheet in printed[2].sheets:
        assert not pdf_faults.collisions(sheet), sheet.number


def test_capitals_are_tall_enough_and_lines_wide_enough(printed):
    for sheet in printed[2].sheets:
        assert min(g.cap_height for g in sheet.glyphs) >= 2.5
        assert min((s.width for s in sheet.strokes if s.width > 0), default=1.0) >= 0.18 - 0.005


def test_fonts_are_embedded_outlines(printed):
    _, path, document = printed

    assert document.fonts
    assert not pdf_faults.complaints(path)


def test_every_section_is_there(printed):
    design, _, document = printed
    text = "\n".join(s.text for s in document.sheets)

    for words in (
        "cover",
        "buying list",
        "cut plan",
        "marking",
        "elevations",
        "joints",
        "steps",
        "Calculated, not tested",
    ):
        assert words in text
    assert ("bend sheet" in text) == bool(design.fabrication.bend_sheets)
    assert all(re.search(rf"\b{g.mark}\b", text) for g in design.parts.groups)
    assert re.search(r"SCALE 1:[1-9]\d*\b", text)


def test_a_caution_stands_before_its_step(printed):
    design, _, document = printed
    text = " ".join(w for s in document.sheets for w in s.text.split())
    for step in told_steps(design):
        title = " ".join(f"{step.number} {step.title}".split())
        for caution in step.cautions:
            words = " ".join(caution.text.split()[:5])
            assert 0 <= text.rfind(words, 0, text.index(title)) < text.index(title)


def test_stations_are_printed_from_end_a(printed):
    from tubeframe.geometry.units import format_length

    design, _, document = printed
    text = " ".join(s.text for s in document.sheets if "marking" in s.text)
    for group in design.parts.groups:
        for station in group.first.stations:
            rough = group.first.allowance_a if group.first.bends else 0.0  # bent tubes are marked on the rough stick
            assert format_length(rough + station.from_a, design.workshop.units) in text


def test_steps_add_every_part_once(printed):
    design = printed[0]
    steps = told_steps(design)

    assert sorted(t for s in steps for t in s.tubes) == sorted(p.id for p in design.parts.pieces)
    assert sorted(j for s in steps for j in s.joints) == sorted(j.id for j in design.jointed.joints)
    assert sorted(p for s in steps for p in s.panels) == sorted(p.id for p in design.frame.panels)


def test_the_cover_tells_every_basis(printed):
    """centre to centre = outside - D, clear = outside - 2 D."""
    from tubeframe.geometry.units import format_length

    design, _, document = printed
    cover = " ".join(document.sheets[0].text.split())
    outside = design.workshop.catalog.tube(design.parts.pieces[0].size).outside
    for value in design.sizes[:2]:
        for basis in (value, value - outside, value - 2 * outside):
            assert format_length(basis, design.workshop.units) in cover


def test_the_cover_is_one_page(printed):
    sections = [s.text.splitlines()[0] for s in printed[2].sheets]

    assert sum(": cover" in s for s in sections) == 1
