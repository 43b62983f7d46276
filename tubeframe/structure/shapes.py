"""Which shapes of a frame are worth a picture: loaded, pushed, in wind, under snow; or how it folds."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.frame.load import LoadUse
from tubeframe.structure.acting import total
from tubeframe.structure.framed import ClampLevel
from tubeframe.structure.members import strongest_use
from tubeframe.structure.shape import Look, Shape, moved_tubes
from tubeframe.structure.solver.assembly import assembled
from tubeframe.structure.solver.folding import ways_to_fold
from tubeframe.structure.steadiness import pushed_way
from tubeframe.structure.storm import snow_acts, wind_acts

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.structure.acting import Action
    from tubeframe.structure.solver.solve import Answer
    from tubeframe.structure.study import Case, Solved, Study

_MOST_WAYS = 2
_MOST_FOUND = 24


def shapes(study: Study) -> tuple[Shape, ...]:
    """Return the governing shapes of a frame that stands; of one that folds, the first ways in which it does."""
    solved = study.solved(ClampLevel.ASSUMED)
    return tuple(_folding(study)) if solved is None else tuple(_standing(study, solved))


def _folding(study: Study) -> Iterator[Shape]:
    framed = study.framed(ClampLevel.ASSUMED)
    coarse = replace(framed, model=replace(framed.model, bars=tuple(replace(b, elements=1) for b in framed.model.bars)))
    system = assembled(coarse.model)
    for way in ways_to_fold(system, _MOST_FOUND)[:_MOST_WAYS]:
        yield Shape(look=Look.FOLDING, case="", force=0.0, tubes=moved_tubes(coarse, system, way.shape))


def _standing(study: Study, solved: Solved) -> Iterator[Shape]:
    carried = [c for c in study.cases if c.use is not LoadUse.PUSH]
    if carried:
        worst = max(carried, key=lambda c: strongest_use(solved.strengths, solved.together(c)).use)
        yield _of_case(Look.LOADED, worst, solved, solved.together(worst))
    pushes = study.of_use(LoadUse.PUSH)
    if pushes:
        worst = max(pushes, key=lambda c: pushed_way(solved, c))
        yield _of_case(Look.PUSHED, worst, solved, solved.alone(worst))
    for look, acts in ((Look.WIND, wind_acts(study)), (Look.SNOW, snow_acts(study))):
        if acts:
            yield _shape(look, look.value, acts, solved, solved.other(acts))


def _of_case(look: Look, case: Case, solved: Solved, answer: Answer) -> Shape:
    return _shape(look, case.name, case.actions, solved, answer)


def _shape(look: Look, name: str, acts: Sequence[Action], solved: Solved, answer: Answer) -> Shape:
    tubes = moved_tubes(solved.frame, solved.system, answer.moves)
    return Shape(look=look, case=name, force=total(acts).length, tubes=tubes)
