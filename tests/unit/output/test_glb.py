"""GLB: metres, Y up, names, shared meshes, compact numbers. `tests/outputs` reads whole frames."""

from __future__ import annotations

import io
import json
import math
import struct

import pytest

from tests.outputs.readers import glb
from tubeframe.geometry.path import line
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import ORIGIN, Vec, X, Y, Z
from tubeframe.output.glb import write_glb
from tubeframe.solids.kernel import cq
from tubeframe.solids.model import Model, Occurrence, Paint, Product
from tubeframe.solids.tube import tube_solid

OUTSIDE, BORE, LENGTH = 40.0, 36.0, 900.0
SHAPE = tube_solid(line(ORIGIN, Vec(0, 0, LENGTH)), OUTSIDE, BORE)
POST = Product(name="T1", shape=SHAPE, paint=Paint.TUBE)
TWIN = Product(name="T2", shape=SHAPE, paint=Paint.BOARD)
UPRIGHT = Placement(origin=Vec(100.0, 200.0, 300.0))
LYING = Placement(origin=Vec(0.0, 50.0, 0.0), x=Y, y=Z, z=X)
MODEL = Model(
    name="stand",
    products=(POST, TWIN),
    occurrences=(
        Occurrence(name="post", product=POST, placement=UPRIGHT),
        Occurrence(name="rail", product=POST, placement=LYING),
        Occurrence(name="twin", product=TWIN, placement=Placement()),
    ),
)


def written(model=MODEL):
    target = io.BytesIO()
    write_glb(model, target)
    return target.getvalue()


def document(raw):
    (length,) = struct.unpack_from("<I", raw, 12)
    return json.loads(raw[20 : 20 + length])


@pytest.fixture
def nodes(tmp_path):
    path = tmp_path / "model.glb"
    path.write_bytes(written())
    return {n.name: n for n in glb.read(path).nodes}


def test_metres_and_y_up(nodes):
    """(x, y, z) mm goes to (x, z, -y) / 1000 m."""
    low, high = nodes["post"].box

    assert low == pytest.approx((0.080, 0.300, -0.220), abs=1e-4)
    assert high == pytest.approx((0.120, 1.200, -0.180), abs=1e-4)


def test_a_turned_tube_lies_along_x(nodes):
    low, high = nodes["rail"].box

    assert (low[0], high[0]) == pytest.approx((0.0, 0.9), abs=1e-6)
    assert (low[2], high[2]) == pytest.approx((-0.070, -0.030), abs=1e-4)


def test_volume_is_the_tubes_and_outside_is_out(nodes):
    """Chords of 0.3 radian and less lose up to 1 - sin(q)/q = 1.5 % of a circle."""
    true = math.pi / 4 * (OUTSIDE**2 - BORE**2) * LENGTH * 1e-9

    assert all(0.985 * true < n.volume <= true for n in nodes.values())


def test_equal_shapes_are_stored_once():
    made = document(written())
    attributes = [m["primitives"][0]["attributes"] for m in made["meshes"]]

    assert [m["name"] for m in made["meshes"]] == ["T1", "T2"]
    assert attributes[0] == attributes[1]
    assert [n.get("mesh") for n in made["nodes"]] == [0, 0, 1, None]
    assert made["nodes"][3]["name"] == "stand"


def test_normals_are_smooth_within_a_face():
    """An outer corner at the angle q has the normal (cos q, sin q): fewer corners than one for each triangle's."""
    raw = written(Model(name="one", products=(POST,), occurrences=MODEL.occurrences[:1]))
    made = document(raw)
    start = 20 + struct.unpack_from("<I", raw, 12)[0] + 8
    columns = []
    for index in (0, 1):
        view, count = made["bufferViews"][index], made["accessors"][index]["count"]
        rows = struct.iter_unpack("<3f", raw[start + view["byteOffset"] :][: 12 * count])
        columns.append(list(rows))
    points, normals = columns
    outer = [(p, n) for p, n in zip(points, normals, strict=True) if abs(n[1]) < 0.5 and math.hypot(p[0], p[2]) > 0.019]

    assert outer
    assert all((p[0] / 0.020, p[2] / 0.020) == pytest.approx((n[0], n[2]), abs=1e-5) for p, n in outer)
    assert len(points) < 1.5 * made["accessors"][2]["count"] / 3


def test_short_numbers_where_they_do_and_long_ones_where_not():
    rack = cq.Compound.makeCompound([SHAPE.moved(cq.Location(cq.Vector(50.0 * n, 0, 0))) for n in range(200)])
    product = Product(name="T9", shape=rack, paint=Paint.TUBE)
    placed = (MODEL.occurrences[0], Occurrence(name="rack", product=product, placement=Placement()))
    made = document(written(Model(name="rack", products=(POST, product), occurrences=placed)))
    indices = [made["accessors"][m["primitives"][0]["indices"]] for m in made["meshes"]]
    corners = [made["accessors"][m["primitives"][0]["attributes"]["POSITION"]] for m in made["meshes"]]

    assert corners[0]["count"] < 65535 < corners[1]["count"]
    assert [i["componentType"] for i in indices] == [5123, 5125]
    assert corners[1]["max"][0] == pytest.approx(199 * 0.050 + 0.020, abs=1e-4)


def test_every_view_starts_on_a_whole_word():
    assert all(v["byteOffset"] % 4 == 0 for v in document(written())["bufferViews"])


def test_colours_are_linear_light():
    """IEC 61966-2-1, from memory: a grey of 0.72 is ((0.72 + 0.055) / 1.055)^2.4 = 0.4770 of the light."""
    tube, board = document(written())["materials"]

    assert (tube["name"], board["name"]) == ("tube", "board")
    assert tube["pbrMetallicRoughness"]["baseColorFactor"][0] == pytest.approx(0.4770, abs=1e-3)


def test_the_same_bytes_again():
    assert written() == written()
