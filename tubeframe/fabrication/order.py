"""In which order the parts of a frame come together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from tubeframe.frame.caution import Moment
from tubeframe.frame.member import EndKind
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.vector import Z

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.fabrication.subframes import SubFrame
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.joints.joint import Joint, Jointed, JointId, TubeId
    from tubeframe.parts.piece import Parts

_LEAN = 0.2
"""A straight tube leans when its direction has at least this share both upright and level."""


class Work(Enum):
    """What is done in a step, in the order of the work; each with the moment whose cautions go before it."""

    SET_OUT = Moment.SETTING_OUT
    FLAT = Moment.FLAT
    LINK = Moment.STANDING
    SQUARE = "square"
    BRACE = Moment.BRACING
    TIGHTEN = Moment.TIGHTENING
    STRIPS = "strips"
    TOP = "top"
    ANCHOR = Moment.ANCHORING
    CAPS = "caps"
    LAST_LOOK = Moment.USE


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Parts that are added in one step, as whole members; `sub_frames` are those built in it."""

    work: Work
    members: tuple[Member, ...] = ()
    sub_frames: tuple[SubFrame, ...] = ()
    panels: tuple[str, ...] = ()
    joints: tuple[JointId, ...] = ()


def batches(frame: Frame, jointed: Jointed, parts: Parts, flats: Sequence[SubFrame]) -> tuple[Batch, ...]:
    """Put a frame's parts in order.

    Stakes first; sub-frames flat on the floor; then what links them, from low to high; square; braces; tight; boards;
    pins; caps; a last look. Every part is in exactly one batch.
    """
    by_id = {m.id: m for m in frame.members}
    built = {member for s in flats for member in s.members}
    loose = [m for m in frame.members if m.id not in built]
    staked = any(EndKind.STAKE in m.ends for m in frame.members)
    order = [Batch(work=Work.SET_OUT)] if staked else []
    order += [_flat_batch(group, by_id) for group in _equal_sub_frames(flats, frame, parts)]
    order += [Batch(work=Work.LINK, members=g) for g in _families([m for m in loose if not leans(m)])]
    order.append(Batch(work=Work.SQUARE))
    order += [Batch(work=Work.BRACE, members=g) for g in _families([m for m in loose if leans(m)])]
    order.append(Batch(work=Work.TIGHTEN))
    order += _panel_batches(frame)
    order += [Batch(work=Work.ANCHOR)] if staked else []
    caps = [j.id for j in jointed.joints if _is_cap(j)]
    order += [Batch(work=Work.CAPS)] if caps else []
    order.append(Batch(work=Work.LAST_LOOK))
    return tuple(_with_joints(order, jointed))


def leans(member: Member) -> bool:
    """Whether a straight tube is neither upright nor level."""
    way = (member.path.end - member.path.start).unit
    return member.is_straight and _LEAN < abs(way.dot(Z)) < 1.0 - _LEAN * _LEAN / 2.0


def _flat_batch(group: tuple[SubFrame, ...], by_id: dict[MemberId, Member]) -> Batch:
    members = tuple(by_id[m] for s in group for m in s.members)
    return Batch(work=Work.FLAT, members=members, sub_frames=group)


def _equal_sub_frames(flats: Sequence[SubFrame], frame: Frame, parts: Parts) -> list[tuple[SubFrame, ...]]:
    """Put sub-frames of one bent member together when they take the same lengths: they are one job."""
    lengths: dict[MemberId, list[float]] = {m.id: [] for m in frame.members}
    for piece in parts.pieces:
        lengths[piece.member].append(round(piece.cut_length, 2))
    bent = {m.id for m in frame.members if not m.is_straight}
    groups: list[list[SubFrame]] = []
    for flat in flats:
        alike = next((g for g in groups if _one_job(g[0], flat, bent, lengths)), None)
        if alike is None:
            groups.append([flat])
        else:
            alike.append(flat)
    return [tuple(g) for g in groups]


def _one_job(a: SubFrame, b: SubFrame, bent: set[MemberId], lengths: dict[MemberId, list[float]]) -> bool:
    alone = len(a.members) == len(b.members) == 1 and a.members[0] in bent and b.members[0] in bent
    return alone and lengths[a.members[0]] == lengths[b.members[0]]


def _families(members: Sequence[Member]) -> list[tuple[Member, ...]]:
    """Put parallel members at one height together, and all that lean; the lowest first."""
    families: list[list[Member]] = []
    for member in members:
        alike = next((f for f in families if _alike(f[0], member)), None)
        if alike is None:
            families.append([member])
        else:
            alike.append(member)
    families.sort(key=lambda f: round(_height(f[0]), 1))
    return [tuple(f) for f in _none_alone(families)]


def _none_alone(families: Sequence[list[Member]]) -> list[list[Member]]:
    """Put a family of one together with the next: a single tube does not keep anything upright."""
    made: list[list[Member]] = []
    for family in families:
        if made and len(made[-1]) == 1:
            made[-1] += family
        else:
            made.append(list(family))
    return made


def _alike(a: Member, b: Member) -> bool:
    if leans(a):
        return True
    parallel = a.path.tangent(0.0).cross(b.path.tangent(0.0)).length < _LEAN
    return parallel and abs(_height(a) - _height(b)) < LOWER_MM


def _height(member: Member) -> float:
    return (member.path.start.z + member.path.end.z) / 2.0


def _panel_batches(frame: Frame) -> list[Batch]:
    made = []
    rest = tuple(u for u in PanelUse if u is not PanelUse.STRIP)
    for uses, work in (((PanelUse.STRIP,), Work.STRIPS), (rest, Work.TOP)):
        boards = tuple(p.id for p in frame.panels if p.use in uses)
        made += [Batch(work=work, panels=boards)] if boards else []
    return made


def _with_joints(order: Iterable[Batch], jointed: Jointed) -> list[Batch]:
    """Give every joint to the batch that brings its second tube; an end piece comes with its tube, a cap at the end."""
    member_of = {t.id: t.member for t in jointed.tubes}
    standing: set[MemberId] = set()
    waiting = list(jointed.joints)
    made = []
    for batch in order:
        standing.update(m.id for m in batch.members)
        ready = [j for j in waiting if _is_ready(j, batch.work, standing, member_of)]
        waiting = [j for j in waiting if j not in ready]
        made.append(
            Batch(
                work=batch.work,
                members=batch.members,
                sub_frames=batch.sub_frames,
                panels=batch.panels,
                joints=tuple(j.id for j in ready),
            )
        )
    return made


def _is_ready(joint: Joint, work: Work, standing: set[MemberId], member_of: dict[TubeId, MemberId]) -> bool:
    if _is_cap(joint):
        return work is Work.CAPS
    present = sum(1 for u in joint.uses if member_of[u.tube] in standing)
    return present >= min(2, len(joint.uses))


def _is_cap(joint: Joint) -> bool:
    """Whether it closes an end: the last thing that goes on."""
    return joint.is_end_piece and joint.fitting is not None and joint.fitting.kind.on_floor is None
