"""Marks, stations, bends, flat sub-frames and the buying list of text frames, worked out by hand."""

from __future__ import annotations

import math
from functools import cache

import pytest

from tests.frames.case import FOOT, read
from tests.frames.cases import CASES
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, make_design
from tubeframe.fabrication.buying import known_total
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import INCH_MM

BY_NAME = {c.frame: c for c in CASES}
R = 6 - 0.922 / 2
"""Radius of the bender of 3/4, 5.539 in."""
ARC = math.pi / 2 * R
"""Length of a bend of 90 degrees, 8.7006 in."""


@cache
def design(name):
    """Design a text frame in its case's shop."""
    frame, workshop = read(BY_NAME[name])
    return make_design(frame, workshop, Source(template=name, parameters={}, shop={}))


def _made(rows, units):
    document = {"schema": "tubeframe.frame/1", "name": "frame", "units": units, "member": rows}
    shop = generic_workshop()
    frame = frame_from_document(document, shop, "test")
    return make_design(frame, shop, Source(template="test", parameters={}, shop={}))


def _pieces(name):
    return {p.id: p for p in design(name).parts.pieces}


def test_posts_of_a_shelf_of_ladder_ends_are_left_and_right_ones():
    """Seen from above, front left: short rail back, long rail right. Front right is its mirror image.

    Back right is front left turned half round; back left is front right turned half round.
    """
    marks = {p.id: p.mark for p in design("decks/ladder_ends").parts.pieces if p.id.startswith("post")}
    left, right = marks["post.front.left"], marks["post.front.right"]

    assert (left[-1], right[-1]) == ("L", "R")
    assert left[:-1] == right[:-1]
    assert marks == {
        "post.front.left": left,
        "post.front.right": right,
        "post.back.left": right,
        "post.back.right": left,
    }


def test_turns_of_a_post_of_ladder_ends():
    """From the short rail, back, the long rail's clamp is a quarter turn on: right is 270 degrees, left is 90."""
    pieces = _pieces("decks/ladder_ends")
    left, right = pieces["post.front.left"], pieces["post.front.right"]

    assert [s.from_a / INCH_MM for s in left.stations] == pytest.approx([z - FOOT for z in (10, 12.125, 40, 42.125)])
    assert [s.roll for s in left.stations] == pytest.approx([0, 270, 0, 270], abs=1e-6)
    assert [s.roll for s in right.stations] == pytest.approx([0, 90, 0, 90], abs=1e-6)


def test_rungs_are_alike_and_stiles_stand_alike():
    marks = {p.id: p.mark for p in design("stands/ladder").parts.pieces}

    assert len({m for name, m in marks.items() if name.startswith("rung")}) == 1
    assert marks["stile.left"] == marks["stile.right"] == "T1"


def test_pieces_of_one_length_with_other_ends_are_two_marks():
    """A rail of 30 in between two tees, and an arm of 29.4765 with one tee and a cap, are both cut 28.953."""
    rows = [
        {"id": "left", "path": [[0, 0, 0], [0, 0, 50]]},
        {"id": "right", "path": [[30, 0, 0], [30, 0, 50]]},
        {"id": "low", "path": [[0, 0, 10], [30, 0, 10]]},
        {"id": "high", "path": [[0, 0, 40], [30, 0, 40]]},
        {"id": "arm", "path": [[0, 0, 30], [0, 29.4765, 30]], "ends": ["joint", "cap"]},
    ]
    pieces = {p.id: p for p in _made(rows, "in").parts.pieces}

    assert pieces["arm"].cut_length == pytest.approx(pieces["low"].cut_length, abs=1e-6)
    assert pieces["high"].mark == pieces["low"].mark != pieces["arm"].mark


def test_boards_with_other_notches_are_two_marks():
    two, four = (design(name).parts.panel_groups for name in ("decks/two_boards", "decks/four_decks"))

    assert [g.quantity for g in two] == [1, 1]
    assert [g.quantity for g in four] == [4]


def test_a_bend_sheet_counts_what_the_bender_needs_at_a_short_end():
    """2 in at end A, where 54.336 of straight are; 8 - 0.461 = 7.539 at end B. Cut 81.120, told as 81 1/16.

    The first bend starts 60 - 5.539 - 1/8 from end A, the second an arc and 20 - 2 x 5.539 later.
    """
    sheet = next(s for s in design("bends/crook").fabrication.bend_sheets)
    first = 60 - R - FOOT
    second = first + ARC + 20 - 2 * R

    assert sheet.trim_a / INCH_MM == pytest.approx(2.0)
    assert sheet.trim_b / INCH_MM == pytest.approx(8 - (6 - R))
    assert sheet.rough_length / INCH_MM == pytest.approx(2 + 81.0625 + 7.539)
    assert [m.start / INCH_MM for m in sheet.bends] == pytest.approx([2 + first, 2 + second])
    assert [m.hook.name for m in sheet.bends] == ["B", "B"]
    assert [m.at / INCH_MM for m in sheet.bends] == pytest.approx([2 + first + ARC, 2 + second + ARC])
    assert [m.roll for m in sheet.bends] == pytest.approx([0, 0], abs=1e-6)


