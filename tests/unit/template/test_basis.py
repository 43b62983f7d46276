"""A length on another basis: EMT 3/4 is 0.922 in outside (ANSI C80.3)."""

from __future__ import annotations

import pytest

from tests.building import design_of, frame_of, inches
from tubeframe.errors import InputError
from tubeframe.geometry.units import INCH_MM

D = 0.922


@pytest.mark.parametrize(
    ("given", "outside"),
    [
        ("57in", 57.0),
        ("57in outside", 57.0),
        ("57in centres", 57.0 + D),
        ("57in centers", 57.0 + D),
        ("57 in inside", 57.0 + 2 * D),
        ("1447.8mm inside", 57.0 + 2 * D),
    ],
)
def test_outside_is_centres_and_one_diameter_or_inside_and_two(given, outside):
    assert inches(design_of("table", length=given).sizes[1]) == pytest.approx(outside)


def test_clear_inside_is_what_a_tape_finds_between_the_legs():
    frame = frame_of("table", width="24in inside")
    front, back = (next(m for m in frame.members if m.id == f"leg.{n}.left").path.start.y for n in ("front", "back"))

    assert inches(back - front) - D == pytest.approx(24.0)


def test_under_a_table_is_its_height_less_top_strip_and_rail():
    """3/4 in top, 3/8 in strip and the rail's diameter."""
    design = design_of("table", height="30in under")

    assert inches(design.sizes[2]) == pytest.approx(30.0 + 0.75 + 0.375 + D)


def test_under_a_ridge_is_what_the_purlin_leaves():
    """The purlin hangs a coupler's offset, D + 3/16 in, below the hoop."""
    design = design_of("greenhouse", width="8ft", height="78in under")
    ridge = next(m for m in design.frame.members if m.id == "purlin.ridge")

    assert inches(ridge.path.start.z) - D / 2 == pytest.approx(78.0)
    assert inches(design.sizes[2]) == pytest.approx(78.0 + D + D + 3 / 16)


def test_what_is_written_builds_the_same_again():
    design = design_of("table", length="57in inside", height="30in under")
    again = design_of("table", **{k.replace("-", "_"): v for k, v in design.source.parameters.items()})

    assert again.sizes == pytest.approx(design.sizes)


@pytest.mark.parametrize(
    ("key", "given", "told"),
    [
        ("length", "96in inside", "'96in inside' is 97 7/8\" outside, which is out of range"),
        ("height", "30in inside", "'inside' is not a basis for this length; known: top, under"),
        ("panel", "0.75in inside", "'inside' is not a basis for this length; known: no other"),
        ("length", "57in across", "57in across"),
    ],
)
def test_what_cannot_be_is_told(key, given, told):
    with pytest.raises(InputError) as refused:
        design_of("table", **{key: given})

    assert told in str(refused.value.problems[0])


def test_a_tube_of_the_parameters_own_counts():
    design = design_of("table", tube="emt-1", length="50in inside")

    assert design.sizes[1] == pytest.approx((50 + 2 * 1.163) * INCH_MM)
