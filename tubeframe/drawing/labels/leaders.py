"""Which balloon points where: no leader crosses another, few cross the drawing, none runs along a tube."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.labels.crossings import cross, gap

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.labels.leader_targets import Target
    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.shapes.plane import Point, Segment

_AXIS_DEG = 8.0
"""A leader nearer to level or upright than this looks like one of the frame's lines [degree]."""
_COST_AXIS, _COST_CROSSED, _COST_CROWD, _COST_ORDER = 25.0, 2.5, 6.0, 4.0
"""What faults count, in mm of leader: near an axis; each line crossed; each line near the dot; out of order."""
_FORBIDDEN, _TOO_NEAR = 1e4, 1e3
"""A leader over another one, or past its dot: parts that lie close together leave no choice but the second."""
_CLEAR = 1.5
"""Leaders keep this far from other leaders' dots [mm on paper]."""
_ROUNDS = 12
_GAIN = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """The middle of a balloon [mm]."""

    centre: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """A mark in its balloon, and the place in its part that it points to."""

    mark: str
    slot: Slot
    target: Target

    def segment(self, radius: float) -> Segment:
        """Return the line from a balloon's circle [mm] to the target."""
        return (_on_circle(self.slot.centre, self.target.at, radius), self.target.at)


def best_leaders(
    targets: Mapping[str, Sequence[Target]], slots: Sequence[Slot], lines: Floats, radius: float, scale: int
) -> tuple[Leader, ...]:
    """Give each mark a balloon and a target, by improving a first choice step by step as long as it gets better.

    Args:
        targets: for each mark, in the order that balloons should have, where its leader may end; at least one each.
        slots: where balloons may stand, at least as many as marks.
        lines: what is drawn, (n, 2, 2) [mm].
        radius: of a balloon [mm].
        scale: the drawing's, 1 : scale.

    """
    search = _Search(targets=targets, slots=slots, lines=lines, radius=radius, scale=scale)
    chosen = _Choice(slots=_evenly(len(targets), len(slots)), ends=[])
    chosen.ends = [search.best_alone(mark, slot) for mark, slot in enumerate(chosen.slots)]
    for _ in range(_ROUNDS):
        if not (_better_ends(search, chosen) | _better_slots(search, chosen)):
            break
    return tuple(search.leader(m, slot, chosen.ends[m]) for m, slot in enumerate(chosen.slots))


@dataclass(slots=True, kw_only=True)
class _Choice:
    """While it is sought: the balloon of each mark, and which of its targets it points to."""

    slots: list[int]
    ends: list[int]

    def copy(self) -> _Choice:
        return _Choice(slots=list(self.slots), ends=list(self.ends))

    def take(self, other: _Choice) -> None:
        self.slots, self.ends = other.slots, other.ends


def _evenly(number: int, places: int) -> list[int]:
    """Spread some over places in a row, in order."""
    return [int((2 * n + 1) * places / (2 * number)) for n in range(number)]


def _better_ends(search: _Search, chosen: _Choice) -> bool:
    changed = False
    for mark in range(len(chosen.slots)):
        costs = search.costs_beside(mark, chosen)
        best = min(range(len(costs)), key=lambda t: costs[t])
        if costs[best] < costs[chosen.ends[mark]] - _GAIN:
            chosen.ends[mark] = best
            changed = True
    return changed


def _better_slots(search: _Search, chosen: _Choice) -> bool:
    """Move a balloon to a free place, or swap two, wherever that is better."""
    changed = False
    for mark in range(len(chosen.slots)):
        for slot in range(search.slots):
            changed |= slot != chosen.slots[mark] and _try_slot(search, chosen, mark, slot)
    return changed


def _try_slot(search: _Search, chosen: _Choice, mark: int, slot: int) -> bool:
    tried = chosen.copy()
    if slot in tried.slots:
        other = tried.slots.index(slot)
        tried.slots[other] = tried.slots[mark]
        tried.ends[other] = search.best_alone(other, tried.slots[other])
    tried.slots[mark] = slot
    tried.ends[mark] = search.best_alone(mark, slot)
    if search.cost_at_best(tried) > search.cost(chosen):
        return False
    _better_ends(search, tried)
    if search.cost(tried) > search.cost(chosen) - _GAIN:
        return False
    chosen.take(tried)
    return True


