"""GLB as a reader of our own takes it apart: metres, Y up, names, volumes."""

from __future__ import annotations

import pytest

from tests.building import greenhouse, table
from tests.outputs.readers import glb
from tubeframe.output.glb import write_glb
from tubeframe.solids.model import model_of


@pytest.fixture(scope="module", params=["table", "greenhouse"])
def built(request, tmp_path_factory):
    design = {"table": table, "greenhouse": greenhouse}[request.param]()
    path = tmp_path_factory.mktemp(request.param) / "model.glb"
    with path.open("wb") as target:
        write_glb(model_of(design), target)
    return design, glb.read(path)


def test_metres_and_y_up(built):
    design, model = built
    low, high = glb.box_from_z_up_mm(tuple(design.extent.low), tuple(design.extent.high))

    assert model.box[0] == pytest.approx(low, abs=2e-4)
    assert model.box[1] == pytest.approx(high, abs=2e-4)


def test_a_node_for_every_part(built):
    design, model = built
    parts = [p.id for p in design.parts.pieces] + [j.id for j in design.jointed.joints]
    parts += [p.id for p in design.frame.panels]

    assert sorted(n.name for n in model.nodes) == sorted(parts)


def test_meshes_are_closed_and_as_big_as_the_tubes(built):
    """A mesh of chords is smaller than pi (OD t - t^2) L by the chords' sag; within 3 %."""
    design, model = built
    volumes = {n.name: n.volume for n in model.nodes}
    for piece in design.parts.pieces:
        area = design.workshop.catalog.tube(piece.size).area
        assert volumes[piece.id] == pytest.approx(area * piece.cut_length * 1e-9, rel=0.03)
