"""Which knees help: the fewest that stop a frame from folding, and those that a push stretches most."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.structure.framed import ClampLevel, section_of
from tubeframe.structure.knee import apart, knees
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.eigen import Mode
from tubeframe.structure.solver.folding import Brace, count_ways_to_fold, fewest_braces, stretches, ways_to_fold
from tubeframe.structure.solver.model import HINGED, Bar

if TYPE_CHECKING:
    from tubeframe.structure.knee import Knee
    from tubeframe.structure.solver.model import Model
    from tubeframe.structure.stretches import Framed
    from tubeframe.structure.study import Case, Study


def knees_that_stop_folding(study: Study, level: ClampLevel) -> tuple[Knee, ...]:
    """Return the fewest knees that leave no way to fold, solved again with them; nothing where none do."""
    candidates = knees(study.jointed)
    frame = _with_places(study, level, candidates)
    system = assembled(frame.model)
    chosen = fewest_braces(system, ways_to_fold(system), _braces(frame, candidates))
    if not chosen:
        return ()
    found = apart([candidates[k] for k in chosen], study.jointed)
    if found is None:
        return ()
    frame = _with_places(study, level, found)
    braced = _braced(study, frame, found)
    return () if count_ways_to_fold(assembled(braced)) else found


def knees_against(study: Study, case: Case, most: int) -> tuple[Knee, ...]:
    """Return the knees that a case stretches or presses most, at most so many, the most first."""
    candidates = knees(study.jointed)
    solved = study.solved_at(ClampLevel.ASSUMED, candidates)
    if solved is None or not candidates:
        return ()
    moved = Mode(frequency=0.0, shape=solved.alone(case).moves)
    longer = stretches(solved.system, (moved,), _braces(solved.frame, candidates))[:, 0]
    order = sorted(range(len(candidates)), key=lambda k: (-abs(float(longer[k])), k))
    return tuple(candidates[k] for k in order[:most])


def _with_places(study: Study, level: ClampLevel, candidates: tuple[Knee, ...]) -> Framed:
    """Return the model with points where knees would sit; what folds bends no bar, so that each is one element."""
    made = study.framed(level, knees=candidates)
    return replace(made, model=replace(made.model, bars=tuple(replace(b, elements=1) for b in made.model.bars)))


def _braces(frame: Framed, found: tuple[Knee, ...]) -> tuple[Brace, ...]:
    return tuple(
        Brace(
            start=frame.point_at(k.tubes[0], k.places[0]),
            end=frame.point_at(k.tubes[1], k.places[1]),
        )
        for k in found
    )


def _braced(study: Study, frame: Framed, found: tuple[Knee, ...]) -> Model:
    """Return the model with knees in it, of the size of their first tube."""
    bars = tuple(
        Bar(
            start=b.start,
            end=b.end,
            section=section_of(frame.sizes[k.tubes[0]], study.limits),
            start_spring=HINGED,
            end_spring=HINGED,
        )
        for k, b in zip(found, _braces(frame, found), strict=True)
    )
    return replace(frame.model, bars=frame.model.bars + bars)