class _Search:
    """What leaders cost, alone (worked out once for all) and beside each other [mm of leader on paper]."""

    def __init__(
        self,
        *,
        targets: Mapping[str, Sequence[Target]],
        slots: Sequence[Slot],
        lines: Floats,
        radius: float,
        scale: int,
    ) -> None:
        self._marks = tuple(targets)
        self._targets = tuple(targets.values())
        self._slots = slots
        self._radius = radius
        self._clear = _CLEAR * scale
        self._alone = [[self._costs_alone(t, s, lines, scale) for s in slots] for t in self._targets]
        self._between: dict[tuple[int, ...], float] = {}
        self._over: dict[tuple[int, ...], float] = {}
        self._each: dict[tuple[int, ...], list[float]] = {}

    @property
    def slots(self) -> int:
        return len(self._slots)

    def leader(self, mark: int, slot: int, target: int) -> Leader:
        return Leader(mark=self._marks[mark], slot=self._slots[slot], target=self._targets[mark][target])

    def best_alone(self, mark: int, slot: int) -> int:
        costs = self._alone[mark][slot]
        return min(range(len(costs)), key=lambda t: costs[t])

    def cost_at_best(self, chosen: _Choice) -> float:
        """Return what balloons cost at least: their leaders alone, and how far they are out of order."""
        alone = sum(self._alone[m][s][t] for m, (s, t) in enumerate(zip(chosen.slots, chosen.ends, strict=True)))
        return alone + _COST_ORDER * sum(a > b for a, b in combinations(chosen.slots, 2))

    def cost(self, chosen: _Choice) -> float:
        total = self.cost_at_best(chosen)
        slots, ends = chosen.slots, chosen.ends
        for a, b in combinations(range(len(slots)), 2):
            total += self._pair(a, slots[a], ends[a], b, slots[b], ends[b])
            total += self._passing(slots[a], slots[b], a, ends[a]) + self._passing(slots[b], slots[a], b, ends[b])
        return total

    def costs_beside(self, mark: int, chosen: _Choice) -> list[float]:
        """Return what a mark costs with each of its targets, beside the others as they are chosen."""
        slot = chosen.slots[mark]
        others = enumerate(zip(chosen.slots, chosen.ends, strict=True))
        beside = (self._beside(mark, slot, m, s, t) for m, (s, t) in others if m != mark)
        return [sum(costs) for costs in zip(self._alone[mark][slot], *beside, strict=True)]

    def _beside(self, mark: int, slot: int, other: int, other_slot: int, other_target: int) -> list[float]:
        """Return what a mark costs with each of its targets, beside one other leader."""
        key = (mark, slot, other, other_slot, other_target)
        if key not in self._each:
            self._each[key] = [
                self._pair(mark, slot, t, other, other_slot, other_target) + self._passing(slot, other_slot, mark, t)
                for t in range(len(self._targets[mark]))
            ]
        return self._each[key]

    def _costs_alone(self, targets: Sequence[Target], slot: Slot, lines: Floats, scale: int) -> list[float]:
        ends = np.array([t.at for t in targets])
        crossed = _crossings(slot.centre, ends, lines)
        costs = []
        for target, count in zip(targets, crossed, strict=True):
            dx, dy = target.at[0] - slot.centre[0], target.at[1] - slot.centre[1]
            off_axis = math.degrees(math.atan2(min(abs(dx), abs(dy)), max(abs(dx), abs(dy))))
            cost = math.hypot(dx, dy) / scale + count * _COST_CROSSED + target.crowd * _COST_CROWD
            cost += _COST_AXIS if off_axis < _AXIS_DEG else 0.0
            costs.append(cost)
        return costs

    def _passing(self, slot: int, other: int, mark: int, target: int) -> float:
        """Return what it costs a leader to run over another balloon."""
        key = (slot, other, mark, target)
        if key not in self._over:
            off = gap(self._slots[other].centre, self._slots[slot].centre, self._targets[mark][target].at)
            self._over[key] = _FORBIDDEN if off < self._radius * 1.1 else 0.0
        return self._over[key]

    def _pair(self, a: int, slot_a: int, target_a: int, b: int, slot_b: int, target_b: int) -> float:
        key = (a, slot_a, target_a, b, slot_b, target_b)
        if key not in self._between:
            one = (self._slots[slot_a].centre, self._targets[a][target_a].at)
            self._between[key] = _conflict(
                one, (self._slots[slot_b].centre, self._targets[b][target_b].at), self._clear
            )
        return self._between[key]


def _conflict(one: Segment, other: Segment, clear: float) -> float:
    """Return what two leaders cost each other, from the middles of their balloons to their dots [mm]."""
    if cross(*one, *other):
        return _FORBIDDEN
    return _TOO_NEAR if min(gap(one[1], *other), gap(other[1], *one)) < clear else 0.0


def _crossings(start: Point, ends: Floats, lines: Floats) -> list[int]:
    """Count the lines (n, 2, 2) that each leader from a point to one of the ends (m, 2) crosses."""
    a = np.array(start)
    way = ends - a
    c, d = lines[None, :, 0] - a, lines[None, :, 1] - a
    side_c = way[:, None, 0] * c[..., 1] - way[:, None, 1] * c[..., 0]
    side_d = way[:, None, 0] * d[..., 1] - way[:, None, 1] * d[..., 0]
    edge = d - c
    from_start = edge[..., 0] * -c[..., 1] - edge[..., 1] * -c[..., 0]
    to_end = edge[..., 0] * (way[:, None, 1] - c[..., 1]) - edge[..., 1] * (way[:, None, 0] - c[..., 0])
    counts: list[int] = ((side_c * side_d < 0.0) & (from_start * to_end < 0.0)).sum(axis=1).tolist()
    return counts


def _on_circle(centre: Point, toward: Point, radius: float) -> Point:
    dx, dy = toward[0] - centre[0], toward[1] - centre[1]
    length = max(math.hypot(dx, dy), 1e-9)
    return (centre[0] + dx * radius / length, centre[1] + dy * radius / length)
