"""A frame with its joints, as repairs look at it: who is held by whom, what carries a board, what goes with a tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.catalog.fitting import PortRole
from tubeframe.frame.member import MemberId
from tubeframe.geometry.tolerance import MEET_MM
from tubeframe.joints.facts import InBoard
from tubeframe.joints.joint import TubeId
from tubeframe.joints.repair.operations import Move
from tubeframe.joints.repair.seats import is_on

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping

    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.facts import Named
    from tubeframe.joints.joint import Joint, Jointed, PortUse, Tube

_SAME_PLACE = 0.005
"""A shift under this does not part two tubes [mm]."""
_ALIKE = 0.03
"""Two directions are parallel when the sine between them is under this: what a fitting forgives."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """Two tubes in one fitting: the other one, and both directions there."""

    other: MemberId
    own_way: Vec
    other_way: Vec

    def parts(self, shift: Vec) -> bool:
        """Whether they come apart when one goes by a shift [mm] and may become longer or shorter."""
        normal = self.own_way.cross(self.other_way)
        if normal.length < _ALIKE:
            return shift.across(self.own_way).length > _SAME_PLACE
        return abs(shift.dot(normal.unit)) > _SAME_PLACE


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A frame and what was found of it.

    `ties` are by tube, `carried` pairs of a board and a tube under it, `sunk` those of a board and a tube that should
    carry it but lies in its underside.
    """

    frame: Frame
    found: Jointed
    workshop: Workshop
    members: Mapping[str, Member]
    owner: Mapping[TubeId, MemberId]
    ties: Mapping[MemberId, tuple[Tie, ...]]
    carried: frozenset[tuple[str, MemberId]]
    sunk: frozenset[tuple[str, MemberId]]

    def outside(self, member: Member) -> float:
        """Return a tube's outside diameter [mm]."""
        return self._size(member).outside

    def overhang(self, member: Member, coupler: FittingKind | None = None) -> float:
        """Return how far a tube goes on at least past the middle of a coupler, or else of a tee [mm]."""
        return self.workshop.end_overhang(coupler or self.workshop.catalog.tee, self._size(member))

    def pitch(self, member: Member, coupler: FittingKind | None = None) -> float:
        """Return the least distance of a coupler, or else a tee, from a tee on a tube [mm]."""
        shop, tube, tee = self.workshop, self._size(member), self.workshop.catalog.tee
        held = [shop.grip(kind, tube) / 2.0 for kind in (tee, coupler or tee)]
        return rules.pitch(held[0], held[1], shop.tool_gap)

    def off_bend(self, member: Member) -> float:
        """Return the least distance of a tee from a bend of its run [mm]."""
        return rules.off_bend(self.workshop.grip(self.workshop.catalog.tee, self._size(member)) / 2.0)

    def offset(self, coupler: FittingKind, first: Member, second: Member) -> float:
        """Return how far apart a coupler holds the middles of two tubes [mm]."""
        return self.workshop.coupler_offset(coupler, self._size(first), self._size(second))

    def _size(self, member: Member) -> TubeSize:
        return self.workshop.catalog.tube(member.tube)

    def tube(self, name: TubeId) -> Tube:
        """Return the tube of a name."""
        return next(t for t in self.found.tubes if t.id == name)

    def members_of(self, tubes: Iterable[str]) -> tuple[MemberId, ...]:
        """Return the whole tubes that tubes are cut from, or that are meant, each once."""
        owners = (self.owner.get(TubeId(t), MemberId(t)) for t in tubes)
        return tuple(dict.fromkeys(o for o in owners if o in self.members))

    def others(self, joint: Joint, member: MemberId) -> tuple[MemberId, ...]:
        """Return the tubes in a fitting but one, as the fitting holds them."""
        return tuple(m for m in self.members_of(u.tube for u in joint.uses) if m != member)

    def joint(self, named: Named, tube: str, *, last: bool = False) -> tuple[Joint, PortUse]:
        """Return the first or the last fitting of a name on a tube, and the port that the tube is in."""
        held = [(j, u) for j in self.found.joints if j.named == named for u in j.uses if u.tube == tube]
        held.sort(key=lambda pair: pair[1].at)
        return held[-1 if last else 0]

    def is_held_passing(self, member: Member, point: Vec) -> bool:
        """Whether a fitting holds a tube that passes through a place."""
        return any(
            j.at.distance(point) <= MEET_MM
            for j in self.found.joints
            for u in j.uses
            if self.owner[u.tube] == member.id and u.role is PortRole.RUN
        )

    def is_at(self, name: MemberId, point: Vec) -> bool:
        """Whether a tube's centreline goes through a point."""
        return is_on(self.members[name], point)

    def move(self, names: Collection[MemberId], shift: Vec, fixed: Collection[MemberId] = ()) -> Move | None:
        """Return a move of tubes with all that has to go with them to stay joined.

        None when a tube that has to stay where it is would go too, for then nothing comes nearer or farther.
        """
        going = dict.fromkeys(names)
        boards: dict[str, None] = {}
        frontier = list(going)
        while frontier:
            name = frontier.pop(0)
            more = [t.other for t in self.ties.get(name, ()) if t.parts(shift)]
            for board in self._lifted(name, shift):
                boards[board] = None
                more += [m for b, m in self.carried if b == board]
            fresh = [m for m in dict.fromkeys(more) if m not in going]
            going.update(dict.fromkeys(fresh))
            frontier += fresh
        if any(f in going for f in fixed):
            return None
        order = [m.id for m in self.frame.members]
        return Move(
            members=tuple(sorted(going, key=order.index)),
            shift=shift,
            boards=tuple(p.id for p in self.frame.panels if p.id in boards),
        )

    def _lifted(self, member: MemberId, shift: Vec) -> Iterator[str]:
        for panel in self.frame.panels:
            if (panel.id, member) in self.carried and abs(shift.dot(panel.placement.z)) > _SAME_PLACE:
                yield panel.id


def scene_of(frame: Frame, found: Jointed, workshop: Workshop) -> Scene:
    """Put together what repairs look at."""
    owner = {t.id: t.member for t in found.tubes}
    ties: dict[MemberId, list[Tie]] = {}
    for joint in (j for j in found.joints if j.fitting):
        for a in joint.uses:
            for b in joint.uses:
                if owner[a.tube] != owner[b.tube]:
                    tie = Tie(other=owner[b.tube], own_way=a.axis, other_way=b.axis)
                    ties.setdefault(owner[a.tube], []).append(tie)
    return Scene(
        frame=frame,
        found=found,
        workshop=workshop,
        members={m.id: m for m in frame.members},
        owner=owner,
        ties={name: tuple(held) for name, held in ties.items()},
        carried=frozenset((b.board, owner[b.tube]) for b in found.bearings),
        sunk=frozenset(_sunk(frame, found, owner)),
    )


def _sunk(frame: Frame, found: Jointed, owner: Mapping[TubeId, MemberId]) -> Iterator[tuple[str, MemberId]]:
    up = {p.id: p.placement.z for p in frame.panels}
    path = {m.id: m.path for m in frame.members}
    for fact in (f.fact for f in found.findings):
        if isinstance(fact, InBoard) and fact.short < fact.thickness:
            member = owner[TubeId(fact.tube)]
            if abs(path[member].tangent(0.0).dot(up[fact.panel])) < _ALIKE:
                yield fact.panel, member
