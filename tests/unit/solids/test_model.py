"""The model: every part at its true place, every shape made once."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from tests.building import GREENHOUSE, TABLE, frame_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.member import EndKind
from tubeframe.geometry.corners import through
from tubeframe.geometry.extent import joined, of_tube
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec, rotated
from tubeframe.joints.resolve import jointed
from tubeframe.parts.marks import make_parts
from tubeframe.solids.model import Paint, build_model
from tubeframe.solids.placing import location

OPEN = (EndKind.OPEN, EndKind.OPEN)
WORKSHOP = generic_workshop()
OUTSIDE = 23.4188
CORNERS = (Vec(0, 0, 0), Vec(0, 0, 500), Vec(500, 0, 700), Vec(800, 500, 900))
"""A tube of two bends, out of plane: it has a hand."""


def of_frame(frame):
    joints = jointed(frame, WORKSHOP)
    parts = make_parts(frame, joints, WORKSHOP)
    model = build_model(parts, joints.joints, WORKSHOP.catalog, name=frame.name)
    return SimpleNamespace(frame=frame, joints=joints.joints, parts=parts, model=model)


def of_paths(*ways):
    builder = FrameBuilder(name="tubes", tube="emt-3/4")
    for number, way in enumerate(ways):
        builder.tube(f"t{number}", through(way, [140.0] * (len(way) - 2)), ends=OPEN)
    return of_frame(builder.build())


def moved(ways, shift, turn=0.0):
    return tuple(rotated(p, Vec(0, 0, 1), turn) + shift for p in ways)


def placed(occurrence):
    return occurrence.product.shape.moved(location(occurrence.placement))


@pytest.fixture(scope="module", params=["table", "greenhouse"])
def built(request):
    return of_frame(frame_of(request.param, **dict({"table": TABLE, "greenhouse": GREENHOUSE}[request.param])))


def test_every_part_is_there_under_its_id_in_the_order_stated(built):
    wanted = [p.id for p in built.parts.pieces] + [j.id for j in built.joints if j.fitting]
    wanted += [p.id for g in built.parts.panel_groups for p in g.panels]

    assert [o.name for o in built.model.occurrences] == wanted


def test_a_product_is_a_mark_and_made_once(built):
    products = {o.name: o.product for o in built.model.occurrences}
    marks = [g.mark for g in built.parts.groups] + [g.mark for g in built.parts.panel_groups]
    fittings = [p.name for p in built.model.products if p.paint is Paint.FITTING]

    assert all(products[p.id].name == p.mark for p in built.parts.pieces)
    assert sorted(p.name for p in built.model.products) == sorted(marks + fittings)
    assert len({id(p) for p in products.values()}) == len(built.model.products)


def test_names_of_products_are_plain(built):
    names = [p.name for p in built.model.products]

    assert all(n.isascii() and not set(n) & set("/\\'\"") for n in names)
    assert any(n in {"tee EMT 3-4", "right-angle-coupler EMT 3-4"} for n in names)


def test_every_tube_stands_where_its_centreline_runs(built):
    for piece, occurrence in zip(built.parts.pieces, built.model.occurrences, strict=False):
        box = placed(occurrence).BoundingBox()
        wanted = of_tube(piece.path, WORKSHOP.catalog.tube(piece.size).outside)

        assert (box.xmin, box.ymin, box.zmin) == pytest.approx(tuple(wanted.low), abs=1e-3)
        assert (box.xmax, box.ymax, box.zmax) == pytest.approx(tuple(wanted.high), abs=1e-3)


def test_box_of_the_tubes_is_the_size_asked(built):
    names = built.frame.sized_by or tuple(m.id for m in built.frame.members)
    solids = zip(built.parts.pieces, built.model.occurrences, strict=False)
    boxes = [placed(o).BoundingBox() for p, o in solids if p.member in names]
    across, along = (
        max(getattr(b, f"{c}max") for b in boxes) - min(getattr(b, f"{c}min") for b in boxes) for c in "xy"
    )
    wanted = (57, 27) if built.frame.name == "table" else (96, 144)

    assert (across, along) == pytest.approx([w * INCH_MM for w in wanted], abs=0.01)


def test_equal_tubes_share_a_shape_wherever_they_stand():
    made = of_paths(CORNERS, moved(CORNERS, Vec(2000, 0, 0), 0.7))

    assert [p.name for p in made.model.products] == ["T1"]
    assert joined(of_tube(p.path, OUTSIDE) for p in made.parts.pieces).high.x == pytest.approx(
        max(placed(o).BoundingBox().xmax for o in made.model.occurrences), abs=1e-3
    )


def test_a_reversed_tube_is_placed_by_its_other_end():
    """Turned upside down its lower end is the other one, so it matches only when its ends are swapped."""
    over = tuple(Vec(p.x + 2000, -p.y, 900 - p.z) for p in CORNERS)
    made = of_paths(CORNERS, over)
    first, second = made.parts.pieces
    box, wanted = placed(made.model.occurrences[1]).BoundingBox(), of_tube(second.path, OUTSIDE)

    assert (first.is_reversed, second.is_reversed) == (False, True)
    assert [p.name for p in made.model.products] == ["T1"]
    assert (box.xmin, box.ymin, box.zmin) == pytest.approx(tuple(wanted.low), abs=1e-3)
    assert (box.xmax, box.ymax, box.zmax) == pytest.approx(tuple(wanted.high), abs=1e-3)


def test_a_mirror_image_is_a_product_and_a_shape_of_its_own():
    made = of_paths(CORNERS, tuple(Vec(p.x + 2000, -p.y, p.z) for p in CORNERS))
    left, right = made.model.products
    box, wanted = placed(made.model.occurrences[1]).BoundingBox(), of_tube(made.parts.pieces[1].path, OUTSIDE)

    assert (left.name, right.name) == ("T1L", "T1R")
    assert left.shape is not right.shape
    assert (box.ymin, box.ymax) == pytest.approx((wanted.low.y, wanted.high.y), abs=1e-3)


def test_bends_of_one_mark_that_turn_a_little_otherwise_keep_their_own_solid():
    """Half a degree in a bend's turn is one mark, but puts the far end off by millimetres."""
    bend, last = CORNERS[2], CORNERS[3] - CORNERS[2]
    way = (CORNERS[2] - CORNERS[1]).unit
    other = (*CORNERS[:3], bend + rotated(last, way, math.radians(0.5)))
    made = of_paths(CORNERS, moved(other, Vec(2000, 0, 0)))
    box, wanted = placed(made.model.occurrences[1]).BoundingBox(), of_tube(made.parts.pieces[1].path, OUTSIDE)

    assert {p.mark for p in made.parts.pieces} == {"T1"}
    assert [p.name for p in made.model.products] == ["T1", "T1 (2)"]
    assert (box.xmax, box.ymax, box.zmax) == pytest.approx(tuple(wanted.high), abs=1e-3)


