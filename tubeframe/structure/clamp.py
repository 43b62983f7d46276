"""What a clamp holds by friction: the user's own pull test before anything that is calculated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey

if TYPE_CHECKING:
    from tubeframe.catalog.limits import Limits
    from tubeframe.catalog.sized import SizedFitting, SizedPort
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.catalog.workshop import Workshop


@dataclass(frozen=True, slots=True, kw_only=True)
class Tightened:
    """A clamp as it is tightened: torque of each bolt [N mm], how many close it, what the torque and friction make."""

    torque: float
    bolts: int
    diameter: float
    nut_factor: float
    friction: float

    @property
    def preload(self) -> float:
        """Pull of one bolt, T / (K d) [N]."""
        return self.torque / (self.nut_factor * self.diameter)

    @property
    def closing(self) -> float:
        """Force that closes the clamp [N]."""
        return self.bolts * self.preload

    @property
    def slip(self) -> float:
        """Force along the tube at which it slips, mu times the pressing of both halves on two lines [N]."""
        return self.friction * 2.0 * self.closing

    def twist(self, outside: float) -> float:
        """Return the moment about a tube of an outside diameter [mm] at which it turns [N mm]."""
        return self.slip * outside / 2.0

    def hoop(self, wall: float, length: float) -> float:
        """Return the stress that closing it over a length makes in a wall [MPa]: Q / (2 t L)."""
        return self.closing / (2.0 * wall * length)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """What one port of a clamp holds: force along the tube [N], moment about it [N mm], both allowed.

    `hoop` is the stress that tightening makes in the wall [MPa]; `tested` whether the user pulled and turned his own.
    """

    slip: float
    twist: float
    hoop: float
    slip_tested: bool
    twist_tested: bool


def tightened(fitting: SizedFitting, port: str, workshop: Workshop) -> Tightened:
    """Return how a port is tightened: the user's own torque, else the assumed one."""
    limits: Limits = workshop.limits
    own = workshop.measured.value(fitting.kind.key, fitting.sizes, "bolt_torque")
    return Tightened(
        torque=own if own is not None else limits[LimitKey.BOLT_TORQUE],
        bolts=max(1, sum(1 for ear in fitting.kind.ears if ear.port == port)),
        diameter=limits[LimitKey.BOLT_DIAMETER],
        nut_factor=limits[LimitKey.NUT_FACTOR],
        friction=limits[LimitKey.CLAMP_FRICTION],
    )


def hold(fitting: SizedFitting, port: SizedPort, tube: TubeSize, workshop: Workshop) -> Hold:
    """Return what a port holds: what the user measured, else friction; both over the clamp's factor."""
    made, factor = tightened(fitting, port.name, workshop), workshop.limits[LimitKey.CLAMP_FACTOR]
    slip, twist = (
        workshop.measured.value(fitting.kind.key, fitting.sizes, key) for key in ("slip_force", "twist_moment")
    )
    return Hold(
        slip=(slip if slip is not None else made.slip) / factor,
        twist=(twist if twist is not None else made.twist(tube.outside)) / factor,
        hoop=made.hoop(tube.wall, port.grip),
        slip_tested=slip is not None,
        twist_tested=twist is not None,
    )
