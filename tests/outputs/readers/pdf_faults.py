"""Faults of a printed page: glyphs that meet or are struck through, ink in the margin; and the check bars on it."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.outputs.readers.plane import bounds, inside, overlap, shrunk

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from tests.outputs.readers.pdf import Fill, Glyph, Sheet, Stroke
    from tests.outputs.readers.plane import Corners, Point

# a glyph's box is wider and taller than its ink: these parts at each side are spared
_CORE_ALONG, _CORE_ACROSS = 0.2, 0.25
_SLACK = 0.1  # two cores that share less than this are apart [mm]
_WHITE = 0.995
_BAND = 5.0  # height of a band of the page [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """A glyph with a line through it, and the line."""

    glyph: Glyph
    stroke: Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """Something printed, said in a few words, and its box [mm]."""

    what: str
    box: tuple[Point, Point]


def core(glyph: Glyph) -> Corners:
    """The part of a glyph's box that holds most of its ink [mm]."""
    return shrunk(glyph.corners, _CORE_ALONG, _CORE_ACROSS)


def collisions(sheet: Sheet) -> tuple[tuple[Glyph, Glyph], ...]:
    """Pairs of glyphs whose ink meets."""
    placed = sorted(((bounds(core(glyph)), core(glyph), glyph) for glyph in sheet.glyphs), key=lambda one: one[0])
    found: list[tuple[Glyph, Glyph]] = []
    for index, (box, one, glyph) in enumerate(placed):
        for other_box, other, second in placed[index + 1 :]:
            if other_box[0][0] > box[1][0]:
                break
            if overlap(one, other, by=_SLACK):
                found.append((glyph, second))
    return tuple(found)


def struck(sheet: Sheet) -> tuple[Struck, ...]:
    """Glyphs that a stroke crosses, unless a fill covers the stroke there before the glyph is written."""
    bands = _bands(sheet)
    return tuple(
        Struck(glyph=glyph, stroke=stroke)
        for glyph in sheet.glyphs
        for box in (core(glyph),)
        for stroke in _near(bands, box)
        if overlap(box, stroke.ends) and not _masked(sheet, glyph, stroke)
    )


def _bands(sheet: Sheet) -> Mapping[int, list[Stroke]]:
    """Strokes by the bands of the page that they reach, so that a glyph is tried against few."""
    bands: dict[int, list[Stroke]] = {}
    for stroke in sheet.strokes:
        (_, low), (_, high) = bounds(stroke.ends)
        for band in range(int(low // _BAND), int(high // _BAND) + 1):
            bands.setdefault(band, []).append(stroke)
    return bands


def _near(bands: Mapping[int, list[Stroke]], box: Corners) -> Iterable[Stroke]:
    (left, low), (right, high) = bounds(box)
    found = (stroke for band in range(int(low // _BAND), int(high // _BAND) + 1) for stroke in bands.get(band, ()))
    beside = {
        id(one): one
        for one in found
        if max(one.ends[0][0], one.ends[1][0]) >= left and min(one.ends[0][0], one.ends[1][0]) <= right
    }
    return beside.values()


def _masked(sheet: Sheet, glyph: Glyph, stroke: Stroke) -> bool:
    return any(_covers(fill, glyph) for fill in sheet.fills if stroke.order < fill.order < glyph.order)


def _covers(fill: Fill, glyph: Glyph) -> bool:
    return all(inside(corner, fill.outline) for corner in core(glyph))


def ink(sheet: Sheet) -> tuple[Ink, ...]:
    """All that is printed: glyphs, strokes with their width, fills and images; nothing that is white."""
    found = [Ink(what=f"glyph {one.text!r}", box=bounds(one.corners)) for one in sheet.glyphs if one.luma < _WHITE]
    for one in sheet.strokes:
        if one.luma < _WHITE:
            (x0, y0), (x1, y1) = bounds(one.ends)
            half = one.width / 2.0
            found.append(Ink(what="line", box=((x0 - half, y0 - half), (x1 + half, y1 + half))))
    found += [Ink(what="fill", box=bounds(one.outline)) for one in sheet.fills if one.luma < _WHITE and one.outline]
    found += [Ink(what="image", box=box) for box in sheet.images]
    return tuple(found)


def outside(sheet: Sheet, margin: float) -> tuple[Ink, ...]:
    """What is printed nearer than `margin` [mm] to an edge of the page."""
    slack = 0.01
    return tuple(
        one
        for one in ink(sheet)
        if min(one.box[0]) < margin - slack
        or one.box[1][0] > sheet.width - margin + slack
        or one.box[1][1] > sheet.height - margin + slack
    )


def bars(sheet: Sheet, length: float, *, tolerance: float = 0.1) -> tuple[Stroke, ...]:
    """Unbroken straight lines, level or upright, of a given length [mm]: what a user lays a rule on."""
    return tuple(
        stroke
        for stroke in sheet.strokes
        if abs(stroke.length - length) <= tolerance and not stroke.dashed and not stroke.curved and _square(stroke)
    )


def _square(stroke: Stroke) -> bool:
    (ax, ay), (bx, by) = stroke.ends
    return abs(ax - bx) < 1e-3 or abs(ay - by) < 1e-3


def complaints(path: Path) -> tuple[str, ...]:
    """What two programs say of a file, where they are installed: `qpdf --check` and `pdffonts`."""
    found: list[str] = []
    if shutil.which("qpdf"):
        checked = subprocess.run(
            ["qpdf", "--check", str(path)], capture_output=True, text=True, timeout=60, check=False
        )
        if checked.returncode:
            found.append((checked.stdout + checked.stderr).strip())
    if shutil.which("pdffonts"):
        listed = subprocess.run(["pdffonts", str(path)], capture_output=True, text=True, timeout=60, check=False)
        found += [row for row in listed.stdout.splitlines()[2:] if "Type 3" in row or row.split()[-5] != "yes"]
    return tuple(found)
