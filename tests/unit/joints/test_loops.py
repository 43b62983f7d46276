"""Rings of tubes: as many as ports beyond those of a tree, each with the piece that slides."""

from __future__ import annotations

import pytest

from tests.building import greenhouse, table
from tests.unit.joints.test_planted_faults import SOUND, WORKSHOP, _frame
from tubeframe.joints.loops import rings
from tubeframe.joints.resolve import jointed


@pytest.mark.parametrize("design", [table, greenhouse])
def test_there_are_as_many_rings_as_a_connected_graph_has(design):
    """Edges less places and one more: the cyclomatic number of a connected graph."""
    found = design().jointed
    ties = [j for j in found.joints if len(j.uses) > 1]
    ports = sum(len(j.uses) for j in ties)

    assert len(rings(found.tubes, found.joints)) == ports - len(ties) - len(found.tubes) + 1


def test_a_rectangle_of_tees_closes_by_a_rail_on_a_post():
    found = jointed(_frame(*SOUND), WORKSHOP)
    (ring,) = rings(found.tubes, found.joints)

    assert set(ring.tubes) == {"left", "right", "low", "high"}
    assert (ring.slides[0].tube, ring.slides[0].along) == ("high", "left")


def test_a_ring_of_corners_has_nothing_that_slides():
    """The rails under a table's top are all cut into corner fittings."""
    found = table().jointed
    stiff = [r for r in rings(found.tubes, found.joints) if not r.slides]

    assert {"rail.front", "rail.back", "rail.left", "rail.right"} in [set(r.tubes) for r in stiff]


def test_the_steps_name_the_closing_piece():
    said = [a for s in table().fabrication.steps for a in s.action]

    assert any(a.startswith("Closing piece: ") for a in said)
    assert any(a.startswith("Nothing slides in the ring of ") for a in said)
