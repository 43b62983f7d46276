from __future__ import annotations

import subprocess
import sys

SCRIPT = """
import sys
class Missing:
    def find_spec(self, name, path=None, target=None):
        if name == "cadquery":
            raise ImportError("libGL.so.1: cannot open shared object file: No such file or directory")
sys.meta_path.insert(0, Missing())
from tubeframe.output import second_process
second_process._processors = lambda: 1  # a second process would have the library
from tubeframe.__main__ import main
sys.argv = ["tubeframe", "build", "table", "--only", "step", "--out", sys.argv[1], "--quiet"]
main()
"""


def test_a_missing_system_library_is_told_in_one_sentence_and_nothing_is_written(tmp_path):
    out = tmp_path / "t"
    done = subprocess.run([sys.executable, "-c", SCRIPT, str(out)], capture_output=True, text=True, check=False)

    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "libGL.so.1" in done.stderr
    assert "apt-get install libgl1 libxrender1" in done.stderr
    assert list(tmp_path.iterdir()) == []
