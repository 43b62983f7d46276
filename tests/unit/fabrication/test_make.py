from __future__ import annotations

import itertools
import math
from collections import Counter

import pytest

from tests.building import INCH_MM, TABLE, design_of, greenhouse, inches, table, words_of
from tubeframe.assembly.diagonals import flat_diagonal, floor_diagonal
from tubeframe.errors import Severity
from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.member import EndKind
from tubeframe.words.cautions import all_cautions
from tubeframe.words.steps import told_steps


def test_sub_frames_of_a_table_are_its_two_ends():
    """Four tubes each, upright planes first; what is left does not hang together in one plane."""
    flats = table().assembly.flats

    assert [f.members for f in flats] == [
        (f"leg.front.{s}", f"leg.back.{s}", f"rail.{s}", f"stretcher.{s}") for s in ("left", "right")
    ]
    assert all(f.is_upright for f in flats)


def test_every_hoop_is_a_sub_frame_of_its_own():
    assert [f.members for f in greenhouse().assembly.flats] == [(f"hoop.{n}",) for n in range(1, 6)]


def test_diagonals_by_hand():
    """End of the table: legs of 30.7655 in, 27 - 0.922 in apart; its floor: 57 - 0.922 by 27 - 0.922 in.

    A tape reaches a leg from the top of its foot, 3/4 in up, to where it goes into the corner, 1.5 x 0.922 in below
    its end.
    """
    design = table()
    apart, tall = 27 - 0.922, 30.7655 - 0.75 - 1.5 * 0.922

    for flat in design.assembly.flats:
        found = flat_diagonal(flat, design.parts, design.jointed)
        assert inches(found.length) == pytest.approx(math.hypot(tall, apart))
        assert found.at_clamps
    assert inches(floor_diagonal(design.parts)) == pytest.approx(math.hypot(57 - 0.922, apart))


def test_buying_list_of_the_table():
    lines = {p.item: (p.quantity, p.spare) for p in table().fabrication.buying}

    assert lines["side-outlet-elbow for EMT 3/4, with 3 bolts"] == (4, 1)
    assert lines["tee for EMT 3/4, with 2 bolts"] == (6, 1)
    assert lines["foot for EMT 3/4"] == (4, 1)
    assert lines['P1 top panel, plywood, 3/4" x 59" x 29"'] == (1, 0)
    assert next(v for k, v in lines.items() if k.startswith("P2 spacer strip")) == (2, 0)


def test_what_lies_in_the_garage_is_not_bought():
    shop = {"fittings": {"tee": {"on_hand": 4, "price": 2.5}}}
    lines = {p.item: p for p in design_of("table", shop, braces="none", joists="0").fabrication.buying}
    tee = lines["tee for EMT 3/4, with 2 bolts"]

    assert (tee.quantity, tee.price) == (2, 2.5)


def test_bolts_that_come_apart_are_listed_for_what_is_bought():
    """Side outlet elbows 4 + 1 with three bolts, tees 6 + 1 with two, of which all but one tee lie there."""
    values = dict(TABLE)
    apart = design_of("table", {"bolts": "apart", "fittings": {"tee": {"on_hand": 5}}}, **values).fabrication.buying
    together = design_of("table", {"fittings": {"tee": {"on_hand": 5}}}, **values).fabrication.buying
    (bolts,) = [p for p in apart if p.item.startswith("M6 socket head screw")]

    assert (bolts.quantity, bolts.spare) == (4 * 3 + 1 * 2, 3 + 2)
    assert any(p.item == "tee for EMT 3/4, without its 2 bolts" for p in apart)
    assert not any("socket head" in p.item for p in together)


def test_stakes_and_pins_of_the_greenhouse():
    lines = {p.item: p.quantity for p in greenhouse().fabrication.buying}

    assert lines['ground stake, #5 reinforcing bar, 36"'] == 10
    assert lines['cross pin 1/4" for a stake, with keeper'] == 10


def test_fittings_in_number_are_the_joints():
    for design in (table(), greenhouse()):
        counted = {f.kind: f.quantity for f in design.fabrication.fittings}
        assert counted == Counter(j.kind for j in design.jointed.joints)


