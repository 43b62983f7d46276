"""What a PDF page shows: glyphs, words, strokes and fills in millimetres, through pdfplumber; fonts and metadata.

Positions are [mm] from the lower left corner of the page, y upward. The height of a capital letter is taken as a part
of the font size, `CAP_HEIGHT`, which fits DejaVu Sans. Clipping isn't followed: what a page clips away counts as ink.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pdfplumber
from pdfminer.pdftypes import resolve1

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from pdfplumber.page import Page

    from tests.outputs.readers.plane import Corners, Point, Segment

MM = 25.4 / 72.0  # one point [mm]
CAP_HEIGHT = 0.72
_CURVE_CHORDS = 8

_Item = dict[str, Any]  # as pdfplumber gives it


@dataclass(frozen=True, slots=True, kw_only=True)
class Glyph:
    """One printed sign.

    Attributes:
        text: the sign.
        at: where its writing starts on the base line [mm].
        angle_deg: direction of writing, 0 to the right, 90 upward [degrees].
        advance: width [mm].
        size: font size [mm].
        corners: of its box, from descender to ascender [mm].
        font: name of its font.
        luma: 0 black to 1 white.
        order: place in the order of painting.
    """

    text: str
    at: Point
    angle_deg: float
    advance: float
    size: float
    corners: Corners
    font: str
    luma: float
    order: int

    @property
    def cap_height(self) -> float:
        """Height of a capital letter [mm]."""
        return self.size * CAP_HEIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """Glyphs that are written on, without a gap, in whatever direction."""

    text: str
    glyphs: tuple[Glyph, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight piece of a stroked path; a curve counts as several.

    Attributes:
        ends: both ends [mm].
        width: of the line [mm].
        luma: 0 black to 1 white.
        dashed: whether the line is broken.
        curved: whether it is a piece of a curve.
        order: place in the order of painting.
    """

    ends: Segment
    width: float
    luma: float
    dashed: bool
    curved: bool
    order: int

    @property
    def length(self) -> float:
        """Length [mm]."""
        return math.dist(*self.ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """A filled outline: its points [mm], luma and place in the order of painting."""

    outline: tuple[Point, ...]
    luma: float
    order: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One page.

    Attributes:
        number: from 1.
        width, height: [mm].
        glyphs: all signs but spaces, in the order of painting.
        words: the same, put together.
        strokes: stroked lines.
        fills: filled outlines.
        images: boxes of pixel images, least and greatest corner [mm].
    """

    number: int
    width: float
    height: float
    glyphs: tuple[Glyph, ...]
    words: tuple[Word, ...]
    strokes: tuple[Stroke, ...]
    fills: tuple[Fill, ...]
    images: tuple[tuple[Point, Point], ...]

    @property
    def text(self) -> str:
        """All words in the order of painting, with spaces."""
        return " ".join(word.text for word in self.words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Font:
    """A font of the file: its name, its type (`Type3` prints badly), whether its shapes are in the file."""

    name: str
    kind: str
    embedded: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A PDF file: its pages, its information entries (such as Title), its fonts."""

    sheets: tuple[Sheet, ...]
    metadata: Mapping[str, str]
    fonts: tuple[Font, ...]


def read(path: Path) -> Document:
    """Reads a PDF file.

    Raises:
        ValueError: the file is no PDF, has no page, or has a page that is shown turned.
    """
    if not path.read_bytes().startswith(b"%PDF-"):
        msg = f"{path.name} is no PDF file"
        raise ValueError(msg)
    with pdfplumber.open(path) as document:
        if not document.pages:
            msg = f"{path.name} has no page"
            raise ValueError(msg)
        fonts = [font for page in document.pages for font in _fonts(page.page_obj.resources)]
        return Document(
            sheets=tuple(_sheet(page) for page in document.pages),
            metadata={key: str(value) for key, value in document.metadata.items()},
            fonts=tuple(dict.fromkeys(fonts)),
        )


def _sheet(page: Page) -> Sheet:
    if page.rotation:
        msg = f"page {page.page_number} is shown turned by {page.rotation} degrees"
        raise ValueError(msg)
    items = list(enumerate(page.iter_layout_objects(list(page.layout))))
    chars = tuple(_glyph(item, order) for order, item in items if item["object_type"] == "char")
    paths = [(order, item) for order, item in items if item["object_type"] in ("line", "rect", "curve")]
    return Sheet(
        number=page.page_number,
        width=float(page.width) * MM,
        height=float(page.height) * MM,
        glyphs=tuple(glyph for glyph in chars if glyph.text.strip()),
        words=tuple(_words(chars)),
        strokes=tuple(stroke for order, item in paths if item["stroke"] for stroke in _strokes(page, item, order)),
        fills=tuple(_fill(page, item, order) for order, item in paths if item["fill"]),
        images=tuple(_box(item) for _, item in items if item["object_type"] == "image"),
    )


def _box(item: _Item) -> tuple[Point, Point]:
    return (item["x0"] * MM, item["y0"] * MM), (item["x1"] * MM, item["y1"] * MM)


def _glyph(item: _Item, order: int) -> Glyph:
    """The size comes from the glyph's upright box, since the library's own is the advance once the text is turned.

    The box round a turned rectangle of advance x size is |cos| * advance + |sin| * size wide, and the other way round
    high; its middle is that of the rectangle.
    """
    a, b, _, _, x, y = item["matrix"]
    scale, angle = math.hypot(a, b), math.atan2(b, a)
    (x0, y0), (x1, y1) = _box(item)
    c, s = abs(math.cos(angle)), abs(math.sin(angle))
    advance = abs(item["adv"]) * scale * MM
    size = (y1 - y0 - advance * s) / c if c >= s else (x1 - x0 - advance * c) / s
    middle = ((x0 + x1) / 2.0, (y0 + y1) / 2.0)
    return Glyph(
        text=item["text"],
        at=(x * MM, y * MM),
        angle_deg=math.degrees(angle),
        advance=advance,
        size=size,
        corners=_corners(middle, angle, advance, size),
        font=item["fontname"],
        luma=_luma(item["non_stroking_color"]),
        order=order,
    )


def _corners(middle: Point, angle: float, width: float, height: float) -> Corners:
    ux, uy = math.cos(angle) * width / 2.0, math.sin(angle) * width / 2.0
    vx, vy = -math.sin(angle) * height / 2.0, math.cos(angle) * height / 2.0
    x, y = middle
    return (
        (x - ux - vx, y - uy - vy),
        (x + ux - vx, y + uy - vy),
        (x + ux + vx, y + uy + vy),
        (x - ux + vx, y - uy + vy),
    )


def _words(glyphs: Iterable[Glyph]) -> Iterator[Word]:
    """Glyphs painted one after the other belong together while each starts about where the last one ended."""
    run: list[Glyph] = []
    for glyph in glyphs:
        if run and not (glyph.text.strip() and _goes_on(run[-1], glyph)):
            yield Word(text="".join(one.text for one in run), glyphs=tuple(run))
            run = []
        if glyph.text.strip():
            run.append(glyph)
    if run:
        yield Word(text="".join(one.text for one in run), glyphs=tuple(run))


def _goes_on(last: Glyph, glyph: Glyph) -> bool:
    angle = math.radians(last.angle_deg)
    end = (last.at[0] + last.advance * math.cos(angle), last.at[1] + last.advance * math.sin(angle))
    return math.dist(end, glyph.at) <= 0.2 * last.size and abs(glyph.angle_deg - last.angle_deg) < 1.0


def _luma(colour: object) -> float:
    """Brightness of a grey, RGB or CMYK colour by the weights of ITU-R BT.601; black where none is given."""
    parts = [colour] if isinstance(colour, int | float) else list(colour) if isinstance(colour, tuple | list) else [0.0]
    numbers = [float(part) for part in parts if isinstance(part, int | float)]
    match len(numbers):
        case 1:
            return numbers[0]
        case 3:
            return 0.299 * numbers[0] + 0.587 * numbers[1] + 0.114 * numbers[2]
        case 4:
            return 1.0 - min(1.0, 0.299 * numbers[0] + 0.587 * numbers[1] + 0.114 * numbers[2] + numbers[3])
        case _:
            return 0.0


def _strokes(page: Page, item: _Item, order: int) -> Iterator[Stroke]:
    luma, width, dash = _luma(item["stroking_color"]), (item["linewidth"] or 0.0) * MM, item["dash"]
    for ends, curved in _pieces(page, item):
        if ends[0] != ends[1]:
            dashed = bool(dash and dash[0])
            yield Stroke(ends=ends, width=width, luma=luma, dashed=dashed, curved=curved, order=order)


def _fill(page: Page, item: _Item, order: int) -> Fill:
    outline = tuple(ends[0] for ends, _ in _pieces(page, item))
    return Fill(outline=outline, luma=_luma(item["non_stroking_color"]), order=order)


def _pieces(page: Page, item: _Item) -> Iterator[tuple[Segment, bool]]:
    """Straight pieces of a path, each with whether it belongs to a curve; pdfplumber counts y from the top."""
    start = last = (0.0, 0.0)
    for operator, *points in item["path"]:
        placed = [(float(x) * MM, (float(page.height) - float(y)) * MM) for x, y in points]
        if operator == "m":
            start = last = placed[0]
        elif operator == "h":
            yield (last, start), False
            last = start
        elif operator == "l":
            yield (last, placed[0]), False
            last = placed[0]
        else:
            curve = [_bezier(last, placed, part / _CURVE_CHORDS) for part in range(_CURVE_CHORDS + 1)]
            for one, other in itertools.pairwise(curve):
                yield (one, other), True
            last = placed[-1]


def _bezier(start: Point, points: list[Point], part: float) -> Point:
    """A point of a cubic curve; where the path gives only two points, one control stands on its end (v and y)."""
    one, two, end = points if len(points) == 3 else (points[0], points[-1], points[-1])
    rest = 1.0 - part
    weights = (rest**3, 3.0 * rest * rest * part, 3.0 * rest * part * part, part**3)
    x = sum(w * p[0] for w, p in zip(weights, (start, one, two, end), strict=True))
    y = sum(w * p[1] for w, p in zip(weights, (start, one, two, end), strict=True))
    return (x, y)


def _fonts(resources: object) -> Iterator[Font]:
    """Fonts of a page or of the forms that it draws."""
    found = resolve1(resources) or {}
    for font in (resolve1(found.get("Font")) or {}).values():
        yield _font(resolve1(font))
    for form in (resolve1(found.get("XObject")) or {}).values():
        inner = resolve1(form).attrs.get("Resources")
        if inner is not None:
            yield from _fonts(inner)


def _font(font: Mapping[str, Any]) -> Font:
    kind = _name(font.get("Subtype"))
    inner = resolve1(resolve1(font["DescendantFonts"])[0]) if kind == "Type0" else font
    described = resolve1(inner.get("FontDescriptor")) or {}
    embedded = kind == "Type3" or any(key in described for key in ("FontFile", "FontFile2", "FontFile3"))
    return Font(name=_name(font.get("BaseFont") or font.get("Name")), kind=kind, embedded=embedded)


def _name(value: object) -> str:
    return str(getattr(value, "name", value or ""))
