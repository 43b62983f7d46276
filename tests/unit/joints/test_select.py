"""Every kind of fitting is found again from its own ports, however it is turned."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.frame.member import MemberId
from tubeframe.frame.node import Incidence, Node, Role, TubeEnd
from tubeframe.geometry.vector import ORIGIN, Vec, X, Y, Z, angle_deg, rotated
from tubeframe.joints.select import Fits, select

WORKSHOP = generic_workshop()
KINDS = [
    k for k in WORKSHOP.catalog.kinds if len(k.ports) > 1 and (k.swings or not (k.is_coupler and k.takes_angle(0.0)))
]
TURNS = [(Z, 0.0), (Z, 90.0), (X, 37.0), (Vec(1, 2, 3).unit, 200.0), (Y, 180.0)]


def _node(ways, runs, points=None):
    at = points or [ORIGIN] * len(ways)
    return Node(
        at=ORIGIN,
        incidences=tuple(
            Incidence(
                member=MemberId(f"m{n}"),
                role=Role.RUN if run else Role.BRANCH,
                at=0.0,
                point=point,
                way=way,
                end=None if run else TubeEnd.A,
            )
            for n, (way, run, point) in enumerate(zip(ways, runs, at, strict=True))
        ),
    )


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.key)
@pytest.mark.parametrize(("axis", "angle"), TURNS)
def test_a_kind_is_found_from_its_ports(kind, axis, angle):
    swing = 70.0 if kind.swings else None
    sized = WORKSHOP.sized(kind, dict.fromkeys((p.name for p in kind.ports), WORKSHOP.catalog.tube("emt-3/4")), swing)
    turn = math.radians(angle)
    ways = [rotated(p.axis, axis, turn) for p in sized.ports]
    points = [rotated(p.middle, axis, turn) for p in sized.ports]
    node = _node(ways, [p.role is PortRole.RUN for p in sized.ports], points)
    match = select(node, WORKSHOP.catalog.kinds, wanted=(kind.key,)).match

    assert match is not None
    assert match.kind.key == kind.key
    for port, incidence in match.held:
        laid = match.turn.direction(port.axis_at(match.angle))
        off = angle_deg(laid, incidence.way)
        assert min(off, 180.0 - off if incidence.role is Role.RUN else off) < 1e-5


def test_turning_keeps_the_hand():
    """x cross y is z: a fitting is turned, never mirrored."""
    left_handed = _node([X, Z, Y], [False] * 3)
    match = select(left_handed, WORKSHOP.catalog.kinds).match

    assert match is not None
    assert match.turn.x.cross(match.turn.y).distance(match.turn.z) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("ways", "runs"),
    [
        ([X, Vec(0.5, 0, math.sqrt(0.75)), Vec(0.5, math.sqrt(0.75), 0)], [True, False, False]),
        ([X, Vec(math.cos(math.radians(33)), math.sin(math.radians(33)), 0)], [False, False]),
        ([X, Y, Vec(0.5, 0.5, math.sqrt(0.5))], [False] * 3),
        ([X, Y, Z], [True, True, False]),
    ],
    ids=["two slanting ends", "33 degrees", "three ends not square", "two runs and an end"],
)
def test_directions_that_no_fitting_has_are_not_taken(ways, runs):
    assert select(_node(ways, runs), WORKSHOP.catalog.kinds).match is None


def test_a_degree_is_taken_two_are_not():
    def corner(degrees):
        turn = math.radians(degrees)
        return _node([X, Vec(math.cos(turn), math.sin(turn), 0)], [False, False])

    assert select(corner(90.9), WORKSHOP.catalog.kinds).match.kind.key == "elbow"
    assert select(corner(92.0), WORKSHOP.catalog.kinds).match.kind.key == "swivel-elbow"


def test_two_ends_in_line_on_a_run_are_a_cross():
    assert select(_node([X, Z, -Z], [True, False, False]), WORKSHOP.catalog.kinds).match.kind.key == "cross"
    assert select(_node([X, Z, Y], [True, False, False]), WORKSHOP.catalog.kinds).match.kind.key == "side-outlet-tee"


def _at(degrees):
    """A direction in the plane of x and z [degree from x]."""
    return Vec(math.cos(math.radians(degrees)), 0.0, math.sin(math.radians(degrees)))


@pytest.mark.parametrize(
    ("runs", "branches", "kind"),
    [
        ([], [X, _at(90)], "elbow"),
        ([], [X, _at(135)], "obtuse-elbow"),
        ([], [X, _at(120)], "swivel-elbow"),
        ([], [X, _at(180)], "sleeve-coupler"),
        ([], [X, _at(135), Y], "eave-corner"),
        ([], [X, _at(135), -Y], "eave-corner"),
        ([], [X, _at(120), Y], "swivel-eave-corner"),
        ([], [X, _at(90), Y], "side-outlet-elbow"),
        ([Y], [X, _at(135)], "eave-tee"),
        ([Y], [X, _at(100)], "swivel-eave-tee"),
        ([Y], [X, _at(90)], "side-outlet-tee"),
        ([X], [_at(45), _at(135)], "double-angle-tee"),
        ([X], [_at(45)], "angle-tee"),
        ([X], [_at(90)], "tee"),
        ([X], [Z, -Z, Y, -Y], "double-side-outlet-cross"),
        ([X], [Z, -Z, Y], "side-outlet-cross"),
    ],
)
@pytest.mark.parametrize(("axis", "angle"), TURNS)
def test_the_plainest_kind_for_tubes_that_meet(runs, branches, kind, axis, angle):
    """By hand: a fixed angle before one that turns, and no more ports than there are tubes; from either hand."""
    ways = [rotated(w, axis, math.radians(angle)) for w in (*runs, *branches)]
    node = _node(ways, [n < len(runs) for n in range(len(ways))])

    assert select(node, WORKSHOP.catalog.kinds).match.kind.key == kind


def test_what_is_known_of_a_node_holds_for_another_of_its_shape_with_its_own_tubes():
    """The same answer as without a memory, whatever was asked before: also for what is refused."""
    offset = 23.4188 + 4.7625
    before, behind = ([ORIGIN, Y * (sign * offset)] for sign in (-1.0, 1.0))
    nodes = [
        _node([X, Z], [True, False]),
        _node([X, Z, -Z], [True, False, False]),
        _node([X, Z], [True, True], before),
        _node([X, Z], [True, True], behind),
    ]
    others = [replace(n, incidences=tuple(replace(i, member=f"other {i.member}") for i in n.incidences)) for n in nodes]
    fits = Fits(WORKSHOP.catalog.kinds)

    for node in (*nodes, *others):
        assert select(node, WORKSHOP.catalog.kinds, fits=fits) == select(node, WORKSHOP.catalog.kinds)
