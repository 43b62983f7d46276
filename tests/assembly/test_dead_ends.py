"""Dead ends that builders run into, planted into plans and frames: each is found, by name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.building import design_of_text, greenhouse, table, words_of
from tubeframe.assembly.plan import Planner
from tubeframe.assembly.progress import homes_of
from tubeframe.assembly.replay import Tools, Wrong, replayed
from tubeframe.assembly.step import Hold, PartKind, Step, Work
from tubeframe.geometry.vector import Vec, Z

POST = {"id": "post", "path": [[0, 0, 0], [0, 0, 900]], "ends": ["foot", "cap"]}
PAIR = (
    {"id": "left", "path": [[0, 0, 0], [0, 0, 900]]},
    {"id": "right", "path": [[800, 0, 0], [800, 0, 900]]},
    {"id": "low", "path": [[0, 0, 200], [800, 0, 200]]},
    {"id": "high", "path": [[0, 0, 600], [800, 0, 600]]},
)
RINGED = (
    {"id": "pole", "path": [[0, 0, 0], [0, 0, 1200]], "ends": ["base-flange", "base-flange"]},
    {"id": "arm", "path": [[0, 0, 900], [500, 0, 900]], "ends": ["joint", "cap"]},
)


class Bench:
    """A design, what its plan is checked with, and its plan."""

    def __init__(self, design):
        self.design = design
        planner = Planner(design.frame, design.jointed, design.parts, design.workshop)
        self.plan = planner.assembly()
        self.tools = Tools(
            model=planner.model,
            room=planner.room,
            joining=planner.joining,
            reach=planner.reach,
            braces=planner.rules.braces,
            captured=planner.rules.captured,
        )
        self.joints = {j.kind: j.id for j in reversed(design.jointed.joints)}

    def faults(self, steps):
        numbered = tuple(replace(s, number=n) for n, s in enumerate(steps, start=1))
        return {(f.wrong, f.part) for f in replayed(self.tools, homes_of(self.plan.built), numbered)}

    def joint(self, *tubes):
        return next(j.id for j in self.design.jointed.joints if {u.tube for u in j.uses} == set(tubes))

    def loose(self):
        """All operations as if nothing were built flat, a step each."""
        found = [o for s in self.plan.steps for o in s.operations if o.kind is not PartKind.PANEL]
        return {o.part: o for o in found}


def _moved(steps, part, to):
    """Take a part's operation out, and put it into another step."""
    (taken,) = [o for s in steps for o in s.operations if o.part == part]
    made = [replace(s, operations=tuple(o for o in s.operations if o.part != part)) for s in steps]
    made[to] = replace(made[to], operations=(*made[to].operations, taken))
    return made


def _changed(steps, part, **values):
    return [
        replace(s, operations=tuple(replace(o, **values) if o.part == part else o for o in s.operations)) for s in steps
    ]


def _index(steps, work):
    return next(n for n, s in enumerate(steps) if s.work is work)


@pytest.mark.parametrize("make", [table, greenhouse])
def test_the_plan_that_was_found_has_no_fault(make):
    bench = Bench(make())

    assert bench.faults(bench.plan.steps) == set()


def test_a_ring_that_was_forgotten_does_not_get_on_any_more():
    """Asked for on the pole between two flanges: in the plan it goes on first, in the hand."""
    bench = Bench(design_of_text(*RINGED, joint=[{"at": [0, 0, 500], "kind": "collar"}]))
    ring = bench.joints["collar"]

    assert bench.faults(bench.plan.steps) == set()
    assert (Wrong.SHUT, ring) in bench.faults(_moved(bench.plan.steps, ring, -1))


def test_a_flange_on_both_ends_shuts_a_ring_out():
    bench = Bench(design_of_text(*RINGED, joint=[{"at": [0, 0, 500], "kind": "collar"}]))
    ring, steps = bench.joints["collar"], list(bench.plan.steps)
    at = next(n for n, s in enumerate(steps) if ring in s.joints)
    first = [o for o in steps[at].operations if o.part != ring]
    pole = next(n for n, o in enumerate(first) if o.part == "pole")
    (taken,) = [o for o in steps[at].operations if o.part == ring]
    steps[at] = replace(steps[at], operations=(*first[:pole], taken, *first[pole:]))

    assert (Wrong.SHUT, ring) in bench.faults(steps)


def test_a_ring_between_two_bends_never_gets_on():
    """It passes a straight only: no order helps, and the finding names the tube and the ring."""
    design = design_of_text(
        {"id": "hoop", "path": [[0, 0, 0], [0, 0, 800], [900, 0, 800], [900, 0, 0]]},
        bend_radius=120,
        joint=[{"at": [450, 0, 800], "kind": "collar"}],
    )
    (found,) = [f for f in design.findings if f.code == "A-locked"]

    assert found.subjects == ("hoop",)
    assert design.jointed.joints[0].kind == "collar"
    assert str(design.jointed.joints[0].id) in words_of(found).message


def test_a_sleeve_does_not_get_between_two_ends_that_are_there():
    bench = Bench(greenhouse())
    sleeve, steps = bench.joint("base.left.1", "base.left.2"), bench.plan.steps
    at = next(n for n, s in enumerate(steps) if "base.left.2" in s.tubes)

    assert (Wrong.SHUT, sleeve) in bench.faults(_moved(steps, sleeve, at))


