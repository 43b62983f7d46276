"""What was measured, by kind, tube size and angle, and what it does to a fitting."""

from __future__ import annotations

import pytest

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import CatalogError, InputError

INCH = 25.4
OUTSIDE = {"emt-3/4": 0.922, "emt-1": 1.163, "emt-1-1/4": 1.510}


def shop_of(**fittings):
    return workshop_from_document({"fittings": {k.replace("_", "-"): v for k, v in fittings.items()}}, "my.toml")


def sized(shop, kind, *tubes, angle=None):
    """A fitting sized for tubes by their keys: one for all ports, or one a port."""
    found = shop.catalog.kind(kind)
    keys = tubes * len(found.ports) if len(tubes) == 1 else tubes
    return shop.sized(found, {p.name: shop.catalog.tube(k) for p, k in zip(found.ports, keys, strict=True)}, angle)


def setback(shop, kind, *tubes, angle=None, port="branch"):
    return sized(shop, kind, *tubes, angle=angle).port(port).setback / INCH


def told(**fittings):
    with pytest.raises(InputError) as caught:
        shop_of(**fittings)
    return [str(p) for p in caught.value.problems]


def test_a_size_rules_over_all_sizes_value_by_value():
    shop = shop_of(tee={"setback": "0.7 in", "grip": "2 in", "emt-1": {"setback": "0.8 in"}})

    assert setback(shop, "tee", "emt-3/4") == pytest.approx(0.7)
    assert setback(shop, "tee", "emt-1") == pytest.approx(0.8)
    assert sized(shop, "tee", "emt-1").port("run").grip == pytest.approx(2.0 * INCH)


def test_what_was_measured_on_one_size_says_nothing_of_another():
    """The generic setback of a tee on 1 in: half of 1.163 in, and 1/16 in."""
    shop = shop_of(tee={"emt-3/4": {"setback": "0.5 in"}})

    assert setback(shop, "tee", "emt-3/4") == pytest.approx(0.5)
    assert setback(shop, "tee", "emt-1") == pytest.approx(1.163 / 2 + 1 / 16)
    assert setback(shop, "tee", "emt-1", "emt-3/4") == pytest.approx(1.163 / 2 + 1 / 16)


def test_two_sizes_in_one_fitting_are_a_size_of_their_own():
    shop = shop_of(tee={"emt-1 x emt-3/4": {"setback": "0.66 in"}, "emt-3/4 x emt-1": {"setback": "0.55 in"}})

    assert setback(shop, "tee", "emt-1", "emt-3/4") == pytest.approx(0.66)
    assert setback(shop, "tee", "emt-3/4", "emt-1") == pytest.approx(0.55)
    assert setback(shop, "tee", "emt-3/4") == pytest.approx(0.461 + 1 / 16)


def test_a_coupler_has_no_first_tube():
    shop = shop_of(right_angle_coupler={"emt-3/4 x emt-1": {"offset": "1.3 in"}})

    for tubes in (("emt-1", "emt-3/4"), ("emt-3/4", "emt-1")):
        assert sized(shop, "right-angle-coupler", *tubes).offset == pytest.approx(1.3 * INCH)


def test_an_impossible_setback_is_told_for_the_size_it_is_used_on():
    shop = shop_of(tee={"setback": "0.5 in"})

    assert setback(shop, "tee", "emt-3/4") == pytest.approx(0.5)
    with pytest.raises(CatalogError, match=r"0\.500 in is under 0\.755 in.* measure it on emt-1-1/4"):
        sized(shop, "tee", "emt-1-1/4")


def test_an_impossible_setback_of_a_size_is_told_when_the_file_is_read():
    assert told(tee={"setback": "0.5 in", "emt-1-1/4": {"setback": "0.5 in"}, "emt-3/4": {"setback": "0.5 in"}}) == [
        "my.toml: fittings.tee.emt-1-1/4.setback: 0.500 in is under 0.755 in, where a square-cut end already "
        "touches the other tube (on emt-1-1/4, at 90 degrees); measure again: from the run's centreline to the end of "
        "the branch"
    ]


@pytest.mark.parametrize(
    ("kind", "port", "angle"),
    [
        ("tee", "branch", 90),
        ("cross", "second", 90),
        ("side-outlet-tee", "first", 90),
        ("side-outlet-cross", "third", 90),
        ("elbow", "first", 90),
        ("side-outlet-elbow", "third", 90),
        ("angle-tee", "branch", 45),
        ("obtuse-elbow", "second", 135),
        ("sleeve-coupler", "first", 180),
        ("eave-tee", "first", 135),
        ("double-angle-tee", "second", 45),
        ("double-side-outlet-cross", "fourth", 90),
    ],
)
def test_a_setback_by_angle_on_every_kind_of_a_fixed_angle(kind, port, angle):
    shop = shop_of(**{kind: {"setback": {str(angle): "1.875 in"}}})

    assert setback(shop, kind, "emt-3/4", port=port) == pytest.approx(1.875)
    wrong = told(**{kind: {"setback": {"60": "1.875 in"}}})
    assert wrong == [
        f"my.toml: fittings.{kind}.setback.60: no end stands at 60 degrees in a {kind}; its ends: {angle} degrees"
    ]


