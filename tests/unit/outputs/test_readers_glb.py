"""The GLB reader reads a good file right, and finds the faults that are planted in a bad one."""

from __future__ import annotations

import json
import math
import struct
from typing import TYPE_CHECKING, Any

import cadquery as cq
import pytest

from tests.outputs.readers import glb

if TYPE_CHECKING:
    from pathlib import Path

CORNERS = ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
OUTWARD = (0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3)


def tetrahedron(folder: Path, node: dict[str, Any], **more: Any) -> Path:
    """A GLB file with one tetrahedron of volume 1/6 under one node; `more` replaces keys of the accessor of points."""
    data = struct.pack("<12f", *(value for corner in CORNERS for value in corner)) + struct.pack("<12H", *OUTWARD)
    accessor = {"bufferView": 0, "componentType": 5126, "count": 4, "type": "VEC3", "min": [0, 0, 0], "max": [1, 1, 1]}
    document = {
        "asset": {"version": "2.0"},
        "scenes": [{"nodes": [0]}],
        "nodes": [{"name": "top", "children": [1]}, {"name": "piece", "mesh": 0} | node],
        "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],
        "accessors": [accessor | more, {"bufferView": 1, "componentType": 5123, "count": 12, "type": "SCALAR"}],
        "bufferViews": [{"buffer": 0, "byteLength": 48}, {"buffer": 0, "byteOffset": 48, "byteLength": 24}],
        "buffers": [{"byteLength": 72}],
    }
    text = json.dumps(document).encode()
    text += b" " * (-len(text) % 4)
    chunks = struct.pack("<I4s", len(text), b"JSON") + text + struct.pack("<I4s", len(data), b"BIN\0") + data
    path = folder / "a.glb"
    path.write_bytes(struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks)
    return path


@pytest.mark.parametrize(
    ("node", "volume", "high"),
    [
        ({}, 1 / 6, (1.0, 1.0, 1.0)),
        ({"scale": [2, 2, 2], "translation": [0, 0, 5]}, 8 / 6, (2.0, 2.0, 7.0)),
        ({"scale": [-1, 1, 1]}, 1 / 6, (0.0, 1.0, 1.0)),
        ({"rotation": [0, 0, math.sqrt(0.5), math.sqrt(0.5)]}, 1 / 6, (0.0, 1.0, 1.0)),
        ({"matrix": [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 3, 0, 4, 5, 6, 1]}, 3 / 6, (5.0, 6.0, 9.0)),
    ],
)
def test_glb_nodes(tmp_path: Path, node: dict[str, Any], volume: float, high: tuple[float, ...]) -> None:
    model = glb.read(tetrahedron(tmp_path, node))
    [piece] = model.nodes
    assert model.names == ("top", "piece")
    assert piece.path == ("top", "piece")
    assert piece.volume == pytest.approx(volume)
    assert model.box[1] == pytest.approx(high)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"max": [1, 1, 2]}, "states"),
        ({"count": 40}, "past its buffer view"),
        ({"count": 3, "max": [1, 1, 0]}, "corners of triangles"),
    ],
)
def test_glb_faults(tmp_path: Path, more: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        glb.read(tetrahedron(tmp_path, {}, **more))


def test_glb_turned_inside_out_and_cut_short(tmp_path: Path) -> None:
    path = tetrahedron(tmp_path, {})
    raw = path.read_bytes()
    path.write_bytes(raw.replace(struct.pack("<12H", *OUTWARD), struct.pack("<12H", *reversed(OUTWARD))))
    assert glb.read(path).nodes[0].volume == pytest.approx(-1 / 6)
    path.write_bytes(raw[:-4])
    with pytest.raises(ValueError, match="stated length"):
        glb.read(path)


def test_glb_of_millimetres_is_a_thousand_times_too_large(tmp_path: Path) -> None:
    """The library writes our millimetres as they are: the box betrays it. It does turn y upward."""
    block = cq.Solid.makeBox(30.0, 20.0, 10.0)
    whole = cq.Assembly(name="whole")
    whole.add(block, name="block", loc=cq.Location(cq.Vector(100.0, 200.0, 300.0)), color=cq.Color(1.0, 0.0, 0.0, 1.0))
    whole.export(str(tmp_path / "a.glb"), "GLB")
    model = glb.read(tmp_path / "a.glb")
    low, high = glb.box_from_z_up_mm((100.0, 200.0, 300.0), (130.0, 220.0, 310.0))
    assert low == pytest.approx((0.1, 0.3, -0.22))
    assert model.box[0] == pytest.approx([1000.0 * value for value in low])
    assert model.box[1] == pytest.approx([1000.0 * value for value in high])
    [node] = model.nodes
    assert (node.path, node.triangles, node.colours) == (("whole", "block"), 12, ((1.0, 0.0, 0.0, 1.0),))
    assert node.volume == pytest.approx(6000.0)
