"""From a frame to its tubes and joints."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.measured import sizes_of
from tubeframe.catalog.workshop import Prefer
from tubeframe.errors import Finding, Severity
from tubeframe.frame.node import Role
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.tolerance import COUPLER_MM
from tubeframe.geometry.vector import any_square_to
from tubeframe.joints.check import check
from tubeframe.joints.ends import end_pieces
from tubeframe.joints.facts import NoFitting, OtherKind, WishInTheAir
from tubeframe.joints.hinges import hinge_findings
from tubeframe.joints.joint import Joint, Jointed, JointId, PortUse, TubeId
from tubeframe.joints.keys import bolt_ways, key_findings, turned_for_keys
from tubeframe.joints.meet import meetings
from tubeframe.joints.room import room
from tubeframe.joints.select import Fits, select, toward
from tubeframe.joints.split import split, whole_tubes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import MemberId
    from tubeframe.frame.node import Incidence, Node
    from tubeframe.joints.select import Match, Selection

_NO_ID = JointId("")


def jointed(frame: Frame, workshop: Workshop) -> Jointed:
    """Resolve every node of a frame to a fitting, split what is longer than a stick, and put on feet and caps.

    Fittings are turned so that a key reaches their bolts.
    """
    found = resolved(frame, workshop)
    bolts = bolt_ways(frame, found.tubes, found.joints, workshop)
    keys = tuple(key_findings(bolts, found.joints))
    return replace(found, bolts=bolts, findings=found.findings + keys)


def resolved(frame: Frame, workshop: Workshop) -> Jointed:
    """Do the same without looking where each bolt's head is to face: every error is found, only keys are not."""
    met = meetings(frame, workshop)
    sizes = {m.id: workshop.catalog.tube(m.tube) for m in frame.members}
    fits = Fits(workshop.catalog.kinds)
    found = [_selected(node, frame, sizes, workshop, fits) for node in met.nodes]
    fittings = _Fittings(sizes, workshop)
    ways = [_ways(node, selection, fittings) for node, selection in zip(met.nodes, found, strict=True)]
    parted = split(frame.members, turned_for_keys(frame, whole_tubes(frame.members), ways, workshop), workshop)
    ends = [j for t in parted.tubes for j in end_pieces(t, workshop)]
    numbered = tuple(replace(j, id=JointId(f"J{i}")) for i, j in enumerate((*parted.joints, *ends), start=1))
    found_room = room(frame, parted.tubes, numbered, workshop)
    findings = (
        *met.findings,
        *(f for n, s in zip(met.nodes, found, strict=True) for f in _choice_findings(n, s, frame)),
        *_unmet_wishes(frame, met.nodes),
        *parted.findings,
        *check(parted.tubes, numbered, workshop),
        *hinge_findings(frame, parted.tubes, numbered),
        *found_room.findings,
    )
    return Jointed(tubes=parted.tubes, joints=numbered, bolts=(), bearings=found_room.bearings, findings=findings)


def _wanted(node: Node, frame: Frame) -> tuple[str, ...]:
    """Return the kinds that the frame asks for at a node."""
    return tuple(p.kind for p in frame.preferences if p.at.distance(node.at) <= COUPLER_MM)


def _selected(node: Node, frame: Frame, sizes: dict[MemberId, TubeSize], workshop: Workshop, fits: Fits) -> Selection:
    def price(match: Match) -> float | None:
        tubes = {port.name: sizes[i.member] for port, i in match.held}
        return workshop.measured.value(match.kind.key, sizes_of(match.kind, tubes), "price")

    asked = price if workshop.prefer is Prefer.CHEAPEST else None
    found = select(node, workshop.catalog.kinds, _wanted(node, frame), asked, fits)
    wall = min(frame.walls, key=lambda w: abs(w.gap(node.at)), default=None)
    if wall is None or found.match is None or found.match.kind.wall is None:
        return found
    return replace(found, ways=tuple(toward(m, way, -wall.toward) for m in found.ways if (way := m.kind.wall)))


class _Fittings:
    """Fittings for the tubes that they hold: each kind for each sizes and angle is made once."""

    __slots__ = ("_made", "_sizes", "_workshop")

    def __init__(self, sizes: dict[MemberId, TubeSize], workshop: Workshop) -> None:
        self._sizes, self._workshop = sizes, workshop
        self._made: dict[tuple[str, tuple[str, ...], float | None], SizedFitting] = {}

    def of(self, match: Match) -> SizedFitting:
        """Return the fitting of a match."""
        tubes = {port.name: self._sizes[i.member] for port, i in match.held}
        key = (match.kind.key, tuple(t.key for t in tubes.values()), match.angle)
        if key not in self._made:
            self._made[key] = self._workshop.sized(match.kind, tubes, match.angle)
        return self._made[key]


def _ways(node: Node, selection: Selection, fittings: _Fittings) -> tuple[Joint, ...]:
    """Return a node's joint in every way that its fitting can be turned; a bare one where none fits."""
    if not selection.ways:
        uses = tuple(_bare_use(i) for i in node.incidences)
        bare = Joint(id=_NO_ID, at=node.at, placement=Placement(origin=node.at), fitting=None, uses=uses)
        return (replace(bare, refused=selection.refusals),)
    return tuple(replace(_joint(node, way, fittings), refused=selection.refusals) for way in selection.ways)


def _joint(node: Node, match: Match, fittings: _Fittings) -> Joint:
    fitting = fittings.of(match)
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


def _choice_findings(node: Node, selection: Selection, frame: Frame) -> Iterator[Finding]:
    """Tell of a node that no fitting takes, and of a kind that was asked for and is not the one."""
    names = tuple(str(i.member) for i in node.incidences)
    if selection.match is None:
        nearest = selection.nearest
        fact = NoFitting(
            tubes=names,
            runs=len(node.runs),
            branches=len(node.branches),
            at=node.at,
            nearest=(nearest.kind, nearest.why) if nearest else None,
        )
        yield Finding(code="J-no-fitting", severity=Severity.ERROR, subjects=names, fact=fact)
    refused = {r.kind: r.why for r in selection.refusals}
    instead = selection.match.kind.key if selection.match else None
    for kind in _wanted(node, frame):
        if kind in refused:
            told = OtherKind(tubes=names, kind=kind, why=refused[kind], instead=instead)
            yield Finding(code="J-asked-for", severity=Severity.WARNING, subjects=names, fact=told)


def _unmet_wishes(frame: Frame, nodes: tuple[Node, ...]) -> Iterator[Finding]:
    """Tell of fittings that are asked for where no tube is."""
    for wish in frame.preferences:
        if not any(n.at.distance(wish.at) <= COUPLER_MM for n in nodes):
            fact = WishInTheAir(kind=wish.kind, at=wish.at)
            yield Finding(code="J-asked-for", severity=Severity.WARNING, subjects=(), fact=fact)
