"""The STEP reader reads a good file right, and finds the faults that are planted in a bad one."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import arris
import cadquery as cq
import pytest

from tests.outputs.readers import part21, step
from tests.outputs.readers.placing import Placement

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

OUTER, WALL = 11.7, 1.2
RING = math.pi * (OUTER**2 - (OUTER - WALL) ** 2)  # [mm2]


def tube(length: float) -> cq.Shape:
    return cq.Workplane("XY").circle(OUTER).circle(OUTER - WALL).extrude(length).val()


def bent_tube(radius: float, start: float) -> cq.Shape:
    """A straight along z, then a quarter bend towards x."""
    turn = radius * math.sqrt(0.5)
    path = cq.Wire.assembleEdges(
        [
            cq.Edge.makeLine(cq.Vector(0, 0, 0), cq.Vector(0, 0, start)),
            cq.Edge.makeThreePointArc(
                cq.Vector(0, 0, start),
                cq.Vector(radius - turn, 0, start + turn),
                cq.Vector(radius, 0, start + radius),
            ),
        ]
    )
    return cq.Workplane("XY").circle(OUTER).circle(OUTER - WALL).sweep(cq.Workplane(path)).val()


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A post and a bent tube, each placed more than once, the rails in a turned sub-assembly."""
    path = tmp_path_factory.mktemp("solids") / "model.step"
    grey, blue = cq.Color(0.7, 0.7, 0.7, 1.0), cq.Color(0.0, 0.0, 1.0, 1.0)
    post, hoop = tube(500.0), bent_tube(140.0, 100.0)
    rails = cq.Assembly(name="rails", loc=cq.Location(cq.Vector(0, 0, 500), cq.Vector(0, 1, 0), 90))
    rails.add(post, name="rail.a", loc=cq.Location(cq.Vector(0, 10, 0)), color=grey)
    rails.add(post, name="rail.b", loc=cq.Location(cq.Vector(0, 200, 0)), color=grey)
    whole = cq.Assembly(name="stand")
    whole.add(post, name="post.left", color=grey)
    whole.add(post, name="post.brace", loc=cq.Location(cq.Vector(0, 400, 0), cq.Vector(1, 1, 0), 37), color=grey)
    whole.add(hoop, name="hoop", loc=cq.Location(cq.Vector(0, -300, 0), cq.Vector(1, 0, 0), 30), color=blue)
    whole.add(rails)
    whole.export(str(path), "STEP")
    return path


def changed(path: Path, folder: Path, old: str, new: str) -> Path:
    text = path.read_text(encoding="ascii")
    assert old in text
    copy = folder / path.name
    copy.write_text(text.replace(old, new, 1), encoding="utf-8")
    return copy


def test_step_names_and_usages(built: Path) -> None:
    read = step.read(built)
    assert read.length_unit_mm == 1.0
    assert read.solids == 2
    assert sorted(tuple(round(part, 6) for part in colour) for colour in read.colours) == [
        (0.0, 0.0, 1.0),
        (0.7, 0.7, 0.7),
    ]
    assert read.uncoloured == ()
    assert [usage.occurrence for usage in read.usages if usage.parent == "rails"] == ["rail.a", "rail.b"]
    assert {usage.product for usage in read.usages if usage.parent == "rails"} == {"post.left"}
    assert [one.path[-1] for one in read.placed] == ["post.left", "post.brace", "hoop", "rail.a", "rail.b"]


def test_step_volume_and_box_of_each_placed_part(built: Path) -> None:
    parts = {part.occurrence: part for part in step.solids(built)}
    for name in ("post.left", "post.brace", "rail.a", "rail.b"):
        assert parts[name].volume == pytest.approx(RING * 500.0, rel=1e-9)
    assert parts["hoop"].volume == pytest.approx(RING * (100.0 + math.pi / 2.0 * 140.0), rel=1e-9)
    flat = pytest.approx
    assert parts["rail.b"].box[0] == flat((0.0, 200.0 - OUTER, 500.0 - OUTER), abs=1e-6)
    assert parts["rail.b"].box[1] == flat((500.0, 200.0 + OUTER, 500.0 + OUTER), abs=1e-6)
    # a turned cylinder: half its width along an axis is r * sqrt(1 - a^2), a the part of its axis along it
    along = (math.sin(math.radians(37.0)) * math.sqrt(0.5), -math.sin(math.radians(37.0)) * math.sqrt(0.5))
    assert parts["post.brace"].box[0][0] == flat(-OUTER * math.sqrt(1.0 - along[0] ** 2), abs=1e-6)
    assert parts["post.brace"].box[1][0] == flat(500.0 * along[0] + OUTER * math.sqrt(1.0 - along[0] ** 2), abs=1e-6)


