"""Sub-frames built lying on the floor: those that are alike in one go, a few tubes a step."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import permutations
from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.assembly.constraints import Rules
    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.joining import Joining
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number
    from tubeframe.assembly.step import Operation

_SAME = 0.05
"""Two sub-frames are alike when their tubes' ends lie alike within this [mm]."""
_TRIES = 24
"""So many orders of the tubes of a sub-frame are tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatLot:
    """What is added to a sub-frame in a step, in each of those that are alike."""

    tubes: tuple[Number, ...]
    operations: tuple[Operation, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """Sub-frames that are alike, how they are built, and what is placed of each then."""

    sub_frames: tuple[str, ...]
    lots: tuple[FlatLot, ...]
    placed: tuple[Placed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _One:
    """One sub-frame's building."""

    lots: tuple[FlatLot, ...]
    placed: Placed


def built_flat(model: Model, joining: Joining, rules: Rules) -> tuple[Built, ...]:
    """Build every sub-frame on the floor; those made alike together. One that cannot be built is left out."""
    groups: list[list[tuple[str, tuple[Number, ...]]]] = []
    for name, tubes in zip(rules.flat_ids, rules.flats, strict=True):
        found = next(((g, like) for g in groups if (like := alike(model, g[0][1], tubes))), None)
        if found is None:
            groups.append([(name, tubes)])
        else:
            found[0].append((name, found[1]))
    return tuple(made for g in groups for made in _together(model, joining, rules, g))


def alike(model: Model, first: Sequence[Number], second: Sequence[Number]) -> tuple[Number, ...] | None:
    """Return the tubes of the second sub-frame in the order of the first's they are like; None when it is another one.

    The second is the first, moved and turned (not mirrored): tubes cut and bent alike, ends in the same places. What
    they carry for later may differ, and with it their marks: they lie alike on the floor.
    """
    if len(first) != len(second):
        return None
    middles = _middle(model, first), _middle(model, second)
    for turn in _turns():
        mapped = _mapped(model, first, second, middles, turn)
        if mapped is not None:
            return mapped
    return None


def _mapped(
    model: Model, first: Sequence[Number], second: Sequence[Number], middles: tuple[Vec, Vec], turn: tuple[Vec, ...]
) -> tuple[Number, ...] | None:
    left = list(second)
    found: list[Number] = []
    for tube in first:
        ends = [_turned(p - middles[0], turn) + middles[1] for p in _ends(model, tube)]
        match = next((t for t in left if _is_like(model, tube, t) and _same_ends(ends, _ends(model, t))), None)
        if match is None:
            return None
        left.remove(match)
        found.append(match)
    return tuple(found)


def _turns() -> Iterator[tuple[Vec, ...]]:
    """Give the 24 turns of the axes onto each other, the plainest first."""
    axes = (Vec(1.0, 0.0, 0.0), Vec(0.0, 1.0, 0.0), Vec(0.0, 0.0, 1.0))
    for order in permutations(axes):
        for signs in (
            (1, 1, 1),
            (-1, -1, 1),
            (-1, 1, -1),
            (1, -1, -1),
            (-1, 1, 1),
            (1, -1, 1),
            (1, 1, -1),
            (-1, -1, -1),
        ):
            x, y, z = (axis * float(sign) for axis, sign in zip(order, signs, strict=True))
            if x.cross(y).dot(z) > 0.0:
                yield (x, y, z)


def _turned(point: Vec, turn: tuple[Vec, ...]) -> Vec:
    return turn[0] * point.x + turn[1] * point.y + turn[2] * point.z


def _is_like(model: Model, a: Number, b: Number) -> bool:
    one, other = model.piece(a), model.piece(b)
    same = one.size == other.size and len(one.bends) == len(other.bends)
    return same and abs(one.cut_length - other.cut_length) < _SAME


def _same_ends(a: Sequence[Vec], b: Sequence[Vec]) -> bool:
    return any(all(p.distance(q) < _SAME for p, q in zip(a, way, strict=True)) for way in (b, b[::-1]))


def _ends(model: Model, tube: Number) -> tuple[Vec, Vec, Vec]:
    path = model.piece(tube).path
    return (path.start, path.point(path.length / 2.0), path.end)


