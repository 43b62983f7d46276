"""Which fitting takes a node, and how it is turned: a fitting's ports laid onto the node's directions."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations, permutations, product
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import LIFT, FittingKind, Port, PortRole
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import ANGLE_DEG, TINY
from tubeframe.geometry.vector import ORIGIN, X, Y, Z, angle_deg, any_square_to
from tubeframe.joints.reasons import Better, Mirrored, OtherAngle, OtherCount, OutOfSwing, Spare

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

    from tubeframe.frame.node import Incidence, Node, Role
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.reasons import Reason

Shape = tuple[tuple[tuple["Role", "Vec"], ...], tuple["Vec", ...]]
_NOT_THIS = 360.0
"""How far off a kind is that takes another number of tubes [degree]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A kind that takes a node: which tube in which port, how it is turned, and the angle of a port that swings."""

    kind: FittingKind
    held: tuple[tuple[Port, Incidence], ...]
    turn: Placement
    angle: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A kind that was not taken: why, and by how much its angles are off [degree]; 0 when it would do as well."""

    kind: str
    why: Reason
    off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Selection:
    """What was chosen, in every way that it can be turned, the plainest first; and why the others were not."""

    ways: tuple[Match, ...]
    refusals: tuple[Refusal, ...]

    @property
    def match(self) -> Match | None:
        """The chosen kind, turned the plainest way."""
        return self.ways[0] if self.ways else None

    @property
    def nearest(self) -> Refusal | None:
        """The kind for as many tubes whose angles are the least off, when none fits."""
        close = [r for r in self.refusals if r.off < _NOT_THIS]
        return min(close, key=lambda r: r.off, default=None)


def select(
    node: Node,
    kinds: Sequence[FittingKind],
    wanted: Collection[str] = (),
    price: Callable[[Match], float | None] | None = None,
    fits: Fits | None = None,
) -> Selection:
    """Choose the kind that takes a node: one that is wanted before the others, else the first of the table.

    With prices, one known to be cheaper than that one is taken instead. `fits` remembers what was found of others.
    """
    fitting, refused = (fits or Fits(kinds)).of(node)
    chosen, better = _first_choice(fitting, wanted, price)
    refusals = [
        refused.get(k.key) or Refusal(kind=k.key, why=Spare(chosen=chosen, better=better), off=0.0)
        for k in kinds
        if k.key != chosen and (k.key in refused or k.key in fitting)
    ]
    return Selection(ways=fitting.get(chosen, ()), refusals=tuple(refusals))


class Fits:
    """Which kinds take nodes in which turns, and why the others do not: nodes of one shape are looked at once."""

    __slots__ = ("_kinds", "_known")

    def __init__(self, kinds: Sequence[FittingKind]) -> None:
        """Take the kinds to choose from."""
        self._kinds = kinds
        self._known: dict[Shape, tuple[Node, dict[str, tuple[Match, ...]], dict[str, Refusal]]] = {}

    def of(self, node: Node) -> tuple[dict[str, tuple[Match, ...]], dict[str, Refusal]]:
        """Return the ways of every kind that takes a node, and why each of the others does not."""
        shape = _shape(node)
        if shape not in self._known:
            fitting = {k.key: found for k in self._kinds if (found := tuple(_matches(k, node)))}
            others = [k for k in self._kinds if k.key not in fitting and not k.ports_of(PortRole.END)]
            self._known[shape] = (node, fitting, {k.key: _refusal(k, node) for k in others})
        like, fitting, refused = self._known[shape]
        if like is node:
            return fitting, refused
        now = {id(there): here for there, here in zip(like.incidences, node.incidences, strict=True)}
        return {key: tuple(_held_by(match, now) for match in found) for key, found in fitting.items()}, refused


def _shape(node: Node) -> Shape:
    """Return all that decides which kinds take a node: roles and directions, and the way from one run to the other."""
    runs = node.runs
    return tuple((i.role, i.way) for i in node.incidences), tuple(r.point - runs[0].point for r in runs[1:])


