"""What comes to its place and what it meets there, and the ways that work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.assembly.fitter import Fitted, Placed, Way
    from tubeframe.assembly.port_face import Fit, Number, PortFace
    from tubeframe.assembly.step import Entry, Operation
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """A tube or a sub-frame that has come to its place: its own way, and every operation in turn.

    `first` are so many operations that come before a sub-frame does.
    """

    way: Way
    operations: tuple[Operation, ...]
    first: int
    entries: tuple[Entry, ...]
    new: Placed


@dataclass(frozen=True, slots=True, kw_only=True)
class Taker:
    """A port where what comes meets what stands; it moves when its fitting comes along."""

    fit: Fit
    face: PortFace
    moves: bool

    def seen(self, way: Vec) -> Vec:
        """Return from where its tube comes into it when the new parts come from some way."""
        return -way if self.moves else way


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """What comes and what it meets: fittings that are there take it; fresh ones go on before it, or after."""

    moving: tuple[Number, ...]
    inside: Placed
    carried: tuple[Fit, ...]
    takers: tuple[Taker, ...]
    fresh: tuple[Fit, ...]
    fits: Mapping[Number, Fitted]
    placed: Placed
    flat: bool

    @property
    def group(self) -> Placed:
        """Tubes that come, and the fittings on them since they were built flat."""
        return frozenset(self.moving) | self.inside

    @property
    def whole(self) -> Placed:
        """Everything that moves: also what is put on in the hand."""
        return self.group | {f.number for f in self.carried}

    def new_faces(self, fits: Sequence[Fit]) -> list[PortFace]:
        """Return the ports of some fittings that take what comes."""
        return [x for f in fits for x in f.faces if x.tube in self.group]


@dataclass(frozen=True, slots=True, kw_only=True)
class Come:
    """One way to come that works, and which fresh fittings go on before and after."""

    way: Way
    before: tuple[Fit, ...]
    after: tuple[Fit, ...]
