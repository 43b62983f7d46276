"""The same input gives the same bytes: two processes, different hash seeds."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.building import GREENHOUSE, TABLE


@pytest.mark.parametrize(("template", "sizes"), [("table", TABLE), ("greenhouse", GREENHOUSE)])
def test_two_processes_write_the_same(tmp_path, template, sizes):
    files = []
    for seed in ("1", "4"):  # under these two the classes of a DXF file came in two orders
        out = tmp_path / seed
        options = [word for name, value in sizes for word in (f"--{name}", value)]
        command = [sys.executable, "-m", "tubeframe", "build", template, *options, "--quiet", "--out", str(out)]
        subprocess.run(command, check=True, env={**os.environ, "PYTHONHASHSEED": seed})
        files.append({p.name: p.read_bytes() for p in sorted(out.iterdir())})

    assert len(files[0]) == 10
    assert [n for n in files[0] if files[0][n] != files[1][n]] == []
