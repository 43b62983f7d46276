"""From loads as a frame states them to forces on its tubes."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.structure.solver.model import BarForce, Forces, Mass, PointForce

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.load import Cover, Load
    from tubeframe.frame.panel import Panel
    from tubeframe.joints.joint import Bearing, Jointed, Tube, TubeId
    from tubeframe.structure.stretches import Framed

GRAVITY = 9.80665
_DOWN = Vec(0.0, 0.0, -1.0)
_PIECES = 4
_ON_END = 25.0
"""A tube's end under a board weighs in the sharing out of a load like this length [mm]."""
_POINT = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """A force in all [N], spread evenly on a tube between two places from its node at A [mm], or at one place."""

    tube: TubeId
    low: float
    high: float
    force: Vec


def places(actions: Iterable[Action]) -> dict[TubeId, list[float]]:
    """Return where tubes need stations for forces to begin, end or stand [mm]."""
    found: dict[TubeId, list[float]] = {}
    for action in actions:
        found.setdefault(action.tube, []).extend([action.low, action.high])
    return found


def forces(actions: Iterable[Action], frame: Framed) -> Forces:
    """Put forces on the bars and points of a model."""
    per_bar: dict[int, Vec] = {}
    at_points = []
    for action in actions:
        length = action.high - action.low
        if length <= _POINT:
            at_points.append(PointForce(point=frame.point_at(action.tube, action.low), force=action.force))
            continue
        for stretch in frame.of_tube[action.tube]:
            over = min(stretch.high, action.high) - max(stretch.low, action.low)
            if over > 0.0:
                share = action.force * (over / length / (stretch.high - stretch.low))
                per_bar[stretch.bar] = per_bar.get(stretch.bar, ORIGIN) + share
    return Forces(points=tuple(at_points), bars=tuple(BarForce(bar=b, per_length=f) for b, f in per_bar.items()))


def of_load(load: Load, total: float, frame: Frame, jointed: Jointed) -> tuple[Action, ...]:
    """Return what a load of a total [N] does to the tubes; nothing where no tube carries its board."""
    force = load.direction * total
    panel = next((p for p in frame.panels if p.id == load.on), None)
    if panel is None:
        return tuple(_on_member(load, force, jointed))
    spot = panel.placement.point(Vec(load.at[0] * panel.length, load.at[1] * panel.width, 0.0))
    return on_board(panel, force, spot, jointed)


def tube_weight(jointed: Jointed, workshop: Workshop) -> tuple[Action, ...]:
    """Return the weight of the tubes; what fittings weigh is not known."""
    weights = [workshop.catalog.tube(t.size).mass_per_length * t.path.length * GRAVITY for t in jointed.tubes]
    return tuple(
        Action(tube=t.id, low=0.0, high=t.path.length, force=_DOWN * w)
        for t, w in zip(jointed.tubes, weights, strict=True)
    )


def board_weight(frame: Frame, jointed: Jointed, workshop: Workshop) -> tuple[Action, ...]:
    """Return what the weight of the boards does to the tubes that carry them."""
    found: list[Action] = []
    for panel in frame.panels:
        density = workshop.catalog.material(panel.material).density * 1e-9
        weight = panel.length * panel.width * panel.thickness * density * GRAVITY
        middle = panel.placement.point(Vec(panel.length / 2.0, panel.width / 2.0, 0.0))
        found += on_board(panel, _DOWN * weight, middle, jointed)
    return tuple(found)


def on_cover(cover: Cover, force: Vec, jointed: Jointed, along: Vec) -> tuple[Action, ...]:
    """Share a force on a cover out to the tubes under it: those at its two ends take half of what the others do.

    Tubes at one place along it take their share together, by their lengths.
    """
    rows: dict[float, list[Tube]] = {}
    for tube in (t for t in jointed.tubes if t.member in cover.over):
        rows.setdefault(round(tube.path.start.dot(along), 1), []).append(tube)
    found: list[Action] = []
    for k, place in enumerate(sorted(rows)):
        share = (0.5 if k in {0, len(rows) - 1} else 1.0) / max(len(rows) - 1, 1)
        length = sum(t.path.length for t in rows[place])
        for tube in rows[place]:
            part = force * (share * tube.path.length / length)
            found.append(Action(tube=tube.id, low=0.0, high=tube.path.length, force=part))
    return tuple(found)


def total(actions: Iterable[Action]) -> Vec:
    """Sum the forces [N]."""
    return sum((a.force for a in actions), ORIGIN)


def _on_member(load: Load, force: Vec, jointed: Jointed) -> Iterator[Action]:
    """Put a load on a member onto the tubes that it is made of, each where it has a part of it."""
    tubes = [t for t in jointed.tubes if t.member == load.on]
    ends = list(accumulate((t.path.length for t in tubes), initial=0.0))
    low, high = load.span if load.span is not None else (0.0, ends[-1])
    for tube, begin, end in zip(tubes, ends, ends[1:], strict=False):
        start, stop = max(low, begin), min(high, end)
        if high - low <= _POINT:
            if begin <= low <= end:
                yield Action(tube=tube.id, low=low - begin, high=low - begin, force=force)
                return
        elif stop > start:
            yield Action(
                tube=tube.id, low=start - begin, high=stop - begin, force=force * ((stop - start) / (high - low))
            )


def on_board(panel: Panel, force: Vec, spot: Vec, jointed: Jointed) -> tuple[Action, ...]:
    """Share a force at a place of a board out to what carries it.

    Every bearing is cut into pieces of even pressure. Of all pressures in equilibrium with the force the ones of the
    least squares are taken; what lies in the board's plane is shared by length.
    """
    bearings = [b for b in jointed.bearings if b.board == panel.id]
    if not bearings:
        return ()
    paths = {t.id: t.path for t in jointed.tubes}
    pieces = [piece for b in bearings for piece in _pieces(b)]
    lengths = np.array([max(high - low, _ON_END) for _, low, high in pieces])
    middles = [panel.placement.seen(paths[t].point((low + high) / 2.0) - spot) for t, low, high in pieces]
    arms = np.array([[1.0, m.x / panel.length, m.y / panel.width] for m in middles])
    normal = panel.placement.z
    pressing = np.sqrt(lengths) * np.linalg.lstsq((arms * np.sqrt(lengths)[:, None]).T, [1.0, 0.0, 0.0], rcond=None)[0]
    along, pressed = force.across(normal), force.dot(normal)
    return tuple(
        Action(
            tube=tube,
            low=low,
            high=high,
            force=normal * (pressed * float(share)) + along * (float(length) / float(lengths.sum())),
        )
        for (tube, low, high), share, length in zip(pieces, pressing, lengths, strict=True)
    )


def _pieces(bearing: Bearing) -> list[tuple[TubeId, float, float]]:
    if bearing.end - bearing.start <= _POINT:
        return [(bearing.tube, bearing.start, bearing.start)]
    step = (bearing.end - bearing.start) / _PIECES
    return [(bearing.tube, bearing.start + k * step, bearing.start + (k + 1) * step) for k in range(_PIECES)]


def masses(boards: Iterable[Action], frame: Framed) -> tuple[Mass, ...]:
    """Return what boards add to the tubes' own mass, at points [kg]."""
    found: dict[int, float] = {}
    for action in boards:
        point = frame.point_at(action.tube, (action.low + action.high) / 2.0)
        found[point] = found.get(point, 0.0) - action.force.z / GRAVITY
    return tuple(Mass(point=p, mass=m) for p, m in found.items() if m > 0.0)
