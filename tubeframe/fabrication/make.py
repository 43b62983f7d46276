"""Everything that the shop does, from the parts of a frame."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.bending.findings import bend_findings
from tubeframe.fabrication.bending.sheet import BendSheet, bend_sheets
from tubeframe.fabrication.buying import Purchase, buying_list
from tubeframe.fabrication.cutting.findings import plan_findings, spot_findings
from tubeframe.fabrication.cutting.plan import CutPlan, joined_plan
from tubeframe.fabrication.facts import NoStick
from tubeframe.fabrication.fitting_count import FittingCount, count_fittings
from tubeframe.fabrication.fixings import Fixing, fixings
from tubeframe.fabrication.stakes import stake_findings
from tubeframe.fabrication.tallying import needs_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.cutting.sweet_spots import SweetSpot
    from tubeframe.fabrication.other_sizes import SizeCost
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Jointed
    from tubeframe.parts.piece import Parts, PieceGroup


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabrication:
    """Stick plan, bend sheets, fittings in number, buying list, and what holds the boards."""

    plan: CutPlan
    bend_sheets: tuple[BendSheet, ...]
    fittings: tuple[FittingCount, ...]
    buying: tuple[Purchase, ...]
    fixings: tuple[Fixing, ...]
    findings: tuple[Finding, ...]
    sweet_spots: tuple[SweetSpot, ...] = ()
    other_sizes: tuple[SizeCost, ...] = ()


def fabricate(frame: Frame, jointed: Jointed, parts: Parts, workshop: Workshop) -> Fabrication:
    """Plan the sticks, the bends and the buying; a piece that no stick takes is left out and told."""
    too_long = [g for g in parts.groups if not rules.fits(g.first.stick_length, _longest(g, workshop))]
    plan = _plan([g for g in parts.groups if g not in too_long], workshop)
    fittings, sheets = count_fittings(jointed.joints, workshop), bend_sheets(parts, workshop)
    held = fixings(frame, jointed)
    return Fabrication(
        plan=plan,
        bend_sheets=sheets,
        fittings=fittings,
        buying=buying_list(frame, parts, fittings, held, plan, workshop),
        fixings=held,
        findings=(
            *(_too_long(g, workshop) for g in too_long),
            *plan_findings(plan, workshop.carry_length, {t.key: t.name for t in workshop.catalog.tubes}),
            *stake_findings(parts, workshop),
            *bend_findings(parts, sheets),
        ),
    )


def with_sweet_spots(made: Fabrication, spots: Iterable[SweetSpot]) -> Fabrication:
    """Add near values of parameters that save; each is told as a finding too."""
    found = tuple(spots)
    return replace(made, sweet_spots=found, findings=made.findings + spot_findings(found))


def with_other_sizes(made: Fabrication, sizes: Iterable[SizeCost]) -> Fabrication:
    """Add what the frame would cost of other tubes."""
    return replace(made, other_sizes=tuple(sizes))


def _plan(groups: Sequence[PieceGroup], workshop: Workshop) -> CutPlan:
    from tubeframe.fabrication.cutting.planning import plan_cuts  # it loads the solver

    plans = []
    for size in dict.fromkeys(g.first.size for g in groups):
        needs = needs_of(groups, size)
        plans.append(
            plan_cuts(
                needs,
                workshop.sticks(size),
                saw=workshop.saw,
                currency=workshop.currency,
                carry=workshop.carry_length,
                units=workshop.units,
            )
        )
    return joined_plan(plans)


def _longest(group: PieceGroup, workshop: Workshop) -> float:
    return max((s.usable for s in workshop.sticks(group.first.size)), default=0.0) - workshop.saw.lost


def _too_long(group: PieceGroup, workshop: Workshop) -> Finding:
    fact = NoStick(
        mark=group.mark, tube=group.first.size, need=group.first.stick_length, have=_longest(group, workshop)
    )
    return Finding(code="C-too-long", severity=Severity.ERROR, subjects=(group.mark,), fact=fact)
