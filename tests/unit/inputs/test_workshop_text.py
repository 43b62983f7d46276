from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tubeframe.errors import InputError
from tubeframe.inputs.workshop_text import check_only_changed, with_setback, workshop_values

NOTE = "measured 2026-05-01"
HERE = Path("my.toml")
FILE = """# my shop
units = "in"   # inches

[fittings.tee]    # the blue box
grip = "1.9 in"   # at the shell

[fittings.tee."emt-3/4"] # the small ones
setback = "0.6 in"  # old

[fittings.swivel-tee.emt-3/4] # no quotes
setback = {45 = "1.5 in", 90 = "0.6 in"}  # old angles

[saw]
kerf = "1/16 in"  # hacksaw
"""
PLACES = [("fittings", "tee", "emt-3/4"), ("fittings", "tee", "emt-1"), ("fittings", "cross", "emt-1 x emt-3/4")]


@pytest.mark.parametrize("text", ["", FILE, FILE.replace('setback = "0.6 in"  # old\n', ""), 'units = "mm"\n'])
@pytest.mark.parametrize("place", PLACES)
def test_only_the_setback_changes(text, place):
    before, after = (workshop_values(t, HERE) for t in (text, with_setback(text, place, None, "0.5 in", NOTE)))

    assert after["fittings"][place[1]][place[2]]["setback"] == "0.5 in"
    before.setdefault("fittings", {}).setdefault(place[1], {}).setdefault(place[2], {})["setback"] = "0.5 in"
    assert after == before


def test_comments_stay():
    changed = with_setback(FILE, PLACES[0], None, "0.5 in", NOTE)

    for comment in ("# my shop", "# inches", "# the blue box", "# at the shell", "# hacksaw", f"# {NOTE}"):
        assert comment in changed
    assert "# old\n" not in changed


def test_an_angle_stands_beside_those_that_are_there():
    place = ("fittings", "swivel-tee", "emt-3/4")
    once = with_setback(FILE, place, "60", "1.1 in", NOTE)
    twice = with_setback(once, place, "45", "1.4 in", NOTE)

    assert workshop_values(twice, HERE)["fittings"]["swivel-tee"]["emt-3/4"]["setback"] == {
        "45": "1.4 in",
        "60": "1.1 in",
        "90": "0.6 in",
    }
    check_only_changed(workshop_values(FILE, HERE), workshop_values(twice, HERE), place, HERE)


def test_an_angle_goes_into_a_table_of_its_own():
    text = '[fittings.swivel-tee."emt-3/4".setback]\n45 = "1.5 in"\n"22.5" = "2 in"\n[saw]\nkerf = 0\n'
    place = ("fittings", "swivel-tee", "emt-3/4")
    changed = with_setback(with_setback(text, place, "60", "1.1 in", NOTE), place, "22.5", "2.1 in", NOTE)

    found = workshop_values(changed, HERE)
    assert found["fittings"]["swivel-tee"]["emt-3/4"]["setback"] == {"45": "1.5 in", "60": "1.1 in", "22.5": "2.1 in"}
    assert found["saw"] == {"kerf": 0}


@pytest.mark.parametrize(
    "text", ['fittings = {tee = {grip = "2 in"}}\n', 'note = """\n[fittings.tee."emt-3/4"]\n"""\n']
)
def test_what_cannot_be_put_in_is_refused(text):
    """An inline table cannot grow, and a text is no table: the file that comes out is another one, or none."""
    place = PLACES[0]

    def change():
        after = workshop_values(with_setback(text, place, None, "0.5 in", NOTE), HERE)
        check_only_changed(workshop_values(text, HERE), after, place, HERE)

    with pytest.raises(InputError):
        change()


@pytest.mark.parametrize(
    ("bare", "quoted"),
    [
        ("[fittings.tee.emt-3/4]", '[fittings.tee."emt-3/4"]'),
        ("[fittings.tee.tube-25x1.5] # metric", '[fittings.tee."tube-25x1.5"]'),
        ("[ fittings . tee . emt-1-1/4 ]", '[fittings.tee."emt-1-1/4"]'),
        ("[fittings.tee.emt-1 x emt-3/4]", '[fittings.tee."emt-1 x emt-3/4"]'),
        ("[fittings.tee.emt-3/4.setback]", '[fittings.tee."emt-3/4".setback]'),
        ("[fittings.tee.emt-1]", "[fittings.tee.emt-1]"),
        ("[fittings.tee]", "[fittings.tee]"),
    ],
)
def test_a_size_needs_no_quotes(bare, quoted):
    assert workshop_values(f"{bare}\na = 1\n", HERE) == tomllib.loads(f"{quoted}\na = 1\n")
