"""Plant every fault of the list in a copy of the package, one at a time, and say which no test sees.

Run as `python -m tests.mutation.run [words of names]`. A mutation is killed when a test fails that passed before.
It takes about ten seconds for each, a minute for one that lives.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from tests.mutation.mutations import MUTATIONS

if TYPE_CHECKING:
    from tests.mutation.mutations import Mutation

ROOT = Path(__file__).parents[2]
COPIED = ("tubeframe", "templates", "tests", "pyproject.toml")
MEETING = ("tests/frames/test_frames.py", "tests/unit/joints", "tests/unit/catalog/test_rules.py")
CUTTING = (
    "tests/frames/test_marks_and_lists.py",
    "tests/unit/parts",
    "tests/bending",
    "tests/unit/fabrication",
    "tests/reference/test_cut_lengths.py",
    "tests/reference/test_rebuilt_from_the_list.py",
    "tests/frames/test_sticks.py",
    "tests/frames/test_placed.py",
)
DRAWN = ("tests/frames/test_full_size.py", "tests/unit/drawing/sheets", "tests/unit/drawing/full_size")
MOST_SECONDS = 240


def main(words: list[str]) -> int:
    """Try all mutations, or those whose name or file has one of the words; return how many live or are out of date."""
    chosen = [m for m in MUTATIONS if not words or any(w in f"{m.file} {m.name}" for w in words)]
    with tempfile.TemporaryDirectory(prefix="mutation-") as folder:
        copy = Path(folder)
        for name in COPIED:
            source = ROOT / name
            if source.is_dir():
                shutil.copytree(source, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(source, copy / name)
        red = _red_before(copy)
        told = [(m, _tried(m, copy, red)) for m in chosen]
    bad = [(m, how) for m, how in told if how != "killed"]
    _say(f"{len(told) - len(bad)} of {len(told)} killed")
    for m, how in bad:
        _say(f"{how}: {m.file}: {m.name}")
    return len(bad)


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def _red_before(copy: Path) -> list[str]:
    """Return the tests that fail with nothing planted: they see nothing."""
    told = _run(copy, (*MEETING, *CUTTING, *DRAWN))
    found = [line.split()[1] for line in told.splitlines() if _is_red(line)]
    for name in found:
        _say(f"red before    {name}")
    return found


def _is_red(line: str) -> bool:
    return line.startswith(("FAILED ", "ERROR "))


def _tried(mutation: Mutation, copy: Path, red: list[str]) -> str:
    """Plant a fault, run the tests, and put the file back: killed, lives, or the text is not there once."""
    path = copy / mutation.file
    source = path.read_text(encoding="utf-8") if path.exists() else ""
    if source.count(mutation.old) != 1:
        how = "out of date"
    else:
        path.write_text(source.replace(mutation.old, mutation.new), encoding="utf-8")
        how = "killed" if _is_seen(mutation, copy, red) else "lives"
        path.write_text(source, encoding="utf-8")
    _say(f"{how:12} {mutation.file}: {mutation.name}")
    return how


def _is_seen(mutation: Mutation, copy: Path, red: list[str]) -> bool:
    told = _run(copy, _looking_at(mutation), "-x", *(f"--deselect={name}" for name in red))
    return any(_is_red(line) for line in told.splitlines()) or "passed" not in told


def _looking_at(mutation: Mutation) -> tuple[str, ...]:
    """Return the files that may see a fault, the likeliest first."""
    if "/drawing/" in mutation.file:
        return DRAWN
    is_of_joints = any(room in mutation.file for room in ("/joints/", "/catalog/"))
    return (*MEETING, *CUTTING) if is_of_joints else (*CUTTING, *MEETING)


def _run(copy: Path, files: tuple[str, ...], *options: str) -> str:
    """Run test files; return what they say. Tests that hang have seen the fault."""
    environment = {"PYTHONPATH": str(copy), "PATH": "/usr/bin:/bin", "COLUMNS": "300"}
    here = [f for f in files if (copy / f).exists()]
    command = [sys.executable, "-m", "pytest", "-q", "-n", "0", "-p", "no:cacheprovider", *options, *here]
    try:
        done = subprocess.run(
            command, cwd=copy, env=environment, capture_output=True, text=True, timeout=MOST_SECONDS, check=False
        )
    except subprocess.TimeoutExpired:
        return "FAILED and hangs"
    return done.stdout


if __name__ == "__main__":
    sys.exit(1 if main(sys.argv[1:]) else 0)
