"""Rings of tubes: as many as ports beyond those of a tree, each with the piece that slides."""

from __future__ import annotations

import pytest

from tests.bays import rack_of
from tests.building import greenhouse, table
from tests.unit.joints.test_planted_faults import SOUND, WORKSHOP, _frame
from tubeframe.joints.loops import rings
from tubeframe.joints.resolve import jointed
from tubeframe.words.steps import told_steps


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
    said = [a for s in told_steps(table()) for a in s.action]

    assert any(a.startswith("Closing piece: ") for a in said)
    assert any(a.startswith("Nothing slides in the ring of ") for a in said)


def test_each_ring_is_the_shortest_way_back_in_the_order_of_the_joints():
    """The same by searching from one side, in full: the first shortest way, tie by tie."""
    found = jointed(rack_of(3), WORKSHOP)
    ties = [j for j in found.joints if len({u.tube for u in j.uses}) > 1]
    near, shortest = {}, []
    for joint in ties:
        for tube in dict.fromkeys(u.tube for u in joint.uses):
            came, waiting = {tube: None}, [tube]
            for here in waiting:
                fresh = [n for n in near.get(here, []) if n not in came]
                came.update(dict.fromkeys(fresh, here))
                waiting += fresh
            if joint.id in came:
                way, here = set(), joint.id
                while here is not None:
                    way.add(here)
                    here = came[here]
                shortest.append(way & {t.id for t in found.tubes})
            near.setdefault(tube, []).append(joint.id)
            near.setdefault(joint.id, []).append(tube)

    assert len(shortest) > 20
    assert [set(r.tubes) for r in rings(found.tubes, found.joints)] == shortest
