from __future__ import annotations

import json

import pytest

from tests.certificate_check import faults
from tests.unit.cli.test_commands import run, wrong

SHOP = ["--stock", "10ft@9.50", "--stock", "5ft@5.25", "--kerf", "1/16in", "--currency", "USD"]
HEAD = "mark,length,quantity\n"


def _list(folder, text, name="pieces.csv"):
    (folder / name).write_text(text, encoding="utf-8")
    return name


def _plan(folder, text, *options):
    done = run("cut", _list(folder, text), *options, "--json", cwd=folder)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_a_plan_has_the_keys_of_a_design_s_cut_plan(tmp_path):
    """60 + 60 in and a kerf between them are more than 120 in: four short sticks."""
    plan = _plan(tmp_path, HEAD + "T1,60,4\n", *SHOP)

    assert {"status", "cost", "lower_bound", "gap", "currency", "sticks", "certificate"} <= set(plan)
    assert (plan["status"], plan["currency"]) == ("optimal", "USD")
    assert plan["cost"] == 4 * 5.25
    assert plan["sticks"][0] == {
        "tube": "tube",
        "stock_length_mm": 1524.0,
        "usable_mm": 1524.0,
        "on_hand": False,
        "price": 5.25,
        "cuts": [{"mark": "T1", "length_mm": 1524.0}],
        "kerf_mm": 1.5875,
        "offcut_mm": 0.0,
        "ends_mm": [1524.0],
        "shop_cuts_mm": [],
    }
    assert [faults(c) for c in plan["certificate"]] == [[]]


def test_what_lies_there_costs_nothing(tmp_path):
    """44.2 in holds 44 in; 60 in is then a short stick."""
    plan = _plan(tmp_path, HEAD + "T1,60in,1\nT2,44,1\n", *SHOP, "--on-hand", "44.2in")

    assert plan["cost"] == 5.25
    assert [s["on_hand"] for s in plan["sticks"]] == [False, True]


def test_a_bought_stick_gives_what_is_usable_of_it(tmp_path):
    """3 x 40 in are 120 in: a stick that gives 119 3/4 in holds two of them."""
    plan = _plan(tmp_path, HEAD + "T1,40,3\n", "--stock", "10ft@9.50", "--usable", "119.75in")

    assert [len(s["cuts"]) for s in plan["sticks"]] == [2, 1]


def test_tubes_are_planned_apart(tmp_path):
    text = "mark,tube,length,quantity\nT1,emt-1,60,1\nT2,emt-3/4,60,1\n"
    plan = _plan(tmp_path, text, "--stock", "emt-1:10ft@14", "--stock", "emt-3/4:10ft@9", "--units", "in")

    assert plan["cost"] == 23.0
    assert [(s["tube"], s["price"]) for s in plan["sticks"]] == [("emt-1", 14.0), ("emt-3/4", 9.0)]
    assert [c["tube"] for c in plan["certificate"]] == ["emt-1", "emt-3/4"]


def test_a_spreadsheet_of_another_country_is_read(tmp_path):
    """Semicolons, a byte order mark, other columns, empty rows, millimetres."""
    text = "\ufeffMark; Note; Length; Quantity\r\nA;x;900;2\r\n;;;\r\nB;y;1m;1\r\n"
    plan = _plan(tmp_path, text, "--stock", "3000", "--units", "mm", "--kerf", "2")

    assert plan["cost"] == 3000.0
    assert plan["cost_is"] == "bought length in mm"
    assert [c["length_mm"] for c in plan["sticks"][0]["cuts"]] == [1000.0, 900.0, 900.0]


def test_a_person_reads_what_to_buy_and_how_each_stick_is_cut(tmp_path):
    done = run("cut", _list(tmp_path, HEAD + "T1,60,1\nT2,35 1/2,2\n"), *SHOP, cwd=tmp_path)

    assert done.stdout.splitlines() == [
        "buy 1 of 10 ft and 1 of 5 ft",
        "cost 14.75 USD: proved, no plan costs less",
        '1 x 10 ft: T2 35 1/2", T2 35 1/2", left 48 7/8"',
        '1 x 5 ft: T1 60", left 0"',
    ]


