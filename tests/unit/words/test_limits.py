"""What verdicts rest on, as people read it."""

from __future__ import annotations

import pytest

from tubeframe.catalog.limits import LimitKey
from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.geometry.units import Units
from tubeframe.words.limits import LIMIT_NAMES, assumption_words


def words(key, units):
    return assumption_words(shipped_catalog().limits.row(key), units).split(" (")[0]


def test_every_value_has_a_name_and_no_unit_of_the_solver_is_printed():
    rows = shipped_catalog().limits.rows

    assert set(LIMIT_NAMES) == set(LimitKey)
    for units in Units:
        for row in rows:
            text = assumption_words(row, units)
            assert "N mm" not in text
            assert text.endswith(f"({row.source})")


@pytest.mark.parametrize(
    ("key", "inches", "metric"),
    [
        (LimitKey.YOUNG, "Young's modulus 29000 ksi", "Young's modulus 199948 MPa"),
        (LimitKey.YIELD, "yield strength 30 ksi", "yield strength 207 MPa"),
        (LimitKey.SWAY_PUSH, "push of a hand 22.5 lb", "push of a hand 100 N"),
        (LimitKey.SWAY_WOBBLY, "sway that wobbles 0.394 in", "sway that wobbles 10 mm"),
        (LimitKey.BOLT_TORQUE, "torque of a bolt 70.8 in lb", "torque of a bolt 8 N m"),
        # 1 kN m/rad: 1000 / 57.2958 = 17.45 N m a degree, 8850.7 in lb / 57.2958 = 154.5
        (LimitKey.CLAMP, "clamp's stiffness 154 in lb a degree", "clamp's stiffness 17.5 N m a degree"),
        (LimitKey.CLAMP_FACTOR, "safety factor on a clamp's grip 2", "safety factor on a clamp's grip 2"),
    ],
)
def test_values_are_in_the_users_units(key, inches, metric):
    assert words(key, Units.INCH) == inches
    assert words(key, Units.MILLIMETRE) == metric