def test_a_box_of_cut_ends_that_is_closed_too_early():
    """Both ends of the table stand with their corners on: a rail that is as long as the gap slides into neither."""
    bench = Bench(table())
    raises = tuple(replace(r, into=(), after=0) for s in bench.plan.steps for r in s.raises)
    rail = bench.loose()["rail.front"]
    flat = [s for s in bench.plan.steps if s.work is Work.FLAT]
    closed = Step(number=0, work=Work.STAND, raises=raises, operations=(rail,))
    corner = bench.joint("leg.front.right", "rail.front", "rail.right")

    assert (Wrong.SHUT, corner) in bench.faults([*flat, closed])


def test_a_board_before_the_clamps_are_tight():
    bench = Bench(table())
    steps = bench.plan.steps

    assert (Wrong.BEFORE_TIGHT, "top") in bench.faults(_moved(steps, "top", _index(steps, Work.SQUARE)))


def test_a_board_under_a_rail_that_is_there():
    bench = Bench(table())
    lower = _changed(bench.plan.steps, "top", direction=-Z, distance=500.0)

    assert (Wrong.IN_THE_WAY, "top") in bench.faults(lower)


def test_a_brace_before_the_frame_is_square():
    bench = Bench(greenhouse())
    steps = bench.plan.steps

    assert (Wrong.BEFORE_SQUARE, "brace.front.left") in bench.faults(
        _moved(steps, "brace.front.left", _index(steps, Work.SQUARE) - 1)
    )


def test_a_clamp_that_is_tight_before_its_tube_is_there():
    bench = Bench(table())
    joint = bench.joint("stretcher.left", "stretcher.middle")
    steps = list(bench.plan.steps)
    tight = _index(steps, Work.TIGHTEN)
    steps[0] = replace(steps[0], tightens=(joint,))
    steps[tight] = replace(steps[tight], tightens=tuple(j for j in steps[tight].tightens if j != joint))

    assert (Wrong.TIGHT_TOO_EARLY, joint) in bench.faults(steps)


def test_a_clamp_that_is_never_tightened():
    bench = Bench(table())
    joint = bench.joint("stretcher.left", "stretcher.middle")
    steps = [replace(s, tightens=tuple(j for j in s.tightens if j != joint)) for s in bench.plan.steps]

    assert bench.faults(steps) == {(Wrong.LOOSE, joint)}


def test_a_key_that_does_not_reach_once_the_board_lies():
    """The corners' bolts face the top: tightened last, they are out of reach."""
    bench = Bench(table())
    corners = {j.id for j in bench.design.jointed.joints if j.kind == "side-outlet-elbow"}
    hard = {bench.tools.model.fit(n).joint.id for n in bench.tools.reach.hard}
    steps = list(bench.plan.steps)
    tight = _index(steps, Work.TIGHTEN)
    late, steps[tight] = steps[tight].tightens, replace(steps[tight], tightens=())
    steps.append(Step(number=0, work=Work.LAST_LOOK, tightens=late))

    out = {part for wrong, part in bench.faults(steps) if wrong is Wrong.OUT_OF_REACH}
    assert out == hard & set(late)
    assert not hard or out & corners


def test_a_tube_that_touches_nothing():
    """A brace between the last two hoops, when the first hoop stands alone."""
    bench = Bench(greenhouse())
    raising = next(r for s in bench.plan.steps for r in s.raises)
    brace = replace(bench.loose()["brace.back.left"], into=())
    alone = Step(number=0, work=Work.BRACE, raises=(raising,), operations=(brace,))
    flat = [s for s in bench.plan.steps if s.work is Work.FLAT]

    assert (Wrong.FLOATS, "brace.back.left") in bench.faults([*flat, alone])


def test_a_tube_comes_through_one_that_stands():
    bench = Bench(greenhouse())

    assert (Wrong.IN_THE_WAY, "purlin.ridge.1") in bench.faults(
        _changed(bench.plan.steps, "purlin.ridge.1", direction=Z)
    )


def test_a_way_too_short_to_get_out_of_the_port():
    bench = Bench(table())
    faults = bench.faults(_changed(bench.plan.steps, "rail.front", distance=5.0))

    assert any(wrong is Wrong.TOO_SHORT for wrong, _ in faults)


def test_a_slanting_way_that_no_port_takes():
    bench = Bench(table())
    faults = bench.faults(_changed(bench.plan.steps, "rail.front", direction=Vec(0.6, 0.0, 0.8)))

    assert any(wrong is Wrong.SHUT for wrong, _ in faults)


def test_nobody_holds_a_frame_that_falls():
    bench = Bench(table())
    alone = [
        replace(
            s,
            operations=tuple(replace(o, held_by=Hold.ITSELF) for o in s.operations),
            raises=tuple(replace(r, held_by=Hold.ITSELF) for r in s.raises),
        )
        for s in bench.plan.steps
    ]

    assert any(wrong is Wrong.FALLS for wrong, _ in bench.faults(alone))


def test_more_than_four_tubes_of_two_kinds_in_a_step():
    bench = Bench(greenhouse())
    stand = [n for n, s in enumerate(bench.plan.steps) if s.work is Work.STAND]
    steps = list(bench.plan.steps)
    steps[stand[0]] = replace(steps[stand[0]], operations=steps[stand[0]].operations + steps[stand[1]].operations)
    steps[stand[1]] = replace(steps[stand[1]], operations=())

    assert any(wrong is Wrong.TOO_MANY for wrong, _ in bench.faults(steps))


def test_a_part_twice_and_one_not_at_all():
    bench = Bench(table())
    steps = list(bench.plan.steps)
    last = replace(bench.loose()["rail.front"], into=())
    steps[-1] = replace(steps[-1], operations=(last,))

    assert (Wrong.TWICE, "rail.front") in bench.faults(steps)
    assert (Wrong.MISSING, "top") in bench.faults([s for s in steps if s.work is not Work.TOP])
