"""Builds that are killed at any moment: the folder holds the old design whole or the new one."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from random import Random  # noqa: TID251  drawn with a seed: the same every time

import pytest

OLD, NEW = ("--height", "30in"), ("--height", "33in")
LONGEST = 3.0


def command(out, *options):
    return [
        sys.executable,
        "-m",
        "tubeframe",
        "build",
        "table",
        *options,
        "--only",
        "csv",
        "--quiet",
        "--out",
        str(out),
    ]


def files(folder):
    return {p.name: p.read_bytes() for p in sorted(folder.iterdir())}


@pytest.fixture(scope="module")
def designs(tmp_path_factory):
    """Both designs as they are when nobody kills the build, each with a note of the person's; and its time [s]."""
    made = []
    for name, options in (("old", OLD), ("new", NEW)):
        out = tmp_path_factory.mktemp("designs") / name
        start = time.perf_counter()
        subprocess.run(command(out, *options), check=True)
        taken = time.perf_counter() - start
        (out / "notes.txt").write_text("mine")
        made.append(files(out))
    return *made, min(taken, LONGEST)


def killed(designs, folder, number, how):
    """Kill a build at a drawn moment; check what is there."""
    old, new, taken = designs
    out = folder / "out"
    out.mkdir(exist_ok=True)
    for name in files(out):
        (out / name).unlink()
    for name, data in old.items():
        (out / name).write_bytes(data)
    process = subprocess.Popen(command(out, *NEW), stderr=subprocess.PIPE, text=True)
    time.sleep(Random(number).uniform(0.02, 1.0) * taken)
    process.send_signal(how)
    said = process.communicate()[1]

    assert files(out) in (old, new)
    return process.returncode, said, out


def check_nothing_is_left(out, new):
    subprocess.run(command(out, *NEW), check=True)
    assert files(out) == new
    assert [p.name for p in out.parent.iterdir()] == ["out"]


def test_ten_kills(designs, tmp_path):
    for number in range(10):
        killed(designs, tmp_path, number, signal.SIGKILL)
    check_nothing_is_left(tmp_path / "out", designs[1])


@pytest.mark.slow
def test_two_hundred_kills(designs, tmp_path):
    for number in range(200):
        killed(designs, tmp_path, 1000 + number, signal.SIGKILL)
    check_nothing_is_left(tmp_path / "out", designs[1])


@pytest.mark.parametrize("number", range(6))
def test_ctrl_c_ends_in_one_line_and_leaves_nothing_half(designs, tmp_path, number):
    """Also while libraries are loaded; in its first and last moments Python itself ends silently."""
    status, said, out = killed(designs, tmp_path, 50 + number, signal.SIGINT)

    assert (status, said.count("\n")) in ((0, 0), (130, 1), (-signal.SIGINT, 0)), said
    assert [p.name for p in out.parent.iterdir()] == ["out"]
