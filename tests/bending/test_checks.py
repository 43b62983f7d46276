"""What is measured while a tube is bent, against a tube bent step by step by a program of its own [mm]."""

from __future__ import annotations

import numpy as np
import pytest

from tests.bending.bend_back import bent, point_at, start_of
from tests.bending.drawn_shapes import SHOP, drawn, shape
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.fabrication.bending.document import bend_sheet_document
from tubeframe.fabrication.bending.marks import bend_tool
from tubeframe.fabrication.bending.sheet import bend_sheet

TOOL = bend_tool(workshop_from_document(SHOP, "shop"), "emt-3/4")


def _entry(corners):
    return bend_sheet_document(bend_sheet(shape(corners), "T1", 1, TOOL))


def _checks(entry, of):
    return {c["bend"]: c["distance_mm"] for c in entry["checks"] if c["of"] == of}


@pytest.mark.parametrize("seed", range(40))
def test_running_checks_are_read_when_a_bend_is_made(seed):
    """From the rough end that the hook faced to the next mark beyond the bend, with the bends of later turns unmade."""
    entry = _entry(drawn(seed, flat=seed % 2 == 0))
    bends = entry["bends"]
    found = _checks(entry, "running")

    assert sorted(found) == list(range(1, len(bends) + 1))
    assert sorted(b["order"] for b in bends) == list(range(1, len(bends) + 1))
    for n, bend in enumerate(bends):
        made = {k for k, b in enumerate(bends) if b["order"] <= bend["order"]}
        if bend["hook"] == "A":
            hooked, mark = 0.0, bends[n + 1]["arrow_mm"] if n + 1 < len(bends) else entry["rough_length_mm"]
        else:
            hooked, mark = entry["rough_length_mm"], bends[n - 1]["arrow_mm"] if n else 0.0
        gap = point_at(entry, hooked, made) - point_at(entry, mark, made)
        assert found[n + 1] == pytest.approx(np.linalg.norm(gap), abs=0.01)


@pytest.mark.parametrize("seed", range(20))
def test_what_a_slip_of_10_degrees_does_to_end_b(seed):
    """End B against end A and the straight there, with one bend 10 degrees short, or the tube turned 10 too far."""
    entry = _entry(drawn(seed))
    starts = [start_of(b) for b in entry["bends"]]

    def end(n, **change):
        slipped = [{**b, "arrow_mm": s, "hook": "A"} for b, s in zip(entry["bends"], starts, strict=True)]
        for key, by in change.items():
            slipped[n][key] += by
        return bent({**entry, "bends": slipped})[-1]

    right = end(0)
    many = range(len(starts))
    short = [np.linalg.norm(end(n, angle_deg=-min(10.0, entry["bends"][n]["angle_deg"])) - right) for n in many]
    turned = [np.linalg.norm(end(n, roll_deg=10.0) - right) for n in many]

    # end B as a tape shows it is up to 1 mm short of the exact one
    assert max(_checks(entry, "angle-slip").values()) == pytest.approx(max(short), abs=0.3)
    assert list(_checks(entry, "angle-slip")) == [int(np.argmax(short)) + 1]
    if len(starts) > 1:
        assert max(_checks(entry, "turn-slip").values()) == pytest.approx(max(turned), abs=0.3)
    else:
        assert not _checks(entry, "turn-slip")


def test_chalk_lines_of_a_hoop_on_the_floor():
    """Legs of 1000 and a top of 600, corners of 90 at r 140.69: B is 600 off the line of A's leg, and not along it.

    Over the chord from foot to foot the top rises 1000.
    """
    entry = _entry(np.array([[0, 0, 0], [0, 0, 1000], [600, 0, 1000], [600, 0, 0]], float))

    assert _checks(entry, "chord")[None] == pytest.approx(600)
    assert _checks(entry, "rise")[None] == pytest.approx(1000)
    assert _checks(entry, "along")[None] == pytest.approx(0, abs=1e-6)
    assert _checks(entry, "across")[None] == pytest.approx(600)
    assert [b["hook"] for b in entry["bends"]] == ["A", "B"]


def test_a_rise_is_found_inside_a_bend():
    """One bend of 90 between equal legs, and how far its arc is off the chord.

    The corner lies L/sqrt(2) over a chord between legs of L; the arc's middle r (1/cos 45 - 1) under the corner.
    """
    entry = _entry(np.array([[0, 0, 0], [0, 0, 500], [500, 0, 500]], float))
    radius = entry["bends"][0]["radius_mm"]

    assert _checks(entry, "rise")[None] == pytest.approx(500 / 2**0.5 - radius * (2**0.5 - 1), abs=0.01)


def test_what_is_bent_in_two_planes_has_no_line_on_the_floor():
    entry = _entry(np.array([[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 600, 900]], float))

    assert not entry["flat"]
    assert {c["of"] for c in entry["checks"]} == {"running", "chord", "angle-slip", "turn-slip"}
    assert _checks(entry, "chord")[None] == pytest.approx((900**2 + 600**2 + 600**2) ** 0.5)
