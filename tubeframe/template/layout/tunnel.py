"""Hoops or pairs of rafters in a row, and the tubes that run along them inside (all in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.member import MemberId
    from tubeframe.template.layout.hoop import Hoop, HoopNeeds
    from tubeframe.template.shop import Shop

RIDGE_PURLIN = "purlin.ridge"


def stand_bent(frame: FrameBuilder, hoop: Hoop, number: int, y: float, foot: EndKind) -> list[MemberId]:
    """Add one hoop at a place along y, or the tubes of one pair of rafters."""
    profile = hoop.profile.at(y)
    if profile.is_one:
        return [frame.tube(f"hoop.{number}", profile.whole, ends=(foot, foot), split_at=hoop.split_at)]
    names = ("hoop",) if profile.eave is None else ("post", "rafter")
    made = []
    for hand, side in (("left", profile), ("right", profile.other_side)):
        for name, part in zip(names, side.parts, strict=True):
            ends = (foot if name != "rafter" else EndKind.JOINT, EndKind.JOINT)
            made.append(frame.tube(f"{name}.{number}.{hand}", part, ends=ends, split_at=hoop.split_at))
    return made


def feet_of(hoops: Sequence[MemberId], hoop: Hoop) -> list[tuple[MemberId, TubeEnd]]:
    """Return the ends of hoops, posts and rafters that stand on the ground."""
    if hoop.profile.is_one:
        return [(m, end) for m in hoops for end in TubeEnd]
    return [(m, TubeEnd.A) for m in hoops if not m.startswith("rafter.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class LongRuns:
    """Base rails, side purlins and the ridge purlin, past the end hoops by the least overhang."""

    hoop: Hoop
    needs: HoopNeeds
    length: float

    def lay(self, frame: FrameBuilder, shop: Shop, *, with_base: bool) -> None:
        """Lay them, tied to the hoops from inside by couplers."""
        coupler, half = shop.fitting(self.needs.coupler, self.needs.tube), shop.outside(self.needs.tube) / 2.0
        front, back = half - coupler.overhang, self.length - half + coupler.overhang
        for name, at in self._places(coupler.offset, half, with_base=with_base):
            ends = (Vec(at.x, front, at.z), Vec(at.x, back, at.z))
            frame.tube(name, ends, ends=(EndKind.CAP, EndKind.CAP))

    def _places(self, offset: float, half: float, *, with_base: bool) -> Iterator[tuple[str, Vec]]:
        mirrored, sides = self.hoop.profile.mirrored, self.hoop.sides
        places = [("base", Vec(half + offset, 0.0, self.needs.base))] if with_base else []
        for n, place in enumerate(sides, start=1):
            places.append(("purlin" if len(sides) == 1 else f"purlin.{n}", place.at + place.inward * offset))
        for name, at in places:
            yield f"{name}.left", at
            yield f"{name}.right", mirrored(at)
        yield RIDGE_PURLIN, mirrored(self.hoop.ridge.at + self.hoop.ridge.inward * offset)
