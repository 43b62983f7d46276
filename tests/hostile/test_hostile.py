"""Thousands of drawn command lines and files: each ends soon, in plain words, or in a frame."""

from __future__ import annotations

import re

import pytest

from tests.hostile.drawing import case
from tests.hostile.running import MOST_SECONDS, run
from tubeframe.errors import printable

FEW, MANY, AT_ONCE = 400, 5_600, 20
LONGEST_LINE = 700
NAMED = re.compile(r": --[a-z]|; see tubeframe|there is no such template|no such kind|this is no name for a template")
"""What is wrong with an option, or with a word on the command line, names that; else a file is named."""


def faults(number, folder):
    """Run a case; say what is wrong with how it ended."""
    drawn = case(number)
    for name, data in drawn.files.items():
        (folder / name).write_bytes(data)
    ended = run(drawn.arguments, folder)
    if ended.status not in {0, 1, 2}:
        yield f"it ended with {ended.status}"
    if ended.seconds > MOST_SECONDS:
        yield f"it took {ended.seconds:.1f} s"
    if "Traceback" in ended.err or "Warning" in ended.err:
        yield "a library speaks"
    lines = ended.err.splitlines()
    if ended.status == 2:
        yield from (f"not in our form: {line}" for line in lines if not line.startswith("tubeframe: "))
        yield from (f"too long: {line}" for line in lines if len(line) > LONGEST_LINE)
        yield from (f"a sign that drives a terminal: {line!a}" for line in lines if not line.isprintable())
        yield from (f"no place: {line}" for line in lines if not _has_place(line, drawn))
        if not lines:
            yield "it says nothing"
        if (folder / "out").exists():
            yield "something was written"


def _has_place(line, drawn):
    return (bool(drawn.file) and drawn.file in line) or NAMED.search(line) is not None or _is_typed(line, drawn)


def _is_typed(line, drawn):
    """Whether a line begins with a word of the command line, such as a folder that cannot be written."""
    place = line.removeprefix("tubeframe: ").split(": ")[0][:20].removesuffix("…")
    return any(place in printable(argument) for argument in drawn.arguments)


def check(numbers, tmp_path):
    found = []
    for number in numbers:
        folder = tmp_path / str(number)
        folder.mkdir()
        found += [f"case {number}: {fault}"[:600] for fault in faults(number, folder)]
    assert found == []


@pytest.mark.parametrize("first", range(0, FEW, AT_ONCE))
def test_some(first, tmp_path):
    check(range(first, first + AT_ONCE), tmp_path)


@pytest.mark.slow
@pytest.mark.parametrize("first", range(FEW, MANY, AT_ONCE))
def test_many(first, tmp_path):
    check(range(first, first + AT_ONCE), tmp_path)
