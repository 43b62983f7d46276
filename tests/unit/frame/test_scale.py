"""A frame whose lengths make no sense is asked about: 25.4 mm are an inch, so a slip of units is 25 times off."""

from __future__ import annotations

import pytest

from tests.building import design_of_text
from tests.hostile.bases import SOUND
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import InputError, Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import Units
from tubeframe.words.findings import told

BENCH = SOUND[1]


def asked(times, units="in", *, boards=True):
    """Return what is said of the bench with all its lengths so many times as large."""

    def grown(value):
        if isinstance(value, dict):
            return {k: v if k in {"load", "use"} else grown(v) for k, v in value.items()}
        if isinstance(value, list):
            return [grown(v) for v in value]
        return value * times if isinstance(value, int | float) else value

    document = grown({k: v for k, v in BENCH.items() if k != "load" and (boards or k != "panel")}) | {"units": units}
    frame = frame_from_document(document, workshop_from_document({}, "test"), "bench.toml")
    found = [f for f in frame.findings if f.code == "F-scale"]
    assert all(f.severity is Severity.ERROR for f in found)
    return [told(f, Units.INCH).message for f in found]


def test_a_bench_in_its_own_units_is_not_asked_about():
    assert asked(1.0) == []
    assert asked(25.4, "mm") == []


@pytest.mark.parametrize(("times", "units"), [(25.4, "in"), (1.0, "mm")])
def test_inches_and_millimetres_mixed_up_are_asked_about(times, units):
    assert asked(times, units)
    assert asked(times, units, boards=False)
    assert all("meant in another unit?" in words for words in asked(times, units))


def test_a_coordinate_past_the_limit_is_refused():
    with pytest.raises(InputError, match=r"bench.toml: .*: .* is out of range; it goes up to 100 m; check its unit"):
        asked(25.4 * 25.4)


def test_one_long_rail_is_a_frame():
    """A tunnel's ridge is as long as the tunnel."""
    hoops = [
        {"id": f"post.{n}", "path": [[2000.0 * n, 0, 0], [2000.0 * n, 0, 1500]], "ends": ["foot", "joint"]}
        for n in range(10)
    ]
    design = design_of_text(*hoops, {"id": "ridge", "path": [[0, 0, 1500], [18000, 0, 1500]]})

    assert [f.code for f in design.findings if f.code == "F-scale"] == []
