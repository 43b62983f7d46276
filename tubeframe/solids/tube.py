"""A tube as a solid: hollow cylinders, and hollow pieces of a torus where it is bent."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.geometry.path import Arc
from tubeframe.solids.kernel import cq
from tubeframe.solids.placing import vector

# after solids.kernel, which tells what is missing when the kernel does not load
from OCP.BRepOffsetAPI import BRepOffsetAPI_MakePipe  # isort: skip

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path, PathPiece


def tube_solid(path: Path, outside: float, bore: float) -> Any:  # noqa: ANN401  the kernel carries no types
    """Make one solid along a centreline, from outside and inside diameters [mm].

    Its volume is the section's area times the developed length (Pappus).
    """
    start, normal = vector(path.start), vector(path.tangent(0.0))
    outer, inner = (cq.Wire.makeCircle(d / 2.0, start, normal) for d in (outside, bore))
    if not path.bends:
        return cq.Solid.extrudeLinear(outer, [inner], vector(path.end - path.start))
    ring = cq.Face.makeFromWires(outer, [inner])
    # the whole ring at once: no boolean, and every face stays a cylinder, a torus or a plane
    swept = BRepOffsetAPI_MakePipe(_spine(path).wrapped, ring.wrapped)
    (solid,) = cq.Shape.cast(swept.Shape()).Solids()
    return solid


def _spine(path: Path) -> Any:  # noqa: ANN401
    return cq.Wire.assembleEdges([_edge(p) for p in path.pieces])


def _edge(piece: PathPiece) -> Any:  # noqa: ANN401
    if isinstance(piece, Arc):
        points = (piece.start, piece.point(piece.length / 2.0), piece.end)
        return cq.Edge.makeThreePointArc(*(vector(p) for p in points))
    return cq.Edge.makeLine(vector(piece.start), vector(piece.end))
