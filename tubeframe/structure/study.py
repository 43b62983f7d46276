"""A frame solved: each case at each stiffness of the clamps."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.load import LoadUse
from tubeframe.structure import acting
from tubeframe.structure.answers import added, joined, scaled, times
from tubeframe.structure.clamp import Hold, hold
from tubeframe.structure.framed import ClampLevel, framed
from tubeframe.structure.knee import places_of
from tubeframe.structure.members import Strengths, spans, strengths
from tubeframe.structure.solver.assembly import System, assembled
from tubeframe.structure.solver.eigen import buckling, frequencies
from tubeframe.structure.solver.folding import count_ways_to_fold
from tubeframe.structure.solver.solve import Answer, linear, second_order
from tubeframe.structure.stations import stations
from tubeframe.structure.stretches import HELD_FAST
from tubeframe.structure.usual import usual_loads

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.catalog.conditions import Conditions
    from tubeframe.catalog.limits import Limit, Limits
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.load import Load
    from tubeframe.joints.joint import Jointed, JointId, Tube, TubeId
    from tubeframe.structure.acting import Action
    from tubeframe.structure.knee import Knee
    from tubeframe.structure.sagging import Ends
    from tubeframe.structure.stretches import Framed, LetGo

TRIAL = 500.0
"""With nothing asked for, what is carried is found from this load [N]."""
_SECOND_ORDER = 1.6
"""AISC 360-16, C2.1: allowable strengths are compared at 1.6 times the load, the result over 1.6."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Loads that act together; `on_trial` when nobody said how much they are."""

    name: str
    use: LoadUse
    actions: tuple[Action, ...]
    on_trial: bool = False


class Study:
    """A jointed frame and its cases; every stiffness of clamps is solved once, when it is first asked for."""

    def __init__(self, frame: Frame, jointed: Jointed, workshop: Workshop, conditions: Conditions) -> None:
        """Take the frame, its joints, the shop and what is asked."""
        self.frame = frame
        self.jointed = jointed
        self.workshop = workshop
        self.conditions = conditions
        self.boards = acting.board_weight(frame, jointed, workshop)
        self.dead = (*acting.tube_weight(jointed, workshop), *self.boards)
        self.cases = tuple(self._cases())
        self._places = acting.places([*self.boards, *(a for c in self.cases for a in c.actions)])
        self._stations = stations(jointed, self._places)
        self.spans = spans(jointed)
        self._solved: dict[ClampLevel, Solved | None] = {}

    @cached_property
    def holds(self) -> dict[tuple[JointId, str], Hold]:
        """What each port of each fitting on tubes holds."""
        sizes = {t.id: self.workshop.catalog.tube(t.size) for t in self.jointed.tubes}
        return {
            (j.id, u.port): hold(j.fitting, j.fitting.port(u.port), sizes[u.tube], self.workshop)
            for j in self.jointed.joints
            if j.fitting is not None and not j.is_end_piece
            for u in j.uses
        }

    @property
    def limits(self) -> Limits:
        """What everything rests on."""
        return self.workshop.limits

    def rows(self, *keys: LimitKey) -> tuple[Limit, ...]:
        """Return rows of the limits."""
        return tuple(self.limits.row(k) for k in keys)

    def of_use(self, use: LoadUse) -> tuple[Case, ...]:
        """Return the cases of a use."""
        return tuple(c for c in self.cases if c.use is use)

    def solved(self, level: ClampLevel) -> Solved | None:
        """Return the frame with clamps of a stiffness; None where it folds."""
        if level not in self._solved:
            made = Solved(self, self.framed(level))
            self._solved[level] = None if made.folds else made
        return self._solved[level]

    def let_go(self, loose: LetGo) -> Solved | None:
        """Return the frame with clamps as assumed, some of which let their tube's end turn; None where it folds."""
        made = Solved(self, self.framed(ClampLevel.ASSUMED, loose))
        return None if made.folds else made

    def solved_at(self, level: ClampLevel, found: Sequence[Knee]) -> Solved | None:
        """Return the frame with points where knees would sit, which are not there; None where it folds."""
        made = Solved(self, self.framed(level, knees=found))
        return None if made.folds else made

    def framed(self, level: ClampLevel, loose: LetGo = HELD_FAST, knees: Sequence[Knee] = ()) -> Framed:
        """Return the model with clamps of a stiffness, its boards' masses on it.

        Some clamps let their tube's end turn; there are points where knees would sit.
        """
        parts: dict[str, list[Tube]] = {}
        for tube in self.jointed.tubes:
            parts.setdefault(tube.member, []).append(tube)
        held = [
            (parts[s.member][0 if s.end.value == "a" else -1].id, s.end, s.fixes)
            for s in self.frame.supports
            if s.member in parts
        ]
        at = self._stations if not knees else stations(self.jointed, _together(self._places, places_of(knees)))
        made = framed(self.jointed, self.workshop, level, at, held, loose)
        return replace(made, model=replace(made.model, masses=acting.masses(self.boards, made)))

    def _cases(self) -> list[Case]:
        named: dict[str, list[Load]] = {}
        for load in self.frame.loads or usual_loads(self.frame):
            named.setdefault(load.name, []).append(load)
        made = [self._case(name, loads) for name, loads in named.items()]
        return [c for c in made if c.actions]  # a board that nothing carries puts its load nowhere

    def _case(self, name: str, loads: list[Load]) -> Case:
        actions = [a for load in loads for a in acting.of_load(load, self._total(load), self.frame, self.jointed)]
        asked = any(load.total is None and load.use is not LoadUse.PUSH for load in loads)
        return Case(
            name=name,
            use=loads[0].use,
            actions=tuple(actions),
            on_trial=asked and self.conditions.load is None,
        )

    def _total(self, load: Load) -> float:
        if load.total is not None:
            return load.total
        if load.use is LoadUse.PUSH:
            return self.limits[LimitKey.SWAY_PUSH] * load.share
        return load.share * (TRIAL if self.conditions.load is None else self.conditions.load)


