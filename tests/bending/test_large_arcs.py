"""Arcs larger than the bender's shoe: small bends, a form, rolled. Inches, worked by hand where no source is named."""

from __future__ import annotations

import math

import pytest

from tests.building import design_of_text, words_of
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, make_design
from tubeframe.design_document import design_document
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.items import Drawn
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Arc
from tubeframe.errors import InputError
from tubeframe.fabrication.bending.forms import forms
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.corners import through
from tubeframe.geometry.small_bends import arc_corners, fewest_bends, straight_between
from tubeframe.geometry.vector import Vec
from tubeframe.template.shop import Shop
from tubeframe.words.tools import tool_list

INCH = 25.4
D = 0.922
R = 6 - D / 2
LOST = 37.5 * (0.922**3 - 0.824**3) / 6 / (29000 * math.pi / 64 * (0.922**4 - 0.824**4))
"""Fy Z/(E I) of EMT 3/4 at 37.5 ksi, the middle of 30 to 45 [1/in]: 0.00376."""


def design(path, shop=None, tube="emt-3/4"):
    document = {
        "schema": "tubeframe.frame/1",
        "name": "arc",
        "units": "in",
        "tube": tube,
        "member": [{"id": "t", "path": path, "ends": ["open", "open"]}],
    }
    own = {"stock": [{"tube": tube, "length": "40 ft"}], **(shop or {})}
    workshop = workshop_from_document(own, "shop.toml")
    source = Source(template="arc.toml", parameters={}, shop=own)
    return make_design(frame_from_document(document, workshop, "arc.toml"), workshop, source)


def quarter(radius, leg=30.0, **corner):
    """Up, a quarter round, and on."""
    far = radius + leg
    return [[0, 0, 0], {"at": [0, 0, far], "radius": radius, **corner}, [far, 0, far]]


def codes(made):
    return [f.code for f in made.findings if f.code.startswith("B-")]


def test_nine_bends_of_ten_degrees():
    """R 48, r 5.54: pitch 8.40 in (2 (R - r) tan 5 + r q), a bulge of 0.16 and at most 0.18 in."""
    turn = math.radians(10)
    straight = straight_between(90, 48, R, 9)

    assert straight + R * turn == pytest.approx(8.40, abs=0.005)
    bulge = (48 - R) * (1 / math.cos(turn / 2) - 1)
    assert bulge <= 0.18
    assert fewest_bends(90, 48, R, bulge + 1e-6) == 9
    assert fewest_bends(90, 48, R, bulge - 1e-6) == 10


def test_the_fewest_bends_of_a_greenhouse_are_six():
    """R 47.539: 6 of 15 degrees bulge by 42 (1/cos 7.5 - 1) = 0.362 in, 5 of 18 by 0.523; 3/8 are allowed."""
    assert fewest_bends(90, 47.539, R, 0.375) == 6


@pytest.mark.parametrize("bends", [1, 2, 5, 9])
def test_a_polygon_touches_its_arc_where_it_begins_and_ends(bends):
    """The corners lie R/cos(q/2) from the arc's middle, and the ends of the arc on the first and last side."""
    before, corner, after = Vec(0, 0, 0), Vec(0, 0, 80), Vec(70, 20, 110)
    way, on = (corner - before).unit, (after - corner).unit
    radius, turn = 30.0, math.acos(way.dot(on))
    corners = arc_corners(before, corner, after, radius, bends)
    centre = corner + (on - way).unit * (radius / math.cos(turn / 2))

    assert [c.distance(centre) for c in corners] == pytest.approx([radius / math.cos(turn / bends / 2)] * bends)
    touched = corner - way * (radius * math.tan(turn / 2))
    assert (corners[0] - touched).cross(way).length == pytest.approx(0, abs=1e-9)
    assert touched.distance(corners[0]) == pytest.approx(radius * math.tan(turn / bends / 2))


@pytest.mark.parametrize("count", [9, "fewest"])
def test_an_arc_is_drawn_and_made_in_small_bends(count):
    made = design(quarter(48, bends=count))
    piece = made.parts.pieces[0]
    number = 9 if count == 9 else 6
    half, turn = (48 - R) * math.tan(math.radians(45 / number)), math.radians(90 / number)

    assert [b.angle for b in piece.bends] == pytest.approx([90 / number] * number)
    assert {round(b.radius / INCH, 6) for b in piece.bends} == {round(R, 6)}
    # leg, half a pitch of straight, then by the pitch
    starts = [30 + half + k * (2 * half + R * turn) for k in range(number)]
    assert [b.start_from_a / INCH for b in piece.bends] == pytest.approx(starts)
    assert codes(made) == []


