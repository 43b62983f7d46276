"""Verdicts on a covered frame: wind, what it pulls at the anchors, and snow. Nothing local is guessed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.frame import LengthAlong
from tubeframe.frame.load import LoadUse
from tubeframe.geometry.vector import X, Y, Z
from tubeframe.structure.acting import on_cover, total
from tubeframe.structure.end_wind import on_end
from tubeframe.structure.members import strongest_use
from tubeframe.structure.open_wind import open_wind_cases
from tubeframe.structure.study import Case
from tubeframe.structure.verdict import Code, Missing, More, Note, Outcome, Unit, Verdict
from tubeframe.structure.weather import roof_snow, velocity_pressure

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.limits import Limit
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.structure.acting import Action
    from tubeframe.structure.solver.solve import Answer
    from tubeframe.structure.study import Solved, Study

_WIND = (LimitKey.WIND_EXPOSURE, LimitKey.WIND_TERRAIN, LimitKey.WIND_DIRECTION)
_STEEL = (LimitKey.YIELD, LimitKey.STRENGTH_FACTOR, LimitKey.CLAMP)
_CASES = {Code.WIND: "wind", Code.ANCHOR: "wind", Code.SNOW: "snow"}
_SNOW = (LimitKey.SNOW_ROOF, LimitKey.SNOW_EXPOSURE, LimitKey.SNOW_THERMAL)


def weather_verdicts(study: Study, solved: Solved) -> Iterator[Verdict]:
    """Give the verdicts on wind, anchors and snow; of a frame without a cover on wind, where it is asked for."""
    if study.frame.cover is None:
        yield from _open(study, solved)
        return
    yield from _wind(study, solved)
    yield _snow(study, solved)


def wind_acts(study: Study) -> tuple[Action, ...]:
    """Return what the asked wind does where it pushes hardest; nothing without a wind."""
    cases = open_wind_cases(study) if study.frame.cover is None else _covered_cases(study)
    return max((c.actions for c in cases), key=lambda acts: total(acts).length, default=())


def _covered_cases(study: Study) -> tuple[Case, ...]:
    """Return what the asked wind does to a cover: lift, and push from the side, or on an end that is closed."""
    cover, speed = study.frame.cover, study.conditions.wind
    if cover is None or speed is None:
        return ()
    pressure = velocity_pressure(speed, study.limits)
    push, on_wall = (pressure * study.limits[key] for key in (LimitKey.WIND_SIDE, LimitKey.WIND_END))
    across, along = _ways(study.frame)
    lift = Z * (pressure * study.limits[LimitKey.WIND_UPLIFT] * cover.width * cover.length)
    lifted = on_cover(cover, lift, study.jointed, along)
    side = on_cover(cover, across * (push * cover.height * cover.length), study.jointed, along)
    cases = {"wind across": side, "wind on an end": on_end(study.frame, study.jointed, on_wall, along)}
    return tuple(Case(name=name, use=LoadUse.CARRIED, actions=(*lifted, *acts)) for name, acts in cases.items() if acts)


def _ways(frame: Frame) -> tuple[Vec, Vec]:
    """Return the axes across and along a frame."""
    return (X, Y) if frame.length_along is LengthAlong.Y else (Y, X)


def snow_acts(study: Study) -> tuple[Action, ...]:
    """Return what the asked snow does to a cover; nothing without snow or a cover."""
    cover, ground = study.frame.cover, study.conditions.snow
    if cover is None or ground is None:
        return ()
    weight = roof_snow(ground, study.limits) * cover.width * cover.length
    return on_cover(cover, Z * -weight, study.jointed, _ways(study.frame)[1])


def _open(study: Study, solved: Solved) -> Iterator[Verdict]:
    """Give the verdict on wind on bare tubes and boards, along the axis that uses more."""
    rows = study.rows(*_WIND, LimitKey.WIND_GUST, *_STEEL)
    found = [replace(_strength(solved, c.actions, Code.WIND, rows), case=c.name) for c in open_wind_cases(study)]
    if found:
        yield max(found, key=lambda v: v.value or 0.0)


def _wind(study: Study, solved: Solved) -> Iterator[Verdict]:
    end = (LimitKey.WIND_END,) if study.frame.cover is not None and study.frame.cover.closed_ends else ()
    rows = study.rows(*_WIND, LimitKey.WIND_UPLIFT, LimitKey.WIND_SIDE, *end, *_STEEL)
    if study.conditions.wind is None:
        yield _unknown(Code.WIND, Missing.WIND, rows)
        yield _unknown(Code.ANCHOR, Missing.WIND, rows)
        return
    cases = _covered_cases(study)
    strengths = [replace(_strength(solved, c.actions, Code.WIND, rows), case=c.name) for c in cases]
    yield max(strengths, key=lambda v: (v.outcome is Outcome.FAILS, v.value or 0.0))
    anchors = [replace(_anchor(study, solved, solved.other(c.actions), rows), case=c.name) for c in cases]
    yield max(anchors, key=lambda v: v.value or 0.0)


def _anchor(study: Study, solved: Solved, answer: Answer, rows: Sequence[Limit]) -> Verdict:
    """Compare the largest pull at a foot with what the user says that his anchors hold."""
    pulls = [(-answer.reaction(f.point)[0].z, f.tube) for f in solved.frame.feet]
    pull, tube = max(pulls, key=lambda found: found[0])
    needed = max(pull, 0.0) * study.limits[LimitKey.ANCHOR_FACTOR]
    holds = study.conditions.anchor
    outcome = (
        Outcome.NEEDS_INPUT if holds is None and needed else Outcome.FAILS if needed > (holds or 0.0) else Outcome.OK
    )
    lifted = sum(max(p, 0.0) for p, _ in pulls)
    return Verdict(
        code=Code.ANCHOR,
        outcome=outcome,
        case=_CASES[Code.ANCHOR],
        where=(tube,),
        value=needed,
        limit=holds,
        unit=Unit.FORCE,
        assumptions=(study.limits.row(LimitKey.ANCHOR_FACTOR), *rows),
        missing=Missing.ANCHOR if outcome is Outcome.NEEDS_INPUT else None,
        notes=(Note(what=More.UPLIFT, value=lifted), Note(what=More.UNPINNED)),
    )


def _snow(study: Study, solved: Solved) -> Verdict:
    rows = study.rows(*_SNOW, *_STEEL)
    if study.conditions.snow is None:
        return _unknown(Code.SNOW, Missing.SNOW, rows)
    return _strength(solved, snow_acts(study), Code.SNOW, rows)


def _strength(solved: Solved, actions: Sequence[Action], code: Code, rows: Sequence[Limit]) -> Verdict:
    """Look at the strength on the moved frame; where that gives way, at what it is before it moves."""
    moved = solved.on_the_moved_frame(actions)
    worst = strongest_use(solved.strengths, moved or solved.other(actions))
    gives_way = moved is None
    return Verdict(
        code=code,
        outcome=Outcome.FAILS if gives_way or worst.use > 1.0 else Outcome.OK,
        case=_CASES[code],
        where=(worst.tube,),
        value=worst.use,
        limit=1.0,
        unit=Unit.SHARE,
        assumptions=tuple(rows),
        notes=(Note(what=More.GIVES_WAY if gives_way else More.SECOND_ORDER),),
    )


def _unknown(code: Code, missing: Missing, rows: Sequence[Limit]) -> Verdict:
    return Verdict(
        code=code,
        outcome=Outcome.NEEDS_INPUT,
        case=_CASES[code],
        where=(),
        value=None,
        limit=None,
        unit=Unit.SHARE,
        assumptions=tuple(rows),
        missing=missing,
    )