def test_a_joint_comes_with_its_second_tube_and_caps_at_the_end():
    for design in (table(), greenhouse()):
        step_of = {t: s.number for s in told_steps(design) for t in s.tubes}
        for step in told_steps(design):
            for joint in (design.joint(j) for j in step.joints):
                there = sorted(step_of[u.tube] for u in joint.uses)
                if joint.kind == EndKind.CAP:
                    assert step.number > max(step_of.values())
                else:
                    assert step.number == there[min(1, len(there) - 1)]


def test_braces_come_after_squaring_and_before_tightening():
    titles = [s.title.split()[0] for s in told_steps(greenhouse())]

    assert titles.index("Set") < titles.index("Join") < titles.index("Brace") < titles.index("Tighten")
    assert [s.title for s in told_steps(greenhouse())][5] == "Set it square"


def test_halves_of_a_hoop_are_told_apart():
    (step,) = [s for s in told_steps(greenhouse()) if s.title.startswith("Join the halves")]

    assert step.action[:3] == ("S1 and S5: T2 + T3.", "S2 and S4: T4 + T5.", "S3: T6 + T7.")


def test_new_parts_are_moved_clear_of_what_they_go_into():
    for design in (table(), greenhouse()):
        for step in told_steps(design):
            assert all(m.direction.length == pytest.approx(1.0) and m.distance > 0 for m in step.moves)


def test_purlins_are_drawn_off_the_hoops_on_the_side_they_come_from():
    moves = {m.what: m.direction for s in told_steps(greenhouse()) for m in s.moves}

    assert moves["purlin.ridge.1"].z == pytest.approx(-1.0)
    assert moves["base.left.1"].x == pytest.approx(1.0)
    assert moves["base.right.1"].x == pytest.approx(-1.0)
    assert abs(moves["base.right.2"].y) == pytest.approx(1.0), "it slides into the sleeve"


def test_every_caution_stands_somewhere_and_the_gravest_is_a_warning():
    for design in (table(), greenhouse()):
        in_steps = [c for s in told_steps(design) for c in s.cautions]
        elsewhere = [c for c in all_cautions(design.frame) if c.before in {Moment.CUTTING, Moment.BENDING}]
        assert sorted(c.text for c in (*in_steps, *elsewhere)) == sorted(c.text for c in all_cautions(design.frame))
        assert {c.signal for c in all_cautions(design.frame)} <= {Signal.WARNING, Signal.CAUTION, Signal.NOTICE}


def test_bend_marks_run_from_the_end_that_is_trimmed():
    """Leg 36 in and half a straight of 5.529 in before the first bend; 2 in of trim: 43.53 in, then by the pitch."""
    sheet = greenhouse().fabrication.bend_sheets[0]
    at = [inches(m.at) for m in sheet.bends]
    stub = (47.539 - 5.539) * math.tan(math.radians(7.5))

    assert at[0] == pytest.approx(2 + 36 + stub)
    assert {round(b - a, 3) for a, b in itertools.pairwise(at)} == {12.509}


def test_a_stick_that_does_not_fit_the_car_is_cut_in_the_shop():
    design = design_of(
        "table", {"carry_length": "8 ft"}, length="57in", width="27in", height="33in", braces="none", joists="0"
    )
    found = [f for f in design.findings if f.code == "C-carry"]

    assert found
    assert all(f.severity is Severity.INFO and "at the counter have them cut" in words_of(f).remedy for f in found)
    short = design_of("greenhouse", {"carry_length": "8 ft"})
    assert any(f.severity is Severity.WARNING for f in short.findings if f.code == "C-carry")


def test_a_piece_that_no_stick_takes_is_told_and_the_rest_is_planned():
    shop = {"stock": [{"tube": "emt-3/4", "length": "50in", "on_hand": 9}, {"tube": "emt-3/4", "length": "30in"}]}
    design = design_of("shelf", shop, deck="rails", back_braces="no", length="42in", height="60in")
    codes = {f.code for f in design.findings if f.severity is Severity.ERROR}

    assert codes <= {"C-too-long", "J-too-long"}
    assert design.fabrication.plan.sticks


def test_a_saw_s_grip_is_lost_at_every_stick():
    """What comes out of no stick any more is told; tubes are split for it before."""
    shop = {"saw": {"kerf": "1/8 in", "grip": "2 in"}}
    plan = design_of("table", shop, length="57in", width="27in", height="33in").fabrication.plan

    for stick in plan.sticks:
        assert stick.ends[-1] + (2.0 + 1.0 / 8.0) * INCH_MM <= stick.usable + 1e-6
