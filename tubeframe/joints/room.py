"""Whether everything has room: tubes, fittings, boards, floor and walls, and what carries the boards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.joints.bearing import bearings
from tubeframe.joints.boards import board_findings
from tubeframe.joints.bodies import body_findings
from tubeframe.joints.fouling import fouling_findings
from tubeframe.joints.ground import floor_findings, wall_findings
from tubeframe.joints.joint import uses_by_tube
from tubeframe.joints.pieces import apart_findings
from tubeframe.joints.things import things_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Bearing, Joint, Tube


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What carries the boards, and what has no room."""

    bearings: tuple[Bearing, ...]
    findings: tuple[Finding, ...]


def room(frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], workshop: Workshop) -> Room:
    """Look at all that takes up room in a frame."""
    uses = uses_by_tube(joints)
    things = things_of(frame, tubes, joints, uses, workshop)
    carried = bearings(frame, tubes, things, uses)
    fouling = tuple(fouling_findings(tubes, joints, things))
    fouled = {frozenset(f.subjects) for f in fouling}
    findings = (
        *fouling,
        *body_findings(tubes, joints, things, fouled, workshop.tool_gap),
        *wall_findings(frame, tubes, joints, things),
        *floor_findings(frame, tubes, joints, things, uses),
        *board_findings(frame, tubes, joints, things, carried),
        *apart_findings(tubes, joints),
    )
    return Room(bearings=carried, findings=findings)
