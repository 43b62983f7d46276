"""What a DXF file says: units, layers, entities of model space, blocks, lines and arcs, texts with their boxes.

Read from the tags alone (`dxf_tags`). Dimensions and what is tried of them stand in `dxf_dimensions`.
"""

from __future__ import annotations

import itertools
import math
import re
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.outputs.readers import dxf_tags
from tests.outputs.readers.plane import Arc, Corners, Point, Segment, bounds, overlap, shrunk, turned_box

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping
    from pathlib import Path

    from tests.outputs.readers.dxf_tags import Entity

CHARACTER_WIDTH = 0.8  # of the text height: a wide guess for an upright sans-serif letter
_LINE_STEP = 1.6  # from one line of an MTEXT to the next, in text heights
_ELLIPSE_CHORDS = 720


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A row of the layer table.

    Attributes:
        name: of the layer.
        colour: index of its colour.
        linetype: name of its line type.
        lineweight: width of its lines [mm]; None where it is left to the program.
        shown: not switched off or frozen.
        plotted: whether it is printed.
    """

    name: str
    colour: int
    linetype: str
    lineweight: float | None
    shown: bool
    plotted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A DXF file.

    Attributes:
        version: such as AC1024 (R2010).
        header: values of each header variable.
        layers: the layer table, by name.
        linetypes: names in the line type table.
        dimstyles: rows of the dimension style table, by name.
        model: entities of model space.
        paper: entities of the active paper space.
        blocks: entities of each block, by its name.
    """

    version: str
    header: Mapping[str, tuple[str, ...]]
    layers: Mapping[str, Layer]
    linetypes: tuple[str, ...]
    dimstyles: Mapping[str, Entity]
    model: tuple[Entity, ...]
    paper: tuple[Entity, ...]
    blocks: Mapping[str, tuple[Entity, ...]]

    def number(self, variable: str) -> float:
        """A header variable that is one number, such as `$INSUNITS` (4 means millimetres)."""
        if len(self.header.get(variable, ())) != 1:
            msg = f"the header has no number {variable}"
            raise ValueError(msg)
        return float(self.header[variable][0])

    def kinds(self) -> Counter[str]:
        """How many entities of each type stand in model space."""
        return Counter(entity.kind for entity in self.model)

    def of(self, kind: str, layers: Collection[str] = ()) -> tuple[Entity, ...]:
        """Entities of model space of one type, on some layers (none named: on any)."""
        return tuple(one for one in self.model if one.kind == kind and (not layers or one.layer in layers))

    def unknown_layers(self) -> tuple[str, ...]:
        """Layers that entities name but the table doesn't have."""
        used = [one.layer for entities in (self.model, self.paper, *self.blocks.values()) for one in entities]
        return tuple(dict.fromkeys(name for name in used if name not in self.layers))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Drawn lines: straight pieces (also of polylines, and ellipses in chords) and parts of circles."""

    segments: tuple[Segment, ...]
    arcs: tuple[Arc, ...]

    def extents(self) -> tuple[Point, Point]:
        """Least and greatest corner round everything [drawing units]."""
        points = [point for segment in self.segments for point in segment]
        points += [point for arc in self.arcs for point in arc.extremes()]
        if not points:
            msg = "nothing is drawn"
            raise ValueError(msg)
        return bounds(tuple(points))


@dataclass(frozen=True, slots=True, kw_only=True)
class TextBox:
    """A text and the room it takes.

    Attributes:
        text: as it is shown, lines parted by line feeds.
        height: of a capital letter [drawing units].
        layer: its layer.
        corners: of the box, from where the text starts; its width is an estimate.
        coded: whether the raw text holds format codes that simple readers show as they stand.
    """

    text: str
    height: float
    layer: str
    corners: Corners
    coded: bool


def read(path: Path) -> Drawing:
    """Reads a DXF file; `ValueError` where it isn't whole (see `dxf_tags.read`)."""
    file = dxf_tags.read(path)
    rows = {kind: [row for row in file.tables if row.kind == kind and row.has(2)] for kind in _TABLES}
    return Drawing(
        version=file.version,
        header=file.header,
        layers={row.text(2): _layer(row) for row in rows["LAYER"]},
        linetypes=tuple(row.text(2) for row in rows["LTYPE"]),
        dimstyles={row.text(2): row for row in rows["DIMSTYLE"]},
        model=tuple(one for one in file.entities if one.whole(67) == 0),
        paper=tuple(one for one in file.entities if one.whole(67) == 1),
        blocks=_blocks(file.blocks),
    )


