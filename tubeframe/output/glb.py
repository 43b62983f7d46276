"""The model to look at, as binary glTF 2.0: metres, Y up, one node an occurrence, meshes shared."""

from __future__ import annotations

import json
import struct
from typing import TYPE_CHECKING, Any

import numpy as np

from tubeframe._version import __version__
from tubeframe.solids.mesh import mesh_of

if TYPE_CHECKING:
    from typing import BinaryIO

    from numpy.typing import NDArray

    from tubeframe.geometry.placement import Placement
    from tubeframe.solids.model import Model, Paint

_SAG_MM = 0.1
_ANGLE = 0.3
_METRES = 0.001
_FLOAT, _SHORT, _LONG = 5126, 5123, 5125
_ARRAY, _INDICES = 34962, 34963
_JSON, _BIN = 0x4E4F534A, 0x004E4942


class _Buffer:
    """The binary chunk while it grows, and its views and accessors."""

    def __init__(self) -> None:
        self.data = bytearray()
        self.views: list[dict[str, Any]] = []
        self.accessors: list[dict[str, Any]] = []

    def vectors(self, rows: NDArray[np.float64], *, bounded: bool = False) -> int:
        """Add vectors (n, 3) and return their accessor's number; `bounded` states least and greatest too."""
        array = rows.astype("<f4")
        bounds = {"min": array.min(axis=0).tolist(), "max": array.max(axis=0).tolist()} if bounded else {}
        return self._add(array, _ARRAY, {"componentType": _FLOAT, "type": "VEC3", **bounds})

    def numbers(self, values: NDArray[np.int64], below: int) -> int:
        """Add whole numbers (n,) below a limit and return their accessor's number; two bytes each where they do."""
        short = below < 0xFFFF  # the greatest number of a type is kept for other use
        array = values.astype("<u2" if short else "<u4")
        return self._add(array, _INDICES, {"componentType": _SHORT if short else _LONG, "type": "SCALAR"})

    def _add(self, array: NDArray[Any], target: int, accessor: dict[str, Any]) -> int:
        self.views.append({"buffer": 0, "byteOffset": len(self.data), "byteLength": array.nbytes, "target": target})
        self.accessors.append({"bufferView": len(self.views) - 1, "count": len(array), **accessor})
        self.data += array.tobytes()
        self.data += b"\0" * (-len(self.data) % 4)
        return len(self.accessors) - 1


def write_glb(model: Model, target: BinaryIO) -> None:
    """Write `model.glb`: curved faces shaded smooth, edges sharp."""
    buffer = _Buffer()
    paints = list(dict.fromkeys(p.paint for p in model.products))
    shapes = {id(p.shape): p.shape for p in model.products}
    drawn = {key: _primitive(shape, buffer) for key, shape in shapes.items()}
    meshes = [
        {"name": p.name, "primitives": [{**drawn[id(p.shape)], "material": paints.index(p.paint)}]}
        for p in model.products
    ]
    index = {p.name: n for n, p in enumerate(model.products)}
    nodes: list[dict[str, Any]] = [
        {"name": o.name, "mesh": index[o.product.name], "matrix": _matrix(o.placement)} for o in model.occurrences
    ]
    root = {"name": model.name, "children": list(range(len(nodes)))}
    document = {
        "asset": {"version": "2.0", "generator": f"tubeframe {__version__}"},
        "scene": 0,
        "scenes": [{"name": model.name, "nodes": [len(nodes)]}],
        "nodes": [*nodes, root],
        "meshes": meshes,
        "materials": [_material(p) for p in paints],
        "accessors": buffer.accessors,
        "bufferViews": buffer.views,
        "buffers": [{"byteLength": len(buffer.data)}],
    }
    target.write(_container(document, bytes(buffer.data)))


def _primitive(shape: Any, buffer: _Buffer) -> dict[str, Any]:  # noqa: ANN401  the kernel carries no types
    """Put a shape's triangles into the buffer and return what a mesh says of them."""
    mesh = mesh_of(shape, _SAG_MM, _ANGLE)
    return {
        "attributes": {
            "POSITION": buffer.vectors(_turned(mesh.points) * _METRES, bounded=True),
            "NORMAL": buffer.vectors(_turned(mesh.normals)),
        },
        "indices": buffer.numbers(mesh.triangles.ravel(), len(mesh.points)),
    }


def _turned(rows: NDArray[np.float64]) -> NDArray[np.float64]:
    """Turn points or directions (n, 3) from Z up to Y up."""
    return np.column_stack([rows[:, 0], rows[:, 2], -rows[:, 1]])


def _matrix(placement: Placement) -> list[float]:
    """Return the node's matrix, column by column, in metres and Y up."""
    turn = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
    rotation = turn @ np.array(placement.rotation).reshape(3, 3) @ turn.T
    shift = turn @ np.array(tuple(placement.origin)) * _METRES
    matrix = np.eye(4)
    matrix[:3, :3], matrix[:3, 3] = rotation, shift
    return [round(float(v), 9) + 0.0 for v in matrix.T.ravel()]


def _material(paint: Paint) -> dict[str, Any]:
    """Return a dull material; glTF wants linear light, so the colour's gamma is taken off (IEC 61966-2-1)."""
    linear = [round(((c + 0.055) / 1.055) ** 2.4, 6) for c in paint.value]
    return {
        "name": paint.name.lower(),
        "pbrMetallicRoughness": {"baseColorFactor": [*linear, 1.0], "metallicFactor": 0.1, "roughnessFactor": 0.7},
    }


def _container(document: dict[str, Any], data: bytes) -> bytes:
    text = json.dumps(document, separators=(",", ":")).encode()
    text += b" " * (-len(text) % 4)
    data += b"\0" * (-len(data) % 4)
    total = 12 + 8 + len(text) + 8 + len(data)
    head = struct.pack("<4sII", b"glTF", 2, total)
    return head + struct.pack("<II", len(text), _JSON) + text + struct.pack("<II", len(data), _BIN) + data
