"""Space frames drawn at random, the same ones every time: columns on a crooked grid, beams and some braces."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.beams import TUBE
from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.model import HINGED, RIGID, Bar, BarForce, Forces, Held, Model, PointForce

FIXED = (True, True, True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A frame, and what acts on it."""

    model: Model
    forces: Forces


def drawn(seed: int) -> Drawn:
    """Draw a frame of one to three bays each way and one or two storeys; some ends are hinged, some feet pinned."""
    draw = np.random.default_rng(seed)
    nx, ny, nz = (int(draw.integers(low, high)) for low, high in ((2, 4), (2, 4), (2, 4)))
    spot = {
        (i, j, k): n for n, (k, j, i) in enumerate((k, j, i) for k in range(nz) for j in range(ny) for i in range(nx))
    }
    points = tuple(
        Vec(*(np.array([i, j, k]) * 800.0 + draw.uniform(-120.0, 120.0, 3) * [1, 1, k > 0]).tolist())
        for i, j, k in spot
    )
    columns = [(spot[i, j, k], spot[i, j, k + 1]) for i, j, k in spot if k + 1 < nz]
    across = [
        (n, spot[other])
        for (i, j, k), n in spot.items()
        for other in ((i + 1, j, k), (i, j + 1, k), (i + 1, j, k + 1))
        if k > 0 and other in spot and (other[2] == k or draw.random() < 0.3)
    ]
    bars = [Bar(start=a, end=b, section=TUBE) for a, b in columns]
    for a, b in across:
        ends = [HINGED if draw.random() < 0.4 else RIGID for _ in range(2)]
        bars.append(Bar(start=a, end=b, section=TUBE, start_spring=ends[0], end_spring=ends[1]))
    held = tuple(Held(point=n, about=(False, False, True) if draw.random() < 0.5 else FIXED) for n in range(nx * ny))
    forces = tuple(
        PointForce(point=n, force=Vec(*draw.uniform(-200, 200, 3)), moment=Vec(*draw.uniform(-2e4, 2e4, 3)))
        for n in range(nx * ny, len(points))
        if draw.random() < 0.6
    )
    spread = tuple(
        BarForce(bar=k, per_length=Vec(*draw.uniform(-0.2, 0.2, 3))) for k in range(len(bars)) if draw.random() < 0.5
    )
    return Drawn(model=Model(points=points, bars=tuple(bars), held=held), forces=Forces(points=forces, bars=spread))
