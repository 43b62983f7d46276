"""The PDF reader reads a good page right, and finds the faults that are planted in a bad one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from matplotlib import rc_context
from matplotlib.backends.backend_pdf import FigureCanvasPdf
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from tests.outputs.readers import pdf, pdf_faults

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


def points(mm: float) -> float:
    return mm * 72.0 / 25.4


def page(folder: Path, draw: Callable[[Any], None], *, fonttype: int = 42) -> pdf.Document:
    """An A4 page on which `draw` draws in millimetres."""
    with rc_context({"pdf.fonttype": fonttype, "font.family": "DejaVu Sans"}):
        figure = Figure(figsize=(210.0 / 25.4, 297.0 / 25.4))
        FigureCanvasPdf(figure)
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set(xlim=(0, 210), ylim=(0, 297))
        axes.axis("off")
        draw(axes)
        figure.savefig(folder / "a.pdf", metadata={"Title": "Sheets", "CreationDate": None})
    return pdf.read(folder / "a.pdf")


def write(axes: Any, x: float, y: float, text: str, *, cap: float = 3.5, **more: Any) -> None:
    axes.text(x, y, text, fontsize=points(cap / pdf.CAP_HEIGHT), **more)


def rule(axes: Any, xs: tuple[float, float], ys: tuple[float, float], *, width: float = 0.5, **more: Any) -> None:
    axes.plot(xs, ys, color=more.pop("color", "black"), lw=points(width), solid_capstyle="butt", **more)


def test_pdf_good(tmp_path: Path) -> None:
    def draw(axes: Any) -> None:
        rule(axes, (20, 120), (100, 100))
        rule(axes, (20, 20), (100, 201.6), width=0.25)
        for turn, text in ((0, "TEE 36"), (90, "UP"), (30, "SLANT"), (45, "HALF"), (180, "DOWN")):
            write(axes, 100, 150 + turn / 3, text, rotation=turn)

    read = page(tmp_path, draw)
    [sheet] = read.sheets
    assert (sheet.width, sheet.height) == pytest.approx((210.0, 297.0), abs=0.01)
    assert read.metadata["Title"] == "Sheets"
    assert [(font.kind, font.embedded) for font in read.fonts] == [("Type0", True)]
    assert sheet.text == "TEE 36 UP SLANT HALF DOWN"
    assert [round(word.glyphs[0].angle_deg) % 360 for word in sheet.words] == [0, 0, 90, 30, 45, 180]
    assert [glyph.cap_height for glyph in sheet.glyphs] == pytest.approx([3.5] * len(sheet.glyphs), abs=1e-3)
    assert sorted({round(stroke.width, 3) for stroke in sheet.strokes}) == [0.25, 0.5]
    assert pdf_faults.collisions(sheet) == ()
    assert pdf_faults.struck(sheet) == ()
    assert pdf_faults.outside(sheet, 10.0) == ()
    assert pdf_faults.complaints(tmp_path / "a.pdf") == ()
    assert [bar.ends[0] for bar in pdf_faults.bars(sheet, 100.0)] == [pytest.approx((20.0, 100.0), abs=1e-3)]
    assert len(pdf_faults.bars(sheet, 101.6)) == 1
    assert pdf_faults.bars(sheet, 50.0) == ()


def test_pdf_texts_that_meet(tmp_path: Path) -> None:
    def draw(axes: Any) -> None:
        write(axes, 50, 100, "300")
        write(axes, 52, 100.5, "300.4")
        write(axes, 100, 100, "UP", rotation=90)
        write(axes, 97, 102, "ACROSS")

    met = {frozenset((one.text, other.text)) for one, other in pdf_faults.collisions(page(tmp_path, draw).sheets[0])}
    assert frozenset("03") in met
    assert any("U" in pair or "P" in pair for pair in met)


def test_pdf_glyph_struck_by_a_line_unless_masked(tmp_path: Path) -> None:
    def draw(axes: Any) -> None:
        rule(axes, (40, 60), (101.5, 101.5), zorder=1)
        write(axes, 50, 100, "H", zorder=2)
        rule(axes, (90, 120), (101.5, 101.5), zorder=1)
        axes.add_patch(Rectangle((98, 98), 10, 8, fc="white", ec="none", zorder=2))
        write(axes, 100, 100, "W", zorder=3)
        rule(axes, (148, 156), (98, 106), zorder=1)
        write(axes, 150, 100, "X", zorder=2)

    struck = pdf_faults.struck(page(tmp_path, draw).sheets[0])
    assert [one.glyph.text for one in struck] == ["H", "X"]


def test_pdf_ink_in_the_margin(tmp_path: Path) -> None:
    def draw(axes: Any) -> None:
        rule(axes, (9.9, 100), (50, 50))
        rule(axes, (5, 100), (60, 60), color="white")
        write(axes, 199, 100, "OUT")
        write(axes, 100, 100, "IN")

    outside = pdf_faults.outside(page(tmp_path, draw).sheets[0], 10.0)
    assert [one.what for one in outside] == ["glyph 'O'", "glyph 'U'", "glyph 'T'", "line"]


def test_pdf_small_text_thin_line_light_ink(tmp_path: Path) -> None:
    def draw(axes: Any) -> None:
        rule(axes, (20, 50), (50, 50), width=0.05, color="yellow")
        write(axes, 100, 100, "small", cap=1.2, rotation=90)

    [sheet] = page(tmp_path, draw).sheets
    assert [stroke.width for stroke in sheet.strokes] == pytest.approx([0.05], abs=1e-4)
    assert [stroke.luma for stroke in sheet.strokes] == pytest.approx([0.886])
    assert max(glyph.cap_height for glyph in sheet.glyphs) == pytest.approx(1.2, abs=1e-3)


def test_pdf_type_3_font(tmp_path: Path) -> None:
    read = page(tmp_path, lambda axes: write(axes, 100, 100, "drawn"), fonttype=3)
    assert [font.kind for font in read.fonts] == ["Type3"]


def test_pdf_bar_of_a_wrong_length_and_dashed(tmp_path: Path) -> None:
    def draw(axes: Any) -> None:
        rule(axes, (20, 120.3), (50, 50))
        rule(axes, (20, 120), (60, 60), linestyle="--")
        rule(axes, (20, 100), (70, 130))

    assert pdf_faults.bars(page(tmp_path, draw).sheets[0], 100.0) == ()


def test_pdf_that_is_none(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_text("a page", encoding="ascii")
    with pytest.raises(ValueError, match="no PDF"):
        pdf.read(tmp_path / "a.pdf")
