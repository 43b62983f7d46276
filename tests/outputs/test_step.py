"""STEP as a kernel reads it that is not OpenCASCADE (arris), with closed formulas beside it."""

from __future__ import annotations

import math

import pytest

from tests.building import design_of, greenhouse, table
from tests.outputs.readers import step
from tubeframe.geometry.units import Units, parse_length
from tubeframe.output.step_file import write_step
from tubeframe.solids.model import model_of

DESIGNS = {
    "table": table,
    "greenhouse": greenhouse,
    "notched": lambda: design_of("table", seat="notched"),
    "metric": lambda: design_of("table", {"units": "mm", "tube": "tube-26.9x2"}),
    "long": lambda: design_of("greenhouse", width="6ft", length="22ft", height="6ft"),
}


@pytest.fixture(scope="module", params=DESIGNS)
def built(request, tmp_path_factory):
    design = DESIGNS[request.param]()
    path = tmp_path_factory.mktemp(request.param) / "model.step"
    with path.open("wb") as target:
        write_step(model_of(design), target)
    return design, path, {p.occurrence: p for p in step.solids(path)}


def test_every_part_is_one_solid_under_its_id(built):
    design, _, placed = built
    tubes = [p.id for p in design.parts.pieces]
    joints = [j.id for j in design.jointed.joints]
    boards = [p.id for p in design.frame.panels]

    assert sorted(placed) == sorted([*tubes, *joints, *boards])
    assert all(p.solids == 1 for p in placed.values())


def test_a_product_is_a_mark_and_is_shared(built):
    design, path, placed = built
    file = step.read(path)

    assert all(placed[p.id].product == p.mark for p in design.parts.pieces)
    assert len(file.products) == len(set(file.products))
    assert file.length_unit_mm == 1.0
    assert file.uncoloured == ()


def test_straight_tubes_have_the_volume_of_the_formula(built):
    """V = pi (OD t - t^2) L."""
    design, _, placed = built
    for piece in design.parts.pieces:
        size = design.workshop.catalog.tube(piece.size)
        area = math.pi * (size.outside * size.wall - size.wall**2)

        assert placed[piece.id].volume == pytest.approx(area * piece.cut_length, rel=1e-6)


def test_box_of_the_tubes_that_carry_the_size(built):
    design, _, placed = built
    names = design.frame.sized_by or [m.id for m in design.frame.members]
    boxes = [placed[p.id].box for p in design.parts.pieces if p.member in names]
    low = [min(b[0][i] for b in boxes) for i in range(3)]
    high = [max(b[1][i] for b in boxes) for i in range(3)]
    top = max([high[2], *(placed[p.id].box[1][2] for p in design.frame.panels)])
    asked = {k: parse_length(design.source.parameters[k], Units.INCH) for k in ("width", "length", "height")}
    along_x = design.frame.length_along == "x"

    assert high[0] - low[0] == pytest.approx(asked["length" if along_x else "width"], abs=0.01)
    assert high[1] - low[1] == pytest.approx(asked["width" if along_x else "length"], abs=0.01)
    assert top == pytest.approx(asked["height"], abs=0.01)


def test_header_has_no_clock(built):
    _, path, _ = built
    header = step.read(path).file_name

    assert header.time_stamp == "1970-01-01T00:00:00"
    assert header.originating_system.startswith("tubeframe ")


def test_every_kind_of_fitting_is_one_solid_that_is_read(tmp_path):
    from tubeframe.catalog.workshop import generic_workshop
    from tubeframe.geometry.placement import Placement
    from tubeframe.solids.fitting import fitting_solid
    from tubeframe.solids.model import Model, Occurrence, Paint, Product

    workshop = generic_workshop()
    products = tuple(
        Product(
            name=f"{kind.key} {tube}",
            shape=fitting_solid(
                workshop.sized(
                    kind,
                    dict.fromkeys((p.name for p in kind.ports), workshop.catalog.tube(tube)),
                    60.0 if kind.swings else None,
                )
            ),
            paint=Paint.FITTING,
        )
        for kind in workshop.catalog.kinds
        for tube in ("emt-3/4", "tube-33.7x3")
    )
    placed = tuple(Occurrence(name=p.name, product=p, placement=Placement()) for p in products)
    path = tmp_path / "kinds.step"
    with path.open("wb") as target:
        write_step(Model(name="kinds", products=products, occurrences=placed), target)

    assert all(p.volume > 0 and p.solids == 1 for p in step.solids(path))


def test_a_tee_has_room_for_its_run():
    """A cap: disk pi R^2 t and ring pi (R^2 - r^2) s, by hand; a fitting's bore is where its tube is."""
    from tubeframe.catalog.workshop import generic_workshop
    from tubeframe.solids.fitting import fitting_solid

    workshop = generic_workshop()
    cap = workshop.sized(workshop.catalog.kind("cap"), {"tube": workshop.catalog.tube("emt-3/4")})
    outer, inner = 23.4188 / 2 + 25.4 / 16, 23.4188 / 2
    by_hand = math.pi * outer**2 * 25.4 / 8 + math.pi * (outer**2 - inner**2) * 3 / 16 * 25.4

    assert fitting_solid(cap).Volume() == pytest.approx(by_hand, rel=1e-9)
