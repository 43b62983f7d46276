"""The order in which tubes are put up, found by following the cheapest unfinished plans."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.assembly.balance import stands
from tubeframe.assembly.constraints import board_way
from tubeframe.assembly.lots import Lots, State

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from tubeframe.assembly.constraints import Rules
    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.joining import Joining
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number
    from tubeframe.assembly.room import Room


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """How far the search came: the best plan, and the tubes and boards that nothing lets in any more."""

    state: State
    locked: tuple[Number, ...]
    work: int


class Search:
    """Follows a few of the cheapest plans at a time, step by step; a plan that locks a part out is dropped at once."""

    def __init__(self, model: Model, room: Room, joining: Joining, rules: Rules, built: Sequence[Placed]) -> None:
        """Take the sub-frames as they come from the floor: each with its fittings."""
        self._model, self._room, self._rules = model, room, rules
        self._flats = len(built)
        self._lots = Lots(model, room, joining, rules, built)
        self.work = 0

    def run(self) -> Found:
        """Find a plan for all tubes and caught boards; where there is none, the farthest."""
        start = State(placed=frozenset(), raised=frozenset(), lots=(), cost=0.0)
        states, best = [start], start
        width = weights.width(self._model.first_joint)
        while states:
            done = [s for s in states if self._is_done(s)]
            if done:
                return Found(state=min(done, key=lambda s: s.cost), locked=(), work=self.work)
            best = max(states, key=lambda s: (len(s.placed), -s.cost))
            states = self._next(states, width)
        return Found(state=best, locked=self._left(best), work=self.work)

    def _next(self, states: Sequence[State], width: int) -> list[State]:
        """Go one step on from each plan; the cheapest by what is done already are kept, each state of things once."""
        found: dict[tuple[Placed, frozenset[int]], State] = {}
        for state in states:
            for follower in self._followers(state):
                self.work += 1
                key = (follower.placed, follower.raised)
                if key not in found or follower.cost < found[key].cost - 1e-9:
                    found[key] = follower
        if self.work > weights.MOST_WORK:
            width = 1
        return sorted(found.values(), key=self._promise)[:width]

    def _promise(self, state: State) -> float:
        """Guess a whole plan's cost: a step takes in two tubes or so."""
        left = sum(1 for t in self._lots.loose if t not in state.placed) + 2 * (self._flats - len(state.raised))
        return state.cost + weights.STEP * left / 3.0

    def _is_done(self, state: State) -> bool:
        return not self._left(state)

    def _left(self, state: State) -> tuple[Number, ...]:
        tubes = (n for n in range(self._model.first_joint) if n not in state.placed)
        return (*tubes, *(p for p in sorted(self._rules.captured) if p not in state.placed))

    def _followers(self, state: State) -> Iterator[State]:
        boards = self._lots.boards(state)
        if boards is not None:
            yield boards
        bracing = all(t in state.placed for t in self._lots.loose if t not in self._rules.braces)
        bracing = bracing and len(state.raised) == self._flats
        for family in self._lots.open_families(state, bracing=bracing):
            yield from self._kept(state, self._lots.lot(state, family, bracing=bracing))
        if not bracing:
            for raised in self._lots.raisings(state):
                yield from self._after_raising(state, raised)

    def _after_raising(self, state: State, raised: State) -> Iterator[State]:
        """Go on from sub-frames just raised, in the same step: with tubes that tie them, or without."""
        before = len(state.lots)
        ties = list(self._lots.open_families(raised, bracing=False))
        for family in ties:
            for full in self._lots.lot(raised, family, bracing=False):
                up, tied = raised.lots[-1], full.lots[-1]
                merged = replace(tied, raises=up.raises, operations=up.operations + tied.operations)
                yield from self._kept(
                    state, [replace(full, lots=(*state.lots[:before], merged), cost=full.cost - weights.STEP)]
                )
        yield from self._kept(state, [raised])

    def _kept(self, before: State, states: Iterable[State]) -> Iterator[State]:
        """Drop plans that lock a part out; count what is held in the others."""
        for state in states:
            new = state.placed - before.placed
            if new and not any(self._is_locked(n, state) for n in self._touched(new, state)):
                held = 0.0 if stands(self._model, state.placed) else weights.HELD
                yield replace(state, cost=state.cost + held)

    def _touched(self, new: Placed, state: State) -> Iterator[Number]:
        """Give what is still to come and has one of the new parts near; a sub-frame by its first tube."""
        seen = set[int]()
        for tube in range(self._model.first_joint):
            if tube in state.placed or not (self._lots.vicinity[tube] & new):
                continue
            flat = self._lots.flat_of.get(tube)
            if flat is None:
                yield tube
            elif flat not in seen:
                seen.add(flat)
                yield tube
        yield from (p for p in sorted(self._rules.captured) if p not in state.placed)

    def _is_locked(self, number: Number, state: State) -> bool:
        self.work += 1
        if not self._model.is_tube(number):
            return board_way(self._model, self._room, number, state.placed) is None
        flat = self._lots.flat_of.get(number)
        return (
            self._lots.joined(number, state.placed) if flat is None else self._lots.raised(flat, state.placed)
        ) is None
