"""Boards that lie on the tubes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.geometry.convex import Box, box_between
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.geometry.placement import Placement


class PanelUse(StrEnum):
    """What a board is for."""

    TOP = "top"
    STRIP = "strip"
    SHELF = "shelf"
    SLAT = "slat"

    @property
    def word(self) -> str:
        """What people call it."""
        return {
            PanelUse.TOP: "top panel",
            PanelUse.STRIP: "spacer strip",
            PanelUse.SHELF: "shelf board",
            PanelUse.SLAT: "slat",
        }[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pocket:
    """A recess in a board's underside: corners in the board's own plane, and its depth (all [mm])."""

    low: Vec
    high: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A flat rectangular board: where its underside's first corner is, its edges and its thickness (all [mm]).

    Local x and y run along the edges, z from the underside up. `pockets` are given in that frame, z from 0.
    """

    id: str
    use: PanelUse
    placement: Placement
    length: float
    width: float
    thickness: float
    material: str
    pockets: tuple[Pocket, ...] = ()

    @property
    def box(self) -> Box:
        """The board as a brick, without its pockets."""
        return box_between(Vec(0.0, 0.0, 0.0), Vec(self.length, self.width, self.thickness)).placed(self.placement)

    @property
    def pocket_boxes(self) -> tuple[Box, ...]:
        """The pockets as bricks."""
        return tuple(box_between(p.low, p.high).placed(self.placement) for p in self.pockets)
