"""Odd files, folders and terminals, each in a process of its own: refused in plain words, with nothing changed."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from tests.hostile.bases import FRAME
from tests.hostile.writing import toml
from tubeframe.inputs.text_file import MOST_BYTES

LISTS = ("--only", "csv")


def tubeframe(*arguments, cwd, **options):
    command = [sys.executable, "-m", "tubeframe", *map(str, arguments)]
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2]), **options.pop("environment", {})}
    options.setdefault("stdout", subprocess.PIPE)
    return subprocess.run(command, cwd=cwd, env=environment, check=False, stderr=subprocess.PIPE, timeout=20, **options)


def refused(done, *words):
    """Check that a command ended in one line of ours with some words in it."""
    said = done.stderr.decode()
    assert done.returncode == 2, said
    assert said.startswith("tubeframe: ")
    assert said.count("\n") == 1
    assert [w for w in words if w not in said] == [], said


def everything(folder):
    return {str(p): p.read_bytes() for p in folder.rglob("*") if p.is_file() and not p.is_symlink()}


def _pipe(path):
    os.mkfifo(path)


def _socket(path):
    with socket.socket(socket.AF_UNIX) as made:
        made.bind(str(path))


FILES = {
    "a pipe": (_pipe, "it is a pipe, not a file"),
    "a folder": (Path.mkdir, "it is a folder, not a file"),
    "a device": (lambda path: path.symlink_to("/dev/zero"), "it is a device, not a file"),
    "a socket": (_socket, "cannot be read"),
    "a link to nothing": (lambda path: path.symlink_to("nowhere"), "No such file"),
    "a loop of links": (lambda path: path.symlink_to(path.name), "cannot be read"),
    "empty": (lambda path: path.write_text(""), "schema: this is not a text frame of ours; write schema = "),
    "Latin-1": (lambda path: path.write_bytes(b"# one\n# caf\xe9\n"), "it is not UTF-8 text, first on line 2"),
    "UTF-16": (lambda path: path.write_text("a = 1", encoding="utf-16"), "it is UTF-16"),
    "over 5 MB": (lambda path: path.write_bytes(b"#" * (MOST_BYTES + 1)), "it is over 5 MB"),
    "deep": (lambda path: path.write_text("a = " + "[" * 10_000), "too deep"),
    "a key of many parts": (lambda path: path.write_text("a" + ".a" * 100_000 + " = 1"), "a key has over 64 parts"),
    "a long number": (lambda path: path.write_text("a = " + "1" * 5001), "too many digits"),
}


@pytest.mark.parametrize("kind", FILES)
@pytest.mark.parametrize("command", ["frame", "workshop", "parameters", "list"])
def test_a_file_that_is_none_is_refused_at_once(kind, command, tmp_path):
    make, words = FILES[kind]
    name = "a.csv" if command == "list" else "a.toml"
    make(tmp_path / name)
    done = tubeframe(
        *{
            "frame": ("build", name, *LISTS),
            "workshop": ("workshop", "check", name),
            "parameters": ("build", "table", "--parameters", name, "--out", "out", *LISTS),
            "list": ("cut", name, "--stock", "10ft"),
        }[command],
        cwd=tmp_path,
    )
    if kind == "empty" and command in {"workshop", "parameters"}:
        assert done.returncode == 0
        return
    if command == "list" and kind in {"empty", "deep", "a key of many parts", "a long number"}:
        assert done.returncode == 2
        assert f"tubeframe: {name}, line 1: " in done.stderr.decode()
    else:
        said = done.stderr.decode()
        assert done.returncode == 2, said
        assert f"tubeframe: {name}: " in said
        assert words in said
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte order mark"])
def test_line_ends_and_a_byte_order_mark_are_read(tmp_path, ending, mark):
    (tmp_path / "a.toml").write_bytes(mark + toml(FRAME).replace("\n", ending).encode())

    assert tubeframe("build", "a.toml", "--out", "out", *LISTS, cwd=tmp_path).returncode in {0, 1}


OUTS = {
    "/": "it is the root of all folders",
    ".": "it is the folder that you are in",
    "..": "it is the folder that you are in, or one above it",
    "a-file": "it is a file, not a folder",
    "a-file/below": "",
    "dangling": "it is a link to what is not there",
    "others": "it holds files that tubeframe did not write",
    "x" * 300: "File name too long",
    "deep/" * 900 + "x": "",
}


@pytest.mark.parametrize("out", OUTS, ids=lambda out: out[:20])
def test_a_folder_that_is_none_for_a_build_is_refused_and_nothing_changes(out, tmp_path):
    here = tmp_path / "here"
    here.mkdir()
    (here / "a-file").write_text("mine")
    (here / "dangling").symlink_to("nowhere")
    (here / "others").mkdir()
    (here / "others" / "mine.txt").write_text("mine")
    before = everything(tmp_path)
    refused(tubeframe("build", "table", "--out", out, *LISTS, cwd=here), OUTS[out])

    assert everything(tmp_path) == before


def test_the_current_folder_is_gone(tmp_path):
    gone = tmp_path / "gone"
    gone.mkdir()
    script = 'rmdir "$1" && shift && exec "$@"'
    command = [sys.executable, "-m", "tubeframe", "build", "table", "--out", "out", *LISTS]
    done = subprocess.run(
        ["/bin/sh", "-c", script, "sh", str(gone), *command], cwd=gone, capture_output=True, check=False, timeout=20
    )

    refused(done)


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437", "utf-8"])
def test_a_terminal_that_cannot_show_a_sign(encoding, tmp_path):
    document = {**FRAME, "name": "漢字 é 😀"}
    (tmp_path / "a.toml").write_text(toml(document), encoding="utf-8")
    environment = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONIOENCODING": encoding, "PYTHONCOERCECLOCALE": "0"}
    done = tubeframe("build", "a.toml", "--out", "é", *LISTS, cwd=tmp_path, environment=environment)

    assert done.returncode in {0, 1}, done.stderr.decode()
    assert b'19 15/16" wide' in done.stdout


def test_standard_output_that_is_full_or_closed(tmp_path):
    with open("/dev/full", "wb") as full:  # noqa: PTH123
        refused(tubeframe("templates", cwd=tmp_path, stdout=full), "what is printed", "No space left")
    command = f"{sys.executable} -m tubeframe templates"
    for tail, expected in ((">&-", {0}), ("| head -1 >/dev/null; exit ${PIPESTATUS[0]}", {0, 141})):
        done = subprocess.run(["/bin/bash", "-c", f"{command} {tail}"], capture_output=True, check=False, timeout=20)
        assert done.returncode in expected, done.stderr
        assert done.stderr == b""


OWN = {
    "fails": "raise ValueError('a\\x1b[31mb')",
    "ends": "import sys; sys.exit(0)",
    "ends at once": "import sys; sys.exit('bye')",
    "calls itself": "def f(): f()\nf()",
    "is no template": "x = 1",
    "is cut off": "def f(:",
    "raises anything": "class E(Exception):\n  def __str__(self): raise self\nraise E",
}


@pytest.mark.parametrize("fault", OWN)
def test_a_template_whose_own_code_fails(fault, tmp_path):
    (tmp_path / "own.py").write_text(OWN[fault])
    refused(tubeframe("build", "own.py", *LISTS, cwd=tmp_path), "own.py")


def test_the_first_line_of_parameters_works_as_typed(tmp_path):
    """In the folder itself, for a template and for a text frame."""
    (tmp_path / "my gate.toml").write_text(toml(FRAME))
    for source in ("table", "my gate.toml"):
        assert tubeframe("build", source, "--out", "out", *LISTS, cwd=tmp_path).returncode in {0, 1}
        out = tmp_path / "out"
        line = (out / "parameters.toml").read_text().splitlines()[0]
        words = line.partition(": ")[2].split()
        assert words[0] == "tubeframe"
        assert tubeframe(*words[1:], *LISTS, "--out", "again", cwd=out).returncode in {0, 1}
        for name in ("pieces.csv", "cut_plan.csv", "buying_list.csv"):
            assert (out / "again" / name).read_bytes() == (out / name).read_bytes()
        assert tubeframe("build", "out", *LISTS, "--out", "third", cwd=tmp_path).returncode in {0, 1}
        assert (tmp_path / "third" / "pieces.csv").read_bytes() == (out / "pieces.csv").read_bytes()


def test_parameters_beside_a_text_frame_are_not_passed_over(tmp_path):
    (tmp_path / "a.toml").write_text(toml(FRAME))
    (tmp_path / "p.toml").write_text("[parameters]\nwidth = 3\n")
    done = tubeframe("build", "a.toml", "--parameters", "p.toml", "--out", "out", *LISTS, cwd=tmp_path)

    refused(done, "p.toml: parameters: a text frame has no parameters")


def test_a_text_frame_in_the_folder_that_is_written_stays_as_it_is(tmp_path):
    out = tmp_path / "out"
    out.mkdir()
    text = "# mine\n" + toml(FRAME)
    (out / "frame.toml").write_text(text)
    for _ in range(2):
        assert tubeframe("build", "out/frame.toml", "--out", "out", "--force", *LISTS, cwd=tmp_path).returncode in {
            0,
            1,
        }
        assert (out / "frame.toml").read_text() == text
    assert (out / "pieces.csv").exists()
    refused(tubeframe("build", "out/frame.toml", "--repair", "--out", "out", *LISTS, cwd=tmp_path), "the text frame")
