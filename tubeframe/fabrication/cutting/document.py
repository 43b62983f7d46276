"""A stick plan as plain values, with the keys that others rely on (mm)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tubeframe.fabrication.cutting.certificate import Certificate
    from tubeframe.fabrication.cutting.plan import CutPlan, Stick
    from tubeframe.fabrication.cutting.sweet_spots import SweetSpot

Plain = dict[str, Any]
_DIGITS = 6


def cut_plan_document(plan: CutPlan) -> Plain:
    """Turn a plan into plain values; there is a certificate for each tube size."""
    return {
        "status": plan.status.value,
        "cost": _number(plan.cost),
        "lower_bound": _number(plan.lower_bound),
        "gap": _number(plan.gap),
        "cost_is": "price" if plan.priced else "bought length in mm",
        "currency": plan.currency,
        "sticks": [_stick(s) for s in plan.sticks],
        "hangs_on": [
            {
                "tube": h.tube,
                "change": h.change.value,
                "by_mm": _number(h.by),
                "cost": None if h.cost is None else _number(h.cost),
                "sticks": h.sticks,
            }
            for h in plan.hangs_on
        ],
        "certificate": [_certificate(c) for c in plan.certificates],
    }


def sweet_spot_document(spot: SweetSpot) -> Plain:
    """Turn a near value that saves into plain values; lengths in mm."""
    return {
        "parameter": spot.parameter,
        "from": _number(spot.start),
        "to": _number(spot.end),
        "saves": spot.saves,
        "unit": spot.unit,
        "sticks": spot.sticks,
    }


def _number(value: float) -> float:
    return round(value, _DIGITS) + 0.0


def _stick(stick: Stick) -> Plain:
    return {
        "tube": stick.tube,
        "stock_length_mm": _number(stick.stock_length),
        "usable_mm": _number(stick.usable),
        "on_hand": stick.on_hand,
        "price": stick.price,
        "cuts": [{"mark": c.mark, "length_mm": _number(c.length)} for c in stick.cuts],
        "kerf_mm": _number(stick.kerf),
        "offcut_mm": _number(stick.offcut),
        "ends_mm": [_number(at) for at in stick.ends],
        "shop_cuts_mm": [_number(at) for at in stick.shop_cuts],
    }


def _certificate(certificate: Certificate) -> Plain:
    pieces = zip(certificate.lengths, certificate.quantities, strict=True)
    return {
        "tube": certificate.tube,
        "unit_mm": _number(certificate.unit),
        "cost_unit": certificate.cost_unit,
        "kerf": certificate.kerf,
        "pieces": [{"length": length, "quantity": quantity} for length, quantity in pieces],
        "sticks": [{"length": s.length, "cost": s.cost, "quantity": s.quantity} for s in certificate.sticks],
        "weights": [list(row) for row in certificate.weights],
        "cost": certificate.cost,
        "proves": certificate.proves,
    }