def _middle(model: Model, tubes: Sequence[Number]) -> Vec:
    points = [p for t in tubes for p in _ends(model, t)]
    total = points[0]
    for point in points[1:]:
        total += point
    return total * (1.0 / len(points))


def _together(
    model: Model, joining: Joining, rules: Rules, group: Sequence[tuple[str, tuple[Number, ...]]]
) -> Iterator[Built]:
    """Build the first, and the others by its order; one that does not go by it is built for itself."""
    first = _built(model, joining, rules, group[0][1])
    if first is None:
        return
    order = [t for lot in first.lots for t in lot.tubes]
    names, made = [group[0][0]], [first]
    apart: list[tuple[str, tuple[Number, ...]]] = []
    for name, tubes in group[1:]:
        like = dict(zip(group[0][1], tubes, strict=True))
        other = _in_order(model, joining, rules, [like[t] for t in order], _Looks())
        if other is None or [len(x.tubes) for x in other.lots] != [len(x.tubes) for x in first.lots]:
            apart.append((name, tubes))
            continue
        names.append(name)
        made.append(other)
    lots = tuple(
        FlatLot(
            tubes=tuple(t for one in made for t in one.lots[n].tubes),
            operations=tuple(o for one in made for o in one.lots[n].operations),
        )
        for n in range(len(first.lots))
    )
    yield Built(sub_frames=tuple(names), lots=lots, placed=tuple(one.placed for one in made))
    if apart:
        yield from _together(model, joining, rules, apart)


def _built(model: Model, joining: Joining, rules: Rules, tubes: Sequence[Number]) -> _One | None:
    """Try some orders: as it touches from each tube on; the fewest steps count."""
    best: _One | None = None
    looks = _Looks()
    for start in list(tubes)[:_TRIES]:
        found = _in_order(model, joining, rules, [start, *(t for t in tubes if t != start)], looks)
        if found is not None and (best is None or len(found.lots) < len(best.lots)):
            best = found
    return best


class _Looks:
    """Looks that may still be taken at whether a tube gets in: counted, so that it ends alike on every machine."""

    def __init__(self) -> None:
        self._left = weights.MOST_LOOKS

    def take(self, number: int) -> bool:
        """Count some, and tell whether they may be taken."""
        self._left -= number
        return self._left > 0


def _in_order(model: Model, joining: Joining, rules: Rules, tubes: Sequence[Number], looks: _Looks) -> _One | None:
    barred = next((b for b, f in zip(rules.barred, rules.flats, strict=True) if tubes[0] in f), frozenset())
    placed: Placed = frozenset()
    waiting = list(tubes)
    lots: list[FlatLot] = []
    while waiting:
        taken: list[Number] = []
        operations: list[Operation] = []
        while waiting and len(taken) < weights.MOST_TUBES:
            found = next(
                (
                    (t, j)
                    for t in waiting
                    if _may(model, t, taken, placed)
                    and looks.take(len(waiting))
                    and (j := joining.joined((t,), frozenset(), placed, early=rules.early, barred=barred, flat=True))
                    and not _locks(model, joining, rules, waiting, t, placed | j.new, barred)
                ),
                None,
            )
            if found is None:
                break
            tube, joined = found
            waiting.remove(tube)
            taken.append(tube)
            operations += joined.operations
            placed |= joined.new
        if not taken:
            return None
        lots.append(FlatLot(tubes=tuple(taken), operations=tuple(operations)))
    return _One(lots=tuple(lots), placed=placed)


def _may(model: Model, tube: Number, taken: Sequence[Number], placed: Placed) -> bool:
    marks = {model.marks[model.piece(t).id] for t in (*taken, tube)}
    touches = not placed or any(o in placed for _, o in model.neighbours(tube))
    return touches and len(marks) <= weights.MOST_KINDS


def _locks(
    model: Model,
    joining: Joining,
    rules: Rules,
    waiting: Sequence[Number],
    tube: Number,
    placed: Placed,
    barred: Placed,
) -> bool:
    """Whether another tube of the sub-frame would not get in any more."""
    return any(
        joining.joined((t,), frozenset(), placed, early=rules.early, barred=barred, flat=True) is None
        for t in waiting
        if t != tube and any(o in placed for _, o in model.neighbours(t))
    )
