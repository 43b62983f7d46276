"""Boards on tubes that carry fittings: strips between the fittings, or recesses over them (all in [mm], in plan)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.frame.panel import PanelUse, Pocket
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.frame.builder import FrameBuilder


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A rectangle seen from above: least and greatest x and y."""

    left: float
    front: float
    right: float
    back: float

    @property
    def length(self) -> float:
        """Along x."""
        return self.right - self.left

    @property
    def width(self) -> float:
        """Along y."""
        return self.back - self.front

    def grown(self, by: float) -> Plot:
        """Return it larger all round."""
        return Plot(left=self.left - by, front=self.front - by, right=self.right + by, back=self.back + by)

    def shared(self, other: Plot) -> Plot | None:
        """Return what it has in common with another; None without an area."""
        both = Plot(
            left=max(self.left, other.left),
            front=max(self.front, other.front),
            right=min(self.right, other.right),
            back=min(self.back, other.back),
        )
        return both if both.length > 0.0 and both.width > 0.0 else None


def around(x: float, y: float, half_x: float, half_y: float) -> Plot:
    """Return the rectangle round a point."""
    return Plot(left=x - half_x, front=y - half_y, right=x + half_x, back=y + half_y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Recess:
    """Where a board is recessed from below, and how deep."""

    plot: Plot
    depth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board to be laid: its outline, the height of its underside, thickness and material."""

    name: str
    use: PanelUse
    plot: Plot
    underside: float
    thickness: float
    material: str = "plywood"

    def lay(self, frame: FrameBuilder, recesses: Iterable[Recess] = ()) -> None:
        """Lay it, recessed where its outline covers a recess."""
        pockets = []
        for recess in recesses:
            both = self.plot.shared(recess.plot)
            if both is not None:
                low = Vec(both.left - self.plot.left, both.front - self.plot.front, 0.0)
                size = Vec(both.length, both.width, min(recess.depth, self.thickness))
                pockets.append(Pocket(low=low, high=low + size))
        frame.panel(
            self.name,
            self.use,
            corner=Vec(self.plot.left, self.plot.front, self.underside),
            length=self.plot.length,
            width=self.plot.width,
            thickness=self.thickness,
            material=self.material,
            pockets=pockets,
        )


def free_stretches(
    low: float, high: float, taken: Sequence[tuple[float, float]], least: float
) -> tuple[tuple[float, float], ...]:
    """Return what is free between two places: `taken` are middles and half lengths; shorter than least is left out."""
    blocked = sorted((at - half, at + half) for at, half in taken)
    edges, reach = [low], low
    for start, end in blocked:
        if start > reach:
            edges += [start, max(reach, end)]
        else:
            edges[-1] = max(edges[-1], end)
        reach = max(reach, end)
    edges.append(high)
    return tuple((a, b) for a, b in list(pairwise(edges))[::2] if b - a >= least)


def lay_row(frame: FrameBuilder, name: str, use: PanelUse, plots: Iterable[Plot], on: float, thickness: float) -> None:
    """Lay strips or slats of softwood at one height, named by their number."""
    for n, plot in enumerate(plots, start=1):
        Board(name=f"{name}.{n}", use=use, plot=plot, underside=on, thickness=thickness, material="softwood").lay(frame)


def across(places: Iterable[float], width: float, front: float, back: float) -> list[Plot]:
    """Return what slats of a width cover, at places along x, from front to back."""
    return [Plot(left=x - width / 2.0, right=x + width / 2.0, front=front, back=back) for x in places]
