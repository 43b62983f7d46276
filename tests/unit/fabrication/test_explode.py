from __future__ import annotations

import itertools

import pytest

from tests.building import design_of_text
from tubeframe.fabrication.explode import Apart
from tubeframe.fabrication.order import Batch, Work

POST = {"id": "post", "path": [[0, 0, 0], [0, 0, 1500]], "ends": ["foot", "cap"]}


def test_a_guy_from_a_post_to_the_ground_is_drawn_apart():
    """Its direction cosines are all 1/sqrt(3), over 0.5: it is square to none of the axes."""
    design = design_of_text(POST, {"id": "guy", "path": [[0, 0, 1000], [1000, 1000, 0]], "ends": ["joint", "open"]})

    moved = {m.what: m for s in design.fabrication.steps for m in s.moves}

    assert moved["guy"].distance > 0


@pytest.mark.parametrize("way", [w for w in itertools.product((-2, -1, 0, 1, 2), repeat=3) if any(w)])
def test_a_tube_of_any_direction_moves_along_an_axis_and_not_along_itself(way):
    """Sliding along itself would show nothing: it moves at 45 degrees to itself or squarer."""
    start = [700, 500, 2000]
    end = [a + 250 * w for a, w in zip(start, way, strict=True)]
    design = design_of_text(POST, {"id": "free", "path": [start, end], "ends": ["open", "open"]})
    member = design.frame.members[1]

    (move,) = Apart(design.frame, design.jointed).moves(Batch(work=Work.LINK, members=(member,)))

    assert sorted(abs(v) for v in move.direction) == [0, 0, 1]
    assert abs(move.direction.dot(member.path.tangent(0.0))) < 0.7072