_TABLES = ("LAYER", "LTYPE", "DIMSTYLE")


def _layer(row: Entity) -> Layer:
    weight = row.whole(370, -3)
    return Layer(
        name=row.text(2),
        colour=abs(row.whole(62, 7)),
        linetype=row.text(6, "Continuous"),
        lineweight=weight / 100.0 if weight >= 0 else None,
        shown=row.whole(62, 7) >= 0 and not row.whole(70) & 1,
        plotted=row.whole(290, 1) != 0,
    )


def _blocks(entities: Iterable[Entity]) -> dict[str, tuple[Entity, ...]]:
    blocks: dict[str, tuple[Entity, ...]] = {}
    name = ""
    for entity in entities:
        if entity.kind == "BLOCK":
            name = entity.text(2)
            blocks[name] = ()
        elif entity.kind != "ENDBLK":
            blocks[name] = (*blocks[name], entity)
    return blocks


def lines(entities: Iterable[Entity], layers: Collection[str] = ()) -> Lines:
    """Lines and arcs among LINE, LWPOLYLINE, CIRCLE, ARC and ELLIPSE entities, on some layers (none named: on any)."""
    segments: list[Segment] = []
    arcs: list[Arc] = []
    for entity in entities:
        if layers and entity.layer not in layers:
            continue
        if entity.number(230, 1.0) != 1.0:
            msg = f"{entity.kind} {entity.text(5)} is drawn in a plane of its own"
            raise ValueError(msg)
        _trace(entity, segments, arcs)
    return Lines(segments=tuple(segments), arcs=tuple(arcs))


def _trace(entity: Entity, segments: list[Segment], arcs: list[Arc]) -> None:
    match entity.kind:
        case "LINE":
            segments.append((entity.point(10), entity.point(11)))
        case "LWPOLYLINE":
            _trace_polyline(entity, segments, arcs)
        case "CIRCLE":
            arcs.append(Arc(centre=entity.point(10), radius=entity.number(40), start_deg=0.0, sweep_deg=360.0))
        case "ARC":
            start, end = entity.number(50), entity.number(51)
            sweep = (end - start) % 360.0 or 360.0
            arcs.append(Arc(centre=entity.point(10), radius=entity.number(40), start_deg=start, sweep_deg=sweep))
        case "ELLIPSE":
            points = _ellipse(entity)
            segments.extend(itertools.pairwise(points))


def _trace_polyline(entity: Entity, segments: list[Segment], arcs: list[Arc]) -> None:
    xs, ys = entity.all(10), entity.all(20)
    points = [(float(x), float(y)) for x, y in zip(xs, ys, strict=True)]
    bulges = _bulges(entity, len(points))
    following = [*points[1:], points[0]] if entity.whole(70) & 1 else points[1:]
    for start, end, bulge in zip(points, following, bulges, strict=False):
        if bulge == 0.0:
            segments.append((start, end))
        else:
            arcs.append(bulged(start, end, bulge))


def _bulges(entity: Entity, count: int) -> list[float]:
    """The bulge after each vertex: a group 42 belongs to the vertex before it."""
    bulges = [0.0] * count
    vertex = -1
    for code, value in entity.tags:
        if code == 10:
            vertex += 1
        elif code == 42 and vertex >= 0:
            bulges[vertex] = float(value)
    return bulges


def bulged(start: Point, end: Point, bulge: float) -> Arc:
    """The arc between two vertices of a polyline; the bulge is the tangent of a quarter of its sweep."""
    sweep = 4.0 * math.atan(bulge)
    chord = math.dist(start, end)
    radius = chord / (2.0 * math.sin(abs(sweep) / 2.0))
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    out = chord / 2.0 / math.tan(sweep / 2.0)  # from the chord to the centre, to the left
    left = ((start[1] - end[1]) / chord, (end[0] - start[0]) / chord)
    centre = (middle[0] + out * left[0], middle[1] + out * left[1])
    first = start if bulge > 0.0 else end
    angle = math.degrees(math.atan2(first[1] - centre[1], first[0] - centre[0]))
    return Arc(centre=centre, radius=radius, start_deg=angle, sweep_deg=math.degrees(abs(sweep)))


