"""The shipped tables, a row more in them, and rows that are wrong."""

from __future__ import annotations

import pytest

from tubeframe.catalog.shipped import catalog_from, shipped_catalog, shipped_texts
from tubeframe.errors import CatalogError

NEW = """
[[kind]]
key = "row-of-this-test"
about = "holds an end square on a tube that passes through, with a long socket"
source = "our own, from a drawing of ours"
ports = [
    { name = "run", role = "run", axis = [1, 0, 0], up = [0, 0, 1] },
    { name = "branch", role = "branch", axis = [0, 0, 1], up = [1, 0, 0] },
]
ears = [["run", [0, 1, 0]], ["branch", [0, 1, 0]]]
"""


def with_kind(row):
    texts = shipped_texts()
    return catalog_from(texts | {"fittings": texts["fittings"] + row})


def told(row):
    with pytest.raises(CatalogError) as caught:
        with_kind(row)
    before = len(shipped_texts()["fittings"].splitlines())
    assert {p.where for p in caught.value.problems} == {f"fittings.toml, line {before + 2}"}
    return [f"{p.key}: {p.message}" for p in caught.value.problems]


def test_every_row_names_its_source():
    catalog = shipped_catalog()
    for rows in (catalog.materials, catalog.tubes, catalog.kinds, catalog.bolts, catalog.benders, catalog.stakes):
        assert all(row.source for row in rows)


def test_a_new_row_comes_after_the_plain_ones():
    catalog = with_kind(NEW)

    assert catalog.kind("row-of-this-test").source.startswith("our own")
    assert catalog.tee.key == "tee"


def test_all_mistakes_of_a_row_are_told_with_file_line_and_key():
    row = NEW.replace("row-of-this-test", "odd").replace('role = "branch"', 'role = "arm"')
    row = row.replace("axis = [1, 0, 0], up = [0, 0, 1]", "axis = [2, 0, 0]").replace("about", "abuot")
    row = row.replace('["branch", [0, 1, 0]]', '["third", [0, 1, 0]]').replace("source", "sauce")

    assert told(row) == [
        "odd.ports[1].axis: it is 2.000000 long, not 1",
        "odd.ports[1].up: it is missing",
        "odd.ports[2].role: 'arm' is not known",
        "odd.ears[1]: there is no port 'run'",
        "odd.ears[2]: there is no port 'third'",
        "odd.about: it is missing",
        "odd.source: it is missing",
        "odd.abuot: unknown key",
        "odd.sauce: unknown key",
    ]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (('{ name = "run", role = "run", axis = [1, 0, 0], up = [0, 0, 1] },', ""), ["a branch needs another port"]),
        (('role = "run", axis', 'role = ["run"], axis'), ["ports[1].role: ['run'] is not known"]),
        (('["run", [0, 1, 0]]', "[[], [0, 1, 0]]"), ["ears[1]: there is no port []"]),
        (("ears = ", "inside = true\nears = "), ["inside: only a sleeve"]),
        (("ears = ", "wall = [0, 0, 1]\nears = "), ["wall: only a fitting of one run"]),
        (("up = [1, 0, 0] }", "up = [1, 0, 0], loose = 3 }"), ["loose: true or false is needed"]),
        (('"row-of-this-test"', '"tee"'), ["tee: this key is there twice"]),
        (('"branch", role', '"run", role'), ["row-of-this-test.ports[2].name: 'run' is there twice"]),
        (("ports = [", "prots = ["), ["row-of-this-test.ports: it is missing"]),
        (("ears = ", "ears_in = 3\nears2 = "), ["row-of-this-test.ears: it is missing"]),
        (
            ("axis = [0, 0, 1], up = [1, 0, 0]", "axis = [0, 0, 1], up = [0, 0, 1]"),
            ["row-of-this-test.ports[2].up: it lies"],
        ),
        (
            ("axis = [0, 0, 1], up = [1, 0, 0]", "axis = [-1, 0, 0], up = [0, 0, 1]"),
            ["row-of-this-test.ports: run and branch stand at 0 degrees"],
        ),
        (
            ('["run", [0, 1, 0]]', '["run", [1, 0, 0]]'),
            ["row-of-this-test.ears[1]: it sticks out along the axis of run"],
        ),
        (('role = "branch", axis = [0, 0, 1]', 'role = "run", axis = [0, 1, 0]'), ["two runs through one point"]),
        (('role = "branch"', 'role = "end"'), ["a port of role end is the only one"]),
        (("up = [1, 0, 0] }", "up = [1, 0, 0], swing_deg = [90, 30] }"), ["swing_deg: two angles from 0 to 180"]),
        (("up = [1, 0, 0] }", "up = [1, 0, 0], swing_deg = [5, 90] }"), ["run and branch stand at 5 degrees"]),
        (("up = [1, 0, 0] }", "up = [1, 0, 0], lift = 1 }"), ["a `lift` is for the second of two runs"]),
        (("ears = ", "bolts = -1\nears = "), ["bolts: -1 is not a whole number"]),
        (("ears = ", 'on_floor = "loose"\nears = '), ["only a fitting with a port of role end"]),
        (("ears = ", "shell_in = 0.1\nshell_mm = 2\nears = "), ["shell_mm: one length from 0 up is needed"]),
    ],
)
def test_each_wrong_row(change, words):
    found = told(NEW.replace(*change))

    assert all(any(word in line for line in found) for word in words), found


@pytest.mark.parametrize(
    ("table", "change", "words"),
    [
        ("fittings", ('bolt = "m6-socket"', 'bolt = "m7"'), "generic.bolt: 'm7' is not known"),
        ("tubes", ('material = "conduit-steel"', 'material = "cheese"'), "material: 'cheese' is not known"),
        ("tubes", ("wall_in = 0.042", "wall_in = 0.4"), "emt-1/2.wall: two walls of 10.16 mm do not go into 17.93 mm"),
        ("stock", ('"emt-2"]', '"emt-9"]'), "are not all tube sizes"),
        ("benders", ('tube = "emt-1"', 'tube = "emt-9"'), "tube: 'emt-9' is not known"),
        ("stakes", ('tube = "emt-1"', 'tube = "emt-9"'), "tube: 'emt-9' is not known"),
        ("bolts", ("key_mm = 5.0", "key_mm = [5]"), "m6-socket.key_mm: one length from 0 up is needed"),
        ("materials", ("[[material]]", "[[material"), "materials.toml: it is not TOML"),
        ("materials", ("[[material]]", "[[matter]]"), "materials.toml: material: there is no [[material]]"),
    ],
)
def test_each_wrong_table(table, change, words):
    texts = shipped_texts()
    assert change[0] in texts[table]
    with pytest.raises(CatalogError) as caught:
        catalog_from(texts | {table: texts[table].replace(*change)})

    assert any(words in str(p) and f"{table}.toml" in p.where for p in caught.value.problems)
