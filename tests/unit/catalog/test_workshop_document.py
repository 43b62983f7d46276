from __future__ import annotations

import re
import tomllib
from importlib import resources

import pytest

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import CatalogError, InputError
from tubeframe.geometry.units import Units


def test_the_example_file_is_a_workshop():
    text = resources.files("tubeframe.catalog").joinpath("workshop.example.toml").read_text(encoding="utf-8")
    shop = workshop_from_document(tomllib.loads(text), "example")

    assert (shop.units, shop.currency, shop.saw.kerf) == (Units.INCH, "USD", 0.0)


def test_the_example_file_with_every_line_switched_on():
    text = resources.files("tubeframe.catalog").joinpath("workshop.example.toml").read_text(encoding="utf-8")
    switched_on = re.sub(r"^# (?=[a-z_]+ = |\[)", "", text, flags=re.MULTILINE)
    shop = workshop_from_document(tomllib.loads(switched_on), "example")

    assert shop.bend_radius("emt-3/4") == pytest.approx((6 - 0.461) * 25.4)
    assert shop.measured.setback("tee", ("emt-3/4",), 90.0)[0] == pytest.approx(12.7)
    assert [s.on_hand for s in shop.sticks("emt-3/4")] == [None, 1]
    assert shop.longest_stick("emt-3/4") == pytest.approx((119.75 - 1.0) * 25.4)  # less the saw's grip


def test_three_mistakes_are_told_at_once_with_the_nearest_name():
    document = {"unit": "in", "saw": {"kerf": "a bit"}, "fittings": {"tea": {"setback": "1in"}}}
    with pytest.raises(InputError) as caught:
        workshop_from_document(document, "my.toml")
    told = sorted(str(p) for p in caught.value.problems)

    assert len(told) == 3
    assert "my.toml: fittings.tea: there is no such kind of fitting; did you mean 'tee'?" in told
    assert any(t.startswith("my.toml: saw.kerf: 'a bit' is not a length") for t in told)
    assert any("unit: unknown key" in t for t in told)


@pytest.mark.parametrize(
    ("document", "key"),
    [
        ({"units": "cubits"}, "units"),
        ({"paper": "napkin"}, "paper"),
        ({"currency": "dollars"}, "currency"),
        ({"tube": "emt-3/5"}, "tube"),
        ({"stock": [{"tube": "emt-3/4"}]}, "stock[1].length"),
        ({"stock": [{"tube": "emt-3/4", "length": "10ft", "usable": "11ft"}]}, "stock[1].usable"),
        ({"stock": [{"tube": "emt-3/4", "length": "10ft", "price": -1}]}, "stock[1].price"),
        ({"stock": {"tube": "emt-3/4"}}, "stock"),
        ({"bender": {"tube": "emt-3/4", "take_up": "6in", "radius": "5in"}}, "bender.take_up"),
        ({"bender": {"tube": "emt-3/4", "radius": "0.1in"}}, "bender.radius"),
        ({"saw": 3}, "saw"),
        ({"fittings": {"tee": {"grip": "-1in"}}}, "fittings.tee.grip"),
        ({"fittings": {"tee": {"bolt_torque": "tight"}}}, "fittings.tee.bolt_torque"),
        ({"fittings": {"angle-tee": {"setback": {"steep": "1in"}}}}, "fittings.angle-tee.setback.steep"),
    ],
)
def test_each_mistake_names_its_key(document, key):
    with pytest.raises(InputError) as caught:
        workshop_from_document(document, "my.toml")

    assert [p.key for p in caught.value.problems] == [key]


def of_size(shop, kind, *tubes, angle=None):
    """A fitting sized for tubes by their keys: one for all ports, or one a port."""
    found = shop.catalog.kind(kind)
    keys = tubes * len(found.ports) if len(tubes) == 1 else tubes
    return shop.sized(found, {p.name: shop.catalog.tube(k) for p, k in zip(found.ports, keys, strict=True)}, angle)


def test_a_setback_under_the_floor_is_refused_with_the_number():
    shop = workshop_from_document({"fittings": {"tee": {"setback": "0.4in"}}}, "my.toml")
    with pytest.raises(CatalogError, match=r"0\.400 in is under 0\.461 in"):
        of_size(shop, "tee", "emt-3/4")


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("4ftx8ft", (1219.2, 2438.4)),
        ("1200mmx2400mm", (1200.0, 2400.0)),
        ("48inx96in", (1219.2, 2438.4)),
        ("4' x 8'", (1219.2, 2438.4)),
        ("48 × 96", (1219.2, 2438.4)),
    ],
)
def test_a_table_has_a_length_and_a_width(text, size):
    assert workshop_from_document({"table": text}, "here").layout_table == pytest.approx(size)
    assert workshop_from_document({}, "here").layout_table is None


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ("4ft", "not the length and width"),
        ("4ftx", "not the length and width"),
        ("4ftx8ftx1ft", "not the length and width"),
        (8, "not the length and width"),
        ("4ftxwide", "'wide' is not a length"),
        ("4x8", "24 in to 60 ft"),
        ("-4ftx8ft", "24 in to 60 ft"),
    ],
)
def test_a_table_that_is_none_says_what_one_looks_like(given, words):
    with pytest.raises(InputError) as caught:
        workshop_from_document({"table": given}, "here")

    (problem,) = caught.value.problems
    assert words in problem.message
    assert "4ftx8ft" in problem.remedy


def test_benders_stand_side_by_side():
    both = {"bender": [{"tube": "emt-3/4", "take_up": "6 in"}, {"tube": "emt-1", "radius": "7 in"}]}
    shop = workshop_from_document(both, "my.toml")
    assert shop.bend_radius("emt-3/4") == pytest.approx((6 - 0.461) * 25.4)
    assert shop.bend_radius("emt-1") == pytest.approx(7 * 25.4)

    one = workshop_from_document({"bender": both["bender"][1]}, "my.toml")
    assert one.bend_radius("emt-1") == pytest.approx(7 * 25.4)
    with pytest.raises(InputError, match=r"bender\[2\]\.tube: there is a bender for emt-1 already"):
        workshop_from_document({"bender": [both["bender"][1]] * 2}, "my.toml")


def test_the_choice_of_kinds_is_one_of_two():
    assert workshop_from_document({"prefer": "cheapest"}, "my.toml").prefer.value == "cheapest"
    assert workshop_from_document({}, "my.toml").prefer.value == "plainest"
    with pytest.raises(InputError, match="did you mean 'cheapest'"):
        workshop_from_document({"prefer": "cheap"}, "my.toml")
