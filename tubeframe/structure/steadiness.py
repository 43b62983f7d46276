"""Verdicts on pushes: how far the top goes, and whether the frame tips."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.load import LoadUse
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.structure.acting import total
from tubeframe.structure.framed import ClampLevel
from tubeframe.structure.open_wind import open_wind_cases
from tubeframe.structure.standing import Weight, tips_at
from tubeframe.structure.verdict import Code, Missing, More, Note, Outcome, Unit, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.structure.acting import Action
    from tubeframe.structure.study import Case, Solved, Study


def sway_verdicts(study: Study, solved: Solved) -> Iterator[Verdict]:
    """Give for each push how far it moves the place that is pushed at [mm]."""
    for case in study.of_use(LoadUse.PUSH):
        value = pushed_way(solved, case)
        others = [study.solved(level) for level in (ClampLevel.LOW, ClampLevel.HIGH)]
        moved = [pushed_way(found, case) for found in others if found is not None]
        fair, most = (study.limits[k] for k in (LimitKey.SWAY_FAIR, LimitKey.SWAY_WOBBLY))
        yield Verdict(
            code=Code.SWAY,
            outcome=Outcome.FAILS if value > most else Outcome.WARNING if value > fair else Outcome.OK,
            case=case.name,
            where=(),
            value=value,
            limit=most,
            unit=Unit.LENGTH,
            assumptions=study.rows(LimitKey.SWAY_PUSH, LimitKey.SWAY_FAIR, LimitKey.SWAY_WOBBLY, LimitKey.CLAMP),
            bounds=(min(value, *moved), max(value, *moved)) if len(moved) == 2 else None,
            notes=(Note(what=More.FREQUENCY, value=solved.frequency),),
        )


def pushed_way(solved: Solved, case: Case) -> float:
    """Return the mean way that the pushed places go, along the push [mm]."""
    answer, way = solved.alone(case), total(case.actions).unit
    weights = [a.force.length for a in case.actions]
    points = [solved.frame.point_at(a.tube, (a.low + a.high) / 2.0) for a in case.actions]
    moved = sum(w * answer.shift(p).dot(way) for w, p in zip(weights, points, strict=True))
    return float(moved / sum(weights))


def tip_verdicts(study: Study) -> Iterator[Verdict]:
    """Give for each push, and for what is carried, how much tips a frame that only stands on its feet."""
    feet = _feet(study)
    if not feet:
        return
    standing = _weights(study, study.dead)
    factor = study.limits[LimitKey.TIP_FACTOR]
    for case in (*study.cases, *open_wind_cases(study)):
        least = tips_at(feet, standing, _weights(study, case.actions))
        if math.isinf(least) or not case.actions:
            continue
        force = total(case.actions).length
        beside = tuple(_beside(study, feet, case, least * force))
        slides = any(n.what is More.SLIDES for n in beside)
        short = Outcome.WARNING if slides else Outcome.FAILS
        outcome = Outcome.NEEDS_INPUT if case.on_trial else short if least < factor else Outcome.OK
        yield Verdict(
            code=Code.TIP,
            outcome=outcome,
            case=case.name,
            where=(),
            value=least * force,
            limit=None if case.on_trial else factor * force,
            unit=Unit.FORCE,
            assumptions=study.rows(LimitKey.TIP_FACTOR, LimitKey.FLOOR_FRICTION, LimitKey.TIED_OVER),
            missing=Missing.LOAD if case.on_trial else None,
            notes=beside,
            over=True,
        )


def _beside(study: Study, feet: Sequence[Vec], case: Case, tipping: float) -> Iterator[Note]:
    """Say where the feet slide before it tips, and where it is so slim that it has to be tied."""
    weight = -total(study.dead).z
    force = total(case.actions)
    slides = study.limits[LimitKey.FLOOR_FRICTION] * weight
    if abs(force.z) < force.length / 2.0 and slides < tipping:
        yield Note(what=More.SLIDES, value=slides)
    height = max(p.z for t in study.jointed.tubes for p in (t.path.start, t.path.end))
    base = min(max(f.x for f in feet) - min(f.x for f in feet), max(f.y for f in feet) - min(f.y for f in feet))
    if height > study.limits[LimitKey.TIED_OVER] * base:
        yield Note(what=More.TIED, value=height / max(base, 1.0))


def _feet(study: Study) -> tuple[Vec, ...]:
    """Return where the frame stands; nothing when any end is fixed to the ground or a wall."""
    found = []
    if study.frame.supports:
        return ()
    for tube in study.jointed.tubes:
        for end, kind in ((TubeEnd.A, tube.end_a), (TubeEnd.B, tube.end_b)):
            if kind.is_anchored:
                return ()
            if kind.is_grounded:
                found.append(tube.path.start if end is TubeEnd.A else tube.path.end)
    return tuple(found)


def _weights(study: Study, actions: Sequence[Action]) -> tuple[Weight, ...]:
    paths = {t.id: t.path for t in study.jointed.tubes}
    return tuple(
        Weight(at=paths[a.tube].point((a.low + a.high) / 2.0), force=a.force) for a in actions if a.force != ORIGIN
    )
