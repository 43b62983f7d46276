from __future__ import annotations

import time

import pytest

from tests.unit.drawing.hidden_line.seeing import straight
from tests.unit.drawing.hidden_line.test_ray_casts import clamp
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.model.scene import FRONT, ISOMETRIC, RIGHT_SIDE, Body, View
from tubeframe.geometry.vector import Vec


def shelves(bays: int) -> list[Body]:
    """Seven tubes and seven clamps a bay, and 14 tubes at the end."""
    bodies = []
    for i in range(bays + 1):
        x = 600.0 * i
        bodies += [straight(f"p{i}{y}", Vec(x, y, 0), Vec(x, y, 1800.0)) for y in (0.0, 500.0)]
        bodies += [
            straight(f"d{i}{z}", Vec(x + 26, -60, z), Vec(x + 26, 560, z)) for z in (300.0, 700, 1100, 1500, 1750)
        ]
        bodies += [clamp(f"c{i}{z}", Vec(x, 0.0, z)) for z in (300.0, 700.0, 1100.0, 1500.0)]
        bodies += [clamp(f"e{i}{z}", Vec(x, 500.0, z)) for z in (300.0, 700.0, 1100.0)]
    for y in (-26.0, 474.0):
        ends = (Vec(-60.0, y, 0), Vec(600.0 * bays + 60.0, y, 0))
        levels = (Vec(0, 0, z) for z in (270.0, 670.0, 1070.0, 1470.0, 1600.0, 1650.0, 1700.0))
        bodies += [straight(f"r{y}{up.z}", ends[0] + up, ends[1] + up) for up in levels]
    return bodies


@pytest.mark.bench
@pytest.mark.parametrize("view", [FRONT, RIGHT_SIDE, ISOMETRIC])
def test_sixty_tubes_take_less_than_a_third_of_a_second_and_more_take_their_share(view: View) -> None:
    def seconds(bodies: list[Body]) -> float:
        times = []
        for _ in range(3):
            begin = time.perf_counter()
            visible_lines(bodies, view)
            times.append(time.perf_counter() - begin)
        return min(times)

    small, large = shelves(6), shelves(48)
    assert sum(bool(b.tubes) for b in small) == 63
    few, many = seconds(small), seconds(large)
    assert few < 0.3
    growth = len(large) / len(small)
    assert many / few < 1.7 * growth
