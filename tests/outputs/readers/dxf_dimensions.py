"""Dimensions of a DXF file: what each measures by its own points, what it shows, and where it is anchored.

Types and group codes of DIMENSION are those of the published DXF reference (from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from tests.outputs.readers.dxf import TextBox, lines, texts
from tests.outputs.readers.plane import distance_to_segment

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tests.outputs.readers.dxf import Drawing, Lines
    from tests.outputs.readers.dxf_tags import Entity
    from tests.outputs.readers.plane import Point, Segment


class DimensionKind(Enum):
    """The kind of a DIMENSION: the low four bits of its group 70."""

    LINEAR = 0
    ALIGNED = 1
    ANGULAR = 2
    DIAMETER = 3
    RADIUS = 4
    ANGULAR_3_POINTS = 5
    ORDINATE = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """One DIMENSION.

    Attributes:
        kind: its type.
        layer: its layer.
        style: name of its dimension style.
        line_at: group 10: a place on the dimension line (the centre for a radius, the far point for a diameter).
        anchors: definition points that must lie on what is drawn.
        angle_deg: direction of a linear dimension [degrees], 0 across and 90 upright.
        measured: by its own points [drawing units, or degrees].
        factor: what the style multiplies a measured length by before it is shown.
        stated: group 42, the measurement that the file states; None where it states none.
        override: text given by hand; "" where the measurement is shown.
        shown: texts of its block: what the reader sees.
        boxes: the same texts with their boxes.
        segments: straight lines of its block.
    """

    kind: DimensionKind
    layer: str
    style: str
    line_at: Point
    anchors: tuple[Point, ...]
    angle_deg: float
    measured: float
    factor: float
    stated: float | None
    override: str
    shown: tuple[str, ...]
    boxes: tuple[TextBox, ...]
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorGap:
    """How far a definition point lies from the nearest line [drawing units]; infinite where nothing is drawn."""

    dimension: Dimension
    point: Point
    gap: float


def dimensions(drawing: Drawing) -> tuple[Dimension, ...]:
    """Every dimension of model space.

    Raises:
        ValueError: a dimension of an unknown type, of an unknown style, or without the block that draws it.
    """
    return tuple(_dimension(drawing, entity) for entity in drawing.of("DIMENSION"))


def _dimension(drawing: Drawing, entity: Entity) -> Dimension:
    block, style = entity.text(2), entity.text(3, "STANDARD")
    if block not in drawing.blocks:
        msg = f"dimension {entity.text(5)} has no block {block!r}: nothing of it is drawn"
        raise ValueError(msg)
    drawn = drawing.blocks[block]
    kind = DimensionKind(entity.whole(70) & 15)
    boxes = texts(drawn)
    override = entity.text(1)
    return Dimension(
        kind=kind,
        layer=entity.layer,
        style=style,
        line_at=entity.point(10),
        anchors=tuple(entity.point(code) for code in _ANCHORS[kind]),
        angle_deg=entity.number(50),
        measured=_measured(entity, kind),
        factor=_factor(drawing, entity, style),
        stated=entity.number(42) if entity.has(42) else None,
        override="" if override == "<>" else override,
        shown=tuple(box.text for box in boxes),
        boxes=boxes,
        segments=lines(drawn).segments,
    )


_ANCHORS = {
    DimensionKind.LINEAR: (13, 14),
    DimensionKind.ALIGNED: (13, 14),
    DimensionKind.ANGULAR: (13, 14, 15, 10),
    DimensionKind.DIAMETER: (10, 15),
    DimensionKind.RADIUS: (15,),
    DimensionKind.ANGULAR_3_POINTS: (13, 14),
    DimensionKind.ORDINATE: (13,),
}


def _measured(entity: Entity, kind: DimensionKind) -> float:
    match kind:
        case DimensionKind.LINEAR:
            (ax, ay), (bx, by), angle = entity.point(13), entity.point(14), math.radians(entity.number(50))
            return abs((bx - ax) * math.cos(angle) + (by - ay) * math.sin(angle))
        case DimensionKind.ALIGNED:
            return math.dist(entity.point(13), entity.point(14))
        case DimensionKind.DIAMETER | DimensionKind.RADIUS:
            return math.dist(entity.point(10), entity.point(15))
        case DimensionKind.ORDINATE:
            axis = 0 if entity.whole(70) & 64 else 1
            return abs(entity.point(13)[axis] - entity.point(10)[axis])
        case DimensionKind.ANGULAR_3_POINTS:
            return _angle_round(entity.point(15), entity.point(13), entity.point(14), entity.point(10))
        case DimensionKind.ANGULAR:
            return _angle_between(entity)


def _angle_round(vertex: Point, start: Point, end: Point, through: Point) -> float:
    """The angle from `start` to `end`, on the side where `through` lies [degrees]."""
    first, last, between = (math.atan2(p[1] - vertex[1], p[0] - vertex[0]) for p in (start, end, through))
    sweep = (last - first) % math.tau
    return math.degrees(sweep if (between - first) % math.tau <= sweep else math.tau - sweep)


def _angle_between(entity: Entity) -> float:
    """The angle between two lines, on the side of the dimension's arc [degrees].

    Each line is turned to point to the arc; where that can't tell (the arc lies beyond both ends), it stays as it is.
    """
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = (entity.point(code) for code in (13, 14, 15, 10))
    one, two = (bx - ax, by - ay), (dx - cx, dy - cy)
    turn = one[0] * two[1] - one[1] * two[0]
    if turn == 0.0:
        return 0.0
    part = ((cx - ax) * two[1] - (cy - ay) * two[0]) / turn
    vertex = (ax + part * one[0], ay + part * one[1])
    px, py = entity.point(16)[0] - vertex[0], entity.point(16)[1] - vertex[1]
    # the arc's point is p = u * one + v * two; their signs tell the quarter that it lies in
    u, v = (px * two[1] - py * two[0]) / turn, (one[0] * py - one[1] * px) / turn
    angle = math.degrees(math.atan2(abs(turn), one[0] * two[0] + one[1] * two[1]))
    return angle if u * v >= 0.0 else 180.0 - angle


def _factor(drawing: Drawing, entity: Entity, style: str) -> float:
    if style not in drawing.dimstyles:
        msg = f"dimension {entity.text(5)} has an unknown style {style!r}"
        raise ValueError(msg)
    given = _overrides(entity).get(144)
    return float(given) if given is not None else drawing.dimstyles[style].number(144, 1.0)


def _overrides(entity: Entity) -> dict[int, str]:
    """Style variables that one dimension sets for itself: pairs in its extended data, after the word DSTYLE."""
    tags = entity.tags
    start = next((i for i, (code, value) in enumerate(tags) if code == 1000 and value.strip() == "DSTYLE"), len(tags))
    pairs = tags[start + 2 :]
    found: dict[int, str] = {}
    for (code, variable), (_, value) in zip(pairs[::2], pairs[1::2], strict=False):
        if code != 1070:
            break
        found[int(variable)] = value
    return found


def anchor_gaps(found: Iterable[Dimension], drawn: Lines) -> tuple[AnchorGap, ...]:
    """For each definition point that must lie on what is drawn: its distance from the nearest line or arc."""
    return tuple(
        AnchorGap(dimension=dimension, point=point, gap=distance(point, drawn))
        for dimension in found
        for point in dimension.anchors
    )


def distance(point: Point, drawn: Lines) -> float:
    """From a point to the nearest line or arc [drawing units]."""
    gaps = [distance_to_segment(point, segment) for segment in drawn.segments]
    gaps += [arc.distance(point) for arc in drawn.arcs]
    return min(gaps, default=math.inf)


def nearest_rows(found: Iterable[Dimension]) -> float:
    """The least distance of two parallel dimension lines that stand side by side [drawing units].

    Only linear dimensions across and upright count, and only where their spans overlap. Two that overlap on one line
    give 0; infinite where no two stand side by side.
    """
    rows = [_row(one) for one in found if one.kind is DimensionKind.LINEAR and one.angle_deg % 90.0 == 0.0]
    gaps = [
        abs(a_at - b_at)
        for index, (a_up, a_at, a_low, a_high) in enumerate(rows)
        for b_up, b_at, b_low, b_high in rows[index + 1 :]
        if a_up == b_up and min(a_high, b_high) - max(a_low, b_low) > 1e-6
    ]
    return min(gaps, default=math.inf)


def _row(one: Dimension) -> tuple[bool, float, float, float]:
    upright = one.angle_deg % 180.0 == 90.0
    ends = sorted(point[1 if upright else 0] for point in one.anchors)
    return upright, one.line_at[0 if upright else 1], ends[0], ends[1]


_HEADER_AND_STYLE = (("$DIMTXT", 140, 2.5), ("$DIMSCALE", 40, 1.0), ("$DIMASZ", 41, 2.5), ("$DIMLFAC", 144, 1.0))


def header_differences(drawing: Drawing) -> tuple[tuple[str, float, str, float], ...]:
    """Where the header and a style in use differ: (variable, header's value, style, style's value).

    Some programs draw dimensions from the header instead of the style.
    """
    used = tuple(dict.fromkeys(entity.text(3, "STANDARD") for entity in drawing.of("DIMENSION")))
    return tuple(
        (variable, drawing.number(variable), style, drawing.dimstyles[style].number(code, default))
        for style in used
        for variable, code, default in _HEADER_AND_STYLE
        if abs(drawing.number(variable) - drawing.dimstyles[style].number(code, default)) > 1e-9
    )
