"""Which fitting takes a node, and how it is turned: a fitting's ports laid onto the node's directions."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import permutations, product
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import LIFT, FittingKind, Port, PortRole
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import ANGLE_DEG
from tubeframe.geometry.vector import X, Y, Z, angle_deg, any_square_to

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from tubeframe.frame.node import Incidence, Node
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A kind that takes a node: which tube in which port, how it is turned, and the angle of a port that swings."""

    kind: FittingKind
    held: tuple[tuple[Port, Incidence], ...]
    turn: Placement
    angle: float | None


def select(node: Node, kinds: Iterable[FittingKind]) -> Match | None:
    """Return the first kind that takes a node, in the order given."""
    for kind in kinds:
        for held, axes in _ways_in(kind, node):
            angle = _swing(kind, axes)
            if kind.swings and angle is None:
                continue
            turn = _turn(kind, held, axes, angle)
            if turn is not None:
                return Match(kind=kind, held=held, turn=turn, angle=angle)
    return None


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


def _swing(kind: FittingKind, axes: tuple[Vec, ...]) -> float | None:
    """Return the angle of the port that swings, from the first port [degree]; None when it is out of range."""
    swing = next((p.swing for p in kind.ports if p.swing), None)
    if swing is None:
        return None
    angle = angle_deg(axes[0], axes[1])
    return angle if swing[0] <= angle <= swing[1] else None


def _turn(
    kind: FittingKind, held: tuple[tuple[Port, Incidence], ...], axes: tuple[Vec, ...], angle: float | None
) -> Placement | None:
    """Return the rotation that lays every port's axis on its tube's within the tolerance, if there is one."""
    pairs = [(port.axis_at(angle), axis) for (port, _), axis in zip(held, axes, strict=True)]
    if kind.is_coupler:
        pairs.append((LIFT, (held[1][1].point - held[0][1].point).unit))
    second = next(((a, b) for a, b in pairs[1:] if ANGLE_DEG < angle_deg(pairs[0][0], a) < 180.0 - ANGLE_DEG), None)
    if second is None:
        second = (kind.ports[0].up, any_square_to(pairs[0][1]))
    elif not ANGLE_DEG < angle_deg(pairs[0][1], second[1]) < 180.0 - ANGLE_DEG:
        return None
    turn = _rotation(pairs[0], second)
    fits = all(angle_deg(turn.direction(local), axis) <= ANGLE_DEG for local, axis in pairs)
    return turn if fits else None


def _rotation(first: tuple[Vec, Vec], second: tuple[Vec, Vec]) -> Placement:
    """Return the rotation that takes one local direction to its image, and another into its image's half plane."""
    local = from_axes(origin=first[0] * 0.0, x=first[0], toward=second[0])
    space = from_axes(origin=first[1] * 0.0, x=first[1], toward=second[1])
    columns = [space.direction(local.seen(axis)) for axis in (X, Y, Z)]
    return Placement(x=columns[0], y=columns[1], z=columns[2])
