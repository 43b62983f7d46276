"""Three views on a sheet: in their places, as large as they fit, every mark once, nothing over anything else."""

from __future__ import annotations

from itertools import combinations

import pytest

from tests.building import design_of, greenhouse, table
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.elevations.elevation import marks_by_view
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.dimension import Dimension
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import box_of
from tubeframe.drawing.shapes import Arc, Lines
from tubeframe.drawing.shapes.plane import size_of

DESIGNS = {
    "table": table,
    "greenhouse": greenhouse,
    "metric table": lambda: design_of("table", {"units": "mm", "tube": "tube-25x1.5"}),
    "metric greenhouse": lambda: design_of("greenhouse", {"units": "mm"}),
    "small": lambda: design_of("greenhouse", width="4ft", length="4ft", height="5ft"),
    "huge": lambda: design_of("greenhouse", width="12ft", length="40ft", height="9ft"),
}
SCALES = {"table": 10, "greenhouse": 48, "metric table": 20, "metric greenhouse": 50, "small": 20, "huge": 100}


@pytest.fixture(scope="module", params=DESIGNS)
def drawn(request):
    design = DESIGNS[request.param]()
    return request.param, design, Drawings(design).elevations


def _notes(picture, *layers):
    return [i for i in picture.items if isinstance(i, Text) and i.pen in layers]


def _shapes(picture, kind, *pens):
    return [i.shape for i in picture.items if isinstance(i, Drawn) and isinstance(i.shape, kind) and i.pen in pens]


def _titles(picture):
    return {n.text: n for n in _notes(picture, Pen.TEXT) if n.text in {v.title for v in Named}}


def _bounds(note):
    xs, ys = zip(*note.corners, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def test_the_scale_is_the_largest_that_fits(drawn):
    name, _, picture = drawn

    assert picture.scale == SCALES[name]


def test_everything_is_within_the_frame(drawn):
    _, _, picture = drawn
    frame = box_of([i for i in picture.items if getattr(i, "pen", None) is Pen.BORDER])
    whole = box_of(picture.items)

    assert whole == pytest.approx(frame)
    paper = (401.8, 259.4) if picture.units == "in" else (390.0, 277.0)
    assert tuple(v / picture.scale for v in size_of(frame)) == pytest.approx(paper)


def test_views_stand_where_their_projection_puts_them(drawn):
    """Third angle for inches: plan above, right side to the right. First angle for mm: below, and to the left."""
    _, _, picture = drawn
    at = {title: n.at for title, n in _titles(picture).items()}
    sign = 1.0 if picture.units == "in" else -1.0

    assert sign * (at["PLAN"][1] - at["FRONT"][1]) > 0.0
    assert sign * (at["RIGHT SIDE"][0] - at["FRONT"][0]) > 0.0
    assert at["PLAN"][0] == pytest.approx(at["FRONT"][0])


def test_the_symbol_agrees_with_the_views(drawn):
    """ISO 5456-2, from memory: the circles stand at the cone's small end in third angle, at its large end in first."""
    _, _, picture = drawn
    rings = _shapes(picture, Arc, Pen.BORDER)
    cone = [i for i in _shapes(picture, Lines, Pen.BORDER) if len(i.segments) == 4][-1]
    ends = sorted((a[0], abs(a[1] - b[1])) for a, b in cone.segments if a[0] == b[0])
    small = min(ends, key=lambda e: e[1])[0]
    large = max(ends, key=lambda e: e[1])[0]
    nearer = min((small, large), key=lambda x: abs(x - rings[0].centre[0]))

    assert len(rings) == 2
    assert nearer == (small if picture.units == "in" else large)


def test_every_mark_has_one_balloon_or_is_said_to_be_hidden(drawn):
    _, design, picture = drawn
    marks = [g.mark for g in design.parts.groups] + [g.mark for g in design.parts.panel_groups]
    told = "Hidden in all views: "
    hidden = [
        m for n in _notes(picture, Pen.TEXT) if n.text.startswith(told) for m in n.text[len(told) : -1].split(", ")
    ]

    assert sorted([*hidden, *(n.text for n in _notes(picture, Pen.BALLOON))]) == sorted(marks)
    assert len(hidden) <= len(marks) / 4


def test_leaders_end_in_dots_and_do_not_cross(drawn):
    _, _, picture = drawn
    leaders = [s for i in _shapes(picture, Lines, Pen.BALLOON) for s in i.segments]
    dots = {i.shape.centre for i in picture.items if getattr(i, "fill", None)}

    def side(a, b, p):
        return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

    assert {end for _, end in leaders} == dots
    assert not any(
        side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0
        for (a, b), (c, d) in combinations(leaders, 2)
    )


def test_balloons_are_10_mm_and_stand_outside_the_views(drawn):
    _, _, picture = drawn
    rings = [i for i in _shapes(picture, Arc, Pen.BALLOON) if i.radius > picture.scale]
    lines = _shapes(picture, Lines, Pen.TUBE, Pen.PANEL, Pen.FITTING)

    assert {r.radius for r in rings} == {5.0 * picture.scale}
    for ring in rings:
        for item in lines:
            for a, b in item.segments:
                assert max(a[0], b[0]) < ring.centre[0] - ring.radius or (
                    min(a[0], b[0]) > ring.centre[0] + ring.radius
                    or max(a[1], b[1]) < ring.centre[1] - ring.radius
                    or min(a[1], b[1]) > ring.centre[1] + ring.radius
                )


def test_no_text_covers_another(drawn):
    _, _, picture = drawn
    notes = [i for i in picture.items if isinstance(i, Text)]
    notes += [i.value for i in picture.items if isinstance(i, Dimension)]
    boxes = [_bounds(n) for n in notes]

    for (i, a), (j, b) in combinations(enumerate(boxes), 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, (notes[i].text, notes[j].text)


def test_nothing_is_left_out(drawn):
    _, _, picture = drawn

    assert [n.text for n in _notes(picture, Pen.TEXT) if n.text.startswith("not drawn")] == []


def test_view_names_are_5_mm_high(drawn):
    _, _, picture = drawn

    assert {n.height for n in _titles(picture).values()} == {5.0 * picture.scale}


def test_the_title_block_says_where_it_came_from():
    texts = [n.text for n in _notes(Drawings(table()).elevations, Pen.TEXT)]

    assert {"scale", "owner", "date of issue", "sheet", "creator", "dimensions in", "identification"} <= set(texts)
    assert "table, 57in x 27in x 33in" in texts
    assert any(t.startswith("Drawn from table: length 57in, width 27in, height 33in") for t in texts)
    assert any(t.startswith("Calculated, not tested.") for t in texts)
    assert "Tubes, outside diameter: emt-3/4: 0.922 in." in texts


def test_a_title_too_long_becomes_smaller():
    design = design_of("table", length="57.0625in", width="27.0625in", height="33.0625in")
    picture = Drawings(design).elevations
    (title,) = [n for n in _notes(picture, Pen.TEXT) if n.text.startswith("table, ")]

    assert _bounds(title)[2] <= box_of(picture.items)[2]


def test_a_mark_goes_to_the_view_that_shows_most_of_it():
    views = Drawings(table()).views
    shares = marks_by_view(views.book, tuple(views.drawn(n, 10) for n in Named))

    assert shares[Named.PLAN] == ("P1",)
    assert "T1" in shares[Named.FRONT]
    assert "T3" in shares[Named.RIGHT_SIDE]
