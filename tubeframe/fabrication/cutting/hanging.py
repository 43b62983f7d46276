"""What a plan hangs on: a slightly wider kerf, or slightly shorter sticks, that cost more."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.counting import counted
from tubeframe.fabrication.cutting.patterns import sticks_of
from tubeframe.fabrication.cutting.plan import Change, HangsOn
from tubeframe.fabrication.cutting.search import cheapest_cover
from tubeframe.geometry.units import INCH_MM, Units

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.saw import Saw
    from tubeframe.catalog.stock import Stock
    from tubeframe.fabrication.cutting.counting import Counted
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.search import Cover

WIDER = {Units.INCH: INCH_MM / 16.0, Units.MILLIMETRE: 1.0}
SHORTER = {Units.INCH: INCH_MM / 4.0, Units.MILLIMETRE: 5.0}
"""How far a kerf and a bought stick may be out [mm]: common practice, no source."""

_SHARE = 0.3


def hangs_on(count: Counted, cover: Cover, units: Units, effort: Effort) -> tuple[HangsOn, ...]:
    """Plan again with a wider kerf, and with shorter bought sticks; tell what is proved to cost more."""
    if not count.needs or cover.bound < cover.cost:
        return ()
    wider = replace(count.saw, kerf=count.saw.kerf + WIDER[units])
    shorter = [replace(s, usable=s.usable - SHORTER[units]) if s.bought else s for s in count.stocks]
    trials = (
        (Change.KERF, WIDER[units], count.stocks, wider),
        (Change.STICK, SHORTER[units], shorter, count.saw),
    )
    return tuple(
        hang for change, by, stocks, saw in trials for hang in _dearer(count, cover, change, by, stocks, saw, effort)
    )


def _dearer(
    count: Counted, cover: Cover, change: Change, by: float, stocks: Sequence[Stock], saw: Saw, effort: Effort
) -> Iterator[HangsOn]:
    tube, longest = count.stocks[0].tube, max(s.usable for s in stocks)
    there = [s for s in stocks if s.usable > 0.0]
    if not all(saw.gets(n.length, longest) for n in count.needs):
        yield HangsOn(tube=tube, change=change, by=by, cost=None, sticks=None)
        return
    try:
        again = cheapest_cover(counted(count.needs, there, saw).job, effort.part(_SHARE))
    except PlanError:  # neither a plan nor a proof in the work allowed: nothing is told
        return
    if again is None or again.bound <= cover.cost:
        return
    yield HangsOn(
        tube=tube,
        change=change,
        by=by,
        cost=round((again.cost - cover.cost) * count.cost_unit, 4),
        sticks=sticks_of(again.patterns) - sticks_of(cover.patterns),
    )
