"""A tube that is taken away, and all that names it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.frame.group import without
from tubeframe.frame.opening import still_bound

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.repair.operations import DropTube


def dropped(frame: Frame, operation: DropTube) -> Frame:
    """Take a tube away; its twin carries what it carried."""
    gone, twin = operation.member, operation.twin
    return replace(
        frame,
        members=tuple(m for m in frame.members if m.id != gone),
        sized_by=tuple(dict.fromkeys(twin if m == gone else m for m in frame.sized_by)),
        supports=tuple(s for s in frame.supports if s.member != gone),
        groups=without(frame.groups, gone),
        openings=still_bound(frame.openings, gone),
        loads=tuple(replace(load, on=twin) if load.on == gone else load for load in frame.loads),
    )
