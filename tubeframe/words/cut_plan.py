"""A stick plan as lines to read at the saw."""

from __future__ import annotations

from collections import Counter
from itertools import accumulate
from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.alike import bent_alike
from tubeframe.fabrication.cutting.plan import PlanStatus, alike
from tubeframe.geometry.units import format_length, format_number, format_range

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.fabrication.cutting.plan import AlikeSticks, Cut, CutPlan, Stick
    from tubeframe.geometry.units import Units


_FINE = 32
"""Where pieces end is told to 1/32 in: kerfs are not whole sixteenths."""


def plan_lines(plan: CutPlan, units: Units) -> list[str]:
    """Say what is bought, what it costs and how far that is proved, then every stick with its cuts."""
    several = len({s.tube for s in plan.sticks}) > 1
    return [
        _bought(plan, units),
        cost_words(plan, units),
        *(_stick(a, units, several=several) for a in alike(plan.sticks)),
    ]


def cost_words(plan: CutPlan, units: Units) -> str:
    """Say what a plan costs, and whether a cheaper one is ruled out."""
    cost, bound = (
        f"{v:.2f}{f' {plan.currency}' if plan.currency else ''}" if plan.priced else f"{format_range(v, units)} bought"
        for v in (plan.cost, plan.lower_bound)
    )
    if plan.status is PlanStatus.OPTIMAL:
        return f"cost {cost}: proved, no plan costs less"
    return f"cost {cost}: no plan costs less than {bound}, {plan.gap:.1%} below"


def cutting_words(plan: CutPlan, units: Units, *, bent: bool) -> Iterator[str]:
    """Say what stands above the drawn sticks: how many, what is proved, what the saw takes, how to read them."""
    yield f"{bought_words(plan)}. {kerf_words(plan, units)}"
    line = "the cutter goes on it" if not _kerf(plan) else "the saw goes past it, outside the piece"
    yield (
        f"Longest first. A number under a stick is where a piece ends, from the end you start at: {line}. "
        "Write each mark near end A."
    )
    if bent:
        yield (
            "* is bent before it is cut to length: this is its rough length, the bend sheet says what to trim. Pieces "
            "with one name are cut and bent alike; the marking pages tell them apart."
        )


def bought_words(plan: CutPlan) -> str:
    """Say how many sticks are bought and taken from the garage, and how far that is proved."""
    bought = sum(1 for s in plan.sticks if not s.on_hand)
    own = len(plan.sticks) - bought
    least = "no cheaper plan exists" if plan.priced else "no plan takes less bought length"
    proof = least if plan.status is PlanStatus.OPTIMAL else f"within {plan.gap:.1%} of the least"
    garage = f" and {own} from the garage" if own else ""
    return f"{bought} {'stick' if bought == 1 else 'sticks'} to buy{garage}; {proof}"


def kerf_words(plan: CutPlan, units: Units) -> str:
    """Say what each cut is reckoned to take."""
    kerf = _kerf(plan)
    if not kerf:
        return "Reckoned with a kerf of 0, as of a tube cutter: a saw takes more, so tell its kerf and plan again."
    return f"Reckoned with a kerf of {format_length(kerf, units, _FINE)} for each cut."


def shared_names(sheets: Sequence[BendSheet]) -> dict[str, str]:
    """Return the name by which each bent mark is cut: one for all that are cut and bent alike."""
    found: dict[str, str] = {}
    for group in bent_alike(sheets):
        marks = [s.mark for s in group]
        name = marks[0] if len(marks) == 1 else f"{marks[0]}-{marks[-1]}" if _follow(marks) else ", ".join(marks)
        found |= dict.fromkeys(marks, name)
    return found


def _follow(marks: Sequence[str]) -> bool:
    """Whether marks are numbers that follow each other."""
    numbers = [int(m[1:]) if m[1:].isdigit() else -1 for m in marks]
    return numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def stick_words(group: AlikeSticks, tube: str, units: Units) -> str:
    """Say how many sticks are cut just so, what they are, and where the shop cuts them first."""
    stick = group.stick
    where = " from the garage" if stick.on_hand else ""
    shop = " and ".join(format_length(at, units) for at in stick.shop_cuts)
    first = f", cut in the shop at {shop}" if shop else ""
    return f"{group.count} x {tube}, {format_length(stick.stock_length, units)}{where}{first}"


def left_words(stick: Stick, units: Units) -> str:
    """Say what is left of a stick."""
    return f"left {format_length(stick.offcut, units)}"


def place_words(stick: Stick, units: Units) -> Iterator[str]:
    """Give for each piece where it ends, from the start of its stick, or of the part that the shop cut it into."""
    starts = (0.0, *(at + stick.kerf for at in stick.shop_cuts))
    for end in stick.ends:
        yield format_number(end - max(s for s in starts if s < end), units, _FINE)


def positions_words(stick: Stick, units: Units) -> str:
    """List where pieces end."""
    return f"Ends at {', '.join(place_words(stick, units))}"


def unwritten_words(cuts: Sequence[Cut], units: Units) -> str:
    """List pieces that are too short to be written into."""
    counted = Counter((c.mark, c.length) for c in cuts)
    shown = ", ".join(f"{n} x {mark} {format_length(length, units)}" for (mark, length), n in counted.items())
    return f"Too short to write in: {shown}"


def _kerf(plan: CutPlan) -> float:
    return max((s.kerf for s in plan.sticks), default=0.0)


def _bought(plan: CutPlan, units: Units) -> str:
    """Count the sticks, those to buy first."""
    counted = Counter((s.on_hand, s.stock_length) for s in plan.sticks)
    buy = [f"{n} of {format_range(v, units)}" for (on_hand, v), n in counted.items() if not on_hand]
    use = [f"{n} of {format_length(v, units)}" for (on_hand, v), n in counted.items() if on_hand]
    return "; ".join(
        [f"buy {' and '.join(buy)}" if buy else "buy nothing", *([f"use {', '.join(use)}"] if use else [])]
    )


def _stick(group: AlikeSticks, units: Units, *, several: bool) -> str:
    stick = group.stick
    tube = f"{stick.tube} " if several else ""
    where = " on hand" if stick.on_hand else ""
    shop = " and ".join(format_length(at, units) for at in stick.shop_cuts)
    name = f"{tube}{format_range(stick.stock_length, units)}{where}{f' (shop cut at {shop})' if shop else ''}"
    return f"{group.count} x {name}: {', '.join(_cuts(group, units))}"


def _cuts(group: AlikeSticks, units: Units) -> Iterator[str]:
    stick = group.stick
    ends = set(accumulate(stick.cuts_of_parts[:-1]))
    for n, cut in enumerate(stick.cuts, start=1):
        yield f"{cut.mark} {format_length(cut.length, units)}{' |' if n in ends else ''}"
    yield f"left {format_length(group.stick.offcut, units)}"
