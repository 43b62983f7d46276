from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tubeframe.geometry.units import (
    Units,
    cut_rounded,
    format_length,
    parse_length,
    parse_load,
    parse_pressure,
    parse_speed,
)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('34 1/8"', 34.125 * 25.4),
        ("34-1/8in", 34.125 * 25.4),
        ("2ft 10.125in", 34.125 * 25.4),
        ("2' 10 1/8\"", 34.125 * 25.4),
        ("867mm", 867.0),
        ("0.867m", 867.0),
        ("86.7 cm", 867.0),
        ("8ft", 8 * 304.8),
        ("1/2in", 12.7),
        (".5in", 12.7),
        ("34.125", 34.125 * 25.4),
        (34.125, 34.125 * 25.4),
    ],
)
def test_lengths_as_people_write_them(text, expected):
    assert parse_length(text, Units.INCH) == pytest.approx(expected, abs=1e-9)


def test_bare_number_is_in_the_shops_units():
    assert parse_length("900", Units.MILLIMETRE) == 900.0


@pytest.mark.parametrize("text", ["", "eight feet", "1/0in", "8ftt", "3 4 in", "nan", "inf", "1e9", "--3in", "8ft 7mm"])
def test_what_is_not_a_length(text):
    with pytest.raises(ValueError, match="is not a"):
        parse_length(text, Units.INCH)


@pytest.mark.parametrize(
    ("length", "shown"),
    [(36.4375, '36 7/16"'), (0.5, '1/2"'), (12.0, '12"'), (0.0, '0"'), (0.01, '0"'), (0.97, '1"'), (-0.5, '-1/2"')],
)
def test_inches_to_the_nearest_sixteenth(length, shown):
    assert format_length(length * 25.4, Units.INCH) == shown


def test_millimetres_to_the_nearest_whole():
    assert format_length(914.5, Units.MILLIMETRE) == "915 mm"


@given(st.floats(min_value=0, max_value=20000))
@settings(derandomize=True)
def test_cut_lengths_are_rounded_down_by_less_than_a_step(length):
    for units, step in ((Units.INCH, 25.4 / 16), (Units.MILLIMETRE, 1.0)):
        assert -0.01 - 1e-5 < length - cut_rounded(length, units) < step - 0.01 + 1e-5


@pytest.mark.parametrize(
    ("length", "units", "rounded"),
    [
        (1349.991, Units.MILLIMETRE, 1350.0),
        (1349.985, Units.MILLIMETRE, 1349.0),
        (1350.999, Units.MILLIMETRE, 1351.0),
        (36 * 25.4 - 0.009, Units.INCH, 36 * 25.4),
        (36 * 25.4 - 0.011, Units.INCH, (36 - 1 / 16) * 25.4),
    ],
)
def test_a_cut_length_a_hundredth_under_a_step_is_that_step(length, units, rounded):
    """Pieces within 0.01 mm are cut alike: the tape shows them alike too. What is more under is rounded down."""
    assert cut_rounded(length, units) == pytest.approx(rounded, abs=1e-9)


@given(st.integers(min_value=0, max_value=16000))
@settings(derandomize=True)
def test_a_length_of_sixteenths_stays_and_reads_back(sixteenths):
    length = sixteenths / 16 * 25.4

    assert cut_rounded(length, Units.INCH) == pytest.approx(length, abs=1e-9)
    assert parse_length(format_length(length, Units.INCH), Units.INCH) == pytest.approx(length, abs=1e-9)


def test_loads():
    assert parse_load("200 lb") == pytest.approx(889.644, abs=1e-3)
    assert parse_load("2kN") == 2000.0
    with pytest.raises(ValueError, match="is not a load"):
        parse_load("heavy")


@pytest.mark.parametrize(("text", "speed"), [("100 mph", 44.704), ("45m/s", 45.0), ("90 km/h", 25.0)])
def test_speeds(text, speed):
    assert parse_speed(text) == pytest.approx(speed)


@pytest.mark.parametrize(("text", "pascals"), [("20psf", 957.605), ("1.2 kPa", 1200.0), ("1 kN/m2", 1000.0)])
def test_loads_on_an_area(text, pascals):
    """20 psf are 957.6 Pa."""
    assert parse_pressure(text) * 1e6 == pytest.approx(pascals, rel=1e-5)


@pytest.mark.parametrize(("read", "text"), [(parse_speed, "fast"), (parse_speed, "100"), (parse_pressure, "20 psi")])
def test_what_is_neither(read, text):
    with pytest.raises(ValueError, match="is not a"):
        read(text)
