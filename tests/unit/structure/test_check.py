"""Verdicts on whole frames, against formulas by hand where there are any."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest

from tests.building import draft_of
from tubeframe.catalog.conditions import Conditions
from tubeframe.catalog.limits import LimitKey
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import MPH, POUND_N, PSF
from tubeframe.geometry.vector import Vec
from tubeframe.joints.resolve import resolved
from tubeframe.structure.acting import of_load, total
from tubeframe.structure.check import verdicts
from tubeframe.structure.framed import ClampLevel
from tubeframe.structure.open_wind import open_wind_cases
from tubeframe.structure.study import Study, folding_ways
from tubeframe.structure.verdict import Code, Missing, More, Outcome, Verdict, finding

if TYPE_CHECKING:
    from tubeframe.design import Draft

HEIGHT, SPAN, DEPTH = 762.0, 1524.0, 700.0
CORNERS = {"a": (0, 0), "b": (SPAN, 0), "c": (SPAN, DEPTH), "d": (0, DEPTH)}


def stand(workshop=None, besides=(), **more):
    """Four legs and four rails, clamped at the corners, and a push on the end rail along the long rails."""
    legs = [
        {"id": f"leg.{n}", "path": [[x, y, 0], [x, y, HEIGHT]], "ends": ["foot", "joint"]}
        for n, (x, y) in CORNERS.items()
    ]
    rails = [
        {"id": f"rail.{m}{n}", "path": [[*CORNERS[m], HEIGHT], [*CORNERS[n], HEIGHT]]}
        for m, n in ("ab", "dc", "ad", "bc")
    ]
    push = {"name": "push", "member": "rail.ad", "use": "push", "direction": [1, 0, 0]}
    document = {
        "schema": "tubeframe.frame/1",
        "name": "stand",
        "units": "mm",
        "member": [*legs, *rails, *besides],
        "load": [push],
        **more,
    }
    shop = workshop_from_document({"units": "mm", **(workshop or {})}, "test")
    frame = frame_from_document(document, shop, "stand.toml")
    return frame, resolved(frame, shop), shop


def of(found: tuple[Verdict, ...], code: Code) -> Verdict:
    return next(v for v in found if v.code is code)


@cache
def table(load: float | None = None, **shop) -> tuple[Draft, tuple[Verdict, ...]]:
    draft = draft_of("table", length="60in", width="30in", height="30in")
    return draft, verdicts(draft.frame, draft.jointed, draft.workshop, Conditions(load=load))


@cache
def greenhouse(conditions: Conditions) -> tuple[Verdict, ...]:
    draft = draft_of("greenhouse")
    return verdicts(draft.frame, draft.jointed, draft.workshop, conditions)


@pytest.mark.parametrize(("clamp", "stiffness"), [(1e12, 7.2491), (1e6, 2.335), (0.2e6, 0.62911)])
def test_sway_of_two_portals_side_by_side(clamp, stiffness):
    """1/K = h^3/6EI + h^2 L/12EI + h^2/2k for each portal of two legs on pins (G in the checks of the solver); the
    leg's clamp is at the fitting, the rail sprung to it. Stretched tubes give 1 % more."""
    shop = {"limits": {"clamp_stiffness": clamp, "young": 200_000}}
    found = of(verdicts(*stand(shop), Conditions()), Code.SWAY)

    assert 100.0 / found.value == pytest.approx(2.0 * stiffness, rel=1.5e-2)


def test_soft_and_stiff_clamps_bound_the_sway():
    """The low and high stiffness of the limits: 0.2 and 5 kNm/rad."""
    found = of(verdicts(*stand({"limits": {"young": 200_000}}), Conditions()), Code.SWAY)

    assert 100.0 / found.bounds[1] == pytest.approx(2.0 * 0.62911, rel=1.5e-2)
    assert found.bounds[0] < found.value < found.bounds[1]


def test_four_legs_and_four_rails_fold_four_ways_when_clamps_turn_freely():
    """Four legs on pins lean two ways each, four rails tie four of these."""
    frame, joints, shop = stand()
    study = Study(frame, joints, shop, Conditions())

    assert folding_ways(study, ClampLevel.FREE) == 4
    assert folding_ways(study, ClampLevel.ASSUMED) == 0
    assert of(verdicts(frame, joints, shop, Conditions()), Code.FOLDS).outcome is Outcome.WARNING


