"""A frame turned into the plain values that `frame_from_document` reads back to the same."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from tubeframe.frame.document import SCHEMA
from tubeframe.frame.load_document import statics_document
from tubeframe.frame.size import Side
from tubeframe.geometry.path import Arc
from tubeframe.geometry.units import INCH_MM, Units

if TYPE_CHECKING:
    from tubeframe.frame.frame import CoverLine, Frame, Supply
    from tubeframe.frame.member import Member
    from tubeframe.frame.opening import Opening
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.vector import Vec

Plain = dict[str, Any]
_WIDEST = math.radians(150.0)
"""A bend that turns farther has its corner far away, or nowhere."""


def frame_document(frame: Frame, units: Units) -> Plain:
    """Return a frame as plain values, lengths in the given units to nine decimals."""
    scale = INCH_MM if units is Units.INCH else 1.0
    document: Plain = {
        "schema": SCHEMA,
        "name": frame.name,
        "units": units.value,
        "length_along": frame.length_along.value,
    }
    if frame.sized_by:
        document["sized_by"] = [str(m) for m in frame.sized_by]
    document["member"] = [_member(m, frame, scale) for m in frame.members]
    tables = {
        "joint": [{"at": _point(p.at, scale), "kind": p.kind} for p in frame.preferences],
        "panel": [_panel(p, scale) for p in frame.panels],
        "wall": [
            {"id": w.id, "at": _point(w.at, scale), "toward": [round(v, 9) + 0.0 for v in w.toward]}
            for w in frame.walls
        ],
        "group": [
            {"id": g.name, "members": [str(m) for m in g.members], "turns_on": str(g.turns_on)} for g in frame.groups
        ],
        "opening": [_opening(o) for o in frame.openings],
        **statics_document(frame, scale),
        "supply": [_supply(s, scale) for s in frame.supplies],
        "caution": [{"signal": c.signal.value, "before": c.before.value, "text": c.text} for c in frame.cautions],
        "fact": [_fact(f, scale) for f in frame.facts],
    }
    return document | {key: rows for key, rows in tables.items() if rows}


def _supply(supply: Supply, scale: float) -> Plain:
    made: Plain = {"item": supply.item, "quantity": supply.quantity, "unit": supply.unit}
    if supply.job is not None:
        made["job"] = supply.job.kind.value
        if supply.job.lengths:
            made["job_lengths"] = [_number(v, scale) for v in supply.job.lengths]
    return made


def _opening(opening: Opening) -> Plain:
    made: Plain = {"id": opening.name, "under": str(opening.under)}
    if opening.between:
        made["between"] = [str(m) for m in opening.between]
    if opening.over:
        made["over"] = str(opening.over)
    return made


def _fact(line: CoverLine, scale: float) -> Plain:
    made: Plain = {"label": line.label, "text": line.text}
    if line.sizes:
        made["sizes"] = [
            {s.side.value: _number(s.length, scale) if s.side is Side.GIVEN else list(s.names)} for s in line.sizes
        ]
    return made


def _member(member: Member, frame: Frame, scale: float) -> Plain:
    made: Plain = {
        "id": str(member.id),
        "tube": member.tube,
        "path": [_point(member.path.start, scale), *_corners(member, scale), _point(member.path.end, scale)],
        "ends": [member.end_a.value, member.end_b.value],
    }
    if member.split_at:
        made["split_at"] = [_number(s, scale) for s in member.split_at]
    if passed := [str(b) for a, b in frame.passing if a == member.id]:
        made["passes"] = passed
    return made


def _corners(member: Member, scale: float) -> list[Plain]:
    """Return each bend by the point where its straights would meet: start + r tan(q/2) along the tangent.

    One that goes round too far for that is two.
    """
    return [
        {
            "at": _point(p.start + p.start_tangent * (p.radius * math.tan(p.angle / 2.0)), scale),
            "radius": _number(p.radius, scale),
        }
        for bend in member.path.pieces
        if isinstance(bend, Arc)
        for p in _cornered(bend)
    ]


def _cornered(bend: Arc) -> tuple[Arc, ...]:
    if bend.angle <= _WIDEST:
        return (bend,)
    return (bend.part(0.0, bend.length / 2.0), bend.part(bend.length / 2.0, bend.length))


def _panel(panel: Panel, scale: float) -> Plain:
    at, x, y = panel.placement.origin, panel.placement.x * panel.length, panel.placement.y * panel.width
    made: Plain = {
        "id": panel.id,
        "use": panel.use.value,
        "corners": [_point(p, scale) for p in (at, at + x, at + x + y, at + y)],
        "thickness": _number(panel.thickness, scale),
        "material": panel.material,
    }
    if panel.pockets:
        sides = [(p.low.x, p.low.y, p.high.x, p.high.y, p.high.z) for p in panel.pockets]
        made["pockets"] = [[_number(v, scale) for v in s] for s in sides]
    return made


def _point(point: Vec, scale: float) -> list[float]:
    return [_number(v, scale) for v in point]


def _number(value: float, scale: float) -> float:
    return round(value / scale, 9) + 0.0
