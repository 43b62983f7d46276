"""A folder is written all or none: killed, or the disk full, at each call that changes something there."""

from __future__ import annotations

import os
import re
import stat
from typing import TYPE_CHECKING

import pytest

from tests.hostile.faults import KILLED, Faults, in_child, is_linux_with_exchange, no_exchange
from tubeframe.output.exchange import Owned, write_whole
from tubeframe.output.one_file import write_new_file, write_whole_file

if TYPE_CHECKING:
    from pathlib import Path

OWNED = Owned(names=frozenset({"design.json", "a.csv", "b.csv", "c.csv"}), pattern=re.compile(r"preview-\d+\.png"))
OLD = {"design.json": "old", "a.csv": "old", "c.csv": "old", "preview-1.png": "old"}
NEW = {"design.json": "new", "a.csv": "new", "b.csv": "new"}
THEIRS = {"notes.txt": "mine", "photos/one.jpg": "mine", "photos/deep/two.jpg": "mine"}
MOST_CALLS = 200


def fill(folder: Path) -> tuple[str, ...]:
    for name, text in NEW.items():
        (folder / name).write_text(text)
    return tuple(NEW)


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)


def held(folder: Path) -> dict[str, str]:
    """Every file below a folder that can be seen, and what is in it."""
    found = (p for p in folder.rglob("*") if p.is_file() and not p.name.startswith("."))
    return {str(p.relative_to(folder)): p.read_text() for p in found if ".tubeframe" not in str(p)}


def hidden(folder: Path) -> list[str]:
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*") if p.name.startswith(".tubeframe"))


@pytest.fixture
def built(tmp_path):
    put(tmp_path / "out", {**OLD, **THEIRS})
    return tmp_path / "out"


def test_the_new_files_are_there_and_those_of_the_person_too(built):
    inode = (built / "notes.txt").stat().st_ino
    built.chmod(0o750)

    assert write_whole(built, OWNED, fill) == tuple(NEW)
    assert held(built) == {**NEW, **THEIRS}
    assert (built / "notes.txt").stat().st_ino == inode
    assert stat.S_IMODE(built.stat().st_mode) == 0o750
    assert hidden(built.parent) == []


def test_a_folder_that_is_not_there_is_made_with_those_above_it(tmp_path):
    write_whole(tmp_path / "a" / "b" / "out", OWNED, fill)

    assert held(tmp_path / "a" / "b" / "out") == NEW
    assert stat.S_IMODE((tmp_path / "a" / "b" / "out").stat().st_mode) == stat.S_IMODE((tmp_path / "a").stat().st_mode)


def test_a_link_to_a_folder_stays_a_link(built):
    link = built.parent / "link"
    link.symlink_to(built)
    write_whole(link, OWNED, fill)

    assert link.is_symlink()
    assert held(built) == {**NEW, **THEIRS}


@pytest.mark.skipif(not is_linux_with_exchange(), reason="the system cannot exchange folders")
@pytest.mark.parametrize("there", [True, False], ids=["over the old one", "for the first time"])
def test_killed_at_any_call_the_old_folder_is_whole_or_the_new_one(tmp_path, there):
    """And the next build takes away what is left over."""
    states = set()
    for number in range(1, MOST_CALLS):
        out = tmp_path / str(number) / "out"
        put(out, {**OLD, **THEIRS}) if there else out.parent.mkdir()
        before, after = ({**OLD, **THEIRS}, {**NEW, **THEIRS}) if there else ({}, NEW)
        ended = in_child(lambda n=number, o=out: (Faults(n, full=False).install(), write_whole(o, OWNED, fill)))
        assert held(out) in (before, after), number
        states.add(held(out) == after)
        write_whole(out, OWNED, fill)
        assert held(out) == after
        assert hidden(out.parent) == [], number
        if not ended:
            break
        assert ended == KILLED

    assert number > (12 if there else 6)
    assert states == {True, False}


@pytest.mark.parametrize("there", [True, False], ids=["over the old one", "for the first time"])
def test_with_the_disk_full_at_any_call_nothing_changes(tmp_path, there):
    for number in range(1, MOST_CALLS):
        out = tmp_path / str(number) / "deep" / "out"
        put(out, {**OLD, **THEIRS}) if there else out.parent.parent.mkdir()
        before = {**OLD, **THEIRS} if there else {}
        ended = in_child(lambda n=number, o=out: (Faults(n, full=True).install(), write_whole(o, OWNED, fill)))
        assert held(out) in (before, {**before, **NEW} if not there else {**NEW, **THEIRS}), number
        if ended and held(out) == before and not there:
            assert list(out.parent.parent.iterdir()) == [], number
        if not ended and number > 60:
            break


def test_where_folders_cannot_be_exchanged_the_next_build_finishes_what_a_killed_one_began(tmp_path):
    """Its own files may be of both builds in between, the person's never change."""
    for number in range(1, MOST_CALLS):
        out = tmp_path / str(number) / "out"
        put(out, {**OLD, **THEIRS})
        ended = in_child(
            lambda n=number, o=out: (no_exchange(), _faulty_inside(n).install(), write_whole(o, OWNED, fill))
        )
        assert {k: v for k, v in held(out).items() if k in THEIRS} == THEIRS, number
        in_child(lambda o=out: (no_exchange(), write_whole(o, OWNED, fill)))
        assert held(out) == {**NEW, **THEIRS}
        assert hidden(out.parent) == [], number
        if not ended:
            break

    assert number > 10


def _faulty_inside(number: int) -> Faults:
    faults = Faults(number, full=False)
    install = faults.install

    def without_swap() -> None:
        install()
        no_exchange()

    faults.install = without_swap  # type: ignore[method-assign]
    return faults


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_can_be_written_in_one_that_cannot(built):
    built.parent.chmod(0o500)
    try:
        write_whole(built, OWNED, fill)
    finally:
        built.parent.chmod(0o700)

    assert held(built) == {**NEW, **THEIRS}
    assert hidden(built) == []


def test_what_comes_in_while_it_is_written_stays(built):
    def slow(folder: Path) -> tuple[str, ...]:
        names = fill(folder)
        (built / "late.txt").write_text("mine")
        return names

    write_whole(built, OWNED, slow)

    assert held(built) == {**NEW, **THEIRS, "late.txt": "mine"}


def test_another_build_that_is_running_is_left_alone(built):
    inside: list[str] = []

    def fills_twice(folder: Path) -> tuple[str, ...]:
        if not inside:
            inside.append(folder.name)
            in_child(lambda: write_whole(built, OWNED, fill))
            assert folder.is_dir()
        return fill(folder)

    write_whole(built, OWNED, fills_twice)

    assert held(built) == {**NEW, **THEIRS}


@pytest.mark.parametrize("full", [True, False], ids=["disk full", "killed"])
@pytest.mark.parametrize("write", [write_whole_file, write_new_file])
def test_one_file_is_the_old_one_or_the_new_one(tmp_path, write, full):
    for number in range(1, MOST_CALLS):
        path = tmp_path / str(number) / "shop.toml"
        path.parent.mkdir()
        if write is write_whole_file:
            path.write_bytes(b"old")
        ended = in_child(lambda n=number, p=path: (Faults(n, full=full).install(), write(p, b"new")))
        assert not path.exists() or path.read_bytes() in (b"old", b"new"), number
        assert path.exists() or write is write_new_file
        if not ended:
            break

    assert path.read_bytes() == b"new"
    assert number >= 2
