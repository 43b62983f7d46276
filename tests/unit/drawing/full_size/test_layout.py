"""The full-size layout: true lengths, marks where clamps and bends are, readable."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from tests.building import design_of, greenhouse, table
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.full_size.drawn_flat import flat_items
from tubeframe.drawing.labels.free_places import FreePlaces
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes import Arc, Lines
from tubeframe.drawing.views.part_book import part_book
from tubeframe.drawing.views.side_views import merged
from tubeframe.geometry.units import Units, format_length

DESIGNS = {
    "table": table,
    "greenhouse": greenhouse,
    "metric": lambda: design_of("greenhouse", {"units": "mm", "tube": "tube-33.7x3"}),
    "notched": lambda: design_of("table", seat="notched", length="8ft"),
}


@pytest.fixture(scope="module", params=DESIGNS)
def drawn(request):
    design = DESIGNS[request.param]()
    return design, Drawings(design).layout


def _notes(items):
    return [i for i in items if isinstance(i, Text)]


def _segments(items, layer):
    return [
        s for i in items if isinstance(i, Drawn) and isinstance(i.shape, Lines) and i.pen is layer for s in i.chords()
    ]


def test_it_is_at_full_size(drawn):
    assert drawn[1].scale == 1


def test_every_piece_of_a_flat_part_is_named(drawn):
    design, picture = drawn
    texts = [n.text for n in _notes(picture.items)]
    flat = {m for f in design.assembly.flats for m in f.members}

    assert {p.mark for p in design.parts.pieces if p.member in flat} <= set(texts)


def test_texts_are_10_mm_high_or_20(drawn):
    assert {n.height for n in _notes(drawn[1].items)} == {10.0, 20.0}


def test_no_text_is_crossed_or_covered(drawn):
    picture = drawn[1]
    lines = FreePlaces([i for i in picture.items if not isinstance(i, Text)], 0.0)
    notes = _notes(picture.items)

    assert [n.text for n in notes if not lines.is_free(n)] == []
    free = FreePlaces([], 0.0)
    assert [n.text for n in notes if free.put([n]) is None] == []


def test_the_frame_stands_100_mm_off(drawn):
    picture = drawn[1]
    whole = box_of([i for i in picture.items if getattr(i, "pen", None) is not Pen.BORDER])
    frame = box_of([i for i in picture.items if getattr(i, "pen", None) is Pen.BORDER])

    assert [abs(a - b) for a, b in zip(whole, frame, strict=True)] == pytest.approx([100.0] * 4)


def test_stations_are_told_and_marked_across_the_tube():
    """A table's leg: the clamp's middle at 6.89 in from its end, which is 0.125 in under the tube in the foot."""
    design = table()
    leg = design.parts.piece("leg.front.left")
    (station,) = leg.stations
    items = flat_items(part_book(design), design.assembly.flats[:1])
    view_y = leg.path.point(station.from_a).z
    text = format_length(station.from_a, Units.INCH)
    ticks = [s for s in _segments(items, Pen.CENTRE) if abs(s[0][1] - view_y) < 1e-6 and abs(s[1][1] - view_y) < 1e-6]

    assert text in [n.text for n in _notes(items)]
    assert any(abs(s[0][0] - s[1][0]) > 0.922 * 25.4 for s in ticks)


def test_cut_ends_under_clamps_are_dashed():
    """A table's upper rail is hidden in its fittings at both ends: the line across is as long as it is thick."""
    design = table()
    items = flat_items(part_book(design), design.assembly.flats[:1])
    rail = design.parts.piece("rail.left")
    ends = {round(p.y, 3) for p in (rail.path.start, rail.path.end)}
    across = [
        s
        for s in _segments(items, Pen.HIDDEN)
        if abs(s[0][0] - s[1][0]) < 1e-6 and abs(math.dist(*s) - 0.922 * 25.4) < 1e-6
    ]

    assert ends <= {round(s[0][0], 3) for s in across}


def test_bends_are_true_circles_with_their_numbers():
    design = greenhouse()
    hoop = design.assembly.flats[0]
    items = flat_items(part_book(design), (hoop,))
    radius = design.parts.groups[1].first.bends[0].radius
    bows = [i for i in items if isinstance(i, Drawn) and isinstance(i.shape, Arc) and not i.shape.closed]
    half = 0.922 * 25.4 / 2.0

    assert {round(b.shape.radius, 6) for b in bows if b.pen is Pen.CENTRE} == {round(radius, 6)}
    outlines = {round(b.shape.radius, 3) for b in bows if b.pen is Pen.TUBE}
    assert {round(radius - half, 3), round(radius + half, 3)} <= outlines
    assert sorted(n.text for n in _notes(items) if n.text.startswith("bend")) == sorted(
        f"bend {k}" for k in range(1, 7) for _ in range(2)
    )


def test_equal_parts_are_drawn_once_and_counted():
    texts = [n.text for n in _notes(Drawings(greenhouse()).layout.items)]

    assert sum(t.startswith("x 2:") for t in texts) == 2
    assert [t for t in texts if t.startswith("S3")] == ["S3: 1 x T6, 1 x T7"]


def test_both_diagonals_are_drawn_and_told():
    """A table's side: legs of one length, side by side, a rectangle; its diagonals are equal."""
    design = table()
    items = flat_items(part_book(design), design.assembly.flats[:1])
    first, second = _segments(items, Pen.DIM)
    (text,) = [n.text for n in _notes(items) if n.text.startswith("both diagonals")]
    leg, other = design.parts.piece("leg.front.left"), design.parts.piece("leg.back.left")
    length = leg.path.start.distance(other.path.end)

    assert math.dist(*first) == pytest.approx(length)
    assert math.dist(*second) == pytest.approx(length)
    assert text == f"both diagonals {format_length(length, Units.INCH)}"


def test_bars_to_check_a_print_lie_both_ways(drawn):
    lengths = [(abs(b[0] - a[0]), abs(b[1] - a[1])) for a, b in _segments(drawn[1].items, Pen.DIM)]

    for bar in ((100.0, 0.0), (101.6, 0.0), (0.0, 100.0)):
        assert any(found == pytest.approx(bar) for found in lengths)


def test_drawings_side_by_side_stand_100_mm_apart():
    """Two hoops in the first row: what they take from left to right, texts and all, leaves 100 mm between."""
    items = Drawings(greenhouse()).layout.items
    titles = {n.text[:2]: n for n in _notes(items) if n.text[:3] in {"S1 ", "S2 ", "S3:"}}
    low, high = titles["S3"].at[1] + 50.0, titles["S1"].at[1] + 25.0
    boxes = [box_of([i]) for i in items if getattr(i, "pen", None) is not Pen.BORDER]
    row = merged((b[0], b[2]) for b in boxes if low < b[1] and b[3] < high)

    gaps = [b[0] - a[1] for a, b in pairwise(row)]

    assert [g for g in gaps if g > 20.0] == pytest.approx([100.0])
