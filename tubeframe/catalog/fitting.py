"""Kinds of fittings: ports, and the rules that give their sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import ANGLE_DEG, TINY
from tubeframe.geometry.vector import X, Z, angle_deg

if TYPE_CHECKING:
    from tubeframe.geometry.vector import Vec


class PortRole(StrEnum):
    """What a port does with its tube."""

    RUN = "run"
    BRANCH = "branch"
    END = "end"


class OnFloor(StrEnum):
    """How an end piece stands on the floor."""

    LOOSE = "loose"
    BOLTED = "bolted"
    LEVELLING = "levelling"
    ROLLING = "rolling"


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """One tube's place in a fitting, in the fitting's own frame.

    `lifted` puts the axis one coupler offset away along z. `swing` is the range of angles from x, in the plane of
    x and `axis`, in which the port turns [degree]. A tube turns and slides in a port that is `loose`.
    """

    name: str
    role: PortRole
    axis: Vec
    up: Vec
    lifted: bool = False
    loose: bool = False
    swing: tuple[float, float] | None = None

    def axis_at(self, angle: float | None) -> Vec:
        """Return the axis, for a swinging port turned to an angle from x [degree]."""
        if self.swing is None or angle is None:
            return self.axis
        turn = math.radians(angle)
        return X * math.cos(turn) + self.axis * math.sin(turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ear:
    """A flange with a bolt: the port it sits on and the way it sticks out."""

    port: str
    toward: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingKind:
    """A kind of fitting; sizes come from `FittingRules` or from the user's own measures.

    `on_floor` is how an end piece stands there, None for one that does not; `thickness` what it is high below its tube.
    `inside`: it is in its tubes.
    `wall` is the way to the wall that it stands on, if it does. `source` is where the row comes from.
    """

    key: str
    about: str
    ports: tuple[Port, ...]
    ears: tuple[Ear, ...]
    bolts: int
    setback_over_floor: float
    shell: float
    skirt: float = 0.0
    thickness: float = 0.0
    plate_diameters: float = 0.0
    on_floor: OnFloor | None = None
    inside: bool = False
    wall: Vec | None = None
    wall_diameters: float = 0.0
    source: str = ""

    def port(self, name: str) -> Port:
        """Return the port of that name; the name comes from this very kind."""
        return next(p for p in self.ports if p.name == name)

    def ports_of(self, role: PortRole) -> tuple[Port, ...]:
        """Return the ports of a role, in the order of the table."""
        return tuple(p for p in self.ports if p.role is role)

    @property
    def swings(self) -> bool:
        """Whether a port turns."""
        return any(p.swing for p in self.ports)

    def angles_of(self, port: Port) -> tuple[float, float]:
        """Return the least and the largest angle that a branch stands at, as `angle_of` counts it [degree]."""
        swing = next((p.swing for p in self.ports if p.swing), None)
        if swing is None:
            return (self.angle_of(port), self.angle_of(port))
        marks = [*swing, *([90.0] if swing[0] <= 90.0 <= swing[1] else [])]
        found = [self.angle_of(port, mark) for mark in marks]
        return (min(found), max(found))

    @property
    def turns_from(self) -> Port:
        """The port along x, from which the angle of the one that swings is counted; the first where none swings."""
        return next((p for p in self.ports if not p.swing and p.axis == X), self.ports[0])

    @property
    def is_coupler(self) -> bool:
        """Whether two tubes pass each other in it."""
        return any(p.lifted for p in self.ports)

    @property
    def is_sleeve(self) -> bool:
        """Whether it butts two ends in line."""
        branches = self.ports_of(PortRole.BRANCH)
        return len(self.ports) == len(branches) == 2 and branches[0].axis.dot(branches[1].axis) < TINY - 1.0

    @property
    def is_tee(self) -> bool:
        """Whether it holds one end square on a tube that passes through."""
        runs, branches = self.ports_of(PortRole.RUN), self.ports_of(PortRole.BRANCH)
        fixed = len(runs) == len(branches) == 1 and not self.swings and not self.is_loose
        return fixed and abs(runs[0].axis.dot(branches[0].axis)) < TINY

    @property
    def is_loose(self) -> bool:
        """Whether a tube turns and slides in it."""
        return any(p.loose for p in self.ports)

    @property
    def is_end_piece(self) -> bool:
        """Whether it sits on one tube's end."""
        return any(p.role is PortRole.END for p in self.ports)

    def takes_angle(self, angle: float) -> bool:
        """Whether its first two ports stand at an angle [degree] to each other, or can be turned to it."""
        first, second = self.ports[:2]
        if second.swing is not None:
            return second.swing[0] <= angle <= second.swing[1]
        return abs(angle_deg(first.axis, second.axis) - angle) <= ANGLE_DEG

    def angle_of(self, port: Port, swing: float | None = None) -> float:
        """Return the angle of a branch [degree]: the sharp one to the run; of one square to it, that to a slanted end.

        Without a run it is the angle to the other end. `swing` is the angle from x of a port that turns; None for
        where its row states it.
        """
        axis = port.axis_at(swing)
        beside = [sharp(angle_deg(axis, p.axis_at(swing))) for p in self.ports_of(PortRole.RUN)]
        if any(not is_square(angle) for angle in beside):
            return beside[0]
        others = [angle_deg(axis, p.axis_at(swing)) for p in self.ports_of(PortRole.BRANCH) if p.name != port.name]
        slanted = [a for a in others if not is_square(a) and a < 180.0 - ANGLE_DEG]
        return next(iter(slanted or beside or others))


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingRules:
    """The generic sizes that every kind falls back on (all [mm], or diameters where it says so)."""

    setback_over_floor: float
    grip_diameters: float
    grip_step: float
    branch_grip_diameters: float
    coupler_gap: float
    sleeve_diameters: float
    shell: float
    ears: float
    end_thickness: float
    end_skirt: float
    end_shell: float
    tool_gap: float
    end_overhang: float
    bolt: str

    def grip(self, outside: float) -> float:
        """Length held on a run of an outside diameter [mm], rounded up to the step [mm]."""
        return math.ceil(outside * self.grip_diameters / self.grip_step - 1e-6) * self.grip_step


def is_square(angle: float) -> bool:
    """Whether two lines stand square to each other, within the tolerance [degree]."""
    return abs(angle - 90.0) <= ANGLE_DEG


def sharp(angle: float) -> float:
    """Return the sharp angle between two lines that stand at an angle [degree]."""
    return min(angle, 180.0 - angle)


def setback_floor(branch: Vec, others: tuple[tuple[Vec, bool], ...], run_outside: float, outside: float) -> float:
    """Return the least distance from a fitting's middle to a square-cut branch end [mm].

    Args:
        branch: unit vector along the branch.
        others: the other ports' unit vectors, each with whether it is a run.
        run_outside: outside diameter of the run [mm].
        outside: outside diameter of the branches [mm].

    Beside a run at angle A: (D_run/2)/sin A + (D/2)/tan A; beside a branch at included angle A: (D/2)/tan(A/2).
    Plane geometry of a square-cut end that just touches the other tube.

    """
    floors = [0.0]
    for axis, is_run in others:
        angle = math.radians(angle_deg(branch, axis))
        if is_run:
            slant = min(angle, math.pi - angle)
            floors.append(run_outside / 2.0 / math.sin(slant) + outside / 2.0 / math.tan(slant))
        else:
            floors.append(outside / 2.0 / math.tan(angle / 2.0))
    return max(floors)


LIFT = Z
"""The way a coupler's second run is moved off."""
