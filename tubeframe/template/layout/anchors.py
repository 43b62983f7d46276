"""What holds feet in the ground against wind: stakes, sockets, boards, flanges (all in [mm])."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.job import Job, JobKind
from tubeframe.frame.load import Support
from tubeframe.frame.member import EndKind
from tubeframe.geometry.units import INCH_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.member import MemberId
    from tubeframe.frame.node import TubeEnd
    from tubeframe.template.shop import Shop

_BASE_RAIL = 3.0 * INCH_MM
_SOCKET = 4.0 * INCH_MM
"""How far a socket stands above the ground round a leg."""
_SOCKET_LENGTH = 30.0 * INCH_MM
_BOARD_ANCHORS = 48.0 * INCH_MM
_ON_BOARDS = Job(kind=JobKind.BASEBOARDS, lengths=(_BOARD_ANCHORS,))
_UNDER_GROUND = (
    "Driving metal into a buried cable or pipe can kill. Call the service that marks buried lines before you drive any."
)


class Anchor(StrEnum):
    """What holds the feet down."""

    STAKE = "stake"
    SOCKET = "socket"
    BASEBOARD = "baseboard"
    BASE_FLANGE = "base-flange"

    @property
    def end(self) -> EndKind:
        """What is on the end of a leg; nothing where a socket or straps hold it from outside."""
        return {Anchor.STAKE: EndKind.STAKE, Anchor.BASE_FLANGE: EndKind.BASE_FLANGE}.get(self, EndKind.OPEN)

    def base_rail(self, coupler: str, tube: str, shop: Shop) -> float:
        """Return how high the base rails are clamped: clear of a socket that stands round the leg."""
        if self is not Anchor.SOCKET:
            return _BASE_RAIL
        return _SOCKET + shop.tool_gap + shop.fitting(coupler, tube).grip / 2.0

    def lay(self, frame: FrameBuilder, legs: Sequence[tuple[MemberId, TubeEnd]], shop: Shop, tube: str) -> None:
        """Hold legs down; what is bought for it, and what has to be known."""
        if self.end is EndKind.OPEN:
            for member, end in legs:
                frame.hold(Support(member=member, end=end, fixes=("x", "y", "z")))
        _WORDS[self](frame, len(legs), shop, tube)


def baseboards(frame: FrameBuilder, length: float, shop: Shop) -> None:
    """Buy the boards along both sides that legs are strapped to, and their anchors."""
    each = math.ceil(length / _BOARD_ANCHORS) + 1
    frame.supply(f"treated board 2 x 8 on edge, {shop.show(length)} long in all", 2, job=_ON_BOARDS)
    frame.supply("ground screw or driven anchor for a baseboard, with its bolt", 2 * each, job=_ON_BOARDS)


def _stakes(frame: FrameBuilder, legs: int, shop: Shop, tube: str) -> None:
    del legs
    stake = shop.stake(tube)
    if stake is None:
        return
    pin, height = shop.show(stake.pin_diameter), shop.show(stake.pin_height)
    frame.fact(
        "Stakes",
        f"drill {pin} through leg and stake {height} above the ground for a cross pin, the only drilled hole; "
        "without the pin nothing resists uplift",
    )
    frame.caution(Signal.WARNING, Moment.SETTING_OUT, _UNDER_GROUND)
    frame.caution(
        Signal.WARNING,
        Moment.ANCHORING,
        "A hoop slipped over a stake without its cross pin lifts off in the first wind. Pin every foot.",
    )


def _sockets(frame: FrameBuilder, legs: int, shop: Shop, tube: str) -> None:
    del tube
    length, above = shop.show(_SOCKET_LENGTH), shop.show(_SOCKET)
    job = Job(kind=JobKind.SOCKETS, lengths=(_SOCKET,))
    frame.supply(
        f"post socket: a tube that the legs slide into, {length} long, with a cross bolt and nut", legs, job=job
    )
    frame.fact(
        "Sockets",
        f"drive them until {above} stand above the ground; drill through socket and leg for a cross bolt, or nothing "
        "resists uplift. A leg's end sits level with the ground, on a stone or a second bolt",
    )
    frame.caution(Signal.WARNING, Moment.SETTING_OUT, _UNDER_GROUND)
    frame.caution(Signal.WARNING, Moment.ANCHORING, "A leg that only stands in its socket lifts off. Bolt every one.")


def _straps(frame: FrameBuilder, legs: int, shop: Shop, tube: str) -> None:
    del shop, tube
    frame.supply("two-hole strap for the tube, to hold a leg to its baseboard", 2 * legs, job=_ON_BOARDS)
    frame.supply("wood screw for a strap, galvanized", 4 * legs, job=_ON_BOARDS)
    frame.fact("Baseboards", "two straps a leg; the boards' own anchors hold it all down, check what each is good for")
    frame.caution(
        Signal.WARNING,
        Moment.ANCHORING,
        f"{_UNDER_GROUND} Boards that lie loose lift with the frame: anchor them before the cover goes on. Keep "
        "treated wood and zinc apart with a strip of felt.",
    )


def _flanges(frame: FrameBuilder, legs: int, shop: Shop, tube: str) -> None:
    del shop, tube
    job = Job(kind=JobKind.FLANGES)
    frame.supply("screw or bolt with washer for a base flange, into a sleeper or a slab", 3 * legs, job=job)
    frame.fact("Anchors", f"{legs} base flanges on sleepers or a slab; frame and film weigh little")


_WORDS = {Anchor.STAKE: _stakes, Anchor.SOCKET: _sockets, Anchor.BASEBOARD: _straps, Anchor.BASE_FLANGE: _flanges}
