"""Where what lies flat is parted: straight lines across it, at joints or midway between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.geometry.path import Arc

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.full_size.laid_flat import Flat, MarkedTube
    from tubeframe.geometry.path import PathPiece

_GRID = 25.0
"""Where nothing better is near, a line may run at any of these [mm]."""
_CLEAR = 2.5
"""A line between two joints keeps so far off both, and off bends and ends [diameters]."""
_AT = 0.01
_STEEPEST = math.sin(math.radians(45.0))
"""A tube that crosses at a smaller angle than this makes a poor mark to lay parts by."""
_BEND, _ALONG, _NEAR = 1000, 100000, 1
"""What speaks against a line: it runs through a bend or a slanting tube, along a tube, near a joint."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Where a line crosses a tube: its distance from end A, and the coordinate along the line [mm]."""

    tube: MarkedTube
    at: float
    along: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlace:
    """A coordinate where a line may run [mm], its faults, and what else speaks against it: 0 at a joint's middle."""

    at: float
    faults: int = 0
    cost: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLines:
    """Coordinates of lines that part what lies flat, rising [mm], and their faults together."""

    places: tuple[float, ...]
    faults: int


def cut_places(flat: Flat, axis: int, low: float, high: float) -> tuple[CutPlace, ...]:
    """List where a line square to an axis (0 or 1) may run between two limits; these come first and last [mm]."""
    inner = (_judged(flat, axis, place) for place in _candidates(flat, axis, low, high))
    return (CutPlace(at=low), *inner, CutPlace(at=high))


def cut_lines(places: Sequence[CutPlace], room: float) -> CutLines | None:
    """Return lines between the first place and the last that leave no part longer than a room [mm].

    Those with the least faults, such as a bend that is cut or a tube along the line; of these the fewest; of these at
    joints' middles, else midway between two joints. None when there are no such lines.
    """
    best: list[tuple[tuple[int, int, float], tuple[float, ...]] | None] = [((0, 0, 0.0), ())]
    for place in places[1:]:
        found = None
        for k, before in enumerate(best):
            if before is None or place.at - places[k].at > room:
                continue
            (faults, count, cost), way = before
            total = (faults + place.faults, count + 1, cost + place.cost)
            if found is None or total < found[0]:
                found = (total, (*way, place.at))
        best.append(found)
    last = best[-1]
    return None if last is None else CutLines(places=last[1][:-1], faults=last[0][0])


def crossings(flat: Flat, axis: int, place: float) -> list[Crossing]:
    """Return where a line square to an axis, at a coordinate [mm], crosses tubes, in rising order along it."""
    found = [
        Crossing(tube=tube, at=at, along=flat.view.project(tube.piece.path.point(at))[1 - axis])
        for tube in flat.tubes
        for at in _meets(flat, tube, axis, place)
    ]
    return sorted(found, key=lambda c: c.along)


def _candidates(flat: Flat, axis: int, low: float, high: float) -> list[float]:
    """List coordinates between two limits, rising, none twice [mm]."""
    found = [low + _GRID * k for k in range(1, math.ceil((high - low) / _GRID))]
    for tube in flat.tubes:
        path = tube.piece.path
        stations = [s.from_a for s in tube.piece.stations]
        features = _features(tube)
        places = stations + [(a + b) / 2.0 for a, b in pairwise(features)]
        found += [flat.view.project(path.point(at))[axis] for at in places]
    kept: list[float] = []
    for place in sorted(p for p in found if low + 1.0 < p < high - 1.0):
        if not kept or place - kept[-1] > 1e-6:
            kept.append(place)
    return kept


def _features(tube: MarkedTube) -> list[float]:
    """List where a tube's ends, stations, and bends' starts and ends are, from its end A, rising [mm]."""
    piece = tube.piece
    bends = [at for b in piece.bends for at in (b.start_from_a, b.start_from_a + b.radius * math.radians(b.angle))]
    return sorted({0.0, piece.cut_length, *(s.from_a for s in piece.stations), *bends})


def _judged(flat: Flat, axis: int, place: float) -> CutPlace:
    """Say what speaks against a line."""
    faults, cost = sum(_faults(flat, tube, axis, place) for tube in flat.tubes), 0.0
    for crossing in crossings(flat, axis, place):
        at, tube = crossing.at, crossing.tube
        if any(abs(s.from_a - at) < _AT for s in tube.piece.stations):
            continue
        features = _features(tube)
        before = min((at - f for f in features if f <= at), default=0.0)
        after = min((f - at for f in features if f >= at), default=0.0)
        if min(before, after) < _CLEAR * 2.0 * tube.radius:
            faults += _NEAR
        cost += 1.0 + abs(before - after) / max(before + after, 1.0)
    return CutPlace(at=place, faults=faults, cost=cost)


def _faults(flat: Flat, tube: MarkedTube, axis: int, place: float) -> int:
    """Count what is wrong where a line meets a tube."""
    faults = 0
    for part in tube.piece.path.pieces:
        way = flat.view.project(part.end_tangents[0])
        ends = sorted((flat.view.project(part.start)[axis], flat.view.project(part.end)[axis]))
        if isinstance(part, Arc):
            faults += _BEND if _on_part(flat, part, axis, place) else 0
        elif abs(way[axis]) < _STEEPEST and ends[0] - 2.0 * tube.radius < place < ends[1] + 2.0 * tube.radius:
            faults += _ALONG if abs(way[axis]) < 0.1 else _BEND
    return faults


def _meets(flat: Flat, tube: MarkedTube, axis: int, place: float) -> list[float]:
    """Return how far from a tube's end A a line crosses it [mm]."""
    found: list[float] = []
    for begin, part in tube.piece.path.stretches():
        for at in _on_part(flat, part, axis, place):
            if not found or begin + at - found[-1] > _AT:
                found.append(begin + at)
    return found


def _on_part(flat: Flat, part: PathPiece, axis: int, place: float) -> list[float]:
    """Return how far from its start a line crosses a straight or a bend [mm]."""
    if not isinstance(part, Arc):
        start, end = (flat.view.project(p)[axis] for p in (part.start, part.end))
        if abs(end - start) < 1e-9 or not min(start, end) <= place <= max(start, end):
            return []
        return [(place - start) / (end - start) * part.length]
    centre = flat.view.project(part.centre)[axis]
    out, way = (flat.view.project(v)[axis] for v in (-part.inward, part.start_tangent))
    return _turns(out, way, (place - centre) / part.radius, part.angle, part.radius)


def _turns(out: float, way: float, share: float, angle: float, radius: float) -> list[float]:
    """Solve out cos q + way sin q = share for q from 0 to an angle [radian]; return each as length [mm]."""
    size = math.hypot(out, way)
    if size < 1e-9 or abs(share) > size:
        return []
    middle, half = math.atan2(way, out), math.acos(share / size)
    turns = sorted({(middle - half) % math.tau, (middle + half) % math.tau})
    return [q * radius for q in turns if q <= angle]
