"""Verdicts on what a frame carries: strength, sag, buckling, and what goes through its clamps."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.load import LoadUse
from tubeframe.geometry.vector import Vec
from tubeframe.structure.acting import Action
from tubeframe.structure.clamps import Gripped, gripped
from tubeframe.structure.framed import ClampLevel
from tubeframe.structure.letting_go import holds_let_go
from tubeframe.structure.members import strongest_use
from tubeframe.structure.sagging import SAG_FAILS, deepest_sag
from tubeframe.structure.study import TRIAL
from tubeframe.structure.verdict import Code, Missing, More, Note, Outcome, Unit, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from tubeframe.structure.solver.solve import Answer
    from tubeframe.structure.study import Case, Solved, Study

_NO_MORE = 1e-9
_MEMBER = (LimitKey.YOUNG, LimitKey.YIELD, LimitKey.STRENGTH_FACTOR, LimitKey.CLAMP)
_FRICTION = (LimitKey.BOLT_TORQUE, LimitKey.NUT_FACTOR, LimitKey.CLAMP_FRICTION, LimitKey.CLAMP_FACTOR)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A value with its limit, and where it governs."""

    code: Code
    where: tuple[str, ...]
    value: float
    limit: float
    unit: Unit
    notes: tuple[Note, ...] = ()
    over: bool = False

    @property
    def use(self) -> float:
        """How much of what is allowed is used."""
        above, below = (self.limit, self.value) if self.over else (self.value, self.limit)
        return above / below if below else math.inf


def carried_verdicts(study: Study, solved: Solved) -> Iterator[Verdict]:
    """Give the governing case's verdict for each thing that is looked at.

    Where nobody said what is to be carried, no verdict is given, but what each case may carry.
    """
    driven = tuple(c for c in study.cases if c.use.is_driven)
    carried = (*study.of_use(LoadUse.CARRIED), *driven)
    pushes = study.of_use(LoadUse.PUSH)
    asked = {
        Code.STRENGTH: (*carried, *pushes),
        Code.SAG: carried,
        Code.SLIP: (*carried, *pushes),
        Code.TWIST: (*carried, *pushes),
        Code.BUCKLING: carried,
    }
    for code, cases in asked.items():
        rated = [(c, m) for c in cases if (m := measured(code, study, solved, solved.together(c)))]
        if rated:
            yield _verdict(study, solved, *max(rated, key=lambda found: found[1].use))
    yield from (_road(study, solved, c) for c in driven)


def measured(code: Code, study: Study, solved: Solved, answer: Answer) -> Measure | None:
    """Look at one thing of an answer; None where there is nothing to look at."""
    match code:
        case Code.STRENGTH:
            worst = strongest_use(solved.strengths, answer)
            return Measure(code=code, where=(worst.tube,), value=worst.use, limit=1.0, unit=Unit.SHARE)
        case Code.SAG:
            sag = deepest_sag(study.spans, solved.frame, answer, solved.ends)
            if sag is None:
                return None
            allowed = sag.span / study.limits[LimitKey.SAG_PART]
            return Measure(code=code, where=(sag.tube,), value=sag.sag, limit=allowed, unit=Unit.LENGTH)
        case Code.SLIP:
            grips = gripped(study, solved, answer)
            return _clamp(code, Unit.FORCE, grips, lambda g: (g.force, g.hold.slip, g.hold.slip_tested))
        case Code.TWIST:
            grips = gripped(study, solved, answer)
            return _clamp(code, Unit.MOMENT, grips, lambda g: (g.moment, g.hold.twist, g.hold.twist_tested))
        case _:
            factor, least = solved.buckles_at(answer), study.limits[LimitKey.BUCKLING_FACTOR]
            if math.isinf(factor):
                return None
            return Measure(code=code, where=(), value=factor, limit=least, unit=Unit.SHARE, over=True)


def _clamp(
    code: Code, unit: Unit, grips: Sequence[Gripped], seen: Callable[[Gripped], tuple[float, float, bool]]
) -> Measure | None:
    if not grips:
        return None
    worst = max(grips, key=lambda g: seen(g)[0] / seen(g)[1])
    value, limit, tested = seen(worst)
    notes = (Note(what=More.TESTED),) if tested else ()
    return Measure(code=code, where=(worst.joint, worst.tube), value=value, limit=limit, unit=unit, notes=notes)


