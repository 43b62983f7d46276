"""Will it hold: every verdict on a jointed frame, in the order of their codes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.joints.hinges import fixed_part
from tubeframe.structure.bracing import knees_that_stop_folding
from tubeframe.structure.carrying import carried_verdicts
from tubeframe.structure.framed import ClampLevel
from tubeframe.structure.holding import crush_verdict
from tubeframe.structure.shapes import shapes
from tubeframe.structure.steadiness import sway_verdicts, tip_verdicts
from tubeframe.structure.storm import weather_verdicts
from tubeframe.structure.study import Study, folding_ways
from tubeframe.structure.verdict import Code, More, Note, Outcome, Unit, Verdict

if TYPE_CHECKING:
    from tubeframe.catalog.conditions import Conditions
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Jointed
    from tubeframe.structure.shape import Shape

_STIFFNESS = (LimitKey.CLAMP,)
_MOST_WAYS = 12
"""Of a frame that folds more ways no list of knees helps: it has to be laid out anew."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What was found of a frame, and the shapes that it takes then."""

    verdicts: tuple[Verdict, ...]
    shapes: tuple[Shape, ...]


def checked(frame: Frame, jointed: Jointed, workshop: Workshop, conditions: Conditions) -> Checked:
    """Return what was found of a frame, with its governing shapes."""
    study = _study(frame, jointed, workshop, conditions)
    return Checked(verdicts=_found(study), shapes=shapes(study))


def verdicts(frame: Frame, jointed: Jointed, workshop: Workshop, conditions: Conditions) -> tuple[Verdict, ...]:
    """Return what was found of a frame; of one that folds, that it folds and whether it tips."""
    return _found(_study(frame, jointed, workshop, conditions))


def _study(frame: Frame, jointed: Jointed, workshop: Workshop, conditions: Conditions) -> Study:
    """Look at what stands: what turns on the rest, such as a door, stiffens nothing and is left out."""
    return Study(frame, fixed_part(frame, jointed), workshop, conditions)


def _found(study: Study) -> tuple[Verdict, ...]:
    solved = study.solved(ClampLevel.ASSUMED)
    found = [_folds(study)]
    if solved is not None:
        found += carried_verdicts(study, solved)
        found += sway_verdicts(study, solved)
        found += crush_verdict(study)
        found += weather_verdicts(study, solved)
    found += tip_verdicts(study)
    order = list(Code)
    return tuple(sorted(found, key=lambda v: order.index(v.code)))


def _folds(study: Study) -> Verdict:
    """Count the ways to fold: with clamps as stiff as assumed it is not allowed, with free ones they alone hold it."""
    stands = study.solved(ClampLevel.ASSUMED)
    level = ClampLevel.FREE if stands is not None else ClampLevel.ASSUMED
    ways = folding_ways(study, level)
    outcome = Outcome.FAILS if stands is None else Outcome.WARNING if ways else Outcome.OK
    return Verdict(
        code=Code.FOLDS,
        outcome=outcome,
        case="",
        where=(),
        value=float(ways),
        limit=0.0,
        unit=Unit.COUNT,
        assumptions=study.rows(*_STIFFNESS),
        notes=(Note(what=More.CLAMPS_ALONE),) if outcome is Outcome.WARNING else (),
        knees=knees_that_stop_folding(study, level) if 0 < ways <= _MOST_WAYS else (),
    )
