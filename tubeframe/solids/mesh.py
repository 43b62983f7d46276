"""A solid's surface as triangles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from tubeframe.solids import kernel  # noqa: F401  it tells what is missing when the kernel does not load

# after solids.kernel
from OCP.BRep import BRep_Tool  # isort: skip
from OCP.BRepLib import BRepLib_ToolTriangulatedShape  # isort: skip
from OCP.BRepMesh import BRepMesh_IncrementalMesh  # isort: skip
from OCP.TopAbs import TopAbs_Orientation  # isort: skip
from OCP.TopLoc import TopLoc_Location  # isort: skip

if TYPE_CHECKING:
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles in the solid's own frame, face by face: smooth within a face, sharp between two.

    Attributes:
        points: corners, shape (n, 3) [mm].
        normals: unit vectors out of the true surface at each corner, shape (n, 3).
        triangles: three corners each, counter-clockwise as seen from outside, shape (m, 3).

    """

    points: NDArray[np.float64]
    normals: NDArray[np.float64]
    triangles: NDArray[np.int64]


def mesh_of(shape: Any, sag: float, angle: float) -> Mesh:  # noqa: ANN401  the kernel carries no types
    """Cut a solid's surface into triangles.

    Args:
        shape: the kernel's solid.
        sag: how far a triangle may stand off the true surface [mm].
        angle: how far the surface may turn from one triangle to the next [radian].

    """
    BRepMesh_IncrementalMesh(shape.wrapped, sag, False, angle, False)  # noqa: FBT003  the kernel's own signature
    points, normals, triangles, count = [], [], [], 0
    for face in shape.Faces():
        part = _face(face)
        points.append(part.points)
        normals.append(part.normals)
        triangles.append(part.triangles + count)
        count += len(part.points)
    return Mesh(points=np.concatenate(points), normals=np.concatenate(normals), triangles=np.concatenate(triangles))


def _face(face: Any) -> Mesh:  # noqa: ANN401
    place = TopLoc_Location()
    found = BRep_Tool.Triangulation_s(face.wrapped, place)
    BRepLib_ToolTriangulatedShape.ComputeNormals_s(face.wrapped, found)
    turn = place.Transformation()
    corners = range(1, found.NbNodes() + 1)
    points = np.array([_three(found.Node(i).Transformed(turn)) for i in corners])
    normals = np.array([_three(found.Normal(i).Transformed(turn)) for i in corners])
    triangles = np.array([found.Triangle(i).Get() for i in range(1, found.NbTriangles() + 1)]) - 1
    if face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
        triangles = triangles[:, ::-1]
        normals = -normals
    return Mesh(points=points, normals=normals, triangles=triangles)


def _three(value: Any) -> tuple[float, float, float]:  # noqa: ANN401
    return (value.X(), value.Y(), value.Z())