def _verdict(study: Study, solved: Solved, case: Case, worst: Measure) -> Verdict:
    """Look at the governing case again with soft and with stiff clamps, and, for strength, on the moved frame."""
    value, notes = _finally(solved, case, worst), list(worst.notes)
    if worst.code is Code.STRENGTH:
        notes.append(Note(what=More.SECOND_ORDER))
    if worst.code is Code.SAG and any(b.tube in worst.where for b in study.jointed.bearings):
        notes.append(Note(what=More.BOARD_APART))
    if case.on_trial:
        notes.append(Note(what=More.CARRIES, value=_carries(study, solved, worst)))
    use = value / worst.limit if not worst.over else worst.limit / value
    outcome = Outcome.NEEDS_INPUT if case.on_trial else _outcome(worst.code, use)
    if worst.code is Code.TWIST and outcome is Outcome.FAILS and holds_let_go(study, solved, case):
        outcome = Outcome.WARNING
        notes.append(Note(what=More.TURNS))
    friction = worst.code in {Code.SLIP, Code.TWIST}
    return Verdict(
        code=worst.code,
        outcome=outcome,
        case=case.name,
        where=worst.where,
        value=None if case.on_trial else value,
        limit=worst.limit,
        unit=worst.unit,
        assumptions=study.rows(*((*_FRICTION, LimitKey.CLAMP) if friction else _MEMBER)),
        bounds=None if case.on_trial else _bounds(study, case, worst, value),
        missing=Missing.LOAD if case.on_trial else None,
        notes=tuple(notes),
        over=worst.over,
    )


def _outcome(code: Code, use: float) -> Outcome:
    """Judge a use; a frame that only sags is in use still, up to some times the limit."""
    if use <= 1.0:
        return Outcome.OK
    return Outcome.WARNING if code is Code.SAG and use <= SAG_FAILS else Outcome.FAILS


def _finally(solved: Solved, case: Case, found: Measure) -> float:
    """Return a value as it is told: strength on the moved frame, without end where that gives way."""
    if found.code is not Code.STRENGTH:
        return found.value
    moved = solved.on_the_moved_frame(case.actions)
    return math.inf if moved is None else strongest_use(solved.strengths, moved).use


def _bounds(study: Study, case: Case, worst: Measure, value: float) -> tuple[float, float] | None:
    """Return the least and greatest value with soft and with stiff clamps; None where it folds with soft ones."""
    found = [value]
    for level in (ClampLevel.LOW, ClampLevel.HIGH):
        solved = study.solved(level)
        if solved is None:
            return None
        again = measured(worst.code, study, solved, solved.together(case))
        found += [_finally(solved, case, again)] if again else []
    return (min(found), max(found)) if len(found) == 3 else None


def _carries(study: Study, solved: Solved, worst: Measure) -> float:
    """Return what could be asked for [N] so that a case would just pass, its own weight being there already."""
    own = measured(worst.code, study, solved, solved.dead)
    dead = own.use if own else 0.0
    return TRIAL * max(1.0 - dead, 0.0) / max(worst.use - dead, _NO_MORE)


def _road(study: Study, solved: Solved, case: Case) -> Verdict:
    """Drive over a pothole, and brake: the strength of the governing tube; the loads rest on positive fixings."""
    limits, rough = study.limits, LimitKey.OFF_ROAD if case.use is LoadUse.OFF_ROAD else LimitKey.ROAD
    ahead = Vec(0.0, 1.0, 0.0) if study.frame.length_along.value == "y" else Vec(1.0, 0.0, 0.0)
    bumped = [_times(a, limits[rough]) for a in case.actions]
    braked = [
        Action(tube=a.tube, low=a.low, high=a.high, force=a.force + ahead * (a.force.length * limits[LimitKey.BRAKING]))
        for a in case.actions
    ]
    uses = [strongest_use(solved.strengths, solved.other(acts)) for acts in (bumped, braked)]
    worst = max(uses, key=lambda found: found.use)
    outcome = Outcome.NEEDS_INPUT if case.on_trial else Outcome.FAILS if worst.use > 1.0 else Outcome.OK
    return Verdict(
        code=Code.ROAD,
        outcome=outcome,
        case=case.name,
        where=(worst.tube,),
        value=None if case.on_trial else worst.use,
        limit=1.0,
        unit=Unit.SHARE,
        assumptions=study.rows(rough, LimitKey.BRAKING, *_MEMBER),
        missing=Missing.LOAD if case.on_trial else None,
    )


def _times(action: Action, factor: float) -> Action:
    return Action(tube=action.tube, low=action.low, high=action.high, force=action.force * factor)
