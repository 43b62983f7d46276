"""The user's own shop, merged over the shipped tables."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.catalog.conditions import UNASKED, Conditions
from tubeframe.catalog.drafting import Drafting, Projection
from tubeframe.catalog.measured import Measures, sizes_of
from tubeframe.catalog.rules import overhang
from tubeframe.catalog.saw import Saw
from tubeframe.catalog.shipped import shipped_catalog
from tubeframe.catalog.sizing import Sizing
from tubeframe.errors import CatalogError, Problem
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.catalog import Catalog
    from tubeframe.catalog.fitting import FittingKind
    from tubeframe.catalog.hardware import Bender
    from tubeframe.catalog.limits import Limits
    from tubeframe.catalog.sized import SizedFitting
    from tubeframe.catalog.stock import Stock
    from tubeframe.catalog.tube import TubeSize


class Paper(StrEnum):
    """Paper that sheets are printed on."""

    LETTER = "letter"
    A4 = "a4"
    TABLOID = "tabloid"
    A3 = "a3"

    @property
    def size(self) -> tuple[float, float]:
        """Width and height as drawn, small sheets upright and large ones lying [mm] (ISO 216, ANSI/ASME Y14.1)."""
        return {
            Paper.LETTER: (215.9, 279.4),
            Paper.A4: (210.0, 297.0),
            Paper.TABLOID: (431.8, 279.4),
            Paper.A3: (420.0, 297.0),
        }[self]


class Bolts(StrEnum):
    """Whether the bolts of fittings lie in the bag with them, or are bought apart."""

    INCLUDED = "included"
    APART = "apart"


class Prefer(StrEnum):
    """Which of several kinds that would do is taken: the first of the table, or one that is known to cost less."""

    PLAINEST = "plainest"
    CHEAPEST = "cheapest"


class Arcs(StrEnum):
    """How an arc larger than the bender's shoe is made: pulled round a form on a board, or rolled."""

    FORM = "form"
    ROLLED = "rolled"


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """What is true of the person's own shop and place. Lengths in [mm].

    `layout_table` is the table that full-size drawings are laid on: its length and width; None when there is none.
    `where` is the file that it comes from, for messages.
    """

    catalog: Catalog
    units: Units
    paper: Paper
    currency: str | None
    tube: str
    saw: Saw
    carry_length: float | None
    layout_table: tuple[float, float] | None
    stocks: tuple[Stock, ...]
    measured: Measures
    benders: tuple[Bender, ...]
    tool_gap: float
    drafting: Drafting
    limits: Limits
    prefer: Prefer = Prefer.PLAINEST
    bolts: Bolts = Bolts.INCLUDED
    conditions: Conditions = UNASKED
    arcs: Arcs = Arcs.FORM
    where: str = field(default="workshop", compare=False)

    def bend_radius(self, tube: str) -> float:
        """Return the radius on the centreline that the shop's bender makes in a tube [mm]."""
        return self.bender(tube).radius

    def bender(self, tube: str) -> Bender:
        """Return the shop's bender for a tube, the user's own before the shipped one."""
        found = [b for b in self.benders + self.catalog.benders if b.tube == tube]
        if not found:
            raise CatalogError(
                Problem(where=self.where, key="bender", message=f"no bender is known for {tube}", remedy="add one")
            )
        return found[0]

    def sticks(self, tube: str) -> tuple[Stock, ...]:
        """Return what a tube can be cut from."""
        return tuple(s for s in self.stocks if s.tube == tube)

    def longest_stick(self, tube: str) -> float:
        """Return the longest usable length that can be bought [mm]."""
        sticks = [s for s in self.sticks(tube) if s.bought] or self.sticks(tube)
        return max((s.usable for s in sticks), default=0.0) - self.saw.lost

    def grip(self, kind: FittingKind, tube: TubeSize) -> float:
        """Return the length that a kind holds on a run, on tubes of one size [mm]."""
        return self._sizing.grip(kind, (tube.key,), tube)

    def sleeve_length(self, tube: TubeSize) -> float:
        """Return the whole length of the sleeve that butts two ends of a tube [mm]."""
        return self._sizing.sleeve_length(self.catalog.sleeve, (tube.key,), tube)

    def coupler_offset(self, kind: FittingKind, first: TubeSize, second: TubeSize) -> float:
        """Return the distance of the axes of two runs in a coupler [mm]."""
        tubes = {p.name: t for p, t in zip(kind.ports, (first, second), strict=True)}
        return self._sizing.offset(kind, sizes_of(kind, tubes), tubes)

    def end_overhang(self, kind: FittingKind, tube: TubeSize) -> float:
        """Return the least length that a run goes on past the middle of a fitting [mm]."""
        return overhang(self.grip(kind, tube) / 2.0, self.catalog.rules.end_overhang)

    def sized(self, kind: FittingKind, tubes: Mapping[str, TubeSize], angle: float | None = None) -> SizedFitting:
        """Size a fitting for its tubes.

        Args:
            kind: what it is.
            tubes: the tube in each port, by the port's name.
            angle: the angle from x of a port that swings [degree].

        Raises:
            CatalogError: when a measured setback lies under the floor of a square-cut end.

        """
        return self._sizing.sized(kind, tubes, angle)

    @property
    def _sizing(self) -> Sizing:
        return Sizing(rules=self.catalog.rules, measured=self.measured, units=self.units, where=self.where)


def generic_workshop(units: Units = Units.INCH) -> Workshop:
    """Return a shop with nothing of its own: the shipped tables alone."""
    catalog = shipped_catalog()
    return Workshop(
        catalog=catalog,
        units=units,
        paper=Paper.LETTER if units is Units.INCH else Paper.A4,
        currency=None,
        tube="emt-3/4",
        saw=Saw(kerf=0.0),
        carry_length=None,
        layout_table=None,
        stocks=catalog.stocks,
        measured=Measures(),
        benders=(),
        tool_gap=catalog.rules.tool_gap,
        limits=catalog.limits,
        drafting=Drafting(projection=Projection.THIRD if units is Units.INCH else Projection.FIRST),
    )
