"""Fittings: one sound solid of every kind, with room for its tubes and none beyond their ends."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from tests.outputs.readers import step
from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.geometry.placement import Placement
from tubeframe.output.step_file import write_step
from tubeframe.solids.fitting import fitting_solid
from tubeframe.solids.kernel import cq
from tubeframe.solids.model import Model, Occurrence, Paint, Product

WORKSHOP = generic_workshop()
KINDS = WORKSHOP.catalog.kinds
OUTSIDE = 23.4188
WIDE = 38.354


def sized(key, *outsides, angle=None):
    kind = WORKSHOP.catalog.kind(key)
    tubes = [next(t for t in WORKSHOP.catalog.tubes if t.outside == pytest.approx(o)) for o in outsides]
    return WORKSHOP.sized(kind, dict(zip((p.name for p in kind.ports), tubes, strict=True)), angle)


def of_one_size(kind):
    return sized(kind.key, *[OUTSIDE] * len(kind.ports), angle=60.0 if kind.swings else None)


def holds(solid, point):
    return solid.isInside(cq.Vector(*point), 1e-6)


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.key)
def test_one_sound_solid(kind):
    solid = fitting_solid(of_one_size(kind))

    assert solid.ShapeType() == "Solid"
    assert solid.isValid()
    assert {f.geomType() for f in solid.Faces()} <= {"PLANE", "CYLINDER"}


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.key)
def test_every_tube_has_room_and_no_more(kind):
    """On its axis a run finds nothing; a branch's or end's tube finds metal right before its end, nothing after it."""
    fitting = of_one_size(kind)
    solid = fitting_solid(fitting)
    for port in fitting.ports:
        if port.role is PortRole.RUN:
            free = [port.middle + port.axis * (port.grip * share) for share in (-0.4, 0.0, 0.4)]
        else:
            free = [port.axis * (port.setback + part) for part in (0.01, port.grip / 4)]
        assert not any(holds(solid, p) for p in free)
        if port.role is not PortRole.RUN and not kind.is_sleeve:
            run = next((p.outside / 2 for p in fitting.ports if p.role is PortRole.RUN), 0.0)
            if port.setback - run > 0.1 or port.role is PortRole.END:
                assert holds(solid, port.axis * (port.setback - 0.01))


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.key)
def test_metal_around_every_tube(kind):
    """The sleeve is there all round the tube, a little outside of it, at the middle of what it holds."""
    fitting = of_one_size(kind)
    solid = fitting_solid(fitting)
    for port in fitting.ports:
        held = {
            PortRole.RUN: 0.45 * port.grip,
            PortRole.BRANCH: port.setback + port.grip / 2,
            PortRole.END: fitting.skirt / 2,
        }
        middle = port.middle + port.axis * held[port.role]
        if kind.inside:
            assert holds(solid, middle + port.up * (port.inside / 2 - 1.0))
            assert not holds(solid, middle + port.up * (port.inside / 2 - 0.1))
            continue
        side = port.up.across(port.axis).unit if abs(port.up.dot(port.axis)) < 0.99 else port.up
        for way in (side, -side):
            assert holds(solid, middle + way * (port.outside / 2 + 0.3))


def test_cap_by_hand():
    """A disk pi R^2 t and a ring pi (R^2 - r^2) s."""
    outer, inner = OUTSIDE / 2 + 25.4 / 16, OUTSIDE / 2
    by_hand = math.pi * outer**2 * 25.4 / 8 + math.pi * (outer**2 - inner**2) * 3 / 16 * 25.4

    assert fitting_solid(sized("cap", OUTSIDE)).Volume() == pytest.approx(by_hand, rel=1e-9)


def test_sleeve_over_two_sizes_by_hand():
    """Two rings of one outside, R = D/2 + 1/8 in, each half as long as the sleeve of its own size, 3 D / 2."""
    outer = WIDE / 2 + 25.4 / 8
    by_hand = sum(math.pi * (outer**2 - (d / 2) ** 2) * 1.5 * d for d in (WIDE, OUTSIDE))

    assert fitting_solid(sized("sleeve-coupler", WIDE, OUTSIDE)).Volume() == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize("angle", [0.0, 1e-9, 90.0, 180.0])
def test_a_swivel_coupler_turned_all_the_way(angle):
    fitting = sized("swivel-coupler", OUTSIDE, OUTSIDE, angle=angle)
    second = fitting.body[-1]

    assert second.half_y.unit.dot(fitting.ports[1].axis) == pytest.approx(0.0, abs=1e-12)
    assert fitting_solid(fitting).isValid()


def test_an_end_piece_of_no_thickness_is_its_skirt():
    thin = replace(sized("cap", OUTSIDE), thickness=0.0)
    outer, inner = OUTSIDE / 2 + 25.4 / 16, OUTSIDE / 2

    assert fitting_solid(thin).Volume() == pytest.approx(math.pi * (outer**2 - inner**2) * 3 / 16 * 25.4, rel=1e-9)


def test_sizes_and_angles_at_the_border_are_read_by_another_kernel(tmp_path):
    fittings = {
        "sleeve": sized("sleeve-coupler", WIDE, OUTSIDE),
        "parallel": sized("swivel-coupler", OUTSIDE, OUTSIDE, angle=0.0),
        "back": sized("swivel-coupler", OUTSIDE, OUTSIDE, angle=180.0),
        "sharp": sized("swivel-tee", OUTSIDE, OUTSIDE, angle=30.0),
        "slim run": sized("tee", OUTSIDE, WIDE),
    }
    products = tuple(Product(name=n, shape=fitting_solid(f), paint=Paint.FITTING) for n, f in fittings.items())
    placed = tuple(Occurrence(name=p.name, product=p, placement=Placement()) for p in products)
    path = tmp_path / "fittings.step"
    with path.open("wb") as target:
        write_step(Model(name="fittings", products=products, occurrences=placed), target)

    for part, fitting in zip(step.solids(path), fittings.values(), strict=True):
        whole = sum(math.pi * (b.radius**2 - (b.bore) ** 2) * (b.end - b.start).length for b in fitting.body[:2])
        assert part.solids == 1
        assert 0.4 * whole < part.volume < 2.0 * whole
