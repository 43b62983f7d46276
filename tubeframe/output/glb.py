"""The model to look at, as binary glTF 2.0: metres, Y up, one node an occurrence, meshes shared."""

from __future__ import annotations

import json
import struct
from typing import TYPE_CHECKING, Any

import numpy as np

from tubeframe._version import __version__

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.geometry.placement import Placement
    from tubeframe.solids.model import Model, Paint, Product

_SAG_MM = 0.1
_ANGLE = 0.3
_METRES = 0.001
_FLOAT, _UINT = 5126, 5125
_ARRAY, _INDICES = 34962, 34963
_JSON, _BIN = 0x4E4F534A, 0x004E4942


class _Buffer:
    """The binary chunk while it grows, and its views and accessors."""

    def __init__(self) -> None:
        self.data = bytearray()
        self.views: list[dict[str, Any]] = []
        self.accessors: list[dict[str, Any]] = []

    def add(self, array: np.ndarray[Any, np.dtype[Any]], kind: str, component: int, target: int) -> int:
        """Add an array (n, 3) or (n,) and return its accessor's number."""
        self.views.append({"buffer": 0, "byteOffset": len(self.data), "byteLength": array.nbytes, "target": target})
        accessor: dict[str, Any] = {
            "bufferView": len(self.views) - 1,
            "componentType": component,
            "count": len(array),
            "type": kind,
        }
        if target == _ARRAY and kind == "VEC3":
            accessor |= {"min": array.min(axis=0).tolist(), "max": array.max(axis=0).tolist()}
        self.data += array.tobytes()
        self.accessors.append(accessor)
        return len(self.accessors) - 1


def write_glb(model: Model, target: BinaryIO) -> None:
    """Write `model.glb`; flat shading, so that edges stay sharp in every viewer."""
    buffer = _Buffer()
    paints = list(dict.fromkeys(p.paint for p in model.products))
    meshes = [_mesh(p, paints.index(p.paint), buffer) for p in model.products]
    index = {id(p): n for n, p in enumerate(model.products)}
    nodes: list[dict[str, Any]] = [
        {"name": o.name, "mesh": index[id(o.product)], "matrix": _matrix(o.placement)} for o in model.occurrences
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


def _mesh(product: Product, material: int, buffer: _Buffer) -> dict[str, Any]:
    vertices, triangles = product.shape.tessellate(_SAG_MM, _ANGLE)
    points = np.array([v.toTuple() for v in vertices])
    corners = _turned(points)[np.array(triangles)].astype("<f4")
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1)
    kept = lengths > 0.0
    corners, normals = corners[kept], normals[kept] / lengths[kept, None]
    flat = np.ascontiguousarray(corners.reshape(-1, 3))
    shading = np.repeat(normals, 3, axis=0).astype("<f4")
    attributes = {
        "POSITION": buffer.add(flat, "VEC3", _FLOAT, _ARRAY),
        "NORMAL": buffer.add(shading, "VEC3", _FLOAT, _ARRAY),
    }
    numbers = buffer.add(np.arange(len(flat), dtype="<u4"), "SCALAR", _UINT, _INDICES)
    return {
        "name": product.name,
        "primitives": [{"attributes": attributes, "indices": numbers, "material": material}],
    }


def _turned(points: np.ndarray[Any, np.dtype[np.float64]]) -> np.ndarray[Any, np.dtype[np.float64]]:
    """Turn points (n, 3) from mm, Z up, into metres, Y up."""
    return np.column_stack([points[:, 0], points[:, 2], -points[:, 1]]) * _METRES


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
