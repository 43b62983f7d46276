"""Parting what lies flat: at joints or between them, with marks that meet again."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace

import pytest

from tests.building import design_of, greenhouse, table, words_of
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.full_size.cut_places import CutPlace, crossings, cut_lines, cut_places
from tubeframe.drawing.full_size.drawn_flat import flat_of
from tubeframe.drawing.full_size.marking_strips import strip_of
from tubeframe.drawing.full_size.parting import parted
from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes import Arc, circle
from tubeframe.drawing.shapes.plane import QUARTER_TURN, Axis, size_of
from tubeframe.drawing.views.part_book import part_book
from tubeframe.geometry.units import Units

ROOM = (1179.2, 2398.4)
"""A table of 4 by 8 ft less 20 mm all round."""


def test_a_strip_is_parted_at_a_clamp_where_there_is_one():
    """The greenhouse's longest tube, 2983 mm, has a clamp at 36 15/16 in: parts of 938 and 2045 mm."""
    design = greenhouse()
    group = design.parts.groups[0]
    strip = strip_of(part_book(design), group)
    places = cut_places(strip, 0, 0.0, group.first.cut_length)
    found = cut_lines(places, 2200.0)

    assert found is not None
    assert found.faults == 0
    assert [any(abs(s.from_a - p) < 1e-6 for s in group.first.stations) for p in found.places] == [True]


def test_a_tube_without_clamps_is_parted_in_its_middle():
    design = table()
    group = design.parts.groups[0]
    found = cut_lines(cut_places(strip_of(part_book(design), group), 0, 0.0, group.first.cut_length), 800.0)

    assert not group.first.stations
    assert found is not None
    assert found.places == pytest.approx((group.first.cut_length / 2.0,))


def test_faults_weigh_more_than_a_part_more_and_cost_least():
    places = (CutPlace(at=0.0), CutPlace(at=40.0), CutPlace(at=50.0, faults=1), CutPlace(at=70.0), CutPlace(at=100.0))

    assert cut_lines(places, 60.0).places == (40.0,)
    assert cut_lines(places, 55.0).places == (40.0, 70.0)
    assert cut_lines((*places[:3], places[4]), 55.0).places == (50.0,)
    assert cut_lines(places, 20.0) is None


def test_no_bend_is_cut_and_no_line_runs_along_a_tube():
    for design in (greenhouse(), design_of("greenhouse", width="10ft", height="8ft")):
        flat = flat_of(part_book(design), design.assembly.flats[:1])
        left, _, right, _ = box_of(flat.lines)
        found = cut_lines(cut_places(flat, 0, left, right), 1000.0)
        assert found is not None
        assert found.faults == 0
        for place in found.places:
            for crossing in crossings(flat, 0, place):
                piece = crossing.tube.piece
                assert flat.view.project(piece.path.point(crossing.at))[0] == pytest.approx(place)
                for b in piece.bends:
                    assert not b.start_from_a < crossing.at < b.start_from_a + b.radius * math.radians(b.angle)


def test_a_bend_is_crossed_where_it_is():
    """Every crossing of many lines lies on its line, bends too."""
    design = greenhouse()
    flat = flat_of(part_book(design), design.assembly.flats[:1])
    left, bottom, right, top = box_of(flat.lines)
    count = 0
    for axis, low, high in ((0, left, right), (1, bottom, top)):
        for k in range(1, 40):
            place = low + (high - low) * k / 40.0
            for c in crossings(flat, axis, place):
                x = flat.view.project(c.tube.piece.path.point(c.at))
                assert (x[axis], x[1 - axis]) == pytest.approx((place, c.along), abs=1e-6)
                count += 1
    assert count > 78


def test_parts_fit_and_their_crosses_fall_on_each_other():
    """Drawn in one plane, the crosses of one name have the same middle; their lines along the tube are in line."""
    design = greenhouse()
    found = parted(flat_of(part_book(design), design.assembly.flats[:1]), ROOM, Units.INCH, 0)
    assert found is not None
    lines = defaultdict(list)
    for drawing in found.drawings:
        assert all(a <= b for a, b in zip(sorted(size_of(box_of(drawing))), sorted(ROOM), strict=True))
        marks = [i for i in drawing if isinstance(i, Drawn) and i.pen is Pen.DIM]
        for item in marks:
            across, along = item.chords()
            middle = tuple(round((a + b) / 2.0, 3) for a, b in zip(*across, strict=True))
            lines[middle].append(math.atan2(along[1][1] - along[0][1], along[1][0] - along[0][0]))
    assert found.lines == len(found.drawings) - 1 == 2
    for one, other in lines.values():
        assert abs(one - other) == pytest.approx(math.pi)


def test_what_fits_is_drawn_whole():
    design = table()
    found = parted(flat_of(part_book(design), design.assembly.flats[:1]), ROOM, Units.INCH, 0)

    assert found is not None
    assert (len(found.drawings), found.lines) == (1, 0)


def test_what_no_table_takes_is_told_and_drawn_beside():
    """A workshop file refuses so small a table; the drawing does not rely on it."""

    design = table()
    small = replace(design, workshop=replace(design.workshop, layout_table=(150.0, 150.0)))
    (finding,) = [f for f in Drawings(small, tells_layout=True).design.findings if f.code == "L-table"]
    laid = Drawings(small).laid

    assert laid is not None
    assert "S1 S2, the strip of T1" in words_of(finding).message
    assert len(laid.drawings) == len(laid.left_over) == 5
    assert Drawings(design, tells_layout=True).design is design


ITEMS = (
    strokes(Pen.TUBE, (((0.0, 0.0), (100.0, 10.0)),)),
    Drawn(shape=circle((30.0, 5.0), 4.0), pen=Pen.TUBE),
    Drawn(shape=Arc(centre=(0.0, 5.0), radius=20.0, start_deg=300.0, end_deg=370.0), pen=Pen.TUBE),
    Text(at=(5.0, 7.0), text="T1", height=10.0, angle_deg=30.0),
    Dimension(
        axis=Axis.HORIZONTAL, start=(0.0, 0.0), end=(90.0, 4.0), line_at=30.0, text="90", text_along=20.0, scale=1
    ),
    Dimension(
        axis=Axis.VERTICAL, start=(0.0, 0.0), end=(4.0, 90.0), line_at=-30.0, text="90", text_along=20.0, scale=1
    ),
)


@pytest.mark.parametrize("item", ITEMS[:4])
def test_turned_by_90_degrees_a_box_is_turned(item):
    left, bottom, right, top = box_of([item])

    assert box_of([item.placed(QUARTER_TURN)]) == pytest.approx((-top, left, -bottom, right))


@pytest.mark.parametrize("item", ITEMS)
def test_four_turns_bring_all_back(item):
    back = item.placed(QUARTER_TURN).placed(QUARTER_TURN).placed(QUARTER_TURN).placed(QUARTER_TURN)

    assert box_of([back]) == pytest.approx(box_of([item]))
    assert item.placed(QUARTER_TURN) != item
