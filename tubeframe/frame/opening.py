"""Openings of a frame that a person goes or air comes through, and that drawings dimension."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.frame.member import MemberId


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What is clear between two uprights, or along a level tube: under that one, and over another or the floor.

    `between` is empty where no uprights bound it; `over` is None for the floor.
    """

    name: str
    under: MemberId
    between: tuple[MemberId, ...] = ()
    over: MemberId | None = None

    @property
    def members(self) -> tuple[MemberId, ...]:
        """The tubes that bound it."""
        return (self.under, *self.between, *((self.over,) if self.over else ()))


def still_bound(openings: Iterable[Opening], gone: MemberId) -> tuple[Opening, ...]:
    """Return the openings that a tube that is gone did not bound."""
    return tuple(o for o in openings if gone not in o.members)
