"""The drawn sticks."""

from __future__ import annotations

import pytest

from tests.building import design_of
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import Fill
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.cut_page import cut_page
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.sheets.stick_bar import stick_bar
from tubeframe.drawing.views.part_book import part_book
from tubeframe.fabrication.cutting.plan import Cut, Stick
from tubeframe.geometry.units import INCH_MM, Units, format_number
from tubeframe.words.cautions import all_cautions
from tubeframe.words.cut_plan import shared_names

CAR = {"carry_length": "8 ft", "saw": {"kerf": "1/32 in"}}


def cut_pages(design):
    """The section alone, on pages of its own."""
    flow = Flow((215.9, 279.4), Running(title="t", units="u", foot="f", maker="m"))
    cut_page(flow, design, part_book(design), all_cautions(design.frame))
    return flow.sheets()


def areas_of(page):
    return [i for i in page.items if isinstance(i, Drawn) and isinstance(i.shape, Area)]


def texts_of(page):
    return [i.text for i in page.items if isinstance(i, Text)]


def stick(*lengths, stock=120.0, kerf=0.0, **more):
    """A stick of so many inches with pieces of so many inches."""
    cuts = tuple(Cut(mark=f"T{n}", length=length * INCH_MM) for n, length in enumerate(lengths, start=1))
    left = stock - sum(lengths) - kerf * len(lengths)
    return Stick(
        tube="emt-3/4",
        stock_length=stock * INCH_MM,
        usable=stock * INCH_MM,
        on_hand=False,
        price=None,
        cuts=cuts,
        kerf=kerf * INCH_MM,
        offcut=left * INCH_MM,
        **more,
    )


@pytest.mark.parametrize("kerf", ["1/16 in", "1/2 in"])
def test_saw_cuts_are_drawn_as_wide_as_they_are(kerf):
    """Left edges of the pieces in the first stick: each after the pieces before it and one kerf a piece."""
    design = design_of("table", {"saw": {"kerf": kerf}})
    (page,) = cut_pages(design)
    areas = areas_of(page)
    first = next(n for n, a in enumerate(areas) if a.fill is Fill.LIGHT and a.shape.corners[0][0] == 20.0 and n)
    stick = design.fabrication.plan.sticks[0]
    lefts = [a.shape.corners[0][0] for a in areas[first + 1 : first + 1 + len(stick.cuts)]]
    bar = areas[first].shape.corners
    scale = (bar[1][0] - bar[0][0]) / stick.stock_length

    expected, at = [], 0.0
    for cut in stick.cuts:
        expected.append(20.0 + at * scale)
        at += cut.length + stick.kerf
    assert len(stick.cuts) > 1
    assert lefts == pytest.approx(expected)


@pytest.mark.parametrize("template", ["table", "greenhouse", "shelf"])
def test_there_is_a_box_to_tick_for_every_stick(template):
    """Squares without a fill, as many as sticks are cut; each kind of cutting is drawn once."""
    design = design_of(template)
    boxes, bars = 0, 0
    for page in cut_pages(design):
        for area in areas_of(page):
            (left, low), (right, _), (_, high) = area.shape.corners[:3]
            boxes += area.fill is None and right - left == pytest.approx(high - low)
            bars += area.fill is Fill.LIGHT and high - low < 8.0
    sticks = design.fabrication.plan.sticks
    names = shared_names(design.fabrication.bend_sheets)

    assert boxes == len(sticks)
    cuts = {(s.stock_length, s.on_hand, tuple((names.get(c.mark, c.mark), c.length) for c in s.cuts)) for s in sticks}
    assert bars == len(cuts)


def test_running_places_are_those_of_a_tape_laid_along_the_stick():
    """52, 32 1/4 and 24 in with a kerf of 1/32: by hand 52, 84 9/32 and 108 5/16."""
    bar = stick_bar(stick(52.0, 32.25, 24.0, kerf=1 / 32), 0.06, 184.0, Units.INCH, set())
    texts = [i.text for i in bar.items if isinstance(i, Text)]

    assert texts[:3] == ["T1 52", "T2 32 1/4", "T3 24"]
    assert texts[-3:] == ["52", "84 9/32", "108 5/16"]
    assert bar.positions_told


def test_places_begin_anew_behind_a_cut_of_the_shop():
    """Cut at 60 in: the second half's pieces end at 40 and at 50 from its own end."""
    cut = stick(55.0, 40.0, 10.0, shop_cuts=(60.0 * INCH_MM,), cuts_of_parts=(1, 2))
    bar = stick_bar(cut, 184.0 / cut.stock_length, 184.0, Units.INCH, set())
    texts = [i.text for i in bar.items if isinstance(i, Text)]
    whites = [i.shape.corners[0][0] for i in bar.items if isinstance(i, Drawn) and i.fill is Fill.WHITE]

    assert texts[-3:] == ["55", "40", "50"]
    assert [x / 184.0 * 120.0 for x in whites] == pytest.approx([0.0, 60.0, 100.0])


def test_what_is_too_short_to_write_in_is_told_beside():
    bar = stick_bar(stick(*([1.0] * 60)), 184.0 / 3048.0, 184.0, Units.INCH, set())

    assert len(bar.unwritten) == 60
    assert not bar.positions_told
    assert bar.offcut_told


def test_what_the_shop_cuts_and_the_saw_takes_is_said():
    words = " ".join(t for p in cut_pages(design_of("table", CAR)) for t in texts_of(p))

    assert "cut in the shop at" in words
    assert "kerf of 1/32" in words


def test_a_short_piece_has_its_mark_over_its_length():
    """11 3/4 in of 120 on 184 mm are 18 mm: too narrow for both in a row."""
    bar = stick_bar(stick(100.0, 11.75), 184.0 / 3048.0, 184.0, Units.INCH, {"T2"})
    mark, length = (next(i for i in bar.items if isinstance(i, Text) and i.text == t) for t in ("T2*", "11 3/4"))

    assert mark.at[0] == length.at[0] == pytest.approx((100.0 + 11.75 / 2.0) / 120.0 * 184.0)
    assert mark.at[1] > length.at[1] + length.height
    assert not bar.unwritten


def test_no_kerf_is_said():
    (page,) = cut_pages(design_of("table"))

    assert any("kerf of 0" in t for t in texts_of(page))


def test_pieces_bent_alike_are_cut_as_one_with_a_star_and_their_rough_length():
    """The halves of a greenhouse's hoops differ in the places of their clamps only."""
    design = design_of("greenhouse")
    marks = [s.mark for s in design.fabrication.bend_sheets]
    words = [t for p in cut_pages(design) for t in texts_of(p)]
    rough = format_number(design.fabrication.bend_sheets[0].rough_length, Units.INCH)

    assert len(marks) > 2
    assert words.count(f"{marks[0]}-{marks[-1]}* {rough}") == 1
    assert not any(t.startswith(f"{marks[0]}* ") for t in words)


def test_an_entry_is_low_enough_for_a_dozen_on_a_page():
    """About 14 mm each: the kinds of pieces of a greenhouse stand on one page under the cautions."""
    assert len(cut_pages(design_of("greenhouse"))) == 1


def test_a_stick_is_told_with_what_is_left():
    (page,) = cut_pages(design_of("table"))

    assert any("left " in t.text for t in page.items if isinstance(t, Text))
