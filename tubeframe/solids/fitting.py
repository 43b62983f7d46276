"""A fitting as a solid: the union of its sleeves and ears, with room for its tubes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.catalog.fitting import PortRole
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.placement import Placement
from tubeframe.solids.kernel import cq
from tubeframe.solids.placing import location, vector

if TYPE_CHECKING:
    from tubeframe.catalog.sized import SizedFitting, SizedPort
    from tubeframe.geometry.convex import Box

_PAST = 5.0
"""A bore is cut this far past the body [mm]."""


def fitting_solid(fitting: SizedFitting) -> Any:  # noqa: ANN401  the kernel carries no types
    """Make one solid in the fitting's own frame; a run's bore goes through, a branch's begins where its end stops."""
    pieces = [_bar(p) if isinstance(p, Cylinder) else brick(p) for p in fitting.body]
    body = pieces[0].fuse(*pieces[1:]) if len(pieces) > 1 else pieces[0]
    (solid,) = body.cut(*(_bore(fitting, p) for p in fitting.ports)).Solids()
    return solid


def brick(box: Box) -> Any:  # noqa: ANN401
    """Make a box."""
    halves = [h.length for h in (box.half_x, box.half_y, box.half_z)]
    placed = Placement(
        origin=box.centre, x=box.half_x.unit, y=box.half_y.unit, z=box.half_x.unit.cross(box.half_y.unit)
    )
    corner = cq.Vector(*(-h for h in halves))
    return cq.Solid.makeBox(*(2.0 * h for h in halves), corner).moved(location(placed))


def _bar(piece: Cylinder) -> Any:  # noqa: ANN401
    way = piece.end - piece.start
    return cq.Solid.makeCylinder(piece.radius, way.length, vector(piece.start), vector(way.unit))


def _bore(fitting: SizedFitting, port: SizedPort) -> Any:  # noqa: ANN401
    long = port.grip + port.setback + fitting.skirt + _PAST
    first = {PortRole.RUN: -long, PortRole.BRANCH: port.setback, PortRole.END: 0.0}[port.role]
    radius = port.outside / 2.0
    if fitting.kind.inside:
        first, radius = 0.0, next(p.bore for p in fitting.body if isinstance(p, Cylinder))
    start = port.middle + port.axis * first
    return cq.Solid.makeCylinder(radius, long - first, vector(start), vector(port.axis))
