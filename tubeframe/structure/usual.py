"""Loads of a frame that states none: what is asked on its top board, and a push up there along both axes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.load import Load, LoadUse
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame


def usual_loads(frame: Frame) -> tuple[Load, ...]:
    """Return them; where there is no board, on the tube whose middle is highest."""
    boards = [p for p in frame.panels if p.use is PanelUse.TOP]
    if boards:
        on = max(boards, key=lambda p: p.placement.origin.z).id
    else:
        on = max(frame.members, key=lambda m: m.path.point(m.path.length / 2.0).z).id
    return (
        Load(name=f"spread over {on}", on=on, direction=-Z),
        Load(name="push along x", on=on, direction=X, use=LoadUse.PUSH),
        Load(name="push along y", on=on, direction=Y, use=LoadUse.PUSH),
    )
