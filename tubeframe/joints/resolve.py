"""From a frame to its tubes and joints."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.errors import Finding, Severity
from tubeframe.frame.node import Role, TubeEnd
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import COUPLER_MM
from tubeframe.geometry.vector import any_square_to
from tubeframe.joints.check import check
from tubeframe.joints.joint import Joint, Jointed, JointId, PortUse, Tube, TubeId
from tubeframe.joints.meet import meetings
from tubeframe.joints.select import select
from tubeframe.joints.split import split

if TYPE_CHECKING:
    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import MemberId
    from tubeframe.frame.node import Incidence, Node
    from tubeframe.joints.select import Match

_NO_ID = JointId("")


def jointed(frame: Frame, workshop: Workshop) -> Jointed:
    """Resolve every node of a frame to a fitting, split what is longer than a stick, and put on feet and caps."""
    met = meetings(frame, workshop)
    sizes = {m.id: workshop.catalog.tube(m.tube).outside for m in frame.members}
    joints, findings = [], list(met.findings)
    for node in met.nodes:
        match = select(node, _candidates(node, frame, workshop))
        if match is None:
            findings.append(_no_fitting(node))
        joints.append(_joint(node, match, sizes, workshop))
    parted = split(frame.members, tuple(joints), workshop)
    ends = [j for t in parted.tubes for j in _end_pieces(t, workshop)]
    numbered = tuple(replace(j, id=JointId(f"J{i}")) for i, j in enumerate((*parted.joints, *ends), start=1))
    checked = check(frame, parted.tubes, numbered, workshop)
    return Jointed(tubes=parted.tubes, joints=numbered, findings=(*findings, *parted.findings, *checked))


def _candidates(node: Node, frame: Frame, workshop: Workshop) -> list[FittingKind]:
    """List the kinds to try: what the frame prefers at this place first, then as the catalogue has them."""
    wanted = [p.kind for p in frame.preferences if p.at.distance(node.at) <= COUPLER_MM]
    return sorted(workshop.catalog.kinds, key=lambda k: k.key not in wanted)


def _joint(node: Node, match: Match | None, sizes: dict[MemberId, float], workshop: Workshop) -> Joint:
    if match is None:
        uses = tuple(_bare_use(i) for i in node.incidences)
        return Joint(id=_NO_ID, at=node.at, placement=Placement(origin=node.at), fitting=None, uses=uses)
    outside = {port.name: sizes[i.member] for port, i in match.held}
    fitting = workshop.sized(match.kind, outside, match.angle)
    placement = replace(match.turn, origin=match.held[0][1].point)
    uses = tuple(
        PortUse(
            port=port.name,
            role=port.role,
            tube=TubeId(i.member),
            at=i.at,
            axis=placement.direction(port.axis_at(match.angle)),
            up=placement.direction(port.up),
            end=i.end,
            swing_angle=match.angle if port.swing else None,
        )
        for port, i in match.held
    )
    return Joint(id=_NO_ID, at=node.at, placement=placement, fitting=fitting, uses=uses)


def _bare_use(i: Incidence) -> PortUse:
    role = PortRole.RUN if i.role is Role.RUN else PortRole.BRANCH
    return PortUse(
        port=i.role.value, role=role, tube=TubeId(i.member), at=i.at, axis=i.way, up=any_square_to(i.way), end=i.end
    )


def _no_fitting(node: Node) -> Finding:
    names = ", ".join(i.member for i in node.incidences)
    return Finding(
        code="J-no-fitting",
        severity=Severity.ERROR,
        where=names,
        message=f"no fitting joins {len(node.runs)} tubes that pass and {len(node.branches)} that end at "
        f"({node.at.x:.1f}, {node.at.y:.1f}, {node.at.z:.1f}) mm in these directions",
        remedy="move one of them along another, or change an angle to one that a fitting has",
    )


def _end_pieces(tube: Tube, workshop: Workshop) -> list[Joint]:
    """Put feet, base flanges and caps onto a tube."""
    made = []
    length = tube.path.length
    for end, kind in ((TubeEnd.A, tube.end_a), (TubeEnd.B, tube.end_b)):
        if not kind.is_piece:
            continue
        fitting = workshop.sized(workshop.catalog.kind(kind.value), {"tube": workshop.catalog.tube(tube.size).outside})
        inward = tube.path.tangent(0.0) if end is TubeEnd.A else -tube.path.tangent(length)
        point = tube.path.start if end is TubeEnd.A else tube.path.end
        origin = point + inward * (fitting.thickness if kind.shortens else 0.0)
        placement = _standing(from_axes(origin=origin, x=inward, toward=any_square_to(inward)))
        use = PortUse(
            port="tube",
            role=PortRole.END,
            tube=tube.id,
            at=0.0 if end is TubeEnd.A else length,
            axis=inward,
            up=placement.x,
            end=end,
        )
        made.append(Joint(id=_NO_ID, at=origin, placement=placement, fitting=fitting, uses=(use,)))
    return made


def _standing(placement: Placement) -> Placement:
    """Turn a frame so that its z runs where its x ran."""
    return Placement(origin=placement.origin, x=placement.y, y=placement.z, z=placement.x)
