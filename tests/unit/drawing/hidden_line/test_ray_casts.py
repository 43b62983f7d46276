"""What the engine hides is compared with rays that step along signed distances, in views along no axis of the scene."""

from __future__ import annotations

import numpy as np
import pytest

from tests.unit.drawing.hidden_line.rays import depths, parts_of
from tests.unit.drawing.hidden_line.seeing import straight, tube
from tubeframe.drawing.hidden_line.engine import candidate_edges
from tubeframe.drawing.hidden_line.occluders import occluders_of
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.hidden_line.search import visible_pieces
from tubeframe.drawing.model.scene import Body, View
from tubeframe.geometry.convex import Box, Cylinder
from tubeframe.geometry.corners import through
from tubeframe.geometry.vector import Vec, X, Y, Z

SAG = 0.02
DOUBT = 0.1
"""A ray that passes a surface nearer than this proves nothing [mm]."""
SAMPLES = 2000


def clamp(key: str, middle: Vec) -> Body:
    """Two sleeves that cross, an ear and a bolt."""
    other = middle - Y * 26.0
    return Body(
        key=key,
        pieces=(
            Cylinder(start=middle - Z * 20.0, end=middle + Z * 20.0, radius=14.5, bore=12.0),
            Cylinder(start=other - X * 20.0, end=other + X * 20.0, radius=14.2, bore=12.0),
            Box(centre=middle + X * 20.0, half_x=Z * 12.0, half_y=X * 10.0, half_z=Y * 4.0),
            Cylinder(start=middle + X * 24.0 - Y * 10.0, end=middle + X * 24.0 + Y * 10.0, radius=3.0),
        ),
    )


def small_frame() -> tuple[Body, ...]:
    posts = [straight(f"p{x}{y}", Vec(x, y, 0), Vec(x, y, 500.0)) for x in (0.0, 400.0) for y in (0.0, 300.0)]
    rails = [straight(f"r{y}", Vec(-60.0, y - 26.0, 120.0), Vec(460.0, y - 26.0, 120.0)) for y in (0.0, 300.0)]
    clamps = [clamp(f"c{x}{y}", Vec(x, y, 120.0)) for x in (0.0, 400.0) for y in (0.0, 300.0)]
    hoops = (
        tube("h1", through((Vec(100, -90, -50), Vec(100, -90, 400), Vec(100, 390, 400), Vec(100, 390, 0)), (110, 45))),
        tube("h2", through((Vec(250, -80, 0), Vec(250, -30, 400), Vec(280, 330, 350), Vec(290, 330, 0)), (110, 40))),
    )
    return (*posts, *rails, *clamps, *hoops)


def share_that_agrees(bodies: tuple[Body, ...], view: View) -> float:
    primitives = taken_apart(bodies, view, sag=SAG, min_size=0.0)
    edges = candidate_edges(primitives, sag=SAG, min_size=0.0)
    pieces = visible_pieces(edges, occluders_of(primitives))
    # samples at even distances along all edges laid end to end
    ends = np.cumsum(edges.seen_length)
    at = (np.arange(SAMPLES) + 0.5) / SAMPLES * ends[-1]
    edge = np.searchsorted(ends, at)
    share = 1.0 - (ends[edge] - at) / edges.seen_length[edge]
    before = np.searchsorted(pieces.edge + pieces.low, edge + share) - 1
    seen = (before >= 0) & (pieces.edge[before] == edge) & (share <= pieces.high[before])
    to_model = np.array([tuple(axis) for axis in view.axes])
    points = (edges.start[edge] + share[:, None] * (edges.end[edge] - edges.start[edge])) @ to_model
    own, others = depths(parts_of(bodies), points, edges.part[edge], to_model[2], 2000.0)
    hidden = (own < -DOUBT) | (others < -DOUBT)
    free = (own > -DOUBT) & (others > DOUBT)
    sure = hidden | free
    assert sure.mean() > 0.9
    assert min(hidden.sum(), free.sum()) > 20
    assert (~seen[hidden]).mean() > 0.95
    return float((seen == free)[sure].mean())


@pytest.mark.parametrize(
    "toward", [Vec(0.31, -1.0, 0.22), Vec(1.0, -0.13, 0.57), Vec(0.9, -1.0, 1.1), Vec(-0.2, 0.1, 1.0)]
)
def test_rays_agree_with_the_closed_form(toward: Vec) -> None:
    view = View(to_viewer=toward, right=Vec(-toward.y, toward.x, 0.01))
    assert share_that_agrees(small_frame(), view) >= 0.995


@pytest.mark.parametrize(
    "toward", [Vec(0.8, 0.6, 0.01), Vec(0.1, 1.0, 0.05), Vec(-0.6, 0.3, -0.4), Vec(0.1, 0.15, 1.0)]
)
def test_rays_agree_on_bends_that_hide_themselves(toward: Vec) -> None:
    zigzag = through(
        (Vec(0, 0, 0), Vec(0, 0, 100), Vec(0, 200, 100), Vec(0, 200, 300), Vec(60, 300, 300)), (30, 50, 60)
    )
    hoop = through((Vec(200, 0, 0), Vec(200, 0, 300), Vec(200, 250, 300), Vec(200, 250, 0)), (110, 45))
    view = View(to_viewer=toward, right=Vec(-toward.y, toward.x, 0.01))
    assert share_that_agrees((tube("zigzag", zigzag), tube("hoop", hoop)), view) >= 0.995
