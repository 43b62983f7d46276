from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "tubeframe").rglob("*.py")) + sorted((ROOT / "templates").glob("*.py"))


def _run(*command: str) -> subprocess.CompletedProcess[str]:
    program = str(Path(sys.executable).parent / command[0])
    return subprocess.run([program, *command[1:]], cwd=ROOT, capture_output=True, text=True, check=False)


def test_imports_go_one_way():
    done = _run("lint-imports", "--no-cache")

    assert done.returncode == 0, done.stdout


def test_types_are_strict():
    done = _run("mypy", "--no-incremental")

    assert done.returncode == 0, done.stdout


def test_style():
    done = _run("ruff", "check", ".")

    assert done.returncode == 0, done.stdout


def test_format():
    done = _run("ruff", "format", "--check", ".")

    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("path", sorted((ROOT / "templates").glob("*.py")), ids=lambda p: p.stem)
def test_a_template_imports_only_the_facade(path):
    allowed = {"__future__", "math", "dataclasses", "enum", "typing", "itertools", "tubeframe.template"}
    tree = ast.parse(path.read_text(encoding="utf-8"))
    found = {n.module for n in ast.walk(tree) if isinstance(n, ast.ImportFrom)}
    found |= {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}

    assert found <= allowed


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(ROOT)))
def test_files_functions_and_classes_stay_small(path):
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    long = [
        f"{n.name} has {n.end_lineno - n.lineno + 1} lines"
        for n in ast.walk(tree)
        if isinstance(n, ast.FunctionDef) and n.end_lineno - n.lineno + 1 > 60
    ]
    crowded = [
        n.name
        for n in ast.walk(tree)
        if isinstance(n, ast.ClassDef)
        and sum(isinstance(m, ast.FunctionDef) and not m.name.startswith("_") for m in n.body) > 12
    ]

    assert len(text.splitlines()) <= (480 if path.parent.name == "templates" else 250)
    assert long == []
    assert crowded == []


def test_no_name_says_nothing():
    assert [p for p in FILES if p.stem in {"utils", "helpers", "common", "misc"}] == []
