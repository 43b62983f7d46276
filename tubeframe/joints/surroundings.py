"""What stands around a fitting, by where it is: tubes, boards, walls, and the other fittings as turned so far."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.grid import Grid
from tubeframe.joints.obstacles import Brick, bars_of, body_of, faces_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.extent import Extent
    from tubeframe.joints.joint import Joint, Tube
    from tubeframe.joints.obstacles import Body, Face, Obstacle


class Surroundings:
    """Everything that a key can run into; a fitting may be turned, the rest stays."""

    __slots__ = ("_board_grid", "_boards", "_bodies", "_faces", "_fitting_grid", "_numbers", "_tube_grid", "_tubes")

    def __init__(self, frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], workshop: Workshop) -> None:
        """Take the frame's walls and boards, its tubes, and its fittings as they are turned at first."""
        self._faces = faces_of(frame)
        self._boards = [Brick(brick=p.box) for p in frame.panels]
        self._board_grid = Grid([b.box] for b in self._boards)
        self._tubes = [bar for tube in tubes for bar in bars_of(tube, workshop)]
        self._tube_grid = Grid([b.box] for b in self._tubes)
        self._bodies: dict[int, Body] = {}
        self._numbers: list[int] = []
        self._fitting_grid = Grid()
        for number, joint in enumerate(joints):
            self.turn(number, joint)

    def turn(self, number: int, joint: Joint) -> None:
        """Put a fitting in, turned as it is now."""
        body = body_of(joint)
        self._bodies[number] = body
        self._numbers.append(number)
        self._fitting_grid.put([solid.box for _, solid in body])

    def body(self, number: int) -> Body:
        """Return a fitting's body as it is turned now."""
        return self._bodies[number]

    def walls(self) -> tuple[Face, ...]:
        """Return walls and the floor."""
        return self._faces

    def boards(self, box: Extent) -> list[Brick]:
        """Return the boards that come into a box."""
        return [self._boards[k] for k in self._board_grid.near([box])]

    def loose(self, box: Extent, number: int) -> list[Obstacle]:
        """Return the tubes that come into a box and the fittings, but for the one of that number."""
        others = dict.fromkeys(self._numbers[k] for k in self._fitting_grid.near([box]))
        found: list[Obstacle] = [self._tubes[k] for k in self._tube_grid.near([box])]
        found += [solid for other in others if other != number for _, solid in self._bodies[other]]
        return found
