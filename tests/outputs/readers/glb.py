"""What a GLB file says: nodes with their names, boxes and volumes, all placed, in metres with y upward.

Read by the standard library alone, from the text of glTF 2.0 (Khronos, 2017): a container of a JSON chunk and a binary
chunk, accessors into it, and a tree of nodes.
"""

from __future__ import annotations

import json
import math
import struct
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tests.outputs.readers.placing import Box, Placement, Vector, cross, dot, joined

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_TRIANGLES = 4
_COMPONENTS = {5120: "b", 5121: "B", 5122: "h", 5123: "H", 5125: "I", 5126: "f"}
_WIDTHS = {"SCALAR": 1, "VEC2": 2, "VEC3": 3, "VEC4": 4, "MAT4": 16}

_Json = dict[str, Any]
Colour = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A node that has a mesh.

    Attributes:
        name: its name, "" where it has none.
        path: names from the top of the scene down to it.
        box: least and greatest corner of its mesh, placed [m].
        volume: that its triangles enclose, placed [m3]; negative where they are inside out.
        triangles: how many there are.
        colours: base colour (red, green, blue, alpha) of each of its materials, each once; linear, as the file has it.
    """

    name: str
    path: tuple[str, ...]
    box: Box
    volume: float
    triangles: int
    colours: tuple[Colour, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """A GLB file.

    Attributes:
        generator: what wrote it, by its own word.
        names: of all nodes, in the order of the file, "" for one without.
        nodes: those with a mesh, in the order of the scene.
        materials: how many there are.
    """

    generator: str
    names: tuple[str, ...]
    nodes: tuple[Node, ...]
    materials: int

    @property
    def box(self) -> Box:
        """Least and greatest corner of everything [m]."""
        return joined(node.box for node in self.nodes)


def from_z_up_mm(point: Vector) -> Vector:
    """Where a point [mm] of a model with z upward must stand in glTF [m], which has y upward."""
    x, y, z = point
    return (x / 1000.0, z / 1000.0, -y / 1000.0)


def box_from_z_up_mm(low: Vector, high: Vector) -> Box:
    """The box [m] that a box in millimetres with z upward must have in glTF."""
    a, b = from_z_up_mm(low), from_z_up_mm(high)
    return (a[0], a[1], b[2]), (b[0], b[1], a[2])


def read(path: Path) -> Model:
    """Reads a GLB file.

    Raises:
        ValueError: the container, an accessor or the tree of nodes breaks the format; a mesh isn't made of triangles;
            or an accessor's stated least and greatest values aren't those of its data.
    """
    document, binary = _chunks(path.read_bytes())
    version = document.get("asset", {}).get("version")
    if version != "2.0":
        msg = f"glTF version {version!r}, expected '2.0'"
        raise ValueError(msg)
    reader = _Reader(document, binary)
    scenes = document.get("scenes", [])
    if not scenes:
        msg = "no scene"
        raise ValueError(msg)
    tops = scenes[document.get("scene", 0)].get("nodes", [])
    return Model(
        generator=document["asset"].get("generator", ""),
        names=tuple(node.get("name", "") for node in document.get("nodes", [])),
        nodes=tuple(node for top in tops for node in reader.nodes(top, Placement(), ())),
        materials=len(document.get("materials", [])),
    )


def _chunks(raw: bytes) -> tuple[_Json, bytes]:
    if len(raw) < 20 or raw[:4] != b"glTF":
        msg = "not a GLB file"
        raise ValueError(msg)
    version, total = struct.unpack_from("<II", raw, 4)
    if version != 2 or total != len(raw):
        msg = f"GLB version {version}, stated length {total}, real length {len(raw)}"
        raise ValueError(msg)
    chunks: dict[bytes, bytes] = {}
    place = 12
    while place < total:
        if place + 8 > total:
            msg = f"half a chunk at byte {place}"
            raise ValueError(msg)
        length, kind = struct.unpack_from("<I4s", raw, place)
        if length % 4 or place + 8 + length > total:
            msg = f"the chunk at byte {place} is {length} bytes long: not a multiple of 4, or past the end"
            raise ValueError(msg)
        chunks.setdefault(kind, raw[place + 8 : place + 8 + length])
        place += 8 + length
    if b"JSON" not in chunks:
        msg = "no JSON chunk"
        raise ValueError(msg)
    return json.loads(chunks[b"JSON"]), chunks.get(b"BIN\0", b"")


class _Reader:
    """Looks things up in the two chunks of one file."""

    def __init__(self, document: _Json, binary: bytes) -> None:
        self._document = document
        self._binary = binary

    def nodes(self, index: int, above: Placement, path: tuple[str, ...]) -> Iterator[Node]:
        if len(path) > len(self._document["nodes"]):
            msg = f"node {index} contains itself"
            raise ValueError(msg)
        node = self._document["nodes"][index]
        placement, name = above.after(_placement(node)), node.get("name", "")
        if "mesh" in node:
            yield self._node(node, placement, (*path, name))
        for child in node.get("children", []):
            yield from self.nodes(child, placement, (*path, name))

    def _node(self, node: _Json, placement: Placement, path: tuple[str, ...]) -> Node:
        primitives = self._document["meshes"][node["mesh"]]["primitives"]
        boxes: list[Box] = []
        volume, triangles = 0.0, 0
        for primitive in primitives:
            points = [placement.point(point) for point in self._points(primitive)]
            corners = self._corners(primitive, len(points))
            used = [points[corner] for corner in corners]
            boxes.append(_bounds(used))
            volume += _signed_volume(used)
            triangles += len(used) // 3
        return Node(
            name=path[-1],
            path=path,
            box=joined(boxes),
            # a mirror turns the triangles inside out, and glTF turns them back
            volume=volume * math.copysign(1.0, placement.determinant()),
            triangles=triangles,
            colours=tuple(dict.fromkeys(self._colour(primitive) for primitive in primitives)),
        )

    def _points(self, primitive: _Json) -> list[Vector]:
        index = primitive["attributes"]["POSITION"]
        accessor, rows = self._document["accessors"][index], self._rows(index)
        points = [(float(x), float(y), float(z)) for x, y, z in rows]
        low, high = _bounds(points)
        for stated, found in ((accessor.get("min"), low), (accessor.get("max"), high)):
            if stated is None or any(abs(a - b) > 1e-5 * max(1.0, abs(b)) for a, b in zip(stated, found, strict=True)):
                msg = f"accessor {index} states {stated}, its data say {found}"
                raise ValueError(msg)
        return points

    def _corners(self, primitive: _Json, count: int) -> list[int]:
        if primitive.get("mode", _TRIANGLES) != _TRIANGLES:
            msg = f"a mesh of mode {primitive['mode']}: no triangles"
            raise ValueError(msg)
        corners = list(range(count))
        if "indices" in primitive:
            corners = [int(row[0]) for row in self._rows(primitive["indices"])]
        if not corners or len(corners) % 3 or max(corners) >= count:
            msg = f"{len(corners)} corners of triangles on {count} points, the greatest {max(corners, default=None)}"
            raise ValueError(msg)
        return corners

    def _rows(self, index: int) -> list[tuple[float, ...]]:
        accessor = self._document["accessors"][index]
        if "sparse" in accessor or "bufferView" not in accessor:
            msg = f"accessor {index} is sparse or empty"
            raise ValueError(msg)
        view = self._document["bufferViews"][accessor["bufferView"]]
        form = struct.Struct(f"<{_WIDTHS[accessor['type']]}{_COMPONENTS[accessor['componentType']]}")
        stride = view.get("byteStride", form.size)
        inner, count = accessor.get("byteOffset", 0), accessor["count"]
        if inner + stride * (count - 1) + form.size > view["byteLength"]:
            msg = f"accessor {index} reaches past its buffer view"
            raise ValueError(msg)
        start = view.get("byteOffset", 0) + inner
        if start + stride * (count - 1) + form.size > len(self._binary):
            msg = f"accessor {index} reaches past the end of the data"
            raise ValueError(msg)
        return [form.unpack_from(self._binary, start + stride * row) for row in range(count)]

    def _colour(self, primitive: _Json) -> Colour:
        if "material" not in primitive:
            return (1.0, 1.0, 1.0, 1.0)
        material = self._document["materials"][primitive["material"]]
        factor = material.get("pbrMetallicRoughness", {}).get("baseColorFactor", (1.0, 1.0, 1.0, 1.0))
        red, green, blue, alpha = (float(part) for part in factor)
        return (red, green, blue, alpha)


def _placement(node: _Json) -> Placement:
    if "matrix" in node:
        a, b, c, _, d, e, f, _, g, h, i, _, x, y, z, _ = node["matrix"]  # column by column
        return Placement(rows=((a, d, g), (b, e, h), (c, f, i)), origin=(x, y, z))
    x, y, z, w = node.get("rotation", (0.0, 0.0, 0.0, 1.0))
    if abs(math.hypot(x, y, z, w) - 1.0) > 1e-4:
        msg = f"node {node.get('name', '')!r}: a rotation that is no unit quaternion"
        raise ValueError(msg)
    sx, sy, sz = node.get("scale", (1.0, 1.0, 1.0))
    rows = (
        ((1 - 2 * (y * y + z * z)) * sx, 2 * (x * y - z * w) * sy, 2 * (x * z + y * w) * sz),
        (2 * (x * y + z * w) * sx, (1 - 2 * (x * x + z * z)) * sy, 2 * (y * z - x * w) * sz),
        (2 * (x * z - y * w) * sx, 2 * (y * z + x * w) * sy, (1 - 2 * (x * x + y * y)) * sz),
    )
    ox, oy, oz = node.get("translation", (0.0, 0.0, 0.0))
    return Placement(rows=rows, origin=(ox, oy, oz))


def _bounds(points: list[Vector]) -> Box:
    if not points:
        msg = "a mesh without points"
        raise ValueError(msg)
    (a, b), (c, d), (e, f) = ((min(values), max(values)) for values in zip(*points, strict=True))
    return (a, c, e), (b, d, f)


def _signed_volume(corners: list[Vector]) -> float:
    """Sum of the tetrahedra from the origin to each triangle: the volume inside a closed surface.

    C. Zhang and T. Chen, "Efficient feature extraction for 2D/3D objects in mesh representation", ICIP 2001 (from
    memory).
    """
    return (
        sum(dot(corners[index], cross(corners[index + 1], corners[index + 2])) for index in range(0, len(corners), 3))
        / 6.0
    )
