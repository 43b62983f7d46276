"""What the tubes themselves stand."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.catalog.limits import LimitKey
from tubeframe.joints.joint import uses_by_tube
from tubeframe.structure.resistance import Steel, bent, pressed, pulled, together

if TYPE_CHECKING:
    from tubeframe.catalog.limits import Limits
    from tubeframe.joints.joint import Jointed, TubeId
    from tubeframe.structure.solver.elements import Floats, Indices
    from tubeframe.structure.solver.solve import Answer
    from tubeframe.structure.stretches import Framed

_LEVEL = 0.5
"""Tubes steeper than this cosine to the floor do not sag."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """The governing tube: how much it uses of what it may."""

    tube: TubeId
    use: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch of a tube between two fittings, from its node at A [mm]; whether it lies rather than stands."""

    low: float
    high: float
    lies: bool


Spans = dict["TubeId", tuple[Span, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strengths:
    """What each element may bear, pulled, pressed [N] and bent [N mm] (n,), and its tube."""

    pulled: Floats
    pressed: Floats
    bent: Floats
    tubes: tuple[TubeId, ...]


def strengths(limits: Limits, frame: Framed, bar: Indices, between: Spans) -> Strengths:
    """Work out what the elements of bars of these numbers bear: AISC 360, buckling from fitting to fitting."""
    steel = Steel(young=limits[LimitKey.YOUNG], strength=limits[LimitKey.YIELD])
    rows = []
    for stretch in frame.stretches:
        size, middle = frame.sizes[stretch.tube], (stretch.low + stretch.high) / 2.0
        found = between[stretch.tube]
        length = next((s.high - s.low for s in found if s.low <= middle <= s.high), stretch.high - stretch.low)
        rows.append((pulled(size, steel), pressed(size, length, steel), bent(size, steel)))
    values = np.array(rows)[bar] / limits[LimitKey.STRENGTH_FACTOR]
    tubes = tuple(frame.stretches[b].tube for b in bar)
    return Strengths(pulled=values[:, 0], pressed=values[:, 1], bent=values[:, 2], tubes=tubes)


def spans(jointed: Jointed) -> Spans:
    """Return the stretches of each tube between its fittings."""
    uses = uses_by_tube(jointed.joints)
    found = {}
    for tube in jointed.tubes:
        held = {0.0, tube.path.length, *(u.at for _, u in uses.get(tube.id, ()))}
        between = [(a, b) for a, b in pairwise(sorted(held)) if b - a > 1.0]
        ends = [(tube.path.point(a), tube.path.point(b)) for a, b in between]
        found[tube.id] = tuple(
            Span(low=a, high=b, lies=abs((q - p).z) <= _LEVEL * p.distance(q))
            for (a, b), (p, q) in zip(between, ends, strict=True)
        )
    return found


def strongest_use(may: Strengths, answer: Answer) -> Worst:
    """Return the tube that is used most, by AISC 360 H1.

    The frame's own sway is in the forces when they are of the second order, so that the length counts once (K = 1).
    """
    tension = answer.tension
    force = np.maximum(tension / may.pulled, -tension / may.pressed)
    moment = _moments(answer) / may.bent
    use = together(force, moment)
    at = int(np.argmax(use))
    return Worst(tube=may.tubes[at], use=float(use[at]))


def _moments(answer: Answer) -> Floats:
    """Return the largest moment in each element [N mm], at its ends or in its middle."""
    start, end = -answer.carried[:, 4:6], answer.carried[:, 10:12]
    shear = answer.carried[:, [2, 1]] + answer.carried[:, [8, 7]]
    bulge = shear * answer.system.beams.length[:, None] / 8.0 * np.array([-1.0, 1.0])
    middle = (start + end) / 2.0 + bulge
    largest: Floats = np.max([np.linalg.norm(m, axis=1) for m in (start, end, middle)], axis=0)
    return largest