def test_a_bent_piece_takes_its_rough_length_of_a_stick():
    plan = design("bends/crook").fabrication.plan
    crook = _pieces("bends/crook")["crook"]
    cut = next(c for s in plan.sticks for c in s.cuts if c.mark == crook.mark)

    assert cut.length / INCH_MM == pytest.approx(81.0625 + 2 + 7.539)


def test_the_turn_of_a_bend_in_another_plane():
    """Up, then right, then back: after the first bend its inside faces down; from down to back is a quarter turn."""
    bends = _pieces("bends/two_planes")["handrail"].bends

    sheet = next(s for s in design("bends/two_planes").fabrication.bend_sheets)

    assert [b.roll for b in bends] == pytest.approx([0, 90], abs=1e-6)
    assert [m.roll for m in sheet.bends] == pytest.approx([0, 90], abs=1e-6)


def test_two_tubes_are_no_flat_part():
    assert design("shops/large_tee").assembly.flats == ()


def test_a_tube_bent_in_two_planes_is_no_flat_part():
    flats = design("bends/two_planes").assembly.flats

    assert not any("handrail" in f.members for f in flats)


def test_the_splayed_legs_of_a_sawhorse_are_flat_parts():
    """Front legs, their stretcher and the top lie in one slanting plane; the back legs and theirs in another."""
    flats = [set(f.members) for f in design("stands/sawhorse").assembly.flats]

    assert {"leg.left.front", "leg.right.front", "stretcher.front"} <= flats[0]
    assert {"leg.left.back", "leg.right.back", "stretcher.back"} <= flats[1]


@pytest.mark.parametrize(("lean", "is_flat"), [(0.4, True), (2.4, False)])
def test_a_flat_part_keeps_within_half_a_millimetre(lean, is_flat):
    """The right post leans back by 0.4 or 2.4 mm in 1200: at the upper rail that is 0.25 or 1.5 off the plane."""

    def back(z):
        return lean * z / 1200

    rows = [
        {"id": "left", "path": [[0, 0, 0], [0, 0, 1200]]},
        {"id": "right", "path": [[900, 0, 0], [900, lean, 1200]]},
        {"id": "low", "path": [[0, 0, 300], [900, back(300), 300]]},
        {"id": "high", "path": [[0, 0, 1050], [900, back(1050), 1050]]},
    ]
    made = _made(rows, "mm")

    assert any({"left", "right", "low", "high"} <= set(f.members) for f in made.assembly.flats) == is_flat


def test_new_tubes_of_a_ladder_are_drawn_off_their_places():
    """The first rung goes into the left stile, so it comes from the right; its other end is still free."""
    steps = design("stands/ladder").assembly.steps
    moves = {m.what: m for s in steps for m in s.moves}
    order = [m.what for s in steps for m in s.moves]

    assert order.index("stile.left") < order.index("rung.1") < order.index("stile.right")
    assert moves["rung.1"].direction.x == pytest.approx(1.0)
    assert min(m.distance for m in moves.values()) >= 25.0


def _bought(name, **shop):
    case = BY_NAME[name]
    frame, _ = read(case)
    workshop = workshop_from_document({"units": "in", **shop}, "shop.toml")
    made = make_design(frame, workshop, Source(template=name, parameters={}, shop={}))
    return {p.item: p for p in made.fabrication.buying}


def test_a_tee_for_a_large_run_is_not_one_for_a_small_run():
    """Run of 1 in with a branch of 3/4, and a run of 3/4 with a branch of 1 in, are two things to buy."""
    tees = [p for item, p in _bought("decks/both_ways").items() if item.startswith("tee")]

    assert [p.quantity for p in tees] == [1, 1, 1, 1]


@pytest.mark.parametrize(
    ("on_hand", "bought", "spare"),
    [
        (0, 4, 1),
        (3, 1, 1),
        (4, 0, 1),
        (5, 0, 0),
        (9, 0, 0),
    ],
)
def test_what_is_on_hand_is_not_bought_and_covers_the_spare(on_hand, bought, spare):
    found = _bought("ends/two_halves", fittings={"tee": {"on_hand": on_hand}})
    tee = next((p for item, p in found.items() if item.startswith("tee")), None)

    assert (bought, spare) == (0, 0) if tee is None else (tee.quantity, tee.spare) == (bought, spare)


def test_sticks_that_lie_in_the_garage_are_not_bought():
    """Two sides of 71.875 and five rungs of 14.953 come out of two sticks of 120 in."""
    stick = {"tube": "emt-3/4", "length": "120 in"}
    some, all_there = (_bought("stands/ladder", stock=[{**stick, "on_hand": n}]) for n in (1, 2))

    assert [p.quantity for item, p in some.items() if item.startswith("stick")] == [1]
    assert not any(item.startswith("stick") for item in all_there)


def test_known_prices_add_up_by_number():
    """Four tees and a spare at 2.50; what the rest costs is not known."""
    found = _bought("ends/two_halves", fittings={"tee": {"price": 2.5}})

    assert known_total(tuple(found.values())) == pytest.approx(12.5)
