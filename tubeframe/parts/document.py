"""Tubes, marks and boards as plain values."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from tubeframe.geometry.path import Arc
from tubeframe.geometry.plain import number, optional, point

if TYPE_CHECKING:
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.path import Path
    from tubeframe.parts.piece import Piece, PieceBend, PieceEnd, PieceGroup, Station

Plain = dict[str, Any]


def _corners(path: Path) -> list[list[float]]:
    """List a centreline's corner points: the ends, and for each bend where its straights would meet."""
    corners = (
        piece.start + piece.start_tangent * (piece.radius * math.tan(piece.angle / 2.0))
        for piece in path.pieces
        if isinstance(piece, Arc)
    )
    return [point(p) for p in (path.start, *corners, path.end)]


def member_document(piece: Piece) -> Plain:
    """Turn a tube as it is cut into plain values."""
    return {
        "id": piece.id,
        "mark": piece.mark,
        "reversed": piece.is_reversed,
        "a_mm": point(piece.path.start),
        "b_mm": point(piece.path.end),
        "path_mm": _corners(piece.path),
        "end_a": _end(piece.end_a),
        "end_b": _end(piece.end_b),
        "stations": [_station(s) for s in piece.stations],
        "bends": [_bend(b) for b in piece.bends],
    }


def _end(end: PieceEnd) -> Plain:
    return {
        "kind": end.kind.value,
        "joint": end.joint,
        "port": end.port,
        "setback_mm": number(end.setback),
        "roll_deg": optional(end.roll),
        "angle_deg": optional(end.swing_angle),
    }


def _station(station: Station) -> Plain:
    return {
        "from_a_mm": number(station.from_a),
        "roll_deg": number(station.roll),
        "sense": station.sense,
        "angle_deg": optional(station.swing_angle),
        "joint": station.joint,
        "port": station.port,
    }


def _bend(bend: PieceBend) -> Plain:
    return {
        "start_from_a_mm": number(bend.start_from_a),
        "angle_deg": number(bend.angle),
        "radius_mm": number(bend.radius),
        "roll_deg": number(bend.roll),
    }


def piece_document(group: PieceGroup) -> Plain:
    """Turn what a mark shares into plain values."""
    first = group.first
    return {
        "mark": group.mark,
        "quantity": group.quantity,
        "tube": first.size,
        "cut_length_mm": number(first.cut_length),
        "cut_length_rounded_mm": number(first.cut_rounded),
        "members": [p.id for p in group.pieces],
        "hand": group.hand.value,
        "end_a": first.end_a.kind.value,
        "end_b": first.end_b.kind.value,
        "stations_mm": [number(s.from_a) for s in first.stations],
        "bends": [_bend(b) for b in first.bends],
        "bend_allowance_mm": [number(first.allowance_a), number(first.allowance_b)],
    }


def panel_document(panel: Panel, mark: str) -> Plain:
    """Turn a board into plain values."""
    return {
        "id": panel.id,
        "mark": mark,
        "use": panel.use.value,
        "material": panel.material,
        "corner_mm": point(panel.placement.origin),
        "length_mm": number(panel.length),
        "width_mm": number(panel.width),
        "thickness_mm": number(panel.thickness),
        "pockets_mm": [{"min": point(p.low), "max": point(p.high)} for p in panel.pockets],
    }
