"""A door in an end wall: a braced rectangle that turns in rings on its post (all in [mm]).

Two rails run from rings on the post to the latch stile, a stile is teed between them near the post, and a brace goes
from the bottom rail at the hinge up to the top rail at the latch: pressed, it carries the latch side's weight. A
collar under the lower ring bears the door; the header's fitting, right above the upper ring, keeps it from being
lifted off. A second collar would keep the lower ring from being threaded onto the post.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.member import MemberId
    from tubeframe.template.shop import Shop

RING, COLLAR, TEE, ELBOW, BRACE = "loose-ring", "collar", "tee", "elbow", "swivel-tee"
LATCH_GAP = 0.375 * INCH_MM
_FROM_THE_GROUND = 1.5 * INCH_MM
"""What is left free below the lowest collar, for a foot or a cross pin."""


class Hand(StrEnum):
    """A side, seen from outside."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Doorway:
    """What a door turns in: a post and the stud that it is latched to, their places along x, the header's height."""

    post: MemberId
    post_x: float
    latch_x: float
    header: float
    y: float

    @property
    def way(self) -> float:
        """1 where the door goes from its post along x, -1 against it."""
        return 1.0 if self.latch_x > self.post_x else -1.0


def door_heights(header: float, shop: Shop, tube: str) -> tuple[float, float]:
    """Return how high a door's bottom and top rail are under a header."""
    bottom = _FROM_THE_GROUND + shop.fitting(COLLAR, tube).grip / 2.0 + shop.pitch(COLLAR, RING, tube)
    bodies = 2.0 * shop.fitting(TEE, tube).body_radius + shop.tool_gap
    return bottom, header - max(shop.pitch(RING, TEE, tube), bodies)


def lay_door(frame: FrameBuilder, doorway: Doorway, shop: Shop, tube: str) -> None:
    """Hang a door."""
    tee, y, way = shop.fitting(TEE, tube), doorway.y, doorway.way
    bottom, top = door_heights(doorway.header, shop, tube)
    beside = shop.outside(tube) / 2.0 + LATCH_GAP + tee.body_radius
    latch = doorway.latch_x - way * beside
    hinge = doorway.post_x + way * (shop.fitting(RING, tube).reach + shop.tool_gap + tee.grip / 2.0)
    low = hinge + way * shop.pitch(TEE, BRACE, tube)
    high = latch - way * (shop.fitting(ELBOW, tube).reach + shop.tool_gap + shop.fitting(BRACE, tube).grip / 2.0)
    lines = {
        "rail.bottom": (Vec(doorway.post_x, y, bottom), Vec(latch, y, bottom)),
        "rail.top": (Vec(doorway.post_x, y, top), Vec(latch, y, top)),
        "stile.latch": (Vec(latch, y, bottom), Vec(latch, y, top)),
        "stile.hinge": (Vec(hinge, y, bottom), Vec(hinge, y, top)),
        "brace": (Vec(low, y, bottom), Vec(high, y, top)),
    }
    made = [frame.tube(f"door.{name}", line) for name, line in lines.items()]
    for z in (bottom, top):
        at = Vec(doorway.post_x, y, z)
        frame.prefer(at, RING)
    frame.prefer(Vec(doorway.post_x, y, bottom - shop.pitch(COLLAR, RING, tube)), COLLAR)
    frame.group("door", made, doorway.post)
