"""From tubes and joints to the solver's model: bars between stations, clamps as springs, couplers as rigid arms."""

from __future__ import annotations

import math
from dataclasses import replace
from enum import Enum
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import MEET_MM
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.model import RIGID, Bar, Bedding, Held, Link, Model, Section, Spring
from tubeframe.structure.stretches import HELD_FAST, Foot, Framed, LetGo, Stretch

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.catalog.limits import Limits
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.joints.joint import Joint, Jointed, PortUse, TubeId
    from tubeframe.structure.stations import Stations

_STANDARD = "emt-3/4"
"""The tube that the stiffness of clamps is stated for."""
_ELEMENT = 400.0
_SHORT = 100.0
_MOST_ELEMENTS = 4
_SPIN = 500.0
"""So little holds a tube's own spin where clamps turn freely that it holds nothing else [N mm/rad]."""


class ClampLevel(Enum):
    """How stiff clamps are taken: not at all, or the low, assumed or high value of the limits."""

    FREE = None
    LOW = LimitKey.CLAMP_LOW
    ASSUMED = LimitKey.CLAMP
    HIGH = LimitKey.CLAMP_HIGH


def framed(
    jointed: Jointed,
    workshop: Workshop,
    level: ClampLevel,
    stations: Stations,
    held: Iterable[tuple[TubeId, TubeEnd, tuple[str, ...]]] = (),
    loose: LetGo = HELD_FAST,
) -> Framed:
    """Make the model of a jointed frame.

    Args:
        jointed: its tubes and joints.
        workshop: sizes of tubes and what is assumed of clamps.
        level: how stiff the clamps are.
        stations: where the tubes have points.
        held: ends that the frame states as held, with their axes.
        loose: clamps that let a tube's end turn.

    """
    return _Framing(jointed, workshop, level, stations, loose).done(tuple(held))


def clamp_stiffness(level: ClampLevel, size: TubeSize, workshop: Workshop) -> float:
    """Return the stiffness of a clamp on a tube [N mm/rad]: the stated one in the ratio of the section moduli."""
    if level.value is None:
        return 0.0
    limits: Limits = workshop.limits
    return limits[level.value] * size.elastic_modulus / workshop.catalog.tube(_STANDARD).elastic_modulus


