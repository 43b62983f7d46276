"""The whole assembly of a frame: an order that is found, step by step, and what was found wrong with it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.assembly.constraints import board_order, board_way, only, rules_of
from tubeframe.assembly.facts import LockedIn
from tubeframe.assembly.fitter import Way
from tubeframe.assembly.flat import Built, built_flat
from tubeframe.assembly.holding import held
from tubeframe.assembly.jobs import jobs_for
from tubeframe.assembly.joining import Joining
from tubeframe.assembly.lots import board_operation
from tubeframe.assembly.model import Model
from tubeframe.assembly.progress import homes_of
from tubeframe.assembly.reach import Head, Reach, tightened
from tubeframe.assembly.room import Room
from tubeframe.assembly.search import Found, Search
from tubeframe.assembly.squaring import Face, faces_of
from tubeframe.assembly.step import Operation, Raising, Step, Work
from tubeframe.assembly.subframes import SubFrame, sub_frames
from tubeframe.errors import Finding, Severity
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.vector import Z

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.assembly.constraints import Rules
    from tubeframe.assembly.lots import Lot
    from tubeframe.assembly.port_face import Number
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Jointed
    from tubeframe.parts.piece import Parts


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """Flat sub-frames, the steps in turn, and what was found.

    `built` are those that are built flat, with their tubes' numbers; `cost` is the plan's by `weights`, `work` counts
    what was looked at. `heads` are bolts that the finished frame lets the key at from one side only;
    `faces` are made square.
    """

    flats: tuple[SubFrame, ...]
    steps: tuple[Step, ...]
    findings: tuple[Finding, ...]
    built: Mapping[str, tuple[Number, ...]]
    heads: tuple[Head, ...]
    faces: tuple[Face, ...]
    cost: float
    work: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """How the tubes come together: what is built flat, and then stood up."""

    rules: Rules
    built: tuple[Built, ...]
    found: Found

    @property
    def lots(self) -> tuple[Lot, ...]:
        return self.found.state.lots


class Planner:
    """Looks at a frame once, and finds its order."""

    def __init__(self, frame: Frame, jointed: Jointed, parts: Parts, workshop: Workshop) -> None:
        """Look at the parts and the room around them."""
        self.parts = parts
        self.model = Model(frame, jointed, parts, workshop)
        self.room = Room(self.model)
        self.joining = Joining(self.model, self.room)
        self.reach = Reach(self.model, self.room)
        self.flats = sub_frames(frame, jointed)

    def assembly(self) -> Assembly:
        """Find the order."""
        plan = self._plan()
        homes = homes_of(dict(zip(plan.rules.flat_ids, plan.rules.flats, strict=True)))
        steps = tightened(self.model, self.reach, homes, tuple(self._steps(plan)))
        steps = tuple(held(self.model, homes, steps))
        return Assembly(
            flats=self.flats,
            steps=steps,
            findings=tuple(self._findings(plan)),
            built=homes.flats,
            heads=self.reach.one_sided(),
            faces=faces_of(self.parts, self.model.jointed),
            cost=plan.found.state.cost,
            work=plan.found.work,
        )

    def _plan(self) -> _Plan:
        """Plan with the sub-frames that can be built flat; without them when they lock a part out."""
        best = self._with(self.flats)
        if best.found.locked and best.rules.flats:
            other = self._with(())
            if len(other.found.locked) < len(best.found.locked):
                best = other
        return best

    def _with(self, flats: Sequence[SubFrame]) -> _Plan:
        rules = rules_of(self.model, self.room, self.joining, flats)
        built = built_flat(self.model, self.joining, rules)
        placed = {name: made for b in built for name, made in zip(b.sub_frames, b.placed, strict=True)}
        rules = self.rules = only(rules, placed)
        search = Search(self.model, self.room, self.joining, rules, [placed[n] for n in rules.flat_ids])
        return _Plan(rules=rules, built=built, found=search.run())

    def _steps(self, plan: _Plan) -> Iterator[Step]:
        """Give each step its number, in the order of the work."""
        return (replace(s, number=n) for n, s in enumerate(self._in_turn(plan), start=1))

    def _in_turn(self, plan: _Plan) -> Iterator[Step]:
        model = self.model
        frame, tubes = model.frame, range(model.first_joint)
        yield from _whole(frame, Work.SET_OUT, is_asked=any(model.is_staked(t) for t in tubes))
        for built in plan.built:
            for n, lot in enumerate(built.lots, start=1):
                yield Step(
                    number=0,
                    work=Work.FLAT,
                    operations=lot.operations,
                    sub_frames=built.sub_frames,
                    part_of=(n, len(built.lots)),
                )
        yield from (_standing(lot) for lot in plan.lots if not lot.is_bracing)
        yield from self._forced(plan)
        yield Step(number=0, work=Work.SQUARE)
        yield from (replace(_standing(lot), work=Work.BRACE) for lot in plan.lots if lot.is_bracing)
        yield Step(number=0, work=Work.TIGHTEN)
        yield from self._boards(plan)
        yield from _whole(frame, Work.ANCHOR, is_asked=any(model.is_anchored(t) for t in tubes))
        caps = self._caps(plan)
        if caps:
            yield Step(number=0, work=Work.CAPS, operations=caps)
        yield from _whole(frame, Work.DOOR, is_asked=bool(frame.groups))
        yield from _whole(frame, Work.COVER, is_asked=False)
        yield from _whole(frame, Work.LAST_LOOK, is_asked=True)

    def _forced(self, plan: _Plan) -> Iterator[Step]:
        """Put what nothing lets in into one last step, so that no part is missing; a finding tells of it."""
        model, placed = self.model, plan.found.state.placed
        left = [n for n in plan.found.locked if n not in placed]
        if not left:
            return
        operations: list[Operation] = []
        raises: list[Raising] = []
        for built in plan.built:
            for name, made in zip(built.sub_frames, built.placed, strict=True):
                if not made <= placed:
                    raises.append(self.joining.forced_up(name))
                    placed |= made
        for tube in (n for n in left if n not in placed):
            joined = self.joining.forced(tube, placed) if model.is_tube(tube) else None
            if joined is None:
                way = Way(way=Z, distance=self.joining.fitter.usual, cost=0.0, opens=False)
                operations.append(board_operation(model, tube, way))
                placed |= {tube}
                continue
            operations += joined.operations
            placed |= joined.new
        yield Step(number=0, work=Work.STAND, raises=tuple(raises), operations=tuple(operations))

    def _boards(self, plan: _Plan) -> Iterator[Step]:
        """Lay the boards that can come last: strips, then tops."""
        model = self.model
        placed = frozenset(range(model.first_panel)) | plan.found.state.placed
        done: dict[Work, list[Operation]] = {Work.STRIPS: [], Work.TOP: []}
        for panel in board_order(model):
            if panel in plan.rules.captured:
                continue
            way = board_way(model, self.room, panel, placed)
            way = way or Way(way=Z, distance=self.joining.fitter.usual, cost=0.0, opens=False)
            is_strip = model.panel(panel).use is PanelUse.STRIP
            done[Work.STRIPS if is_strip else Work.TOP].append(board_operation(model, panel, way))
            placed |= {panel}
        for work in (w for w in done if done[w]):
            yield Step(number=0, work=work, operations=tuple(done[work]))

    def _caps(self, plan: _Plan) -> tuple[Operation, ...]:
        late = [f for f in self.model.fits if f.is_cap and f.number not in plan.rules.early]
        there = frozenset(range(len(self.model.parts)))
        return tuple(self.joining.fitter.capped(f, there) for f in late)

    def _findings(self, plan: _Plan) -> Iterator[Finding]:
        model, placed = self.model, plan.found.state.placed
        if any(f.joint.fitting is None for f in model.fits):
            return  # what no fitting holds cannot be put together: that is told already
        for number in plan.found.locked[:3]:
            behind, joints = self.joining.kept_out(number, placed)
            yield Finding(
                code="A-locked",
                severity=Severity.ERROR,
                subjects=(model.parts[number].id,),
                fact=LockedIn(
                    part=model.parts[number].id,
                    behind=tuple(model.parts[n].id for n in sorted(behind) if n >= 0),
                    joints=joints,
                ),
            )


def assemble(frame: Frame, jointed: Jointed, parts: Parts, workshop: Workshop) -> Assembly:
    """Find in which order a frame goes together."""
    return Planner(frame, jointed, parts, workshop).assembly()


def _whole(frame: Frame, work: Work, *, is_asked: bool) -> Iterator[Step]:
    """Give a step for the whole frame where its tubes ask for it, or what was bought for it."""
    jobs = jobs_for(frame, work)
    if is_asked or jobs:
        yield Step(number=0, work=work, jobs=jobs)


def _standing(lot: Lot) -> Step:
    return Step(number=0, work=Work.STAND, raises=lot.raises, operations=lot.operations)