class Solved:
    """A model and its answers to the first order: its own weight, and each case alone."""

    def __init__(self, study: Study, frame: Framed) -> None:
        """Assemble and solve."""
        self.frame = frame
        self._study = study
        self.system: System = assembled(frame.model)
        self.dead_forces = acting.forces(study.dead, frame)
        self._forces = {c.name: acting.forces(c.actions, frame) for c in study.cases}
        found = linear(self.system, [self.dead_forces, *self._forces.values()])
        self.folds = found is None or count_ways_to_fold(self.system) > 0
        self._answers = found or ()

    @cached_property
    def frequency(self) -> float:
        """How often a second it swings in the slowest way [Hz]."""
        return next(iter(frequencies(self.system, 1)), 0.0)

    @property
    def dead(self) -> Answer:
        """How its own weight moves it."""
        return self._answers[0]

    def alone(self, case: Case) -> Answer:
        """Return how a case alone moves it."""
        return self._answers[1 + list(self._forces).index(case.name)]

    def together(self, case: Case, share: float = 1.0) -> Answer:
        """Return how its own weight and a share of a case move it."""
        return added(self.dead, self.alone(case), share)

    def other(self, actions: Sequence[Action]) -> Answer:
        """Return how its own weight and forces that are no case move it."""
        found = linear(self.system, [acting.forces(actions, self.frame)])
        return added(self.dead, found[0]) if found else self.dead

    def on_the_moved_frame(self, actions: Sequence[Action]) -> Answer | None:
        """Return the answer to the second order, with its own weight; None where it gives way."""
        acts = acting.forces(actions, self.frame)
        both = times(joined(self.dead_forces, acts), _SECOND_ORDER)
        found = second_order(self.system, both)
        return None if found is None else scaled(found, 1.0 / _SECOND_ORDER)

    def buckles_at(self, answer: Answer) -> float:
        """Return how many times its forces it bears before it buckles."""
        return buckling(answer) or 0.0

    @cached_property
    def strengths(self) -> Strengths:
        """What each element bears."""
        study, bar = self._study, self.system.numbering.bar
        return strengths(study.limits, self.frame, bar, study.spans)

    @cached_property
    def ends(self) -> Ends:
        """The numbers of each bar's first and last element."""
        bar = self.system.numbering.bar
        count = np.arange(len(self.frame.model.bars))
        return np.searchsorted(bar, count), np.searchsorted(bar, count, side="right") - 1


def _together(
    one: Mapping[TubeId, Sequence[float]], other: Mapping[TubeId, Sequence[float]]
) -> dict[TubeId, list[float]]:
    return {t: [*one.get(t, ()), *other.get(t, ())] for t in (*one, *other)}


def folding_ways(study: Study, level: ClampLevel) -> int:
    """Count the ways in which the frame folds with clamps of a stiffness."""
    model = study.framed(level).model
    coarse = tuple(replace(b, elements=1) for b in model.bars)  # what folds bends no bar
    return count_ways_to_fold(assembled(replace(model, bars=coarse)))
