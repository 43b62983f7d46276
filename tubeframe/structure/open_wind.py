"""Wind on a frame without a cover: on its tubes and the edges and faces of its boards."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.frame.load import LoadUse
from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.vector import Vec, X, Y
from tubeframe.structure.acting import Action, on_board
from tubeframe.structure.study import Case
from tubeframe.structure.weather import flat_coefficient, round_coefficient, velocity_pressure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.panel import Panel
    from tubeframe.joints.joint import Tube
    from tubeframe.structure.study import Study


def open_wind_cases(study: Study) -> tuple[Case, ...]:
    """Return what the asked wind does along both axes; nothing without a wind, or with a cover."""
    speed = study.conditions.wind
    if speed is None or study.frame.cover is not None:
        return ()
    pressure = velocity_pressure(speed, study.limits)
    return tuple(
        Case(name=f"wind along {name}", use=LoadUse.CARRIED, actions=tuple(_acts(study, pressure, way)))
        for name, way in (("x", X), ("y", Y))
    )


def _acts(study: Study, pressure: float, way: Vec) -> Iterator[Action]:
    """Push every tube and board with the pressure [MPa] on what it shows to the wind; none shelters another."""
    solid = _solidity(study, way)
    gust = study.limits[LimitKey.WIND_GUST]
    for tube in study.jointed.tubes:
        outside = study.workshop.catalog.tube(tube.size).outside
        on_round = pressure * gust * round_coefficient(solid, outside, pressure) * outside
        yield Action(tube=tube.id, low=0.0, high=tube.path.length, force=way * (on_round * _shown_length(tube, way)))
    for panel in study.frame.panels:
        force = pressure * gust * flat_coefficient(solid) * _shown_area(panel, way)
        middle = panel.placement.point(Vec(panel.length / 2.0, panel.width / 2.0, 0.0))
        yield from on_board(panel, way * force, middle, study.jointed)


def _solidity(study: Study, way: Vec) -> float:
    """Return which share of what is seen along the wind is solid."""
    sizes = {t.id: study.workshop.catalog.tube(t.size).outside for t in study.jointed.tubes}
    solid = sum(_shown_length(t, way) * sizes[t.id] for t in study.jointed.tubes)
    solid += sum(_shown_area(p, way) for p in study.frame.panels)
    boxes = [of_tube(t.path, sizes[t.id]) for t in study.jointed.tubes]
    size = joined([*boxes, *(of_convex(p.box) for p in study.frame.panels)]).size
    return min(1.0, solid / (size.z * (size.y if way == X else size.x)))


def _shown_length(tube: Tube, way: Vec) -> float:
    """Return how long a tube is as seen along the wind [mm]; a bend by its chord."""
    shown = 0.0
    for _, piece in tube.path.stretches():
        chord = piece.end - piece.start
        along = chord.dot(way)
        shown += math.sqrt(max(chord.dot(chord) - along * along, 0.0))
    return shown


def _shown_area(panel: Panel, way: Vec) -> float:
    """Return the area of a board as seen along the wind [mm^2]."""
    placed = panel.placement
    return (
        abs(placed.x.dot(way)) * panel.width * panel.thickness
        + abs(placed.y.dot(way)) * panel.length * panel.thickness
        + abs(placed.z.dot(way)) * panel.length * panel.width
    )
