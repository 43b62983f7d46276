"""What stands above rails seen from above, and how a board is seated over it (all in [mm])."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.template.layout.boards import Plot, Recess, around, free_stretches

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.geometry.vector import Vec
    from tubeframe.template.shop import Shop

_ON_THE_RAIL = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A fitting on a rail: its middle, how far its sleeves reach along x and y each way, and half their width."""

    x: float
    y: float
    left: float = 0.0
    right: float = 0.0
    front: float = 0.0
    back: float = 0.0
    half_width: float

    def plots(self, gap: float) -> tuple[Plot, ...]:
        """Return the rectangles that its sleeves cover, with a gap all round."""
        half = self.half_width
        found = []
        if self.left or self.right:
            along = Plot(left=self.x - self.left, right=self.x + self.right, front=self.y - half, back=self.y + half)
            found.append(along.grown(gap))
        if self.front or self.back:
            along = Plot(left=self.x - half, right=self.x + half, front=self.y - self.front, back=self.y + self.back)
            found.append(along.grown(gap))
        return tuple(found)


def on_run(kind: str, tube: str, shop: Shop, at: Vec, along: Vec, branch: Vec | None = None) -> Standing:
    """Return a fitting on a tube that passes along x or y, with a level branch or none that shows."""
    fitting = shop.fitting(kind, tube)
    reach = {"left": 0.0, "right": 0.0, "front": 0.0, "back": 0.0}
    for way, length in ((along, fitting.grip / 2.0), (-along, fitting.grip / 2.0), (branch, fitting.reach)):
        if way is not None:
            reach[_side(way)] = length
    return Standing(x=at.x, y=at.y, half_width=fitting.body_radius, **reach)


def on_ends(kind: str, tube: str, shop: Shop, at: Vec, ways: Sequence[Vec]) -> Standing:
    """Return a fitting that takes level ends along x or y."""
    fitting = shop.fitting(kind, tube)
    return Standing(x=at.x, y=at.y, half_width=fitting.body_radius, **{_side(w): fitting.reach for w in ways})


def _side(way: Vec) -> str:
    if abs(way.x) > abs(way.y):
        return "right" if way.x > 0.0 else "left"
    return "back" if way.y > 0.0 else "front"


def recesses_over(standing: Iterable[Standing], depth: float, gap: float) -> list[Recess]:
    """Return the recesses that a board needs over fittings."""
    return [Recess(plot=plot, depth=depth) for s in standing for plot in s.plots(gap)]


def cut_outs(posts: Iterable[Vec], half: float, board: Plot) -> list[Recess]:
    """Return what is cut out of a board where posts go on up, opened to the board's nearest edges along x and y."""
    found = []
    for post in posts:
        plot = around(post.x, post.y, half, half)
        left, front = post.x < (board.left + board.right) / 2.0, post.y < (board.front + board.back) / 2.0
        found.append(
            Recess(
                plot=Plot(
                    left=board.left if left else plot.left,
                    right=plot.right if left else board.right,
                    front=board.front if front else plot.front,
                    back=plot.back if front else board.back,
                ),
                depth=math.inf,
            )
        )
    return found


def strips_along_x(
    y: float, ends: tuple[float, float], standing: Iterable[Standing], gap: float, least: float
) -> tuple[tuple[float, float], ...]:
    """Return where strips go on a rail along x, between what stands on it; shorter ones than `least` are left out."""
    taken = [
        (s.x + (s.right - s.left) / 2.0, (s.left + s.right) / 2.0 + gap)
        for s in standing
        if abs(s.y - y) < _ON_THE_RAIL and (s.left or s.right)
    ]
    return free_stretches(*ends, taken, least)
