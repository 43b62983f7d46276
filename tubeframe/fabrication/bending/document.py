"""Bend sheets as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.geometry.plain import number

if TYPE_CHECKING:
    from tubeframe.fabrication.bending.sheet import BendSheet

Plain = dict[str, Any]


def bend_sheet_document(sheet: BendSheet) -> Plain:
    """Turn a bend sheet into plain values; every distance is from the rough end A."""
    return {
        "mark": sheet.mark,
        "quantity": sheet.quantity,
        "tube": sheet.tube,
        "rough_length_mm": number(sheet.rough_length),
        "trim_a_mm": number(sheet.trim_a),
        "trim_b_mm": number(sheet.trim_b),
        "flat": sheet.is_flat,
        "bends": [
            {
                "arrow_mm": number(m.at),
                "hook": m.hook.name,
                "angle_deg": number(m.angle),
                "reading_deg": number(m.reading),
                "roll_deg": number(m.roll),
                "radius_mm": number(m.radius),
                "mark": m.set_by.value,
                "order": m.order,
            }
            for m in sheet.bends
        ],
        "checks": [{"of": c.measured.value, "bend": c.bend, "distance_mm": number(c.distance)} for c in sheet.checks],
    }
