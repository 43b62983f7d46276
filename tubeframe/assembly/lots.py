"""What may be done in the next step: like tubes added, sub-frames raised, boards caught."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.assembly.constraints import board_way
from tubeframe.assembly.families import families, lines, sides, vicinity
from tubeframe.assembly.step import Hold, Operation, PartKind, Raising

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.assembly.constraints import Rules
    from tubeframe.assembly.fitter import Placed, Way
    from tubeframe.assembly.joining import Joining
    from tubeframe.assembly.meeting import Joined
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number
    from tubeframe.assembly.room import Room

_SIDE_BY_SIDE = 3
"""So many sub-frames are looked at to be raised next."""
_FAMILIES = 6
"""So many families of like tubes are looked at to be added next."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """What is done in one step: sub-frames raised, boards caught in it, tubes added."""

    raises: tuple[Raising, ...] = ()
    operations: tuple[Operation, ...] = ()
    tubes: tuple[Number, ...] = ()
    is_bracing: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """A plan so far: what is placed, which sub-frames stand, the steps and what they cost."""

    placed: Placed
    raised: frozenset[int]
    lots: tuple[Lot, ...]
    cost: float


class Lots:
    """Puts together what may be done in the next step."""

    def __init__(self, model: Model, room: Room, joining: Joining, rules: Rules, built: Sequence[Placed]) -> None:
        """Take the sub-frames as they come from the floor: each with its fittings."""
        self._model, self._room, self._joining, self._rules = model, room, joining, rules
        self._built = built
        self.flat_of = {t: n for n, f in enumerate(rules.flats) for t in f}
        self.vicinity = vicinity(model)
        self.loose = [n for n in range(model.first_joint) if n not in self.flat_of]
        self._families = families(model, [n for n in self.loose if n not in rules.braces])
        self._brace_families = families(model, sorted(rules.braces))
        self._around = [frozenset(n for t in f for n in self.vicinity[t]) for f in rules.flats]
        self._lines = lines(model)
        self._known: dict[tuple[int, Placed], Joined | None] = {}

    def joined(self, tube: Number, placed: Placed) -> Joined | None:
        """Bring a tube; what is far off does not matter, so that the same is not worked out again."""
        near = self.vicinity[tube] & placed
        key = (tube, near)
        if key not in self._known:
            self._known[key] = self._joining.joined((tube,), frozenset(), near, early=self._rules.early, flat=False)
        return self._known[key]

    def raised(self, flat: int, placed: Placed) -> Joined | None:
        """Bring a sub-frame."""
        tubes = self._rules.flats[flat]
        near = self._around[flat] & placed
        key = (-1 - flat, near)
        if key not in self._known:
            inside = self._built[flat] - frozenset(tubes)
            self._known[key] = self._joining.joined(tubes, inside, near, early=self._rules.early, flat=False)
        return self._known[key]

    def touches(self, tube: Number, placed: Placed) -> bool:
        """Whether a tube shares a fitting with one that is placed."""
        return any(o in placed for _, o in self._model.neighbours(tube))

    def open_families(self, state: State, *, bracing: bool) -> Iterator[list[Number]]:
        """Give families of like tubes of which one touches what stands; the first of all where nothing stands."""
        number = 0
        for family in self._brace_families if bracing else self._families:
            left = [t for t in family if t not in state.placed]
            if left and (not state.placed or any(self.touches(t, state.placed) for t in left)):
                yield left
                number += 1
            if number == _FAMILIES:
                return

    def lot(self, state: State, family: Sequence[Number], *, bracing: bool) -> Iterator[State]:
        """Add as many of a family as go in a step: all that go, and those on one side alone."""
        for wanted in (family, *sides(self._model, family)):
            added = self._added(state, wanted, bracing=bracing)
            if added is not None:
                yield added
                if len(added.lots[-1].tubes) == len(family) < weights.MOST_TUBES:
                    yield from self._with_another(state, added, family, bracing=bracing)

    def _with_another(self, state: State, added: State, family: Sequence[Number], *, bracing: bool) -> Iterator[State]:
        """Put a small family in together with another of the same marks, or one alone with any: it holds nothing."""
        marks = {self._mark(t) for t in family}
        others = (f for f in self.open_families(added, bracing=bracing) if f[0] not in family)
        alike = [f for f in others if len(family) == 1 or {self._mark(t) for t in f} == marks]
        for other in alike[:2]:
            both = self._added(added, other, most=weights.MOST_TUBES - len(family), bracing=bracing)
            if both is None:
                continue
            one, two = added.lots[-1], both.lots[-1]
            merged = replace(one, operations=one.operations + two.operations, tubes=one.tubes + two.tubes)
            if len({self._mark(t) for t in merged.tubes}) <= weights.MOST_KINDS:
                cost = both.cost - weights.STEP + weights.KIND * (len({self._mark(t) for t in merged.tubes}) - 1)
                yield replace(both, lots=(*state.lots, merged), cost=cost)

    def _added(
        self, state: State, wanted: Sequence[Number], *, bracing: bool, most: int = weights.MOST_TUBES
    ) -> State | None:
        placed, cost = state.placed, state.cost + weights.STEP
        operations: list[Operation] = []
        tubes: list[Number] = []
        waiting = list(wanted)
        while waiting and len(tubes) < most:
            found = next(
                ((t, j) for t in waiting if self._may(t, placed, tubes) and (j := self.joined(t, placed))), None
            )
            if found is None:
                break
            tube, joined = found
            waiting.remove(tube)
            tubes.append(tube)
            placed |= joined.new
            operations += joined.operations
            cost += joined.way.cost + self._hanging(tube, placed) + self._lift((tube,))
        if not tubes:
            return None
        cost += weights.TORN * bool(len(tubes) < min(most, len(wanted)))
        cost += weights.KIND * (len({self._mark(t) for t in tubes}) - 1)
        lot = Lot(operations=tuple(operations), tubes=tuple(tubes), is_bracing=bracing)
        return State(placed=placed, raised=state.raised, lots=(*state.lots, lot), cost=cost)

    def _may(self, tube: Number, placed: Placed, tubes: Sequence[Number]) -> bool:
        """Whether a tube touches what stands, goes on with a line that was begun, and a step keeps to two marks."""
        marks = {self._mark(t) for t in (*tubes, tube)}
        if placed and not self.touches(tube, placed):
            return False
        begun = self._lines.get(tube, frozenset()) & placed
        grows = not begun or any(o in begun and f.is_shut for f, o in self._model.neighbours(tube))
        return grows and len(marks) <= weights.MOST_KINDS

    def _mark(self, tube: Number) -> str:
        return self._model.piece(tube).mark

    def _hanging(self, tube: Number, placed: Placed) -> float:
        there = {f.number for f, _ in self._model.neighbours(tube)}
        held = sum(1 for n in there if n in placed)
        return weights.LOOSE if held < min(2, len(there)) and not self._model.feet(tube) else 0.0

    def _lift(self, tubes: Sequence[Number]) -> float:
        return weights.LIFT * sum(self._model.masses[t] * self._model.middle(t).z / 1000.0 for t in tubes)

    def raisings(self, state: State) -> Iterator[State]:
        """Raise one more sub-frame, two to begin with, or all that stand by themselves."""
        waiting = [n for n in range(len(self._built)) if n not in state.raised]
        near = [n for n in waiting if not state.placed or self._links(n, state)][:_SIDE_BY_SIDE]
        near = near or waiting[:1]
        anchored = [n for n in waiting if any(self._model.is_anchored(t) for t in self._rules.flats[n])]
        choices = [[n] for n in near]
        if not state.placed and near:
            choices += [[near[0], n] for n in waiting[:_SIDE_BY_SIDE] if n != near[0]]
        if len(anchored) > 1:
            choices.append(anchored)
        for chosen in choices:
            raised = self._all_raised(state, chosen)
            if raised is not None:
                yield raised

    def _links(self, flat: int, state: State) -> bool:
        """Whether a tube that is still to come, or a fitting, ties a sub-frame to what stands."""
        model = self._model
        for tube in self._rules.flats[flat]:
            for _, other in model.neighbours(tube):
                if other in state.placed:
                    return True
                if other not in self.flat_of and self.touches(other, state.placed):
                    return True
        return False

    def _all_raised(self, state: State, chosen: Sequence[int]) -> State | None:
        placed, cost = state.placed, state.cost + weights.STEP
        raises: list[Raising] = []
        operations: list[Operation] = []
        for flat in chosen:
            joined = self.raised(flat, placed)
            if joined is None:
                return None
            placed |= joined.new
            cost += joined.way.cost + weights.TURN + self._lift(self._rules.flats[flat])
            operations += joined.operations[: joined.first]
            raises.append(
                Raising(
                    sub_frame=self._rules.flat_ids[flat],
                    after=len(operations),
                    into=joined.entries,
                    direction=joined.way.way,
                    distance=joined.way.distance,
                    held_by=Hold.ITSELF,
                )
            )
            operations += joined.operations[joined.first :]
        lot = Lot(raises=tuple(raises), operations=tuple(operations))
        return State(placed=placed, raised=state.raised | set(chosen), lots=(*state.lots, lot), cost=cost)

    def boards(self, state: State) -> State | None:
        """Lay in the caught boards whose supports stand."""
        placed, operations = state.placed, list[Operation]()
        for panel, under in self._rules.supports:
            if panel in placed or not under or not under <= placed:
                continue
            way = board_way(self._model, self._room, panel, placed)
            if way is None:
                continue
            placed |= {panel}
            operations.append(board_operation(self._model, panel, way))
        if not operations:
            return None
        lot = Lot(operations=tuple(operations))
        return State(placed=placed, raised=state.raised, lots=(*state.lots, lot), cost=state.cost + weights.STEP)


def board_operation(model: Model, panel: Number, way: Way) -> Operation:
    """Lay a board in."""
    return Operation(
        part=model.panel(panel).id,
        kind=PartKind.PANEL,
        into=(),
        direction=way.way,
        distance=way.distance,
        opens=False,
        held_by=Hold.ITSELF,
    )
