"""Triangles: on the true surface at their corners, all facing out, no gap between them."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from tubeframe.geometry.corners import through
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.solids.mesh import mesh_of
from tubeframe.solids.tube import tube_solid

OUTER, INNER, LENGTH = 20.0, 18.0, 500.0
SAG = 0.1


def straight():
    return mesh_of(tube_solid(line(ORIGIN, Vec(0, 0, LENGTH)), 2 * OUTER, 2 * INNER), SAG, 0.3)


def bent():
    return mesh_of(
        tube_solid(through([ORIGIN, Vec(0, 0, 300), Vec(300, 0, 300)], [140.0]), 2 * OUTER, 2 * INNER), SAG, 0.3
    )


def test_corners_lie_on_the_tube_and_normals_stand_on_it():
    mesh = straight()
    across = np.hypot(mesh.points[:, 0], mesh.points[:, 1])
    round_ = np.abs(mesh.normals[:, 2]) < 0.5
    outward = np.sum(mesh.points[:, :2] * mesh.normals[:, :2], axis=1)

    assert np.minimum(abs(across - OUTER), abs(across - INNER)).max() < 1e-9
    assert outward[round_ & (across > 19)] == pytest.approx(OUTER)
    assert outward[round_ & (across < 19)] == pytest.approx(-INNER)
    assert np.linalg.norm(mesh.normals, axis=1) == pytest.approx(1.0)


@pytest.mark.parametrize("make", [straight, bent])
def test_every_triangle_faces_out(make):
    mesh = make()
    a, b, c = (mesh.points[mesh.triangles[:, k]] for k in range(3))
    ways = np.cross(b - a, c - a)
    ways /= np.linalg.norm(ways, axis=1)[:, None]

    for k in range(3):
        assert np.sum(ways * mesh.normals[mesh.triangles[:, k]], axis=1).min() > np.cos(0.3)


@pytest.mark.parametrize("make", [straight, bent])
def test_the_surface_is_closed(make):
    """Every side of a triangle is run once each way, once corners at one place count as one."""
    mesh = make()
    _, place = np.unique(mesh.points.round(6), axis=0, return_inverse=True)
    corners = place.reshape(-1)[mesh.triangles]
    sides = Counter((int(t[k]), int(t[(k + 1) % 3])) for t in corners for k in range(3))

    assert all(count == 1 and sides[b, a] == 1 for (a, b), count in sides.items())


def test_the_sag_is_kept():
    """A chord over the angle q stands r (1 - cos(q/2)) off its circle."""
    mesh = straight()
    corners = mesh.points[mesh.triangles]
    middles = (corners + np.roll(corners, 1, axis=1)) / 2
    across = np.hypot(middles[..., 0], middles[..., 1]).ravel()
    off = np.where(across > 19 - SAG, OUTER - across, INNER - across)
    on_the_ends = np.ptp(corners[..., 2], axis=1) == 0.0

    assert off.reshape(-1, 3)[~on_the_ends].max() <= SAG
    assert off.reshape(-1, 3)[~on_the_ends].max() > 0.01
