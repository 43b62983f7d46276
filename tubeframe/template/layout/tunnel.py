"""Hoops or pairs of rafters in a row, and the tubes that run along them inside (all in [mm])."""

from __future__ import annotations

import math
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


def tell_hoops(frame: FrameBuilder, hoop: Hoop, number: int, shop: Shop) -> None:
    """Put on the cover how hoops are bent, or how steep rafters are."""
    profile = hoop.profile
    if profile.eave is not None:
        frame.fact("Rafters", f"{number} pairs, {profile.crown_slope:.1f} degrees off level")
    elif profile.rolled is not None:
        start, arc = profile.rolled
        frame.fact(
            "Hoops",
            f"{number} of one arc, {shop.show(arc.radius)} on the centreline, that begins {shop.show(start)} up; the "
            "bend sheet gives the form, which is smaller",
        )
    else:
        bends = [round(math.degrees(b.angle), 1) for _, b in profile.half.bends]
        of_each = f"{2 * bends.count(bends[-1])} bends of {bends[-1]:g} degrees"
        frame.fact("Hoops", f"{number} of {of_each}; bending starts {shop.show(profile.half.bends[0][0])} up")


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
        for name, at in self._places(coupler.offset, with_base=with_base):
            ends = (Vec(at.x, front, at.z), Vec(at.x, back, at.z))
            frame.tube(name, ends, ends=(EndKind.CAP, EndKind.CAP))

    def _places(self, offset: float, *, with_base: bool) -> Iterator[tuple[str, Vec]]:
        mirrored, sides, base = self.hoop.profile.mirrored, self.hoop.sides, self.hoop.base
        places = [("base", base.at + base.inward * offset)] if with_base else []
        for n, place in enumerate(sides, start=1):
            places.append(("purlin" if len(sides) == 1 else f"purlin.{n}", place.at + place.inward * offset))
        for name, at in places:
            yield f"{name}.left", at
            yield f"{name}.right", mirrored(at)
        yield RIDGE_PURLIN, mirrored(self.hoop.ridge.at + self.hoop.ridge.inward * offset)
