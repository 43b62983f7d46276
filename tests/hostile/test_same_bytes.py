"""Every output of every template and of three text frames is the same, byte for byte, wherever and whenever it is made.

Two processes make all designs one after the other in the two orders, so that each design is also made after others,
and twice in one process; they differ in hash seed, time zone, locale, current folder and number of threads.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tubeframe.template.registry import shipped_templates

ROOT = Path(__file__).parents[2]
TEXT = [
    ROOT / "tests" / "frames" / "text" / f"{name}.toml"
    for name in ("stands/sawhorse", "roofs/tent_pole", "bends/gothic_pair")
]
ALL = "step,glb,dxf,pdf,csv,frame,preview,labels"
SCRIPT = """
import json, sys
from tubeframe.__main__ import main
for source, out in json.loads(sys.argv[1]):
    sys.argv = ["tubeframe", "build", source, "--only", sys.argv_only, "--quiet", "--out", out]
    try:
        main()
    except SystemExit as done:
        if done.code not in (0, 1):
            raise
""".replace("sys.argv_only", repr(ALL))


def built(sources, folder, rounds, environment):
    """Build sources one after the other in one process, some rounds of them; return the files of each by round."""
    folder.mkdir(parents=True)
    jobs = [(s, str(folder / f"{n}-{Path(s).stem}")) for n in range(rounds) for s in sources]
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, json.dumps(jobs)],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return [{p.name: p.read_bytes() for p in sorted(Path(out).iterdir())} for _, out in jobs]


def check(sources, tmp_path):
    here = {"PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C", "OMP_NUM_THREADS": "1"}
    there = {"PYTHONHASHSEED": "4", "TZ": "Asia/Kathmandu", "LC_ALL": "C.UTF-8", "OMP_NUM_THREADS": "2"}
    first = built(sources, tmp_path / "one", 2, here)
    other = built(sources[::-1], tmp_path / "a longer name" / "é", 1, there)[::-1]
    for n, source in enumerate(sources):
        names = set(first[n])
        assert len(names) >= 12
        for again in (first[n + len(sources)], other[n]):
            assert set(again) == names
            assert [name for name in sorted(names) if again[name] != first[n][name]] == [], source


def test_a_template_and_a_text_frame_are_the_same_everywhere(tmp_path):
    check(["table", str(TEXT[0])], tmp_path)


@pytest.mark.slow
@pytest.mark.parametrize("source", [*(t.name for t in shipped_templates()), *map(str, TEXT[1:])])
def test_everything_is_the_same_everywhere(source, tmp_path):
    check([source], tmp_path)