def _held_by(match: Match, now: Mapping[int, Incidence]) -> Match:
    """Return the same match with the tubes of another node of the same shape."""
    held = tuple((port, now[id(incidence)]) for port, incidence in match.held)
    return Match(kind=match.kind, held=held, turn=match.turn, angle=match.angle)


def _first_choice(
    fitting: Mapping[str, Sequence[Match]], wanted: Collection[str], price: Callable[[Match], float | None] | None
) -> tuple[str, Better]:
    """Return the kind that is taken, and what it has over the others; none when none fits."""
    asked = [n for n in fitting if n in wanted]
    names = asked or [name for name, ways in fitting.items() if not ways[0].kind.is_loose]
    plainest = next(iter(names), "")
    known = {n: p for n in names if price is not None and (p := price(fitting[n][0])) is not None}
    if plainest in known:
        cheapest = min(known, key=known.__getitem__)
        if cheapest != plainest:
            return cheapest, Better.CHEAPER
    return plainest, Better.ASKED_FOR if asked else Better.PLAINER


def _matches(kind: FittingKind, node: Node) -> Iterator[Match]:
    """Give every different turn in which a kind takes a node."""
    known: list[Placement] = []
    for held, axes in _ways_in(kind, node):
        angle = _swing(kind, held, axes)
        if kind.swings and angle is None:
            continue
        turn = _turn(kind, held, axes, angle)
        if turn is not None and not any(_same(turn, k) for k in known):
            known.append(turn)
            yield Match(kind=kind, held=held, turn=turn, angle=angle)


def _same(a: Placement, b: Placement) -> bool:
    return angle_deg(a.x, b.x) <= ANGLE_DEG and angle_deg(a.y, b.y) <= ANGLE_DEG


def _ways_in(kind: FittingKind, node: Node) -> Iterator[tuple[tuple[tuple[Port, Incidence], ...], tuple[Vec, ...]]]:
    """Give every way of putting a node's tubes into a kind's ports: the pairs, and each port's axis in space."""
    runs, branches = kind.ports_of(PortRole.RUN), kind.ports_of(PortRole.BRANCH)
    if kind.ports_of(PortRole.END) or (len(runs), len(branches)) != (len(node.runs), len(node.branches)):
        return
    for run_order, branch_order in product(permutations(node.runs), permutations(node.branches)):
        held = tuple(zip(runs + branches, run_order + branch_order, strict=True))
        for senses in product((1.0, -1.0), repeat=len(runs)):
            signs = senses + (1.0,) * len(branches)
            yield held, tuple(i.way * sign for (_, i), sign in zip(held, signs, strict=True))


def _swing(kind: FittingKind, held: tuple[tuple[Port, Incidence], ...], axes: tuple[Vec, ...]) -> float | None:
    """Return the angle of the port that swings [degree]; None when none does, or when it is out of range."""
    swing = next((p.swing for p in kind.ports if p.swing), None)
    if swing is None:
        return None
    angle = _turned(kind, held, axes)
    return angle if swing[0] <= angle <= swing[1] else None


def _turned(kind: FittingKind, held: tuple[tuple[Port, Incidence], ...], axes: tuple[Vec, ...]) -> float:
    """Return the angle between the port that swings and the one that it swings from, as they are held [degree]."""
    by_port = {port.name: axis for (port, _), axis in zip(held, axes, strict=True)}
    return angle_deg(by_port[kind.turns_from.name], next(by_port[p.name] for p in kind.ports if p.swing))


def _pairs(
    kind: FittingKind, held: tuple[tuple[Port, Incidence], ...], axes: tuple[Vec, ...], angle: float | None
) -> list[tuple[Vec, Vec]]:
    """Pair every direction of a kind with the one in space that it has to lie on; a coupler's lift, if any."""
    pairs = [(port.axis_at(angle), axis) for (port, _), axis in zip(held, axes, strict=True)]
    gap = held[1][1].point - held[0][1].point if kind.is_coupler else ORIGIN
    return [*pairs, (LIFT, gap.unit)] if gap.length > TINY else pairs


