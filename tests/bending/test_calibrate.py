"""A bender measured on one trial bend, and put into the file of the shop.

Check values: 3/4 with a take-up of 6 in: r = 6 - 0.922/2 = 5.539 in; gain 2 (r + D/2) - pi r/2 = 3.30 in, which the
trade calls 3-1/4 (B. Bamford, Bending Conduit/Tubing Using Hand Benders, Albany Technical College, 2007).
"""

from __future__ import annotations

import math
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tubeframe.catalog.calibration import TrialBend
from tubeframe.errors import InputError
from tubeframe.inputs.bender_text import check_only_bender, with_bender
from tubeframe.inputs.workshop_text import workshop_values

D = 0.922
HERE = Path("my.toml")
SIZES = {"take_up": "6.1 in", "radius": "5.639 in"}
BENCH = """# my shop
units = "in"
[bender] # the blue one
tube = "emt-1"  # big
take_up = "8 in" # stamped

[saw]
kerf = "1/16 in" # hacksaw
"""
PAIR = """[[bender]]
take_up = "6 in"  # stamped
tube = "emt-3/4"  # the usual
[[bender]]  # the other
tube = "emt-1"
radius = "7 in"
# last words
"""


def _stub(radius, mark, left):
    """Lay the bend out on a plane: up from the end, round, and off along the other leg; where do both backs meet?"""
    q = math.radians(left)
    back = np.array([-(D / 2), 0.0])  # a point of the stub's back, which runs up; the bend goes to the right
    way = np.array([math.sin(q), math.cos(q)])
    out = np.array([-math.cos(q), math.sin(q)])
    touch = np.array([radius * (1 - math.cos(q)), mark + radius * math.sin(q)]) + out * D / 2
    meets = np.linalg.solve(np.column_stack([[0.0, 1.0], -way]), touch - back)
    return meets[0]


@pytest.mark.parametrize("left", [70.0, 85.0, 88.0, 90.0, 95.0])
@pytest.mark.parametrize("radius", [4.647, 5.539, 7.4185])
def test_a_radius_is_found_from_where_the_backs_meet(radius, left):
    trial = TrialBend(outside=D, mark=6.0, stub=_stub(radius, 6.0, left), asked=left + 2, left=left)

    assert trial.radius == pytest.approx(radius)
    assert trial.take_up == pytest.approx(radius + D / 2)


def test_a_take_up_of_6_in():
    trial = TrialBend(outside=D, mark=6.0, stub=12.0, asked=92.0, left=90.0)

    assert trial.radius == pytest.approx(5.539)
    assert trial.take_up == pytest.approx(6.0)
    assert trial.gain == pytest.approx(3.30, abs=0.005)
    assert trial.gain == pytest.approx(3.25, abs=1 / 16)
    assert trial.springback == pytest.approx(2.0)


def test_springback_grows_with_the_angle():
    """Pulled to 90, 88 are left: 90 x 90/88 = 92.05 leave 90."""
    assert TrialBend(outside=D, mark=6.0, stub=12.0, asked=90.0, left=88.0).springback == pytest.approx(2.045, abs=1e-3)


def _benders(text):
    found = workshop_values(text, HERE)["bender"]
    return {b["tube"]: b for b in ([found] if isinstance(found, dict) else found)}


@pytest.mark.parametrize("text", ["", 'units = "in"\n', BENCH, PAIR, BENCH + '\n[[stock]]\ntube = "emt-1"\n'])
@pytest.mark.parametrize("tube", ["emt-3/4", "emt-1", "emt-1/2"])
def test_only_one_bender_changes(text, tube):
    changed = with_bender(text, tube, SIZES, "2.05", "from a trial bend")
    before, after = workshop_values(text, HERE), workshop_values(changed, HERE)
    check_only_bender(before, after, tube, HERE)
    mine = _benders(changed)[tube]

    assert mine["springback"] == 2.05
    assert {k: v for k, v in mine.items() if k in SIZES} in ({"take_up": "6.1 in"}, {"radius": "5.639 in"})
    if text:
        others = {t: b for t, b in (_benders(text) if "bender" in text else {}).items() if t != tube}
        assert {t: b for t, b in _benders(changed).items() if t != tube} == others
    for comment in (line[line.index("#") :] for line in text.splitlines() if "#" in line):
        is_replaced = comment == "# stamped" and tube in {"emt-1", "emt-3/4"}
        assert comment in changed or is_replaced


def test_the_value_that_stands_there_is_replaced():
    assert "radius" not in _benders(with_bender(PAIR, "emt-3/4", SIZES, "2", "now"))["emt-3/4"]
    assert "take_up" not in _benders(with_bender(PAIR, "emt-1", SIZES, "2", "now"))["emt-1"]
    twice = with_bender(with_bender(PAIR, "emt-1", SIZES, "2", "now"), "emt-1", SIZES, "1.5", "again")
    assert twice.count("springback") == 1
    assert "springback" not in with_bender(PAIR, "emt-1", SIZES, None, "now")


def test_what_cannot_be_put_in_is_refused():
    """An inline table cannot grow; a second one beside it is no TOML."""
    text = 'bender = {tube = "emt-3/4", take_up = "6 in"}\n'

    def change():
        changed = with_bender(text, "emt-3/4", SIZES, "2", "now")
        check_only_bender(workshop_values(text, HERE), workshop_values(changed, HERE), "emt-3/4", HERE)

    with pytest.raises(InputError):
        change()


def _run(folder, *arguments):
    command = [sys.executable, "-m", "tubeframe", "bender", "calibrate", "--workshop", "my.toml", *arguments]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def test_the_command_writes_what_it_tells(tmp_path):
    (tmp_path / "my.toml").write_text(BENCH)
    said = ("--tube", "emt-3/4", "--stub", "6in", "--measured", "12in", "--angle", "92", "--read", "90")
    done = _run(tmp_path, *said, "--date", "2026-05-01")

    assert done.returncode == 0, done.stderr
    assert "5.539 in" in done.stdout
    assert "3.299 in" in done.stdout
    assert "pull to 92.0" in done.stdout
    after = (tmp_path / "my.toml").read_text()
    assert 'take_up = "6.000 in"  # from a trial bend, 2026-05-01' in after
    assert "# hacksaw" in after


def test_the_command_refuses_what_cannot_be_and_leaves_the_file(tmp_path):
    (tmp_path / "my.toml").write_text(BENCH)
    done = _run(tmp_path, "--tube", "emt-3/4", "--stub", "6in", "--measured", "10in")

    assert done.returncode == 2
    assert "3.539 in is under 4.500 in" in done.stderr
    assert (tmp_path / "my.toml").read_text() == BENCH
