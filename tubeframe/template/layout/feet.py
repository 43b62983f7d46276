"""What legs and posts stand on (all in [mm])."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.errors import Severity
from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.job import Job, JobKind
from tubeframe.frame.member import EndKind

if TYPE_CHECKING:
    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.shop import Shop

_MOST_SLENDER = 3.0
"""Height to the lesser side on the floor of what rolls; common practice, no source."""


class Foot(StrEnum):
    """What legs stand on."""

    FOOT = "foot"
    LEVELLING = "levelling"
    CASTER = "caster"
    BASE_FLANGE = "base-flange"

    @property
    def end(self) -> EndKind:
        """The end of a leg."""
        return EndKind(self.value)

    def clear(self, kind: str, tube: str, shop: Shop) -> float:
        """Return how high above the floor a fitting's middle is at least on a leg that stands on it."""
        piece = {Foot.LEVELLING: "levelling-foot"}.get(self, self.value)
        return shop.fitting(piece, tube).stands + shop.fitting(kind, tube).grip / 2.0

    def words(self, frame: FrameBuilder, legs: int, size: tuple[float, float], shop: Shop, *, is_tied: bool) -> None:
        """Say what has to be bought and known.

        Args:
            frame: what it is said of.
            legs: how many there are.
            size: the frame's height, and its lesser side on the floor [mm].
            shop: says lengths in the user's units.
            is_tied: whether something ties the legs near the floor.

        """
        if self is Foot.LEVELLING:
            frame.fact("Feet", "drawn at the middle of their travel; screw them until all stand and the top is level")
        elif self is Foot.BASE_FLANGE:
            job = Job(kind=JobKind.FLANGES)
            frame.supply("screw or bolt for a base flange, into the floor", 3 * legs, job=job)
        elif self is Foot.CASTER:
            _caster_words(frame, legs, size, shop)
            if not is_tied:
                frame.find(
                    "F-splay",
                    Severity.WARNING,
                    "casters",
                    "legs that roll are tied to nothing near the floor: they splay",
                    "tie them by stretchers",
                )


def _caster_words(frame: FrameBuilder, legs: int, size: tuple[float, float], shop: Shop) -> None:
    """Casters carry unevenly: on a floor that is not flat three of four carry all."""
    frame.fact(
        "Casters",
        f"{legs}, brakes on two that stand diagonally; each good for a third of all that the frame carries and weighs, "
        "for on an uneven floor three carry it",
    )
    frame.supply("brake for a caster, or a caster with one", 2, job=Job(kind=JobKind.BRAKES))
    frame.caution(
        Signal.WARNING,
        Moment.USE,
        "What rolls tips at a sill or a hose. Heavy things low, push at hip height along its length, brakes on before "
        "you load it or work at it.",
    )
    height, base = size
    if height > _MOST_SLENDER * base:
        frame.find(
            "F-rolls",
            Severity.WARNING,
            "casters",
            f"{shop.show(height)} high on a base of {shop.show(base)}: what is over 3 to 1 tips when it is rolled",
            f"make it {shop.show(_MOST_SLENDER * base)} high at most, or stand it on feet",
        )