def _turn(
    kind: FittingKind, held: tuple[tuple[Port, Incidence], ...], axes: tuple[Vec, ...], angle: float | None
) -> Placement | None:
    """Return the rotation that lays every port's axis on its tube's within the tolerance, if there is one."""
    pairs = _pairs(kind, held, axes, angle)
    if kind.is_coupler and len(pairs) == len(held):
        return None
    second = next(((a, b) for a, b in pairs[1:] if ANGLE_DEG < angle_deg(pairs[0][0], a) < 180.0 - ANGLE_DEG), None)
    if second is None:
        second = (kind.ports[0].up, any_square_to(pairs[0][1]))
    elif not ANGLE_DEG < angle_deg(pairs[0][1], second[1]) < 180.0 - ANGLE_DEG:
        return None
    turn = _rotation(pairs[0], second)
    fits = all(angle_deg(turn.direction(local), axis) <= ANGLE_DEG for local, axis in pairs)
    return turn if fits else None


def toward(match: Match, way: Vec, wanted: Vec) -> Match:
    """Turn a kind of one run about it until a way of its own frame is as near as can be to one that is wanted."""
    (port, held), *_ = match.held
    flat = wanted.across(held.way)
    if flat.length < TINY:
        return match
    return replace(match, turn=_rotation((port.axis, held.way), (way, flat.unit)))


def _rotation(first: tuple[Vec, Vec], second: tuple[Vec, Vec]) -> Placement:
    """Return the rotation that takes one local direction to its image, and another into its image's half plane."""
    local = from_axes(origin=first[0] * 0.0, x=first[0], toward=second[0])
    space = from_axes(origin=first[1] * 0.0, x=first[1], toward=second[1])
    columns = [space.direction(local.seen(axis)) for axis in (X, Y, Z)]
    return Placement(x=columns[0], y=columns[1], z=columns[2])


def _refusal(kind: FittingKind, node: Node) -> Refusal:
    """Say why a kind does not take a node, by the way in which its angles are least off."""
    ways = list(_ways_in(kind, node))
    if not ways:
        runs, branches = len(kind.ports_of(PortRole.RUN)), len(kind.ports_of(PortRole.BRANCH))
        return Refusal(kind=kind.key, why=OtherCount(runs=runs, branches=branches), off=_NOT_THIS)
    if kind.swings and not any(_swing(kind, held, axes) is not None for held, axes in ways):
        return _out_of_swing(kind, min(_turned(kind, held, axes) for held, axes in ways))
    has, wants = min((_worst_angle(kind, held, axes) for held, axes in ways), key=lambda pair: abs(pair[0] - pair[1]))
    if abs(has - wants) <= ANGLE_DEG:
        return Refusal(kind=kind.key, why=Mirrored(), off=ANGLE_DEG)
    return Refusal(kind=kind.key, why=OtherAngle(has=has, wants=wants), off=abs(has - wants))


def _out_of_swing(kind: FittingKind, angle: float) -> Refusal:
    low, high = next(p.swing for p in kind.ports if p.swing)
    why = OutOfSwing(low=low, high=high, angle=angle)
    return Refusal(kind=kind.key, why=why, off=min(abs(angle - low), abs(angle - high)))


def _worst_angle(
    kind: FittingKind, held: tuple[tuple[Port, Incidence], ...], axes: tuple[Vec, ...]
) -> tuple[float, float]:
    """Return the angle of two of its directions that is the most off, and what it is in space [degree]."""
    pairs = _pairs(kind, held, axes, _swing(kind, held, axes))
    angles = [(angle_deg(a, b), angle_deg(c, d)) for (a, c), (b, d) in combinations(pairs, 2)]
    return max(angles, key=lambda pair: abs(pair[0] - pair[1]), default=(0.0, 0.0))