def test_more_bends_than_a_bender_gets_hold_of_are_refused():
    """R 8 in 6: 2 (8 - 5.539) tan 7.5 = 0.648 in between them, where 3 are wanted."""
    with pytest.raises(InputError, match=r'path\[2\]\.bends: 6 bends leave 5/8" of straight .* wants 3"'):
        design(quarter(8, bends=6))


@pytest.mark.parametrize("count", [1, "fewest"])
def test_an_arc_tighter_than_the_shoe_is_not_made_of_its_bends(count):
    with pytest.raises(InputError, match=r"5\.000 in is tighter than the bender's 5\.539 in"):
        design(quarter(5.0, bends=count))


@pytest.mark.parametrize("value", [0, -1, 2.5, True, "some", 91])
def test_a_number_of_bends_that_is_none_is_told(value):
    with pytest.raises(InputError, match="is not a number of bends from 1 to 64; write 9, or 'fewest'"):
        design(quarter(48, bends=value))


def test_a_form_is_tighter_by_what_springs_back():
    """1/r = 1/R + 0.00376: 40.65 in for R 48; its edge half a tube less. The arc on it is as long as the arc drawn."""
    made = design(quarter(48))
    (entry,) = design_document(made)["bending"]
    (bend,) = entry["bends"]
    (form,) = forms(made.fabrication.bend_sheets)
    bent_to = 1 / (1 / 48 + LOST)

    assert (bend["mark"], bend["angle_deg"], bend["radius_mm"]) == ("form", 90.0, pytest.approx(48 * INCH))
    assert bend["reading_deg"] == pytest.approx(90 * 48 / bent_to, abs=0.01)
    assert 40 <= bent_to <= 42
    assert form.bent_to / INCH == pytest.approx(bent_to, abs=1e-3)
    assert form.edge / INCH == pytest.approx(bent_to - D / 2, abs=1e-3)
    assert form.length / INCH == pytest.approx(48 * math.pi / 2)
    assert codes(made) == ["B-arc"]


def test_a_form_wants_12_in_of_straight_at_an_end():
    """4 in of leg: 8 more are taken and trimmed; the bender's own bend wants 8 in all: 4 more."""
    large, small = (design(quarter(r, leg=4.0)).parts.pieces[0] for r in (24, R))

    assert [v / INCH for v in (large.allowance_a, large.allowance_b)] == pytest.approx([8, 8])
    assert [v / INCH for v in (small.allowance_a, small.allowance_b)] == pytest.approx([4, 4])


def test_arcs_that_go_on_are_one_on_the_form():
    half = [[0, 0, 0], {"at": [0, 0, 50], "radius": 24}, {"at": [48, 0, 50], "radius": 24}, [48, 0, 0]]
    made = design(half)
    (form,) = forms(made.fabrication.bend_sheets)

    assert form.length / INCH == pytest.approx(24 * math.pi)
    assert form.sweep == pytest.approx(180 * (1 + LOST * 24), abs=0.01)
    assert codes(made) == ["B-arc"]


def test_the_forms_board_is_drawn_at_full_size():
    made = design(quarter(48))
    drawings = Drawings(made)
    (form,) = forms(made.fabrication.bend_sheets)
    arcs = [i.shape for i in drawings.layout.items if isinstance(i, Drawn) and isinstance(i.shape, Arc)]
    edge = next(a for a in arcs if abs(a.radius - form.edge) < 1e-6)
    texts = [i.text for i in drawings.layout.items if hasattr(i, "text")]

    assert edge.sweep_deg == pytest.approx(form.sweep)
    assert any(abs(a.radius - form.bent_to) < 1e-6 for a in arcs)
    assert any(t.startswith("FORM 1: for T1") for t in texts)
    assert any(t.startswith("Board's edge 40.1") for t in texts)


def test_the_board_of_a_long_arc_is_drawn_round_the_right_way():
    """Half a circle springs back: 196 degrees on the form. Every arc of it goes round the same middle."""
    half = [[0, 0, 0], {"at": [0, 0, 50], "radius": 24}, {"at": [48, 0, 50], "radius": 24}, [48, 0, 0]]
    made = design(half)
    (form,) = forms(made.fabrication.bend_sheets)
    items = [i for i in Drawings(made).layout.items if isinstance(i, Drawn) and isinstance(i.shape, Arc)]
    long = [i.shape for i in items if i.shape.sweep_deg > 181.0]

    assert form.sweep > 181.0
    assert sorted({round(a.sweep_deg, 6) for a in long}) == [round(form.sweep, 6)]
    assert max(math.dist(a.centre, long[0].centre) for a in long) < 1e-6
    assert {i.pen for i in items if i.shape in long} == {Pen.PANEL, Pen.TUBE, Pen.CENTRE}