def test_two_legs_and_a_rail_fall_over_and_that_is_an_error():
    frame, _, shop = stand()
    kept = {"leg.a", "leg.b", "rail.ab"}
    flat = replace(frame, members=tuple(m for m in frame.members if m.id in kept), loads=())
    found = verdicts(flat, resolved(flat, shop), shop, Conditions(load=100.0))

    assert {v.code for v in found} == {Code.FOLDS, Code.TIP}
    assert found[0].outcome is Outcome.FAILS
    assert finding(found[0]).severity is Severity.ERROR


def test_a_brace_taken_away_makes_it_sway_more_and_put_back_as_before():
    draft = draft_of("table")
    bare = replace(draft.frame, members=tuple(m for m in draft.frame.members if not m.id.startswith("knee.")))
    assert len(bare.members) < len(draft.frame.members)

    def sway(frame):
        found = verdicts(frame, resolved(frame, draft.workshop), draft.workshop, Conditions())
        return next(v.value for v in found if v.code is Code.SWAY and v.case == "push along y")

    braced = sway(draft.frame)
    assert sway(bare) > 1.5 * braced
    assert sway(replace(bare, members=draft.frame.members)) == braced


def test_a_board_shares_its_load_out_in_equilibrium():
    """Force and moments about the place of the load, for the middle, an edge and a corner."""
    draft, _ = table()
    paths = {t.id: t.path for t in draft.jointed.tubes}
    load = next(x for x in draft.frame.loads if x.on == "top")
    panel = draft.frame.panels[-1]
    for at in ((0.5, 0.5), (0.5, 0.0), (0.0, 0.5), (0.9, 0.2)):
        actions = of_load(replace(load, at=at), 1000.0, draft.frame, draft.jointed)
        spot = panel.placement.point(Vec(at[0] * panel.length, at[1] * panel.width, 0.0))
        arms = [paths[a.tube].point((a.low + a.high) / 2.0) - spot for a in actions]
        moment = sum((arm.cross(a.force) for arm, a in zip(arms, actions, strict=True)), Vec(0, 0, 0))

        assert tuple(total(actions)) == pytest.approx((0.0, 0.0, -1000.0), abs=1e-6)
        assert (moment.x, moment.y) == pytest.approx((0.0, 0.0), abs=1e-3)


def test_a_load_in_the_middle_is_shared_alike_by_what_lies_alike():
    draft, _ = table()
    load = next(x for x in draft.frame.loads if x.on == "top")
    by_tube: dict[str, float] = {}
    for action in of_load(load, 1000.0, draft.frame, draft.jointed):
        by_tube[action.tube] = by_tube.get(action.tube, 0.0) - action.force.z

    assert by_tube["rail.front"] == pytest.approx(by_tube["rail.back"], rel=0.02)
    assert by_tube["joist.1"] == pytest.approx(by_tube["joist.2"])
    assert sum(by_tube.values()) == pytest.approx(1000.0)


def test_a_five_foot_table_carries_about_200_lb():
    """Common practice, no source: a 5 ft table of 3/4 carries about 200 lb. The rails' strength governs."""
    _, found = table()
    strength = of(found, Code.STRENGTH)
    carries = next(n.value for n in strength.notes if n.what is More.CARRIES)

    assert strength.outcome is Outcome.NEEDS_INPUT
    assert strength.missing is Missing.LOAD
    assert strength.where[0].startswith("rail.")
    assert 100 * POUND_N < carries < 400 * POUND_N


def test_what_it_carries_is_where_the_verdict_turns():
    _, found = table()
    carries = next(n.value for n in of(found, Code.STRENGTH).notes if n.what is More.CARRIES)
    under, over = (of(table(carries * f)[1], Code.STRENGTH) for f in (0.95, 1.05))

    assert under.outcome is Outcome.OK
    assert over.outcome is Outcome.FAILS
    assert finding(over).severity is Severity.WARNING
    assert finding(under) is None


def test_a_rail_bends_between_a_simple_and_a_fixed_one():
    """Strength by hand: half the load on a rail, w L^2/8 to w L^2/12 over Mn/1.67."""
    draft, found = table(200.0 * POUND_N)
    rail = next(t for t in draft.jointed.tubes if t.id == "rail.front")
    allowed = draft.workshop.limits[LimitKey.YIELD] * draft.workshop.catalog.tube("emt-3/4").plastic_modulus / 1.67
    even = 100.0 * POUND_N * rail.path.length

    assert even / 12 / allowed < of(found, Code.STRENGTH).value < 1.3 * even / 8 / allowed


def test_without_wind_and_snow_of_the_place_nothing_is_guessed():
    found = greenhouse(Conditions())

    for code, missing in ((Code.WIND, Missing.WIND), (Code.ANCHOR, Missing.WIND), (Code.SNOW, Missing.SNOW)):
        verdict = of(found, code)
        assert (verdict.outcome, verdict.missing, verdict.value) == (Outcome.NEEDS_INPUT, missing, None)


