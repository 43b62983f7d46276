"""Numbers of a plan: its steps, its limits, the same each time, and how its work grows."""

from __future__ import annotations

import pytest

from tests.bays import rack_of
from tests.building import design_of, greenhouse, table
from tubeframe.assembly import weights
from tubeframe.assembly.plan import assemble
from tubeframe.assembly.step import PartKind, Work
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.joints.resolve import jointed
from tubeframe.parts.marks import make_parts

WORKSHOP = generic_workshop()


def _rack(bays):
    frame = rack_of(bays)
    found = jointed(frame, WORKSHOP)
    return frame, found, make_parts(frame, found, WORKSHOP), WORKSHOP


def test_a_shelf_of_22_pieces_in_at_most_12_steps():
    design = design_of("shelf")

    assert len(design.parts.pieces) == 22
    assert len(design.assembly.steps) <= 12


@pytest.mark.parametrize("make", [table, greenhouse, lambda: design_of("shelf"), lambda: design_of("bed-rack")])
def test_at_most_four_new_tubes_of_two_kinds_a_step(make):
    design = make()
    marks = {p.id: p.mark for p in design.parts.pieces}
    home = {m: s.id for s in design.assembly.flats for m in s.members}
    members = {p.id: p.member for p in design.parts.pieces}
    for step in design.assembly.steps:
        sets = {}
        for tube in step.tubes:
            sets.setdefault(home.get(members[tube]) if step.work is Work.FLAT else "", []).append(tube)
        for tubes in sets.values():
            assert len(tubes) <= weights.MOST_TUBES
            assert len({marks[t] for t in tubes}) <= weights.MOST_KINDS


def test_sub_frames_that_are_alike_are_built_once():
    flat = [s for s in table().assembly.steps if s.work is Work.FLAT]

    assert [s.sub_frames for s in flat] == [("S1", "S2")] * len(flat)


def test_braces_after_squaring_and_boards_after_tightening():
    for design in (table(), greenhouse(), design_of("shelf")):
        works = [s.work for s in design.assembly.steps]
        order = list(Work)
        assert works == sorted(works, key=order.index)
        for step in design.assembly.steps:
            if step.panels:
                assert order.index(step.work) > order.index(Work.TIGHTEN)


def test_the_same_plan_each_time():
    asked = _rack(2)

    assert assemble(*asked) == assemble(*asked)


def test_the_work_grows_no_faster_than_a_half_more_than_the_frame():
    """24, 45, 87 tubes: twice the bays, at most three times the looks."""
    work = [assemble(*_rack(bays)).work for bays in (2, 5, 11)]

    assert work[1] < 3.0 * work[0] + 500
    assert work[2] < 3.0 * work[1]


def test_every_operation_has_a_unit_direction_and_a_free_way():
    for design in (table(), greenhouse()):
        for step in design.assembly.steps:
            for operation in step.operations:
                assert operation.direction.length == pytest.approx(1.0)
                assert operation.distance > 0.0
                if operation.kind is PartKind.JOINT:
                    assert operation.into


@pytest.mark.parametrize("length", ["30ft 8in", "36ft 10in", "39ft 6in"])
def test_a_line_of_sleeves_grows_from_one_end(length):
    """Purlins of three parts and more: the last part between two sleeves would get into neither."""
    design = design_of("greenhouse", length=length)
    parts = [p.id for p in design.parts.pieces if p.member == "base.right"]
    order = [t for s in design.assembly.steps for t in s.tubes if t in parts]
    places = [parts.index(t) for t in order]

    assert len(parts) > 2
    assert design.assembly.findings == ()
    for n in range(1, len(places)):
        assert min(abs(places[n] - p) for p in places[:n]) == 1
