"""Sticks: what tubes are cut from."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A length that tubes are sold in, or a piece that already lies in the garage.

    `usable` [mm] is what can be cut from it, at most its `length` [mm]. `price` is for one stick, None when unknown.
    `on_hand` is how many lie there; None for a length that can be bought, as many as needed.
    """

    tube: str
    length: float
    usable: float
    price: float | None = None
    on_hand: int | None = None

    @property
    def bought(self) -> bool:
        """Whether it comes from a shop."""
        return self.on_hand is None