def test_wind_lifts_a_cover_by_its_plan():
    """q = 0.00256 x 0.85 x 0.85 x 70^2 = 9.06 psf, 0.48 of it on 8 x 12 ft: 417 lb, less the frame's weight."""
    found = greenhouse(Conditions(wind=70 * MPH))
    anchor = of(found, Code.ANCHOR)
    draft = draft_of("greenhouse")
    lift = 0.00256 * 0.85 * 0.85 * 70**2 * 0.48 * 8 * 12 * POUND_N
    lifted = next(n.value for n in anchor.notes if n.what is More.UPLIFT)

    assert anchor.missing is Missing.ANCHOR
    assert lift - draft.mass * 9.81 < lifted
    assert of(greenhouse(Conditions(wind=70 * MPH, anchor=1e5)), Code.ANCHOR).outcome is Outcome.OK
    assert of(greenhouse(Conditions(wind=70 * MPH, anchor=1.0)), Code.ANCHOR).outcome is Outcome.FAILS


def test_wind_on_a_frame_without_a_cover():
    """Along x it meets four legs of 762 and two rails of 700 mm, 0.922 in thick: 0.1 to 0.3 of what they frame, so
    1.3 by ASCE 7-16, figure 29.4-2; q = 0.00256 x 0.85 x 0.85 x 70^2 = 9.06 psf, G 0.85."""
    frame, joints, shop = stand()
    along_x, along_y = open_wind_cases(Study(frame, joints, shop, Conditions(wind=70 * MPH)))
    area = 0.922 * 25.4 * (4 * HEIGHT + 2 * DEPTH)
    solid = area / ((DEPTH + 23.4) * (HEIGHT + 11.7))
    assert 0.1 < solid < 0.3
    force = 0.00256 * 0.85 * 0.85 * 70**2 * PSF * 0.85 * 1.3 * area

    assert tuple(total(along_x.actions)) == pytest.approx((force, 0.0, 0.0), rel=1e-3)
    assert total(along_y.actions).y > force
    assert open_wind_cases(Study(frame, joints, shop, Conditions())) == ()
    found = verdicts(frame, joints, shop, Conditions(wind=70 * MPH))
    assert of(found, Code.WIND).outcome is Outcome.OK
    assert "wind along x" in [v.case for v in found if v.code is Code.TIP]


def test_more_wind_and_more_snow_use_more():
    """Four times the wind's pressure, twice the snow; the frame's own weight is in both."""
    weak, strong = (of(greenhouse(Conditions(wind=v * MPH)), Code.WIND).value for v in (40, 80))
    light, deep = (of(greenhouse(Conditions(snow=p * PSF)), Code.SNOW).value for p in (2, 4))

    assert strong > 3.0 * weak
    assert deep > 1.6 * light


def test_the_users_own_pull_test_rules():
    kinds = {"side-outlet-elbow": {"slip_force": "1000 N"}, "tee": {"slip_force": "1000 N"}}
    shop = {"fittings": kinds}
    assumed, tested = (of(verdicts(*stand(s), Conditions()), Code.SLIP) for s in ({}, shop))

    assert tested.limit == pytest.approx(500.0)
    assert [n.what for n in tested.notes] == [More.TESTED]
    assert assumed.limit == pytest.approx(800.0, rel=1e-3)
    assert More.TESTED not in [n.what for n in assumed.notes]


def test_tightening_harder_holds_more_and_presses_the_wall_more():
    soft, hard = (verdicts(*stand({"limits": {"bolt_torque": t}}), Conditions()) for t in (8000, 16000))

    assert of(hard, Code.SLIP).limit == pytest.approx(2.0 * of(soft, Code.SLIP).limit)
    assert of(hard, Code.CRUSH).value == pytest.approx(2.0 * of(soft, Code.CRUSH).value)


def test_what_is_driven_about_is_shaken_and_braked():
    load = {"name": "gear", "member": "rail.ab", "use": "road", "total": "100 N"}
    found = verdicts(*stand(load=[load]), Conditions())
    rougher = verdicts(*stand({"limits": {"road": 3}}, load=[load]), Conditions())

    assert of(found, Code.ROAD).outcome is Outcome.OK
    assert of(rougher, Code.ROAD).value > of(found, Code.ROAD).value


def test_a_stated_support_holds_what_it_says():
    frame, joints, shop = stand(support=[{"member": "leg.a", "end": "b", "fixes": ["x"]}])
    found = of(verdicts(frame, joints, shop, Conditions()), Code.SWAY)
    free = of(verdicts(*stand(), Conditions()), Code.SWAY)

    assert abs(found.value) < 0.2 * free.value


