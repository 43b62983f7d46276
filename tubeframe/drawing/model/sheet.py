"""A sheet of paper: where every page ends and the writers of PDF and PNG begin."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.drawing.model.items import Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of paper: its size [mm], what it is called, and what is on it.

    All lengths are on paper; the origin is the lower left corner, y goes up. Items are painted in their order: a later
    one covers an earlier one.
    """

    width: float
    height: float
    title: str
    items: tuple[Mark, ...]
