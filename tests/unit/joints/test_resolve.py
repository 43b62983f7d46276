from __future__ import annotations

import pytest

from tests.building import TABLE, design_of, greenhouse, inches, table, words_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.member import EndKind
from tubeframe.geometry.vector import Vec
from tubeframe.joints.resolve import jointed

CAPS = (EndKind.CAP, EndKind.CAP)
FOOT_AND_CAP = (EndKind.FOOT, EndKind.CAP)
FOOT_AND_JOINT = (EndKind.FOOT, EndKind.JOINT)


def _jointed(*tubes, shop=None):
    frame = FrameBuilder(name="test", tube="emt-3/4")
    for name, start, end, ends in tubes:
        frame.tube(name, (Vec(*start), Vec(*end)), ends=ends)
    return jointed(frame.build(), shop or generic_workshop())


def test_two_runs_through_one_point_are_impossible():
    found = _jointed(("a", (0, 0, 100), (900, 0, 100), CAPS), ("b", (450, -400, 100), (450, 400, 100), CAPS))

    assert "J-one-point" in [f.code for f in found.findings]
    assert "coupler" in words_of(found.findings[0]).remedy


def test_two_runs_the_offset_apart_get_a_coupler_with_a_point_each():
    offset = (0.922 + 0.1875) * 25.4  # one tube and the gap of the shipped table
    found = _jointed(
        ("a", (0, 0, 100), (900, 0, 100), CAPS), ("b", (450, -400, 100 + offset), (450, 400, 100 + offset), CAPS)
    )
    joint = next(j for j in found.joints if not j.is_end_piece)

    assert joint.kind == "right-angle-coupler"
    assert joint.at.z == pytest.approx(100 + offset / 2)
    assert {u.tube: round(u.up.z) for u in joint.uses} == {"a": 1, "b": -1}


def test_an_end_that_nothing_takes_is_told():
    found = _jointed(("a", (0, 0, 0), (0, 0, 500), FOOT_AND_JOINT))

    assert [(f.code, words_of(f).where) for f in found.findings] == [("J-loose-end", "a, end B")]


def test_no_fitting_is_told_and_the_joint_stays():
    found = _jointed(
        ("post", (0, 0, 0), (0, 0, 900), FOOT_AND_CAP),
        ("arm", (0, 0, 500), (500, 0, 600), (EndKind.JOINT, EndKind.CAP)),
        ("leg", (0, 0, 500), (0, 500, 620), (EndKind.JOINT, EndKind.CAP)),
    )

    assert "J-no-fitting" in [f.code for f in found.findings]
    assert [j.kind for j in found.joints].count("unresolved") == 1


def test_a_foot_shortens_its_tube_and_a_cap_does_not():
    found = _jointed(("post", (0, 0, 0), (0, 0, 900), FOOT_AND_CAP))
    foot, cap = found.joints

    assert (foot.kind, foot.at.z) == ("foot", pytest.approx(3.175))
    assert (cap.kind, cap.at.z) == ("cap", 900)


def test_every_tube_end_is_taken_exactly_once():
    for design in (table(), greenhouse()):
        taken = [(u.tube, u.end) for j in design.jointed.joints for u in j.uses if u.end]
        stakes = [(p.id, e) for p in design.parts.pieces for e in (p.end_a, p.end_b) if e.kind is EndKind.STAKE]

        assert len(taken) == len(set(taken))
        assert len(taken) + len(stakes) == 2 * len(design.parts.pieces)


def test_tubes_pass_through_their_ports_and_ends_stop_at_the_setback():
    for design in (table(), greenhouse()):
        for piece in design.parts.pieces:
            for station in piece.stations:
                joint = design.joint(station.joint)
                sized = joint.fitting.port(station.port)
                assert piece.path.point(station.from_a).distance(joint.placement.point(sized.middle)) < 1e-6


def test_a_long_run_is_split_clear_of_fittings_into_the_fewest_tubes():
    design = design_of("greenhouse", length="30ft")
    stick = design.workshop.longest_stick("emt-3/4")
    runs = [p for p in design.parts.pieces if p.member == "base.left"]
    whole = next(m for m in design.frame.members if m.id == "base.left").path.length

    assert len(runs) == -(-whole // stick)
    assert all(p.cut_length <= stick for p in runs)
    assert sum(p.cut_length for p in runs) == pytest.approx(whole)


def test_a_usable_length_moves_the_sleeve():
    shop = {"stock": [{"tube": "emt-3/4", "length": "10ft", "usable": "116in"}]}
    design = design_of("greenhouse", shop, width="8ft", length="12ft", height="7ft")
    longest = max(inches(p.cut_length) for p in design.parts.pieces if p.member.startswith("base"))

    assert longest == pytest.approx(1.1875 + (144 - 0.922) / 4 * 2.75)


def test_cut_lengths_of_short_tubes_do_not_depend_on_the_sticks():
    shop = {"stock": [{"tube": "emt-3/4", "length": "6m"}]}
    one, other = table(), design_of("table", shop, **dict(TABLE))

    assert [p.cut_length for p in one.parts.pieces] == [p.cut_length for p in other.parts.pieces]


def test_measured_offset_moves_the_purlins():
    shop = {"fittings": {"right-angle-coupler": {"offset": "1.25in"}}}
    design = design_of("greenhouse", shop, width="8ft", length="12ft", height="7ft")
    base = next(m for m in design.frame.members if m.id == "base.left")

    assert inches(base.path.start.x) == pytest.approx(0.461 + 1.25)
    assert not [f for f in design.findings if f.code == "J-no-fitting"]


def test_no_place_for_a_sleeve_is_told():
    shop = workshop_from_document({"stock": [{"tube": "emt-3/4", "length": "60mm"}]}, "test")
    found = _jointed(("a", (0, 0, 0), (0, 0, 80), FOOT_AND_CAP), shop=shop)

    assert "J-too-long" in [f.code for f in found.findings]
