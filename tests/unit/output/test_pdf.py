from __future__ import annotations

import hashlib
import io
import math
import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pdfplumber
import pytest

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Level, Mark, Text, strokes
from tubeframe.drawing.model.pens import PEN_STYLES, Fill, Pen
from tubeframe.drawing.model.sheet import Sheet
from tubeframe.drawing.shapes import Arc, Area, circle
from tubeframe.errors import OutputError
from tubeframe.output.pdf import write_pdf

if TYPE_CHECKING:
    from collections.abc import Sequence

MM = 25.4 / 72.0


def written(*sheets: Sheet) -> bytes:
    target = io.BytesIO()
    write_pdf(sheets, target, title="A title, é", author="An author", subject="A subject")
    assert not target.closed
    return target.getvalue()


def page(items: Sequence[Mark], *, width: float = 297.0, height: float = 210.0) -> Any:
    sheet = Sheet(width=width, height=height, title="test", items=tuple(items))
    return pdfplumber.open(io.BytesIO(written(sheet))).pages[0]


def baseline(char: dict[str, Any]) -> tuple[float, float]:
    """Where a sign stands [mm from the lower left corner]."""
    return char["matrix"][4] * MM, char["matrix"][5] * MM


def test_pages_have_the_sizes_of_their_sheets() -> None:
    sizes = ((297.0, 210.0), (215.9, 279.4), (210.0, 297.0), (431.8, 279.4))
    data = written(*(Sheet(width=w, height=h, title="", items=()) for w, h in sizes))
    with pdfplumber.open(io.BytesIO(data)) as document:
        found = [(p.width * MM, p.height * MM) for p in document.pages]
    assert found == [pytest.approx(size, abs=0.01) for size in sizes]


def test_what_the_document_says_of_itself_has_no_date() -> None:
    with pdfplumber.open(io.BytesIO(written(Sheet(width=100.0, height=100.0, title="", items=())))) as document:
        said = document.metadata
    assert said == {
        "Title": "A title, é",
        "Author": "An author",
        "Subject": "A subject",
        "Creator": said["Creator"],
    }
    assert said["Creator"].startswith("tubeframe ")


@pytest.mark.parametrize("pen", Pen)
def test_lines_have_their_pens_width_and_dashes(pen: Pen) -> None:
    (drawn,) = page([strokes(pen, (((20.0, 30.0), (120.0, 30.0)),))]).lines
    style = PEN_STYLES[pen]
    assert drawn["linewidth"] * MM == pytest.approx(style.width, abs=1e-3)
    dashes, offset = drawn["dash"] or ([], 0)
    assert [d * MM for d in dashes] == pytest.approx(list(style.dashes), abs=1e-3)
    assert offset == 0
    assert drawn["x0"] * MM == pytest.approx(20.0, abs=0.01)
    assert drawn["x1"] * MM == pytest.approx(120.0, abs=0.01)
    assert drawn["y0"] * MM == pytest.approx(30.0, abs=0.01)


def test_lines_that_follow_each_other_are_one_stroke() -> None:
    chain = (((10.0, 10.0), (20.0, 10.0)), ((20.0, 10.0), (20.0, 30.0)), ((20.0, 30.0), (40.0, 50.0)))
    apart = (((60.0, 10.0), (70.0, 20.0)),)
    drawn = page([strokes(Pen.WIDE, chain + apart)])
    (curve,) = drawn.curves
    assert [(x * MM, (210.0 - y * MM)) for x, y in curve["pts"]] == [
        pytest.approx(p, abs=0.01) for p in ((10, 10), (20, 10), (20, 30), (40, 50))
    ]
    assert len(drawn.lines) == 1


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("cap", [2.5, 3.5, 5.0, 7.0])
@pytest.mark.parametrize(("anchor", "share"), [(Anchor.LEFT, 0.0), (Anchor.CENTRE, 0.5), (Anchor.RIGHT, 1.0)])
def test_texts_stand_where_they_should(*, bold: bool, cap: float, anchor: Anchor, share: float) -> None:
    text = "AVAVA Ty 36 7/16″ office"
    signs = page([Text(at=(150.0, 80.0), text=text, height=cap, anchor=anchor, bold=bold)]).chars
    # each sign alone: no ligature, no kerning
    assert "".join(c["text"] for c in signs) == text
    start, width = 150.0 - share * text_width(text, cap, bold=bold), text_width(text, cap, bold=bold)
    for number, sign in enumerate(signs):
        expected = start + text_width(text[:number], cap, bold=bold)
        assert baseline(sign) == pytest.approx((expected, 80.0), abs=0.1)
        assert sign["size"] * MM * 1493.0 / 2048.0 == pytest.approx(cap, abs=0.01)
    assert signs[-1]["x1"] * MM == pytest.approx(start + width, abs=0.1)


def test_a_text_in_the_middle_has_as_much_above_as_below() -> None:
    text = Text(at=(50.0, 60.0), text="H", height=5.0, anchor=Anchor.CENTRE, level=Level.MIDDLE)
    (sign,) = page([text]).chars
    assert baseline(sign) == pytest.approx((50.0 - text_width("H", 5.0) / 2.0, 57.5), abs=0.1)