class _Framing:
    """Gathers points and bars, tube by tube."""

    def __init__(
        self,
        jointed: Jointed,
        workshop: Workshop,
        level: ClampLevel,
        stations: Stations,
        loose: LetGo,
    ) -> None:
        self._jointed = jointed
        self._loose = loose
        self._workshop = workshop
        self._level = level
        self._tubes = {t.id: t for t in jointed.tubes}
        self._rank = {t.id: n for n, t in enumerate(jointed.tubes)}
        self._sizes = {t.id: workshop.catalog.tube(t.size) for t in jointed.tubes}
        self._points = stations.points
        self._at = stations.at
        self._links: list[Link] = []
        self._springs: dict[tuple[TubeId, TubeEnd], Spring] = {}
        self._same: dict[int, int] = {}

    def done(self, stated: tuple[tuple[TubeId, TubeEnd, tuple[str, ...]], ...]) -> Framed:
        for joint in self._jointed.joints:
            if not joint.is_end_piece:
                self._join(joint)
        stretches, bars = self._bars()
        feet = self._feet(stated)
        model = Model(
            points=self._points,
            bars=tuple(bars),
            held=tuple(self._held(foot, stated) for foot in feet),
            links=tuple(self._links),
            beddings=self._tethers() if self._level is ClampLevel.FREE else (),
        )
        return Framed(
            model=_without_loose_points(model),
            tubes=self._tubes,
            sizes=self._sizes,
            stretches=tuple(stretches),
            of_tube=_by_tube(stretches),
            at={t: tuple((place, self._point(n)) for place, n in found) for t, found in self._at.items()},
            feet=feet,
        )

    def _point(self, number: int) -> int:
        return self._same.get(number, number)

    def _nearest(self, use: PortUse) -> int:
        return min(self._at[use.tube], key=lambda found: abs(found[0] - use.at))[1]

    def _join(self, joint: Joint) -> None:
        """Tie a joint's tubes: the fitting goes with a run before an end, and with what is stated first.

        The others are sprung to it.
        """
        body = min(joint.uses, key=lambda u: (u.role is not PortRole.RUN, self._rank[u.tube]))
        home = self._point(self._nearest(body))
        for use in joint.uses:
            if use is body:
                continue
            spring, point = self._spring(joint, use), self._nearest(use)
            near = self._points[point].distance(self._points[home]) <= 2.0 * MEET_MM
            if near and use.end is not None and self._stays_long(use, point, home):
                self._same[point] = home
                self._springs[use.tube, use.end] = spring
            else:
                axis = self._tubes[use.tube].path.tangent(use.at)
                self._links.append(Link(first=home, second=point, axis=axis, spring=spring))

    def _stays_long(self, use: PortUse, point: int, home: int) -> bool:
        """Whether a tube keeps its length when an end of it is put onto another point."""
        others = (self._point(n) for _, n in self._at[use.tube] if n != point)
        return all(self._points[n].distance(self._points[home]) > MEET_MM for n in others)

    def _spring(self, joint: Joint, use: PortUse) -> Spring:
        """Return what a clamp holds a tube with; a sleeve that goes over both ends for long is rigid."""
        if joint.fitting is not None and joint.fitting.kind.is_sleeve:
            return RIGID
        if self._level is ClampLevel.FREE:
            return Spring(twist=_SPIN, bend=0.0)
        port, bend = (joint.id, use.port), clamp_stiffness(self._level, self._sizes[use.tube], self._workshop)
        return Spring(
            twist=_SPIN if port in self._loose.spinning else math.inf,
            bend=0.0 if port in self._loose.hinged else bend,
        )

    def _bars(self) -> tuple[list[Stretch], list[Bar]]:
        stretches, bars = list[Stretch](), list[Bar]()
        for tube in self._jointed.tubes:
            found, section = self._at[tube.id], section_of(self._sizes[tube.id], self._workshop.limits)
            bends = tube.path.bends
            for k, ((low, start), (high, end)) in enumerate(pairwise(found)):
                middle = (low + high) / 2.0
                in_bend = any(at <= middle <= at + bend.length for at, bend in bends)
                bars.append(
                    Bar(
                        start=self._point(start),
                        end=self._point(end),
                        section=section,
                        start_spring=self._springs.get((tube.id, TubeEnd.A), RIGID) if k == 0 else RIGID,
                        end_spring=self._springs.get((tube.id, TubeEnd.B), RIGID) if k == len(found) - 2 else RIGID,
                        elements=1 if in_bend else _elements(high - low),
                    )
                )
                stretches.append(Stretch(tube=tube.id, low=low, high=high, bar=len(bars) - 1))
        return stretches, bars

    def _feet(self, stated: tuple[tuple[TubeId, TubeEnd, tuple[str, ...]], ...]) -> tuple[Foot, ...]:
        named = [(tube, end) for tube, end, _ in stated]
        found = []
        for tube in self._jointed.tubes:
            for end, kind in ((TubeEnd.A, tube.end_a), (TubeEnd.B, tube.end_b)):
                if kind.on_floor is not None or kind is EndKind.STAKE or (tube.id, end) in named:
                    number = self._at[tube.id][0 if end is TubeEnd.A else -1][1]
                    found.append(Foot(tube=tube.id, end=end, kind=kind, point=self._point(number)))
        return tuple(found)

    def _held(self, foot: Foot, stated: tuple[tuple[TubeId, TubeEnd, tuple[str, ...]], ...]) -> Held:
        """Pin an end to the ground, or hold it along the axes that are stated."""
        axes = next((a for tube, end, a in stated if (tube, end) == (foot.tube, foot.end)), ("x", "y", "z"))
        return Held(point=foot.point, along=("x" in axes, "y" in axes, "z" in axes))

    def _tethers(self) -> tuple[Bedding, ...]:
        """Hold the own spin of tubes that fittings go with a little: no spring of theirs does."""
        arms = {link.second for link in self._links}
        found = []
        for tube in self._jointed.tubes:
            own = [(place, n) for place, n in self._at[tube.id] if n not in self._same and n not in arms]
            if own:
                place, point = own[0]
                way = tube.path.tangent(place)
                found.append(Bedding(point=point, about=Vec(way.x**2, way.y**2, way.z**2) * _SPIN))
        return tuple(found)


def section_of(size: TubeSize, limits: Limits) -> Section:
    """Return a tube as the solver's section."""
    return Section(
        young=limits[LimitKey.YOUNG],
        shear=limits[LimitKey.SHEAR],
        area=size.area,
        inertia=size.inertia,
        torsion=2.0 * size.inertia,
        density=size.material.density,
    )


def _by_tube(stretches: Iterable[Stretch]) -> dict[TubeId, tuple[Stretch, ...]]:
    found: dict[TubeId, tuple[Stretch, ...]] = {}
    for stretch in stretches:
        found[stretch.tube] = (*found.get(stretch.tube, ()), stretch)
    return found


def _elements(length: float) -> int:
    return 1 if length <= _SHORT else min(_MOST_ELEMENTS, max(2, math.ceil(length / _ELEMENT)))


def _without_loose_points(model: Model) -> Model:
    """Hold points that no bar ends at, which nothing else would."""
    used = {n for b in model.bars for n in (b.start, b.end)} | {
        n for link in model.links for n in (link.first, link.second)
    }
    loose = tuple(Held(point=n, about=(True, True, True)) for n in range(len(model.points)) if n not in used)
    return replace(model, held=model.held + loose)