@pytest.mark.parametrize("template", ["table", "shelf", "greenhouse"])
def test_a_value_lies_between_those_of_softer_and_stiffer_clamps(template):
    """Strength is looked at on the moved frame, with soft and with stiff clamps too."""
    draft = draft_of(template)
    found = verdicts(draft.frame, draft.jointed, draft.workshop, Conditions(load=150.0 * POUND_N))
    bounded = [v for v in found if v.bounds is not None]

    assert Code.STRENGTH in [v.code for v in bounded]
    for verdict in bounded:
        assert verdict.bounds[0] <= verdict.value <= verdict.bounds[1]


def test_clamps_that_only_tie_may_turn():
    """A joist is twisted by rails that bend unalike; nothing rests on that, and friction cannot hold more than it can.

    At 200 lb the tees of the joists turn, and with them let go the table still bears it.
    """
    twist = of(table_of("table", 200.0), Code.TWIST)

    assert twist.ratio > 1.0
    assert twist.where[1].startswith("joist.")
    assert (twist.outcome, [n.what for n in twist.notes]) == (Outcome.WARNING, [More.TURNS])
    assert of(table_of("table", 300.0), Code.TWIST).outcome is Outcome.FAILS, "strength is used up"


@cache
def table_of(template, pounds):
    draft = draft_of(template)
    return verdicts(draft.frame, draft.jointed, draft.workshop, Conditions(load=pounds * POUND_N))


@pytest.mark.parametrize(("force", "outcome"), [("30 N", Outcome.OK), ("150 N", Outcome.FAILS)])
def test_clamps_that_something_hangs_on_may_not_turn(force, outcome):
    """An arm of 300 mm on the middle of a rail: its tee alone holds it, 800 N on 11.7 mm by friction."""
    arm = {"id": "arm", "path": [[700, 0, HEIGHT], [700, -300, HEIGHT]], "ends": ["joint", "cap"]}
    hung = {"name": "hung", "member": "arm", "from": 290, "to": 290, "total": force, "direction": [0, 0, -1]}
    found = of(verdicts(*stand(besides=[arm], load=[hung]), Conditions()), Code.TWIST)

    assert found.outcome is outcome


def test_a_rail_with_joists_sags_from_leg_to_leg():
    """Joists hang on the rails. By hand: half of 200 lb on a rail of 52.98 in, even, between pinned and clamped ends:
    5/384 to 1/384 of w L^4/EI."""
    draft, sag = draft_of("table"), of(table_of("table", 200.0), Code.SAG)
    rail = next(t for t in draft.jointed.tubes if t.id == "rail.front")
    tube, length = draft.workshop.catalog.tube("emt-3/4"), rail.path.length
    simple = 5.0 / 384.0 * 100.0 * POUND_N * length**3 / (199_948.0 * tube.inertia)

    assert sag.where == ("rail.front",)
    assert sag.limit == pytest.approx(length / 240.0)
    assert [n.what for n in sag.notes] == [More.BOARD_APART]
    assert simple / 5.0 < sag.value < 1.2 * simple


def test_a_rail_of_two_tubes_sags_as_one():
    """A rail of 13 ft is spliced by a sleeve: its span is from leg to leg, not from leg to sleeve."""
    frame, joints, shop = long_bench()
    assert sum(t.member == "rail.front" for t in joints.tubes) == 2
    sag = of(verdicts(frame, joints, shop, Conditions()), Code.SAG)

    assert sag.limit == pytest.approx(4000.0 / 240.0)


def long_bench():
    legs = [
        {"id": f"leg.{x}.{y}", "path": [[x, y, 0], [x, y, 762]], "ends": ["foot", "joint"]}
        for x in (0, 4000)
        for y in (0, 700)
    ]
    rails = [
        {"id": "rail.front", "path": [[0, 0, 762], [4000, 0, 762]]},
        {"id": "rail.back", "path": [[0, 700, 762], [4000, 700, 762]]},
        *({"id": f"end.{x}", "path": [[x, 0, 762], [x, 700, 762]]} for x in (0, 4000)),
    ]
    load = {"name": "hung", "member": "rail.front", "total": "50 N", "direction": [0, 0, -1]}
    document = {"schema": "tubeframe.frame/1", "name": "bench", "units": "mm", "member": legs + rails, "load": [load]}
    shop = workshop_from_document({"units": "mm"}, "test")
    frame = frame_from_document(document, shop, "bench.toml")
    return frame, resolved(frame, shop), shop
