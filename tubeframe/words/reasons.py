"""Why a kind of fitting was not taken, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from tubeframe.joints.reasons import Mirrored, OtherAngle, OtherCount, OutOfSwing, Spare

if TYPE_CHECKING:
    from tubeframe.joints.reasons import Reason


def reason_words(reason: Reason) -> str:
    """Say why a kind was not taken."""
    match reason:
        case Spare():
            return f"it fits too, but {reason.chosen} is {reason.better.value}"
        case OtherCount():
            return f"it takes {reason.runs} passing and {reason.branches} ending"
        case OutOfSwing():
            return f"it swings from {reason.low:g} to {reason.high:g} degrees, these tubes stand at {reason.angle:.1f}"
        case Mirrored():
            return "it would have to be its own mirror image"
        case OtherAngle():
            return f"its ports stand at {reason.has:.0f} degrees, these tubes at {reason.wants:.1f}"
        case _:
            assert_never(reason)
