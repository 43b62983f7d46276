"""Every fitting of every sound text frame sits on its tubes: its ports' middles on their axes, turned along them."""

from __future__ import annotations

import pytest

from tests.frames.case import draft
from tests.frames.cases import CASES
from tubeframe.geometry.tolerance import ANGLE_DEG, COUPLER_MM
from tubeframe.geometry.vector import angle_deg

SOUND = [pytest.param(c, id=c.frame) for c in CASES if c.is_sound and not c.wrong]


@pytest.mark.parametrize("case", SOUND)
def test_ports_lie_on_their_tubes(case):
    jointed = draft(case).jointed
    tubes = {t.id: t for t in jointed.tubes}
    for joint in (j for j in jointed.joints if j.fitting and not j.is_end_piece):
        for use in joint.uses:
            path, port = tubes[use.tube].path, joint.fitting.port(use.port)
            middle, axis = joint.placement.point(port.middle), joint.placement.direction(port.axis)
            turn = angle_deg(axis, path.tangent(use.at))

            assert middle.distance(path.point(use.at)) <= COUPLER_MM, (joint.kind, use.tube)
            assert min(turn, 180.0 - turn) <= ANGLE_DEG, (joint.kind, use.tube)
