"""The same bodies as solids of OpenCASCADE, and what its exact hidden-line algorithm shows of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import cadquery as cq
import numpy as np
from OCP.BRepLib import BRepLib
from OCP.GCPnts import GCPnts_TangentialDeflection
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

from tubeframe.geometry.convex import Cylinder
from tubeframe.solids.fitting import brick

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.geometry.convex import Convex
    from tubeframe.geometry.vector import Vec

_SAG = 0.001
"""Curves are sampled this near [mm]."""


def loose_pieces(bodies: Sequence[Body]) -> Any:
    """Every convex piece a solid of its own: the very same geometry."""
    return cq.Compound.makeCompound([s for b in bodies for s in _pieces(b)])


def visible(shape: Any, view: View) -> list[Any]:
    """Sharp edges and outlines that are seen; not the smooth edges and seams of a surface."""
    right, _, toward = view.axes
    algo = HLRBRep_Algo()
    algo.Add(shape.wrapped)
    algo.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(), gp_Dir(*toward), gp_Dir(*right))))
    algo.Update()
    algo.Hide()
    found = HLRBRep_HLRToShape(algo)
    lines = [c for c in (found.VCompound(), found.OutLineVCompound()) if c is not None and not c.IsNull()]
    for line in lines:
        BRepLib.BuildCurves3d_s(line)
    return lines


def segments(lines: Sequence[Any]) -> np.ndarray:
    """Chords (n, 2, 2) within `_SAG` of the curves [mm]."""
    found = []
    for edge in (e for c in lines for e in cq.Shape.cast(c).Edges()):
        walk = GCPnts_TangentialDeflection(edge._geomAdaptor(), 0.05, _SAG)
        points = np.array([(p.X(), p.Y()) for p in (walk.Value(i + 1) for i in range(walk.NbPoints()))])
        found.append(np.stack([points[:-1], points[1:]], axis=1))
    return np.concatenate(found)


def _pieces(body: Body) -> list[Any]:
    tubes = [_bar(t.path.start, t.path.end, t.outside / 2.0, t.bore / 2.0) for t in body.tubes]
    return tubes + [_piece(p) for p in body.pieces]


def _piece(piece: Convex) -> Any:
    return _bar(piece.start, piece.end, piece.radius, piece.bore) if isinstance(piece, Cylinder) else brick(piece)


def _bar(start: Vec, end: Vec, radius: float, bore: float) -> Any:
    way = end - start
    solid = cq.Solid.makeCylinder(radius, way.length, cq.Vector(*start), cq.Vector(*way.unit))
    return solid if bore == 0.0 else solid.cut(_bar(start, end, bore, 0.0))