@pytest.mark.parametrize("angle", [90.0, -90.0, 30.0, 180.0])
def test_a_turned_text_runs_its_way(angle: float) -> None:
    text = Text(at=(150.0, 100.0), text="HIH", height=5.0, anchor=Anchor.CENTRE, level=Level.MIDDLE, angle_deg=angle)
    first, *_ = page([text]).chars
    along = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    back = text_width("HIH", 5.0) / 2.0
    expected = (150.0 - back * along[0] + 2.5 * along[1], 100.0 - back * along[1] - 2.5 * along[0])
    assert baseline(first) == pytest.approx(expected, abs=0.1)
    a, b = first["matrix"][:2]
    assert math.degrees(math.atan2(b, a)) % 360.0 == pytest.approx(angle % 360.0, abs=0.01)


def test_fonts_are_embedded_truetype() -> None:
    items = [
        Text(at=(20.0, 20.0 + 10.0 * bold), text="⌀23.4 × 1.24 – ½″", height=3.5, bold=bold) for bold in (False, True)
    ]
    data = written(Sheet(width=100.0, height=100.0, title="", items=tuple(items)))
    assert b"/FontFile2" in data
    assert b"/Type3" not in data
    assert b"CIDFontType2" in data
    with pdfplumber.open(io.BytesIO(data)) as document:
        names = {c["fontname"].partition("+")[2] for c in document.pages[0].chars}
        assert "⌀23.4 × 1.24 – ½″" in document.pages[0].extract_text()
    assert names == {"DejaVuSans", "DejaVuSans-Bold"}


def test_a_circle_is_round() -> None:
    items = [Drawn(shape=circle((100.0, 90.0), 50.0), pen=Pen.NARROW)]
    (curve,) = page(items).curves
    away = [math.dist((x * MM, 210.0 - y * MM), (100.0, 90.0)) for x, y in curve["pts"]]
    assert away == pytest.approx([50.0] * len(away), abs=0.01)
    assert (curve["x1"] - curve["x0"]) * MM == pytest.approx(100.0, abs=0.01)


def test_an_arc_runs_counterclockwise() -> None:
    (curve,) = page(
        [Drawn(shape=Arc(centre=(100.0, 90.0), radius=20.0, start_deg=-30.0, end_deg=90.0), pen=Pen.WIDE)]
    ).curves
    (x0, y0), (x1, y1) = curve["pts"][0], curve["pts"][-1]
    turn = math.radians(-30.0)
    expected = (100.0 + 20.0 * math.cos(turn), 90.0 + 20.0 * math.sin(turn))
    assert (x0 * MM, 210.0 - y0 * MM) == pytest.approx(expected, abs=0.01)
    assert (x1 * MM, 210.0 - y1 * MM) == pytest.approx((100.0, 110.0), abs=0.01)
    between = [(x * MM, 210.0 - y * MM) for x, y in curve["pts"][1:-1]]
    assert [math.dist(p, (100.0, 90.0)) for p in between] == pytest.approx([20.0] * len(between), abs=0.01)
    assert all(x > 110.0 for x, _ in between)


@pytest.mark.parametrize(("fill", "grey"), [(Fill.BLACK, 0.0), (Fill.LIGHT, 0.9), (Fill.WHITE, 1.0)])
def test_areas_are_filled_with_and_without_an_outline(fill: Fill, grey: float) -> None:
    points = ((10.0, 10.0), (30.0, 10.0), (20.0, 35.0))
    for pen in (None, Pen.NARROW):
        (area,) = page([Drawn(shape=Area(corners=points), pen=pen, fill=fill)]).curves
        assert area["fill"]
        assert area["stroke"] == (pen is not None)
        assert area["non_stroking_color"] == pytest.approx(grey)


def test_a_document_without_sheets_is_refused() -> None:
    with pytest.raises(OutputError, match="at least one sheet"):
        write_pdf((), io.BytesIO(), title="", author="", subject="")


def busy_sheets() -> tuple[Sheet, ...]:
    """Sheets with some of everything, for the comparison of bytes."""
    sheets = []
    for number in range(3):
        items: list[Mark] = [strokes(pen, (((10.0, 5.0 * i), (90.0, 5.0 * i)),)) for i, pen in enumerate(Pen)]
        items += [Drawn(shape=circle((50.0, 50.0), 5.0), pen=Pen.NARROW, fill=fill) for fill in Fill]
        items += [
            Text(at=(9.0, 60.0 + 5.0 * bold), text=f"⌀23.4, {number}", height=3.5, bold=bold) for bold in (False, True)
        ]
        sheets.append(Sheet(width=100.0 + number, height=100.0, title=str(number), items=tuple(items)))
    return tuple(sheets)


def checksum() -> str:
    return hashlib.sha256(written(*busy_sheets())).hexdigest()


def test_the_bytes_are_the_same_in_every_process() -> None:
    code = "import tests.unit.output.test_pdf as t; print(t.checksum())"
    sums = [
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            cwd=Path(__file__).parents[3],
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout.strip()
        for seed in ("1", "77")
    ]
    assert sums == [checksum()] * 2
