"""Tubes that run into each other where no fitting holds them together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import segments
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.grid import near_pairs
from tubeframe.geometry.overlap import depth
from tubeframe.geometry.tolerance import COUPLER_MM
from tubeframe.joints.facts import Fouling
from tubeframe.joints.room_facts import EndInTube

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.geometry.convex import Convex
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Tube, TubeId
    from tubeframe.joints.things import Thing, Things

_AROUND = 2.0
"""So many times both radii around a fitting, what its tubes do to each other is the fitting's matter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hit:
    """A place where two tubes are in each other: how near their axes are, both radii, and how deep it is [mm]."""

    at: Vec
    bars: tuple[Cylinder, Cylinder]
    gap: float
    least: float
    deep: float


def fouling_findings(tubes: Sequence[Tube], joints: Sequence[Joint], things: Things) -> Iterator[Finding]:
    """Find tubes, as they are cut and bent, in each other where no fitting holds them together."""
    together = _together(joints)
    for i, j in near_pairs(t.hull for t in things.tubes).pairs:
        for hit in _hits(things.tubes[i], things.tubes[j], together.get((tubes[i].id, tubes[j].id), ())):
            fact: EndInTube | Fouling | None = _end_fact(i, j, tubes, things, hit) or _end_fact(
                j, i, tubes, things, hit
            )
            if fact is None:
                bent = any(_is_bend(bar, things.cuts[k]) for k, bar in zip((i, j), hit.bars, strict=True))
                fact = Fouling(first=tubes[i].id, second=tubes[j].id, distance=hit.gap, least=hit.least, on_bend=bent)
            yield Finding(code="J-fouls", severity=Severity.ERROR, subjects=(tubes[i].id, tubes[j].id), fact=fact)


def _hits(first: Thing, second: Thing, tied: Sequence[Vec]) -> list[_Hit]:
    """Return where two tubes are in each other off the places where they are tied: the nearest of each stretch."""
    found = []
    for p, q in first.touching(second):
        if not (isinstance(p, Cylinder) and isinstance(q, Cylinder)):
            continue
        along, _, gap = segments(p.start, p.end, q.start, q.end)
        least = p.radius + q.radius
        at = p.start + (p.end - p.start).unit * along
        if gap < least - COUPLER_MM and all(at.distance(t) > _AROUND * least for t in tied):
            deep = depth(p, q, COUPLER_MM)
            found += [_Hit(at=at, bars=(p, q), gap=gap, least=least, deep=deep)] if deep else []
    kept: list[_Hit] = []
    for hit in sorted(found, key=lambda h: h.gap):
        if all(hit.at.distance(k.at) > _AROUND * hit.least for k in kept):
            kept.append(hit)
    return kept


def _end_fact(number: int, other: int, tubes: Sequence[Tube], things: Things, hit: _Hit) -> EndInTube | None:
    """Return what is wrong when it is a tube's end whose middle is inside another tube."""
    cut, bars = things.cuts[number], things.tubes[other].pieces
    for end, point in ((TubeEnd.A, cut.start), (TubeEnd.B, cut.end)):
        if point.distance(hit.at) <= hit.least and any(_is_in(p, point) for p in bars):
            return EndInTube(tube=tubes[number].id, end=end, other=tubes[other].id, short=hit.deep)
    return None


def _is_bend(bar: Cylinder, cut: Path) -> bool:
    """Whether a piece of a tube is a bend's chord, not one of its straights."""
    return all((s.start, s.end) != (bar.start, bar.end) for s in cut.pieces)


def _is_in(bar: Convex, point: Vec) -> bool:
    if not isinstance(bar, Cylinder):
        return False
    way, off = bar.end - bar.start, point - bar.start
    return 0.0 <= off.dot(way) <= way.dot(way) and off.across(way.unit).length < bar.radius - COUPLER_MM


def _together(joints: Sequence[Joint]) -> dict[tuple[TubeId, TubeId], list[Vec]]:
    """Return, for every two tubes that share fittings, where."""
    found: dict[tuple[TubeId, TubeId], list[Vec]] = {}
    for joint in joints:
        names = dict.fromkeys(u.tube for u in joint.uses)
        for pair in ((a, b) for a in names for b in names if a != b):
            found.setdefault(pair, []).append(joint.at)
    return found