def test_step_box_of_a_turned_bend_is_tight(built: Path) -> None:
    """The outside of the bend, turned by 30 degrees about x, reaches farthest up where its normal points up."""
    hoop = next(part for part in step.solids(built) if part.occurrence == "hoop")
    # circle of the bend: centre (140, 0, 100), radius 140, in the plane y = 0; up in its own axes is (0, 1/2, cos 30)
    up = math.cos(math.radians(30.0))
    top = 100.0 * up + max(
        140.0 * math.cos(t) * up + OUTER * math.hypot(math.cos(t) * up, 0.5) for t in (i * 1e-4 for i in range(15708))
    )
    assert hoop.box[1][2] == pytest.approx(top, abs=1e-5)


def test_step_walk_agrees_with_the_kernels_own_walk(built: Path) -> None:
    def leaves(products: list[arris.Occurrence], above: Placement) -> Iterator[Placement]:
        for product in products:
            assert product.placement is not None
            (a, b, c, x), (d, e, f, y), (g, h, i, z) = product.placement[:3]
            placed = above.after(Placement(rows=((a, b, c), (d, e, f), (g, h, i)), origin=(x, y, z)))
            if product.solids:
                yield placed
            yield from leaves(product.children, placed)

    read = arris.Model().read_step(built.read_text(encoding="ascii"))
    theirs = list(leaves(read.products, Placement()))
    ours = [one.placement for one in step.read(built).placed]
    assert len(ours) == len(theirs) == 5
    assert all(one.near(other) for one, other in zip(ours, theirs, strict=True))


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("MANIFOLD_SOLID_BREP('',#", "MANIFOLD_SOLID_BREP('',#99", "lead to nothing"),
        ("END-ISO-10303-21;", "", "END-ISO-10303-21"),
        ("DATA;\n#1 =", "DATA;\n#2 =", "stated twice"),
        ("'rail.a'", "'rail.ä'", "7-bit"),
        ("'rail.a'", "'rail.a", "not a Part 21 token|expected"),
        ("SI_UNIT(.MILLI.,.METRE.)", "SI_UNIT($,.METRE.)", "one unit of length"),
        ("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(", "LEFT_OUT(", "no placement"),
    ],
)
def test_step_faults(built: Path, tmp_path: Path, old: str, new: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        step.read(changed(built, tmp_path, old, new))


def test_step_moved_part_is_seen(built: Path, tmp_path: Path) -> None:
    moved = changed(built, tmp_path, "(0.,400.,0.)", "(0.,401.,0.)")
    before = {part.occurrence: part.box for part in step.solids(built)}
    after = {part.occurrence: part.box for part in step.solids(moved)}
    assert [name for name, box in after.items() if box != before[name]] == ["post.brace"]
    assert after["post.brace"][0][1] - before["post.brace"][0][1] == pytest.approx(1.0)


def test_step_header_colours_and_several_solids(tmp_path: Path) -> None:
    pair = cq.Compound.makeCompound([cq.Solid.makeBox(10, 10, 10), cq.Solid.makeBox(5, 5, 5, cq.Vector(20, 0, 0))])
    cq.Assembly(name="whole").add(pair, name="pair").export(str(tmp_path / "a.step"), "STEP")
    read = step.read(tmp_path / "a.step")
    assert read.schemas[0].startswith("AUTOMOTIVE_DESIGN")
    assert read.file_name.authors == ("Author",)
    assert (read.solids, read.colours, read.uncoloured) == (2, (), ("pair",))
    [part] = step.solids(tmp_path / "a.step")
    assert (part.solids, part.colour) == (2, None)
    assert part.volume == pytest.approx(1125.0)
    assert part.box == (pytest.approx((0, 0, 0), abs=1e-6), pytest.approx((25, 10, 10)))


def test_step_solid_that_the_kernel_refuses(built: Path, tmp_path: Path) -> None:
    """The post's surface no longer passes through its edges."""
    bad = changed(built, tmp_path, "CYLINDRICAL_SURFACE('',#", "CYLINDRICAL_SURFACE('away',#")
    text = bad.read_text(encoding="ascii")
    at = text.index(",11.7)", text.index("'away'"))
    bad.write_text(text[:at] + ",12.7)" + text[at + 6 :], encoding="ascii")
    with pytest.raises(ValueError, match=r"product 'post.left': solid #\d+ is refused"):
        step.solids(bad)


def test_part21_codes_in_text() -> None:
    assert part21.decode(r"3/4\X2\201D\X0\ it''s \X\E9 \S\i \\") == "3/4” it's é é \\"
