"""Where a tube longer than a stick is parted: far from fittings and bends, with no stub left."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.errors import Finding, Severity
from tubeframe.geometry.tolerance import TINY
from tubeframe.joints.facts import BadSplit, NoSleevePlace, SplitFault

if TYPE_CHECKING:
    from collections.abc import Callable

    from tubeframe.frame.member import Member
    from tubeframe.geometry.units import Units

Stretch = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """What a split looks at on one member, all measured from one end of its centreline [mm].

    `start` and `end` are the cut ends, `stations` the middles of fittings between them, `bends` where they begin and
    end, `held` the straight that each of them wants at an end, `blocked` the stretches where no sleeve's middle may
    be, `stick` what one stick gives, `apart` the least distance of two sleeves' middles.
    """

    length: float
    start: float
    end: float
    stations: tuple[float, ...]
    bends: tuple[Stretch, ...]
    held: tuple[float, ...]
    blocked: tuple[Stretch, ...]
    stick: float
    apart: float

    def from_other_end(self) -> Line:
        """Return the same, measured from the other end."""
        return replace(
            self,
            start=self.length - self.end,
            end=self.length - self.start,
            stations=tuple(self.length - s for s in reversed(self.stations)),
            bends=tuple((self.length - b, self.length - a) for a, b in reversed(self.bends)),
            held=self.held[::-1],
            blocked=tuple((self.length - b, self.length - a) for a, b in reversed(self.blocked)),
        )

    def is_clear(self, at: float) -> bool:
        """Whether a sleeve's middle may be there."""
        return all(not a + TINY < at < b - TINY for a, b in self.blocked)

    def allowances(self, low: float, high: float) -> tuple[float, float]:
        """Return what the bender needs at both ends of a part."""
        inside = [n for n, (a, b) in enumerate(self.bends) if low < b and a < high]
        if not inside:
            return 0.0, 0.0
        first, last = inside[0], inside[-1]
        return (
            rules.bend_allowance(self.bends[first][0] - low, self.held[first]),
            rules.bend_allowance(high - self.bends[last][1], self.held[last]),
        )

    def comes_out_of_a_stick(self, low: float, high: float, units: Units) -> bool:
        """Whether a part between two places, or a cut end, is one stick's."""
        return rules.fits(rules.stick_length(high - low, self.allowances(low, high), units), self.stick)


def stated_places(member: Member, line: Line, units: Units) -> tuple[tuple[float, ...], tuple[Finding, ...]]:
    """Take the places that a member names, and tell of those that will not do; what is no place is left out."""
    faults: list[BadSplit] = []
    kept: list[float] = []
    for at in sorted(member.split_at):
        if not line.start + TINY < at < line.end - TINY:
            faults.append(BadSplit(member=member.id, at=at, fault=SplitFault.OUTSIDE))
        elif kept and at - kept[-1] < line.apart - TINY:
            faults.append(BadSplit(member=member.id, at=at, fault=SplitFault.TOO_CLOSE))
        else:
            kept.append(at)
            if not line.is_clear(at):
                faults.append(BadSplit(member=member.id, at=at, fault=SplitFault.IN_THE_WAY))
    marks = (line.start, *kept, line.end)
    faults += [
        BadSplit(member=member.id, at=low, fault=SplitFault.TOO_LONG)
        for low, high in pairwise(marks)
        if not line.comes_out_of_a_stick(low, high, units)
    ]
    told = (Finding(code="J-split", severity=Severity.ERROR, subjects=(member.id,), fact=f) for f in faults)
    return tuple(kept), tuple(told)


def found_places(
    member: Member, line: Line, units: Units, *, from_b: bool
) -> tuple[tuple[float, ...], tuple[Finding, ...]]:
    """Find the fewest places, from either end; quarter points of spans first, where bending is small."""
    seen = line.from_other_end() if from_b else line
    walks = [w for pick in (_farthest_quarter, _farthest_clear) if (w := _walk(seen, units, pick)) is not None]
    if not walks:
        fact = NoSleevePlace(member=member.id, stick=line.stick)
        return (), (Finding(code="J-too-long", severity=Severity.ERROR, subjects=(member.id,), fact=fact),)
    best = min(walks, key=len)
    return (tuple(sorted(line.length - at for at in best)) if from_b else best), ()


def _walk(line: Line, units: Units, pick: Callable[[Line, float, float], float | None]) -> tuple[float, ...] | None:
    """Part from the start, as far as a stick goes each time, but leave no stub."""
    at, found = line.start, list[float]()
    while not line.comes_out_of_a_stick(at, line.end, units):
        reach = _reach(line, at)
        limits = (min(reach, line.end - rules.LEAST_PART), reach)
        places = (choose(line, at, limit) for limit in limits for choose in (pick, _farthest_clear))
        place = next((p for p in places if p is not None), None)
        if place is None:
            return None
        found.append(place)
        at = place
    return tuple(found)


def _reach(line: Line, start: float) -> float:
    """Return how far one stick goes from a place, with what the bender needs."""
    low, high = start, line.end
    while high - low > rules.LEAST_CUT / 1024.0:
        middle = (low + high) / 2.0
        need = middle - start + sum(line.allowances(start, middle))
        low, high = (middle, high) if need <= line.stick else (low, middle)
    # a straight part is known without a search
    straight = start + line.stick
    return straight if not any(line.allowances(start, straight)) else low


def _farthest_quarter(line: Line, start: float, limit: float) -> float | None:
    spans = pairwise(line.stations)
    quarters = [a + (b - a) * share for a, b in spans for share in (0.25, 0.75)]
    return max((q for q in quarters if start < q <= limit and line.is_clear(q)), default=None)


def _farthest_clear(line: Line, start: float, limit: float) -> float | None:
    edges = [a for a, _ in line.blocked]
    return max((e for e in (limit, *edges) if start < e <= limit and line.is_clear(e)), default=None)