def test_every_bad_row_is_told_with_its_line(tmp_path):
    text = HEAD + "T1,60,4\nT2,abc,0\n,22.25,x\nT1,61,1\n,,\nT9,300,1\nT8,-4,1\nT7,5\n"
    lines = wrong("cut", _list(tmp_path, text), *SHOP, cwd=tmp_path)

    assert [line.split(":")[0] + line.split(":")[1] for line in lines] == [
        "pieces.csv, line 3 length",
        "pieces.csv, line 3 quantity",
        "pieces.csv, line 4 mark",
        "pieces.csv, line 4 quantity",
        "pieces.csv, line 8 length",
        "pieces.csv, line 9 quantity",
        "pieces.csv, line 5 mark",
        "pieces.csv, line 7 T9",
    ]


@pytest.mark.parametrize(
    ("options", "told"),
    [
        ([], "--stock: there is no stick to cut"),
        (["--stock", "ten feet"], "--stock: 'ten feet' is not a length"),
        (["--stock", "10ft@"], "--stock: '10ft@' is not a stick; write 10ft@9.50"),
        (["--stock", "10ft@0"], "--stock: '10ft@0' has no price"),
        (["--stock", "10ft@9", "--stock", "5ft"], "--stock: some sticks have a price and that of 1524 mm has none"),
        (["--stock", "emt-1:10ft"], "--stock: no piece is of tube 'emt-1'; known: tube"),
        (["--stock", "10ft", "--usable", "11ft"], "--usable: no --stock is as long as '11ft'"),
        (["--stock", "10ft", "--time-limit", "0"], "--time-limit: 0 s is no time"),
        (["--stock", "10ft", "--kerf", "-1"], "--kerf: '-1' is less than nothing"),
        (["--stock", "10ft", "--units", "inch"], "--units: 'inch' is not known"),
        (["--on-hand", "70in"], "stock: on_hand: the pieces on hand are too few"),
    ],
)
def test_wrong_options_are_told(tmp_path, options, told):
    lines = wrong("cut", _list(tmp_path, HEAD + "T1,60,4\n"), *options, cwd=tmp_path)

    assert any(line.startswith(told) for line in lines), lines


@pytest.mark.parametrize("text", ["", "mark;size\n", HEAD])
def test_a_list_without_pieces_is_told(tmp_path, text):
    assert wrong("cut", _list(tmp_path, text), *SHOP, cwd=tmp_path)


def test_a_list_that_is_not_there_is_told(tmp_path):
    assert "cannot be read" in wrong("cut", "none.csv", *SHOP, cwd=tmp_path)[0]


def test_the_shop_cuts_what_does_not_fit_the_car(tmp_path):
    """67 and 47 1/4 of 120 in: a cut from 67 to 72 5/8 in leaves both parts under 73; the roundest is a whole foot."""
    text = HEAD + "T1,67,1\nT2,47 1/4,1\n"
    plan = _plan(tmp_path, text, "--stock", "10ft", "--kerf", "1/8in", "--carry-length", "73in")

    assert [s["shop_cuts_mm"] for s in plan["sticks"]] == [[1828.8]]
    assert plan["sticks"][0]["ends_mm"] == [1701.8, round((72.0 + 0.125 + 47.25) * 25.4, 6)]


@pytest.mark.parametrize("seconds", ["0.001", "0.2", "0.6"])
def test_a_deadline_is_kept_and_the_gap_told(tmp_path, seconds):
    rows = [f"T{k},{300 + 7 * k},{1 + k % 3}" for k in range(150)]
    done = run(
        "cut", _list(tmp_path, HEAD + "\n".join(rows)), "--stock", "3333", "--units", "mm", "--json",
        "--carry-length", "2500", "--time-limit", seconds, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    plan = json.loads(done.stdout)

    assert plan["lower_bound"] <= plan["cost"]
    assert (plan["status"] == "optimal") == (plan["gap"] == 0.0)
