"""Tubes added to a frame, whatever it was laid out from: each is put in, clamped, solved and counted again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.design import Draft, Source, Stage, make_design
from tubeframe.errors import Severity, TubeframeError
from tubeframe.fabrication.tallying import tally_of
from tubeframe.frame.load import LoadUse
from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import Vec
from tubeframe.joints.joint import uses_by_tube
from tubeframe.joints.repair.search import mended
from tubeframe.structure.knee import Knee
from tubeframe.structure.trial import Post, Trial, governing, passes
from tubeframe.structure.verdict import Code

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.conditions import Conditions
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Tube
    from tubeframe.structure.verdict import Verdict

_MOST_KNEES = 3
_CLEAR = 100.0
"""A post keeps so far off other fittings on the tube over it [mm]."""
_LEAST_POST = 200.0


class Additions:
    """Trials of tubes added to one frame."""

    def __init__(self, draft: Draft, conditions: Conditions, found: tuple[Verdict, ...]) -> None:
        """Take the frame as it is, what is asked, and the verdicts on it."""
        self._draft, self._conditions, self._found = draft, conditions, found
        self._faults = _faults(draft)

    def trials(self) -> Iterator[Trial]:
        """Try knees where it folds or a push moves it most, then a post under the tube that governs."""
        for added in (*self._knees(), *self._posts()):
            trial = self._tried(added)
            if trial is not None:
                yield trial

    def _knees(self) -> Iterator[tuple[Knee | Post, ...]]:
        from tubeframe.structure.bracing import knees_against  # loads the solver
        from tubeframe.structure.study import Study

        folding = next((v.knees for v in self._found if v.code is Code.FOLDS), ())
        if folding:
            yield folding
        draft = self._draft
        study = Study(draft.frame, draft.jointed, draft.workshop, self._conditions)
        pushed = max((v for v in self._found if v.code is Code.SWAY), key=lambda v: v.value or 0.0, default=None)
        case = next((c for c in study.of_use(LoadUse.PUSH) if pushed and c.name == pushed.case), None)
        if case is not None:
            yield from ((k,) for k in knees_against(study, case, _MOST_KNEES) if (k,) != folding)

    def _posts(self) -> Iterator[tuple[Knee | Post, ...]]:
        """Give a post under the middle of each tube that governs strength or sag, as near there as there is room."""
        tubes = {str(t.id): t for t in self._draft.jointed.tubes}
        names = dict.fromkeys(v.where[0] for v in self._found if v.code in {Code.STRENGTH, Code.SAG} and v.where)
        for tube in (tubes[n] for n in names if n in tubes):
            place = self._free_place(tube)
            if place is not None and not tube.path.bends:
                at = tube.path.point(place)
                level = abs(tube.path.start.z - tube.path.end.z) < 1.0
                if level and at.z > _LEAST_POST:
                    yield (Post(under=tube.id, place=place, at=at),)

    def _free_place(self, tube: Tube) -> float | None:
        uses = uses_by_tube(self._draft.jointed.joints).get(tube.id, ())
        taken = [use.at for _, use in uses]
        middle = tube.path.length / 2.0
        for step in range(8):
            for place in (middle - step * _CLEAR / 2.0, middle + step * _CLEAR / 2.0):
                if all(abs(place - t) >= _CLEAR for t in taken):
                    return place
        return None

    def _tried(self, added: tuple[Knee | Post, ...]) -> Trial | None:
        """Build it with the tubes; None where they get it a fault that it had not, or do not better what governs."""
        from tubeframe.structure.check import verdicts  # loads the solver

        try:
            made = self._made(added)
            if made is None:
                return None
            found = verdicts(made.frame, made.jointed, made.workshop, self._conditions)
            sticks = tally_of(made.parts, made.workshop).sticks
        except TubeframeError:
            return None
        return Trial(changes=(), added=added, sticks=sticks, passes=passes(found), worst=governing(found))

    def _made(self, added: tuple[Knee | Post, ...]) -> Draft | None:
        """Put tubes in; strips and boards that are in the way of their fittings are mended."""
        draft, new = self._draft, tuple(self._members(added))
        frame = replace(draft.frame, members=(*draft.frame.members, *new))
        made = make_design(frame, draft.workshop, draft.source, until=Stage.PARTS)
        if _faults(made) > self._faults:
            frame = mended(frame, draft.workshop).frame
            made = make_design(frame, draft.workshop, draft.source, until=Stage.PARTS)
        is_there = all(m in made.frame.members for m in new)
        return made if is_there and _faults(made) <= self._faults else None

    def _members(self, added: tuple[Knee | Post, ...]) -> Iterator[Member]:
        sizes = {t.id: t.size for t in self._draft.jointed.tubes}
        kinds = [e for m in self._draft.frame.members for e in m.ends if e.is_grounded]
        for n, one in enumerate(added, start=1):
            if isinstance(one, Knee):
                name, size, path = f"knee.new.{n}", sizes[one.tubes[0]], line(*one.ends)
                ends = (EndKind.JOINT, EndKind.JOINT)
            else:
                name, size = f"post.new.{n}", sizes[one.under]
                path = line(Vec(one.at.x, one.at.y, 0.0), one.at)
                ends = (kinds[0] if kinds else EndKind.FOOT, EndKind.JOINT)
            yield Member(id=MemberId(name), tube=size, path=path, end_a=ends[0], end_b=ends[1])


def additions(
    frame: Frame, workshop: Workshop, source: Source, conditions: Conditions, found: tuple[Verdict, ...]
) -> tuple[Trial, ...]:
    """Return the added tubes that make the governing verdict better, the cheapest first."""
    now = governing(found)
    least = (now.ratio if now else None) or 0.0
    draft = make_design(frame, workshop, source, until=Stage.PARTS)
    better = [
        t
        for t in Additions(draft, conditions, found).trials()
        if (t.passes and not passes(found)) or (t.worst and (t.worst.ratio or 0.0) < least)
    ]
    return tuple(sorted(better, key=lambda t: (not t.passes, t.sticks, (t.worst and t.worst.ratio) or 0.0)))


def _faults(draft: Draft) -> int:
    return sum(f.severity is Severity.ERROR for f in draft.findings)
