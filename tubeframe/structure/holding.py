"""The verdict on tightening: what closing a clamp does to a thin wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.structure.verdict import Code, Outcome, Unit, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.structure.study import Study


def crush_verdict(study: Study) -> Iterator[Verdict]:
    """Give the clamp that presses its tube most, against the yield strength over the strength's factor."""
    pressed = [
        (study.holds[j.id, u.port].hoop, j.id, u.tube)
        for j in study.jointed.joints
        if j.fitting is not None and not j.is_end_piece
        for u in j.uses
    ]
    if not pressed:
        return
    stress, joint, tube = max(pressed, key=lambda found: found[0])
    limit = study.limits[LimitKey.YIELD] / study.limits[LimitKey.STRENGTH_FACTOR]
    yield Verdict(
        code=Code.CRUSH,
        outcome=Outcome.FAILS if stress > limit else Outcome.OK,
        case="",
        where=(joint, tube),
        value=stress,
        limit=limit,
        unit=Unit.STRESS,
        assumptions=study.rows(LimitKey.YIELD, LimitKey.STRENGTH_FACTOR, LimitKey.BOLT_TORQUE, LimitKey.NUT_FACTOR),
    )
