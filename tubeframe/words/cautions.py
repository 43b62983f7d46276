"""What every builder is told, and the limits that stand on every sheet. Common practice, no source."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.caution import Caution, Moment, Signal

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame

LIMITS = (
    "Calculated, not tested. Conduit is not sold to a structural grade.",
    "Not for holding people up, overhead lifting, guard rails, vehicles' crash protection, swings, climbing, cots or "
    "roof access.",
    "Never route live wiring in the frame. Do not weld or heat zinc.",
    "Retighten every clamp after the first loading and the next day. Tie tall units to a wall.",
    "Zinc harms caged birds that chew it. Treated wood (ACQ) needs a barrier.",
    "Local building and traffic rules rule; ask a licensed engineer where a code asks for one.",
)
"""Printed on the cover and, in short, at the foot of every sheet."""

SHORT_LIMIT = "Calculated, not tested. Not for people, lifting or guarding. Local rules rule."

_ALWAYS = (
    Caution(
        signal=Signal.CAUTION,
        before=Moment.CUTTING,
        text="Cut edges slice hands, film and cable. Wear gloves and glasses (and hearing protection at a saw), and "
        "deburr every end inside and outside before you handle it.",
    ),
    Caution(
        signal=Signal.CAUTION,
        before=Moment.FLAT,
        text="A closing clamp crushes fingers. Keep them out of the shells while you turn the key.",
    ),
    Caution(
        signal=Signal.WARNING,
        before=Moment.STANDING,
        text="With clamps only finger-tight the frame can fold and fall on you. A second person holds it until it is "
        "tight.",
    ),
    Caution(
        signal=Signal.NOTICE,
        before=Moment.TIGHTENING,
        text="Too much force dents the thin wall and the clamp then slips. Tighten all bolts of a clamp in turn, and "
        "stop when the shells hold the tube and no longer move.",
    ),
)
_BENDING = Caution(
    signal=Signal.WARNING,
    before=Moment.BENDING,
    text="Bend cold only: heated zinc gives off fume that makes you ill. Scrap a tube that kinks or flattens by more "
    "than a tenth.",
)


def all_cautions(frame: Frame) -> tuple[Caution, ...]:
    """Return what belongs to every frame, to bent ones, and to this very one, in that order."""
    bending = (_BENDING,) if any(not m.is_straight for m in frame.members) else ()
    return (*_ALWAYS, *bending, *frame.cautions)