def test_marks_that_differ_in_their_fittings_alone_share_a_shape():
    made = of_frame(frame_of("greenhouse", **dict(GREENHOUSE)))
    bent = {g.mark for g in made.parts.groups if g.first.bends}

    assert len(bent) > 1
    assert len({id(p.shape) for p in made.model.products if p.name in bent}) == 1


def test_angles_alike_share_a_fitting():
    """Two angles that differ by rounding alone are one product; by a hundredth of a degree, two with two names."""
    kind = WORKSHOP.catalog.kind("swivel-coupler")
    tubes = dict.fromkeys((p.name for p in kind.ports), WORKSHOP.catalog.tube("emt-3/4"))
    made = of_frame(frame_of("greenhouse", **dict(GREENHOUSE)))
    joint = next(j for j in made.joints if j.kind == "swivel-coupler")
    joints = [replace(joint, fitting=WORKSHOP.sized(kind, tubes, a)) for a in (50.0, 50.0 + 1e-9, 50.004, 50.01)]
    model = build_model(replace(made.parts, pieces=(), panel_groups=()), joints, WORKSHOP.catalog, name="angles")

    assert [o.product.name.removeprefix("swivel-coupler EMT 3-4 ") for o in model.occurrences] == [
        "50.00 deg",
        "50.00 deg",
        "50.00 deg (2)",
        "50.01 deg",
    ]


def test_a_joint_without_a_fitting_has_no_solid():
    made = of_frame(frame_of("table", **dict(TABLE)))
    bare = [replace(j, fitting=None) for j in made.joints]
    model = build_model(made.parts, bare, WORKSHOP.catalog, name="bare")

    assert not [p for p in model.products if p.paint is Paint.FITTING]
