"""What sheets say of strength in sum."""

from __future__ import annotations

from dataclasses import replace

from tests.building import draft_of
from tubeframe.catalog.conditions import Conditions
from tubeframe.geometry.units import POUND_N, Units
from tubeframe.structure.check import verdicts
from tubeframe.structure.verdict import Code, More, Outcome
from tubeframe.words.verdict_table import sum_words, verdict_row


def table(**conditions):
    draft = draft_of("table")
    return verdicts(draft.frame, draft.jointed, draft.workshop, Conditions(**conditions))


def test_the_least_load_is_told_first_and_sag_beside_it():
    found = table()
    carries = {v.code: n.value for v in found for n in v.notes if n.what is More.CARRIES}
    hard = min(value for code, value in carries.items() if code is not Code.SAG) / POUND_N
    said = sum_words(found, Units.INCH)

    assert said.startswith(f"It passes up to {hard:.0f} lb (half of it on the long edge); then clamps start to turn.")
    assert f"From {carries[Code.SAG] / POUND_N:.1f} lb on it sags more than the limit" in said
    assert said.endswith("--load 200lb.")
    assert sum_words(found, Units.MILLIMETRE).endswith("--load 90kg.")


def test_what_fails_comes_first():
    assert sum_words(table(load=300.0 * POUND_N), Units.INCH).startswith("It fails by strength of the tubes")
    assert sum_words(table(load=20.0 * POUND_N), Units.INCH).startswith("Nothing fails")


def test_a_frame_that_folds_says_nothing_else():
    found = [replace(v, outcome=Outcome.FAILS) if v.code is Code.FOLDS else v for v in table()]

    assert sum_words(found, Units.INCH) == "IT FOLDS: do not put anything on it; brace it first."


def test_a_row_has_marks_for_tubes_and_signs_for_limits():
    found = table(load=150.0 * POUND_N)
    rows = {v.code: verdict_row(v, {"rail.front": "T1"}, Units.INCH) for v in found}

    assert rows[Code.STRENGTH][1] == "strength of the tubes: T1"
    assert rows[Code.STRENGTH][3] == "≤ 1.00"
    assert rows[Code.BUCKLING][3] == "≥ 2.50"
    assert rows[Code.FOLDS][2:4] == ["1 way", ""]