def test_a_shop_may_have_its_arcs_rolled():
    made = design(quarter(48), {"arcs": "rolled"})
    (entry,) = design_document(made)["bending"]

    assert [(b["mark"], b["angle_deg"], b["reading_deg"]) for b in entry["bends"]] == [("rolls", 90.0, 90.0)]
    assert forms(made.fabrication.bend_sheets) == ()
    assert "is rolled" in words_of(next(f for f in made.findings if f.code == "B-arc")).message


def test_a_template_may_ask_what_a_form_takes():
    """A stick of 120 in: 112 in with 4 in of straight at both ends go with a bender, not round a form."""
    shop = Shop(workshop=workshop_from_document({}, "shop.toml"))

    def piece(radius):
        """Return a quarter of a circle and 4 in of straight beside it, 112 in long in all."""
        long = (112 - 4 - math.pi / 2 * radius) * INCH
        turn = radius * INCH
        return through([Vec(0, 0, 0), Vec(long + turn, 0, 0), Vec(long + turn, 0, turn + 4 * INCH)], [turn])

    assert piece(24).length == pytest.approx(112 * INCH)
    assert shop.fits_stick(piece(R), "emt-3/4")
    assert not shop.fits_stick(piece(24), "emt-3/4")


def test_a_radius_tighter_than_the_shoes_is_told():
    made = design(quarter(5.0))
    (finding,) = [f for f in made.findings if f.code == "B-radius"]

    assert "5.000 in is tighter than the bender's 5.539 in" in words_of(finding).message
    assert finding.severity.value == "error"


def test_a_radius_under_the_codes_is_refused_in_a_frame():
    with pytest.raises(InputError, match=r"path\[2\]\.radius: .*4\.000 in is under 4\.500 in, the least for EMT 3/4"):
        design(quarter(4.0))
    assert design(quarter(4.0), tube="emt-1/2").parts.pieces


def test_bends_too_near_each_other_are_told_with_what_is_between_them():
    """Corners 12 in apart, two bends of 90 take 2 x 5.539: 0.922 in are left, where 3 are wanted."""
    made = design([[0, 0, 0], [0, 0, 30], [12, 0, 30], [12, 0, 0]])
    (finding,) = [f for f in made.findings if f.code == "B-between"]

    assert 'bends 1 and 2 leave 15/16" of straight' in words_of(finding).message
    assert codes(design([[0, 0, 0], [0, 0, 30], [14.1, 0, 30], [14.1, 0, 0]])) == []


def test_what_is_bent_alike_is_told_of_once():
    """Two marks that differ in a clamp only."""
    path = [[0, 0, 0], [0, 0, 30], [12, 0, 30], [12, 0, 0]]
    tubes = [{"id": f"t{y}", "path": [[x, y, z] for x, _, z in path], "ends": ["open", "open"]} for y in (0, 30)]
    rail = {"id": "rail", "path": [[-20, 0, 8], [0, 0, 8]], "ends": ["cap", "joint"]}
    made = design_of_text(*tubes, rail, units="in")
    (finding,) = [f for f in made.findings if f.code == "B-between"]

    assert [g.mark for g in made.parts.groups] == ["T1", "T2", "T3"]
    assert finding.subjects == ("T1", "T2")
    assert words_of(finding).where == "T1, T2"


def test_an_end_too_short_to_trim_is_told():
    """A corner 7 in before end B: 1.461 in are left, where a tube cutter wants 2."""
    made = design([[0, 0, 0], [0, 0, 30], [7, 0, 30]])
    (finding,) = [f for f in made.findings if f.code == "B-end"]

    assert words_of(finding).where == "T1, end B"
    assert '1 7/16" of straight' in words_of(finding).message


def test_the_tools_are_those_that_the_bends_take():
    def tools(made):
        return [t for t in tool_list(made) if any(w in t for w in ("bender", "form", "chalk"))]

    assert tools(design(quarter(R))) == ["bender for EMT 3/4", "chalk line"]
    assert tools(design(quarter(48))) == [
        "board for the form, as thick as the tube (layout.dxf), and screws",
        "chalk line",
    ]
    assert tools(design(quarter(48), {"arcs": "rolled"})) == ["chalk line"]
