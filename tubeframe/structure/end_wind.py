"""Wind on the closed end of a covered frame: what its sheet brings to the tubes in its plane.

The sheet spans level between neighbouring uprights, and the end hoop's legs at both sides: each strip of it hangs on
the two beside it by the law of the lever. An upright takes its share evenly over its length, the hoop over its own.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.frame.group import in_groups
from tubeframe.geometry.chords import chorded
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.geometry.vector import Z
from tubeframe.structure.acting import Action

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Jointed, Tube

_STRIPS = 96
_UPRIGHT = 0.999
_SAG = 1.0
_EDGE = 1.0


def on_end(frame: Frame, jointed: Jointed, pressure: float, way: Vec) -> tuple[Action, ...]:
    """Push the end that the wind meets with a pressure [MPa] along a unit vector; nothing without a closed end."""
    if frame.cover is None or not frame.cover.closed_ends:
        return ()
    across = Z.cross(way)
    turning = in_groups(frame.groups)
    first = [t for t in jointed.tubes if t.member in frame.cover.over]
    plane = min(p.dot(way) for t in first for p in (t.path.start, t.path.end))
    tubes = [t for t in jointed.tubes if t.member not in turning and _lies_in(t, way, plane)]
    uprights = [t for t in tubes if abs(t.path.tangent(0.0).z) > _UPRIGHT and not t.path.bends]
    roof = [t for t in tubes if t.member in frame.cover.over and t not in uprights]
    return tuple(_shared(_hung(uprights, roof, across, pressure), uprights, roof, way))


def _lies_in(tube: Tube, way: Vec, plane: float) -> bool:
    ends = (tube.path.start, tube.path.end, tube.path.point(tube.path.length / 2.0))
    return all(abs(p.dot(way) - plane) <= PLANE_MM for p in ends)


def _hung(uprights: Sequence[Tube], roof: Sequence[Tube], across: Vec, pressure: float) -> list[float]:
    """Return what hangs on each upright, and last on the roof's own tubes [N]."""
    outline = [p for t in (*roof, *uprights) for p in _points(t)]
    places = sorted({round(p.dot(across), 3) for p in outline})
    heights = [max(p.z for p in outline if abs(p.dot(across) - x) < _EDGE) for x in places]
    at = [t.path.start.dot(across) for t in uprights]
    edges = [x for x in (places[0], places[-1]) if all(abs(x - a) > _EDGE for a in at)]
    supports = sorted([*zip(at, range(len(at)), strict=True), *((x, len(at)) for x in edges)])
    found = [0.0] * (len(at) + 1)
    width = (places[-1] - places[0]) / _STRIPS
    for n in range(_STRIPS):
        x = places[0] + (n + 0.5) * width
        force = pressure * float(np.interp(x, places, heights)) * width
        (low, left), (high, right) = next((a, b) for a, b in pairwise(supports) if a[0] <= x <= b[0])
        found[right] += force * (x - low) / (high - low)
        found[left] += force * (high - x) / (high - low)
    return found


def _points(tube: Tube) -> list[Vec]:
    return [p for chord in chorded(tube.path, _SAG) for p in (chord.start, chord.end)]


def _shared(hung: Sequence[float], uprights: Sequence[Tube], roof: Sequence[Tube], way: Vec) -> Iterator[Action]:
    for tube, force in zip(uprights, hung, strict=False):
        yield Action(tube=tube.id, low=0.0, high=tube.path.length, force=way * force)
    length = sum(t.path.length for t in roof)
    for tube in roof:
        share = way * (hung[-1] * tube.path.length / length)
        yield Action(tube=tube.id, low=0.0, high=tube.path.length, force=share)
