"""Kinds that are taken only where they are asked for: rings that turn, brackets on a wall, sleeves in the bore."""

from __future__ import annotations

import pytest

from tests.building import words_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec, Y
from tubeframe.joints.resolve import jointed

D = 0.922
POST = {"id": "post", "path": [[0, 0, 0], [0, 0, 40]], "ends": ["foot", "cap"]}
RAIL = {"id": "rail", "path": [[0, 0, 20], [30, 0, 20]], "ends": ["joint", "cap"]}


def found(*members, shop=None, walls=(), **asked):
    document = {
        "schema": "tubeframe.frame/1",
        "name": "special",
        "units": "in",
        "member": list(members),
        "joint": [{"at": at, "kind": kind.replace("_", "-")} for kind, places in asked.items() for at in places],
        **({"wall": list(walls)} if walls else {}),
    }
    workshop = shop or generic_workshop()
    return jointed(frame_from_document(document, workshop, "special.toml"), workshop)


def kinds(made):
    return [j.kind for j in made.joints if not j.is_end_piece]


def told(made, code):
    return [words_of(f).message for f in made.findings if f.code == code]


def test_a_ring_turns_only_where_it_is_asked_for():
    cheap = workshop_from_document(
        {"prefer": "cheapest", "fittings": {"tee": {"price": 9}, "loose-ring": {"price": 1}}}, "my.toml"
    )
    assert kinds(found(POST, RAIL, shop=cheap)) == ["tee"]
    assert kinds(found(POST, RAIL, loose_ring=[[0, 0, 20]])) == ["loose-ring"]


@pytest.mark.parametrize(("height", "slides"), [(18.0, False), (22.0, False), (15.0, True), (None, True)])
def test_a_ring_slides_without_a_collar_next_to_it(height, slides):
    """Both hold 2 D, rounded up to 1.875 in: 2 in apart leaves 1/8 in and is too near; 2.125 to 2.375 in stops it."""
    collars = [] if height is None else [[0, 0, height + (-0.25 if height < 20 else 0.25)]]
    made = found(POST, RAIL, loose_ring=[[0, 0, 20]], collar=collars)

    assert bool(told(made, "J-slides")) == slides
    assert not told(made, "J-pitch")
    if slides:
        assert told(made, "J-slides") == ["nothing next to the loose-ring of post, rail keeps it from sliding"]


@pytest.mark.parametrize("toward", [[0, -1, 0], [1, 0, 0], [0, 1, 0]])
def test_a_bracket_stands_on_the_nearest_wall(toward):
    """The plate is 1.5 D off the tube's centreline, flat on the wall whichever side that is on."""
    at = [-t * 1.5 * D for t in toward]
    wall = {"id": "wall", "at": at, "toward": toward}
    made = found(POST, walls=[wall], wall_bracket=[[0, 0, 20]])
    (bracket,) = [j for j in made.joints if j.kind == "wall-bracket"]
    plate = max((p for p in bracket.body if isinstance(p, Cylinder)), key=lambda p: p.radius)

    off = (plate.end - Vec(0, 0, 20 * INCH_MM)).dot(-Vec(*map(float, toward)))
    assert off == pytest.approx(1.5 * D * INCH_MM)
    assert not told(made, "J-wall")
    assert not told(made, "J-off-wall")


def test_a_bracket_off_its_wall_is_told():
    wall = {"id": "wall", "at": [0, 3, 0], "toward": [0, -1, 0]}
    made = found(POST, walls=[wall], wall_bracket=[[0, 0, 20]])
    assert told(made, "J-off-wall") == [
        'the wall-bracket of post stands on a wall, but the wall is 1 5/8" off its plate'
    ]
    alone = found(POST, wall_bracket=[[0, 0, 20]])
    assert told(alone, "J-off-wall") == ["the wall-bracket of post stands on a wall, but no wall is stated"]


def test_a_measured_bracket_reaches_farther():
    shop = workshop_from_document({"fittings": {"wall-bracket": {"offset": "3 in"}}}, "my.toml")
    wall = {"id": "wall", "at": [0, 3, 0], "toward": [0, -1, 0]}

    assert not told(found(POST, walls=[wall], shop=shop, wall_bracket=[[0, 0, 20]]), "J-off-wall")


def test_a_sleeve_inside_its_tubes():
    ends = ({**RAIL, "id": "a", "path": [[0, 0, 20], [-30, 0, 20]]}, {**RAIL, "id": "b"})
    assert kinds(found(*ends)) == ["sleeve-coupler"]
    made = found(*ends, inner_sleeve=[[0, 0, 20]])
    (sleeve,) = [j for j in made.joints if j.kind == "inner-sleeve"]

    assert max(p.radius for p in sleeve.body) < (D / 2 - 0.049) * INCH_MM
    assert sum((p.end - p.start).length for p in sleeve.body) == pytest.approx(3 * D * INCH_MM)
    assert abs(sleeve.body[0].end.dot(Y)) < 1e-9
