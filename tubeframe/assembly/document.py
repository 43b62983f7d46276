"""Operations and faces as plain values, with the keys that others rely on (mm)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.counts import Label
    from tubeframe.assembly.squaring import Face
    from tubeframe.assembly.step import Entry, Operation, Raising
    from tubeframe.geometry.vector import Vec

Plain = dict[str, Any]
_DIGITS = 6


def operation_document(operation: Operation) -> Plain:
    """Turn an operation into plain values."""
    return {
        "part": operation.part,
        "kind": operation.kind.value,
        "into": _entries(operation.into),
        "direction": _point(operation.direction),
        "distance_mm": _number(operation.distance),
        "opens": operation.opens,
        "held_by": str(operation.held_by),
    }


def raising_document(raising: Raising) -> Plain:
    """Turn a raising into plain values."""
    return {
        "subframe": raising.sub_frame,
        "after_operations": raising.after,
        "into": _entries(raising.into),
        "direction": _point(raising.direction),
        "distance_mm": _number(raising.distance),
        "held_by": str(raising.held_by),
    }


def _entries(entries: Sequence[Entry]) -> list[Plain]:
    return [{"joint": e.joint, "port": e.port} for e in entries]


def face_document(face: Face) -> Plain:
    """Turn a face into plain values."""
    return {
        "name": face.name,
        "corners": [{"member": c.tube, "from_a_mm": _number(c.from_a), "at_mm": _point(c.at)} for c in face.corners],
        "width_mm": _number(face.width),
        "height_mm": _number(face.height),
        "diagonal_mm": _number(face.diagonal),
    }


def label_document(label: Label) -> Plain:
    """Turn a piece's label into plain values."""
    return {"member": label.tube, "mark": label.mark, "end_a": label.end_a, "end_b": label.end_b}


def _number(value: float) -> float:
    return round(value, _DIGITS) + 0.0


def _point(point: Vec) -> list[float]:
    return [_number(v) for v in point]