def _ellipse(entity: Entity) -> list[Point]:
    (x, y), (mx, my), ratio = entity.point(10), entity.point(11), entity.number(40)
    start, end = entity.number(41), entity.number(42, math.tau)
    sweep = (end - start) % math.tau or math.tau
    turns = [start + sweep * i / _ELLIPSE_CHORDS for i in range(_ELLIPSE_CHORDS + 1)]
    return [
        (x + mx * math.cos(t) - my * ratio * math.sin(t), y + my * math.cos(t) + mx * ratio * math.sin(t))
        for t in turns
    ]


def texts(entities: Iterable[Entity], *, character_width: float = CHARACTER_WIDTH) -> tuple[TextBox, ...]:
    """TEXT and MTEXT entities with their boxes; a letter is taken `character_width` text heights wide."""
    return tuple(
        _text_box(entity, character_width) if entity.kind == "TEXT" else _mtext_box(entity, character_width)
        for entity in entities
        if entity.kind in ("TEXT", "MTEXT")
    )


def _text_box(entity: Entity, character_width: float) -> TextBox:
    height, shown = entity.number(40), plain(entity.text(1))
    width = len(shown) * height * character_width * entity.number(41, 1.0)
    across, up = entity.whole(72), entity.whole(73)
    left = {0: 0.0, 1: -0.5, 2: -1.0, 4: -0.5}.get(across, 0.0) * width
    low = -0.5 * height if across == 4 else {2: -0.5, 3: -1.0}.get(up, 0.0) * height
    at = entity.point(11) if (across or up) and entity.has(11) else entity.point(10)
    box = turned_box(at, entity.number(50), (left, low), (left + width, low + height))
    return TextBox(text=shown, height=height, layer=entity.layer, corners=box, coded=False)


def _mtext_box(entity: Entity, character_width: float) -> TextBox:
    raw = "".join(entity.all(3)) + entity.text(1)
    height, shown = entity.number(40), plain(raw)
    rows = shown.split("\n")
    width = max(len(row) for row in rows) * height * character_width
    tall = height * (1.0 + _LINE_STEP * (len(rows) - 1))
    attachment = entity.whole(71, 1) - 1  # 1 top left, 2 top centre .. 9 bottom right
    left, low = (0.0, -0.5, -1.0)[attachment % 3] * width, (-1.0, -0.5, 0.0)[attachment // 3] * tall
    angle = entity.number(50)
    if entity.has(11):
        angle = math.degrees(math.atan2(entity.number(21), entity.number(11)))
    box = turned_box(entity.point(10), angle, (left, low), (left + width, low + tall))
    coded = _CODES.search(raw.replace("\\P", "")) is not None
    return TextBox(text=shown, height=height, layer=entity.layer, corners=box, coded=coded)


_CODES = re.compile(r"\\[A-TV-Za-z][^;\\]*;|[{}]|\\[LlOoKk]")
_SIGNS = {"%%c": "⌀", "%%d": "°", "%%p": "±", "%%u": "", "%%o": "", "%%%": "%"}


def plain(raw: str) -> str:
    """What a text shows: signs written as `%%d` or `\\U+00B0`, line breaks `\\P`, no format codes."""
    shown = re.sub(r"\\U\+([0-9A-Fa-f]{4})", lambda match: chr(int(match[1], 16)), raw)
    shown = re.sub(r"%%[cdpuoCDPUO%]", lambda match: _SIGNS[match[0].lower()], shown.replace("\\P", "\n"))
    return _CODES.sub("", shown)


def overlapping(boxes: Iterable[TextBox], *, by: float = 0.0) -> tuple[tuple[TextBox, TextBox], ...]:
    """Pairs of texts whose boxes overlap by more than `by` [drawing units]."""
    boxes = tuple(boxes)
    return tuple(
        (one, other)
        for index, one in enumerate(boxes)
        for other in boxes[index + 1 :]
        if overlap(one.corners, other.corners, by=by)
    )


def crossed(
    boxes: Iterable[TextBox], segments: Iterable[Segment], *, core: float = 0.1
) -> tuple[tuple[TextBox, Segment], ...]:
    """Texts with a straight line through them; a part `core` of the box is spared at each side."""
    segments = tuple(segments)
    return tuple(
        (box, segment) for box in boxes for segment in segments if overlap(shrunk(box.corners, core, core), segment)
    )
