"""Pages that say whether a frame holds."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest

from tests.building import design_of, design_of_text
from tests.outputs.readers import pdf, pdf_faults
from tubeframe.catalog.conditions import Conditions
from tubeframe.design import with_verdicts
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.sheets.moved_frame import Governing, drawn_factor, moved_frame
from tubeframe.geometry.units import MPH, POUND_N, PSF
from tubeframe.geometry.vector import Vec
from tubeframe.output.pdf import write_pdf
from tubeframe.structure.shape import Look, MovedTube, Shape
from tubeframe.structure.verdict import Outcome

STORM = Conditions(load=100.0 * POUND_N, wind=60.0 * MPH, snow=10.0 * PSF, anchor=200.0 * POUND_N)
LOOSE = (
    {"id": "left", "path": [[0, 0, 0], [0, 0, 760]]},
    {"id": "right", "path": [[1000, 0, 0], [1000, 0, 760]]},
    {"id": "rail", "path": [[0, 0, 500], [1000, 0, 500]]},
)


@cache
def checked(name):
    if name == "folds":
        return with_verdicts(design_of_text(*LOOSE), Conditions())
    conditions = Conditions(load=200.0 * POUND_N) if name == "table" else STORM
    return with_verdicts(design_of(name), conditions)


def pages(design):
    return [s for s in Drawings(design).sheets if "will it hold" in s.title]


def words(sheets):
    return " ".join(i.text for s in sheets for i in s.items if isinstance(i, Text))


@pytest.mark.parametrize("name", ["table", "greenhouse", "folds"])
def test_every_page_is_legible(name, tmp_path):
    with (tmp_path / "sheets.pdf").open("wb") as target:
        write_pdf(pages(checked(name)), target, title="t", author="a", subject="s")
    for sheet in pdf.read(tmp_path / "sheets.pdf").sheets:
        assert not pdf_faults.outside(sheet, 10.0), sheet.number
        assert not pdf_faults.collisions(sheet), sheet.number
        assert not pdf_faults.struck(sheet), sheet.number


@pytest.mark.parametrize("name", ["table", "greenhouse"])
def test_every_verdict_stands_there_with_what_governs_and_the_note(name):
    design = checked(name)
    said = words(pages(design))
    marks = {str(p.id): g.mark for g in design.parts.groups for p in g.pieces}

    assert sum(said.count(f" {o.value} ") for o in Outcome) >= len(design.verdicts)
    assert all(w in said for v in design.verdicts for w in v.where if w.startswith("J"))
    assert all(marks[w] in said for v in design.verdicts for w in v.where if w in marks)
    assert "not a rating" in said
    assert "Rests on: Young's modulus" in said


def test_a_frame_that_folds_says_so_first_and_shows_how():
    said = words(pages(checked("folds")))

    assert "IT FOLDS: do not put anything on it" in said
    assert "It folds like this" in said


def test_without_verdicts_there_is_no_page():
    assert not pages(design_of("table"))


def moved(look, shift):
    """A post of 1000 mm whose top goes aside [mm]."""
    tube = MovedTube(
        tube="post",
        places=(Vec(0, 0, 0), Vec(0, 0, 500), Vec(0, 0, 1000)),
        shifts=tuple(shift * k for k in (0, 0.5, 1)),
    )
    return Shape(look=look, case="push along x", force=100.0, tubes=(tube,))


@pytest.mark.parametrize(("aside", "factor"), [(0.1, 500.0), (1.0, 50.0), (2.0, 20.0), (7.0, 5.0), (400.0, 1.0)])
def test_it_is_drawn_a_round_number_of_times_as_far(aside, factor):
    """About 6 % of the frame's size: 60 mm of 1000."""
    assert drawn_factor(moved(Look.PUSHED, Vec(aside, 0, 0))) == pytest.approx(factor)


def test_the_drawn_top_is_off_by_the_told_factor():
    shape = moved(Look.PUSHED, Vec(0.0, 0.0, 2.0))
    rest, through = (
        next(i for i in moved_frame(shape, (), (0, 0, 90, 80)) if isinstance(i, Drawn) and i.pen is pen)
        for pen in (Pen.HIDDEN, Pen.TUBE)
    )
    tops = [max(p[1] for s in d.shape.segments for p in s) for d in (rest, through)]
    feet = [min(p[1] for s in d.shape.segments for p in s) for d in (rest, through)]
    scale = (tops[0] - feet[0]) / 1000.0

    assert feet[0] == pytest.approx(feet[1])
    assert (tops[1] - tops[0]) / scale == pytest.approx(2.0 * drawn_factor(shape))


def test_what_governs_is_drawn_wide_and_named():
    shape = moved(Look.LOADED, Vec(3.0, 0.0, 0.0))
    named = [Governing(text="T1: strength", tube="post"), Governing(text="J1: slip", at=Vec(0, 0, 500))]
    items = moved_frame(shape, named, (0, 0, 90, 80))

    assert {i.text for i in items if isinstance(i, Text)} == {"T1: strength", "J1: slip"}
    assert sum(isinstance(i, Drawn) and i.pen is Pen.WIDE for i in items) == 2


def test_a_frame_that_does_not_move_is_drawn_as_it_is():
    still = moved(Look.LOADED, Vec(0.0, 0.0, 0.0))

    assert drawn_factor(still) == 1.0
    assert math.isfinite(drawn_factor(replace(still, look=Look.FOLDING)))
