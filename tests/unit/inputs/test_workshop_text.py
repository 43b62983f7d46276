from __future__ import annotations

import tomllib

import pytest

from tubeframe.inputs.workshop_text import with_setback

NOTE = "measured 2026-05-01"
FILE = """# my shop
units = "in"   # inches

[fittings.tee]    # the blue box
grip = "1.9 in"   # at the shell
setback = "0.6 in"  # old

[saw]
kerf = "1/16 in"  # hacksaw
"""


@pytest.mark.parametrize("text", ["", FILE, FILE.replace('setback = "0.6 in"  # old\n', ""), 'units = "mm"\n'])
@pytest.mark.parametrize("kind", ["tee", "angle-tee"])
def test_only_the_setback_changes(text, kind):
    before, after = tomllib.loads(text), tomllib.loads(with_setback(text, kind, "0.5 in", NOTE))

    assert after["fittings"][kind]["setback"] == "0.5 in"
    before.setdefault("fittings", {}).setdefault(kind, {})["setback"] = "0.5 in"
    assert after == before


def test_comments_stay():
    changed = with_setback(FILE, "tee", "0.5 in", NOTE)

    for comment in ("# my shop", "# inches", "# the blue box", "# at the shell", "# hacksaw", f"# {NOTE}"):
        assert comment in changed
    assert "# old" not in changed
