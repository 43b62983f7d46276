"""Kinds of fittings: ports, and the rules that give their sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import X, Z, angle_deg

if TYPE_CHECKING:
    from tubeframe.geometry.vector import Vec


class PortRole(StrEnum):
    """What a port does with its tube."""

    RUN = "run"
    BRANCH = "branch"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """One tube's place in a fitting, in the fitting's own frame.

    `lifted` puts the axis one coupler offset away along z. `swing` is the range of angles from x, in the plane of
    x and `axis`, in which the port turns [degree].
    """

    name: str
    role: PortRole
    axis: Vec
    up: Vec
    lifted: bool = False
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
    """A kind of fitting; sizes come from `FittingRules` or from the user's own measures."""

    key: str
    about: str
    ports: tuple[Port, ...]
    ears: tuple[Ear, ...]
    bolts: int
    setback_over_floor: float
    shell: float
    skirt: float = 0.0
    plate_diameters: float = 0.0

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

    @property
    def is_coupler(self) -> bool:
        """Whether two tubes pass each other in it."""
        return any(p.lifted for p in self.ports)

    @property
    def is_sleeve(self) -> bool:
        """Whether it butts two ends in line."""
        branches = self.ports_of(PortRole.BRANCH)
        return len(self.ports) == len(branches) == 2 and branches[0].axis.dot(branches[1].axis) < TINY - 1.0


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
            sharp = min(angle, math.pi - angle)
            floors.append(run_outside / 2.0 / math.sin(sharp) + outside / 2.0 / math.tan(sharp))
        else:
            floors.append(outside / 2.0 / math.tan(angle / 2.0))
    return max(floors)


LIFT = Z
"""The way a coupler's second run is moved off."""
