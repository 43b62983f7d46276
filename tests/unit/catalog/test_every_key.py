"""Each key that can be measured has its effect on every kind it is for, and is refused on the others."""

from __future__ import annotations

import pytest

from tubeframe.catalog.measurable import deciding_lengths
from tubeframe.catalog.measured import Measured, sizes_of
from tubeframe.catalog.measured_document import keys_of
from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import InputError
from tubeframe.fabrication.buying import buying_list
from tubeframe.fabrication.fitting_count import count_fittings
from tubeframe.frame.builder import FrameBuilder
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import ORIGIN, Z
from tubeframe.joints.joint import Joint, JointId
from tubeframe.parts.piece import Parts

KEYS = tuple(k for k in Measured.__slots__ if k not in {"kind", "sizes", "setback_by_angle"})
KINDS = shipped_catalog().kinds
GIVEN = {"price": 7.25, "on_hand": 3, "slip_force": "300 N", "twist_moment": "9 Nm", "bolt_torque": "8 Nm"}
LENGTH = "3.3125 in"
MM = 3.3125 * 25.4


def shop_with(kind, key):
    return workshop_from_document({"fittings": {kind.key: {key: GIVEN.get(key, LENGTH)}}}, "my.toml")


def sized(shop, kind):
    tube = shop.catalog.tube("emt-3/4")
    return shop.sized(kind, dict.fromkeys((p.name for p in kind.ports), tube), 60.0 if kind.swings else None)


def effect(shop, kind, key):
    """What a key ends up as, read from where the rest of the program takes it."""
    fitting = sized(shop, kind)
    roles = {p.role.value: p for p in fitting.ports}
    if key in {"offset", "thickness"}:
        return getattr(fitting, key)
    if key == "length":
        return sum(p.grip for p in fitting.ports)
    if key in {"setback", "grip", "branch_grip"}:
        return getattr(roles["run" if key == "grip" else "branch"], "setback" if key == "setback" else "grip")
    joint = Joint(id=JointId("J1"), at=ORIGIN, placement=Placement(), fitting=fitting, uses=())
    (count,) = count_fittings((joint,), shop)
    frame = FrameBuilder(name="one", tube="emt-3/4")
    frame.tube("a", (ORIGIN, Z * 900.0))
    (line,) = buying_list(frame.build(), Parts(pieces=(), groups=(), panel_groups=()), (count,), (), None, shop)
    return {"price": line.price, "on_hand": (line.quantity, line.spare)}.get(key, getattr(count, key, None))


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.key)
def test_a_key_counts_where_it_can_and_is_refused_elsewhere(kind, key):
    if key not in keys_of(kind):
        with pytest.raises(InputError) as caught:
            shop_with(kind, key)
        (problem,) = caught.value.problems
        assert problem.key == f"fittings.{kind.key}.{key}"
        assert problem.remedy == f"what does: {', '.join(keys_of(kind))}"
        return
    found = effect(shop_with(kind, key), kind, key)
    wanted = {"price": 7.25, "on_hand": (0, 0), "slip_force": 300.0, "twist_moment": 9000.0, "bolt_torque": 8000.0}
    assert found == pytest.approx(wanted.get(key, MM))
    assert found != effect(generic_workshop(), kind, key)


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.key)
def test_what_was_measured_is_claimed_on_the_fitting(kind):
    """A fitting counts as measured when all that cuts or places its tubes was; a price makes nothing of it."""
    shop = workshop_from_document(
        {"fittings": {kind.key: {"price": 1, **dict.fromkeys(deciding_lengths(kind), LENGTH)}}}, "my"
    )
    made = sized(shop, kind)

    assert made.measured == deciding_lengths(kind)
    assert not made.is_generic
    assert sized(generic_workshop(), kind).is_generic == bool(deciding_lengths(kind))
    tubes = dict.fromkeys((p.name for p in kind.ports), shop.catalog.tube("emt-3/4"))
    assert made.sizes == sizes_of(kind, tubes) == ("emt-3/4",)