@pytest.mark.parametrize(
    "kind", [k for k in shop_of().catalog.kinds if k.ports_of(PortRole.BRANCH)], ids=lambda k: k.key
)
def test_a_setback_by_angle_counts_on_every_kind_with_a_branch(kind):
    """Whatever rows there are: at the angle of its first branch, where a port that turns stands at 70 degrees."""
    swing = 70.0 if kind.swings else None
    branch = kind.ports_of(PortRole.BRANCH)[0]
    angle = kind.angle_of(branch, swing)
    shop = shop_of(**{kind.key: {"setback": {f"{angle:.3f}": "3.125 in"}}})

    assert setback(shop, kind.key, "emt-3/4", angle=swing, port=branch.name) == pytest.approx(3.125)


def test_a_swinging_kind_from_either_side_and_between():
    """0.5 in at 90 and 1.5 in at 45: on a straight line between, 60 degrees is a third of the way up from 45."""
    shop = shop_of(swivel_tee={"setback": {"45": "1.5 in", "90": "0.6 in"}})

    assert setback(shop, "swivel-tee", "emt-3/4", angle=90.0) == pytest.approx(0.6)
    assert setback(shop, "swivel-tee", "emt-3/4", angle=45.0) == pytest.approx(1.5)
    for same in (60.0, 120.0):
        assert setback(shop, "swivel-tee", "emt-3/4", angle=same) == pytest.approx(1.5 - 0.9 / 3)
    other_side = shop_of(swivel_tee={"setback": {"120": "1 in"}})
    assert setback(other_side, "swivel-tee", "emt-3/4", angle=60.0) == pytest.approx(1.0)


def test_beyond_the_measured_angles_the_generic_rule_stays():
    """30 degrees on 3/4: D/2 / sin 30 + D/2 / tan 30 = 0.922 + 0.798 = 1.720 in, and 1/16 in."""
    shop = shop_of(swivel_tee={"setback": {"45": "1.5 in", "90": "0.6 in"}})

    assert setback(shop, "swivel-tee", "emt-3/4", angle=30.0) == pytest.approx(1.720 + 1 / 16, abs=6e-4)


@pytest.mark.parametrize(
    ("measured", "words"),
    [
        ({"60": "1 in", "120": "1 in"}, "60 degrees is there twice"),
        ({"20": "2 in"}, "no end stands at 20 degrees in a swivel-tee; its ends: 30 to 90 degrees"),
        ({"22": {"5": "2 in"}}, "has to stand in quotes"),
    ],
)
def test_angles_that_cannot_be(measured, words):
    assert [words in line for line in told(swivel_tee={"setback": measured})] == [True]


def test_nought_is_nought():
    """A thickness of 0 takes nothing off; a grip of 0 holds nothing and is refused, never made generic."""
    assert sized(shop_of(foot={"thickness": "0 in"}), "foot", "emt-3/4").thickness == 0.0
    assert sized(shop_of(sleeve_coupler={"setback": "0 in"}), "sleeve-coupler", "emt-3/4").ports[0].setback == 0.0
    for kind, key in (("tee", "grip"), ("tee", "branch_grip"), ("sleeve-coupler", "length")):
        assert told(**{kind: {key: "0 in"}}) == [
            f"my.toml: fittings.{kind}.{key}: 0 would hold nothing; measure it, or leave it out"
        ]


def test_a_size_that_is_none():
    (problem,) = told(tee={"emt-3/5": {"setback": "0.5 in"}})
    assert "did you mean 'emt-3/4'?" in problem
    (problem,) = told(tee={"tube-25x1": {"5": {"setback": "14 mm"}}})
    assert 'write it in quotes: [fittings.tee."tube-25x1.5"]' in problem


def test_an_impossible_offset_is_told_where_it_is_used():
    """Two 3/4 tubes touch at 0.922 in, two of 1-1/4 at 1.510 in; a wall at half of that."""
    shop = shop_of(**{"right-angle-coupler": {"offset": "1.11 in"}, "wall-bracket": {"offset": "0.5 in"}})

    assert sized(shop, "right-angle-coupler", "emt-3/4").offset == pytest.approx(1.11 * INCH)
    with pytest.raises(CatalogError, match=r"1\.110 in is under 1\.510 in.* measure it on emt-1-1/4 too"):
        sized(shop, "right-angle-coupler", "emt-1-1/4")
    with pytest.raises(CatalogError, match=r"0\.500 in is under 0\.755 in"):
        sized(shop, "wall-bracket", "emt-1-1/4")
    (line,) = told(**{"swivel-coupler": {"emt-3/4": {"offset": "0.9 in"}}})
    assert line.startswith("my.toml: fittings.swivel-coupler.emt-3/4.offset: 0.900 in is under 0.922 in")


def test_an_impossible_setback_of_a_swinging_kind_asks_for_its_angle():
    shop = shop_of(**{"swivel-tee": {"setback": "0.6 in"}})

    assert setback(shop, "swivel-tee", "emt-3/4", angle=90.0) == pytest.approx(0.6)
    with pytest.raises(CatalogError, match=r"write setback = \{45 = \.\.\.\} under \[fittings\.swivel-tee"):
        sized(shop, "swivel-tee", "emt-3/4", angle=45.0)
