from __future__ import annotations

import itertools
import subprocess
import sys
from pathlib import Path

import matplotlib as mpl
import pytest
from fontTools.ttLib import TTFont

from tubeframe.drawing.model import font_metrics
from tubeframe.drawing.model.font_metrics import CAP_UNITS, UNITS_PER_EM, em_size, text_width, wrap

FONTS = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}
SIGNS = "".join(map(chr, range(0x20, 0x7F))) + "″′°½⌀×–—•→≤≥±µ·éøłß"


@pytest.fixture(scope="module", params=FONTS, ids=["regular", "bold"])
def font(request: pytest.FixtureRequest) -> tuple[bool, TTFont]:
    return request.param, TTFont(Path(mpl.get_data_path()) / "fonts" / "ttf" / FONTS[request.param])


def test_the_table_is_the_fonts_own(font: tuple[bool, TTFont]) -> None:
    bold, file = font
    names, advances = file.getBestCmap(), file["hmtx"]
    assert file["head"].unitsPerEm == UNITS_PER_EM
    assert file["glyf"]["H"].yMax == CAP_UNITS
    for sign in {*SIGNS, *font_metrics._SIGNS}:
        expected = advances[names[ord(sign)]][0] / CAP_UNITS
        assert text_width(sign, 1.0, bold=bold) == pytest.approx(expected, rel=1e-12), sign


def test_widths_add_up_and_grow_with_the_height() -> None:
    assert text_width("", 3.5) == 0.0
    assert text_width("36 7/16″", 3.5) == pytest.approx(sum(text_width(s, 3.5) for s in "36 7/16″"))
    assert text_width("AVAVA", 7.0) == pytest.approx(2.0 * text_width("AVAVA", 3.5))
    assert text_width("leg", 3.5, bold=True) > text_width("leg", 3.5)
    assert em_size(0.729) == pytest.approx(1.0, abs=1e-4)


def test_lines_fit_and_lose_no_word() -> None:
    text = "Saw off the tube 914.4 mm long, deburr both ends and mark the clamps from end A."
    for width in (20.0, 40.0, 90.0):
        lines = wrap(text, width, 3.5)
        assert " ".join(lines) == text
        assert max(text_width(line, 3.5) for line in lines) <= width
        # no line could have taken the first word of the next
        for line, after in itertools.pairwise(lines):
            assert text_width(f"{line} {after.split()[0]}", 3.5) > width
    assert len(wrap(text, 40.0, 3.5, bold=True)) > len(wrap(text, 40.0, 3.5))
    assert wrap(text, 1e4, 3.5) == (text,)


def test_line_breaks_stay_and_nothing_gives_no_line() -> None:
    assert wrap("one\ntwo three", 1e4, 3.5) == ("one", "two three")
    assert wrap("", 10.0, 3.5) == ()
    assert wrap("  ", 10.0, 3.5) == ()


def test_a_word_wider_than_the_line_is_cut() -> None:
    lines = wrap("a leg.front.left.lower b", 12.0, 3.5)
    assert "".join(lines).replace(" ", "") == "aleg.front.left.lowerb"
    assert max(text_width(line, 3.5) for line in lines) <= 12.0
    assert lines[0] == "a"
    assert wrap("WWW", 1.0, 3.5) == ("W", "W", "W")


def test_no_drawing_library_is_loaded() -> None:
    code = (
        "import sys, tubeframe.drawing.model.font_metrics, tubeframe.drawing.model.sheet; "
        "print('matplotlib' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
