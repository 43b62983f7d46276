"""How a flat sub-frame lies on the floor while it is built: its open mouths up."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from tubeframe.assembly.subframes import SubFrame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Jointed

_OUT = 0.5
"""A mouth faces out of the plane when the cosine to its normal is more."""


def up_side(flat: SubFrame, jointed: Jointed, joints: Collection[str]) -> Vec:
    """Return the way that is up while it lies: more of the open mouths of its fittings face up than down."""
    out = flat.plane.z
    return out if sum(_mouths(flat, jointed, joints)) >= 0.0 else -out


def has_mouths_up(flat: SubFrame, jointed: Jointed, joints: Collection[str]) -> bool:
    """Whether some open mouths of its fittings face up while it lies."""
    up = up_side(flat, jointed, joints)
    return any(m * flat.plane.z.dot(up) > _OUT for m in _mouths(flat, jointed, joints))


def _mouths(flat: SubFrame, jointed: Jointed, joints: Collection[str]) -> Iterator[float]:
    """Give the cosines to its normal of ports whose tubes come later."""
    members = set(flat.members)
    own = {t.id for t in jointed.tubes if t.member in members}
    for joint in (j for j in jointed.joints if j.id in joints):
        yield from _open(joint, own, flat.plane.z)


def _open(joint: Joint, own: Collection[str], out: Vec) -> Iterator[float]:
    for use in joint.uses:
        if use.tube not in own and use.end is not None:
            yield use.axis.dot(out)
