"""A rack over a truck's bed: uprights bolted to the bed rails, side rails fore and aft, crossbars, knees both ways."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from tubeframe.template import (
    INCH,
    EndKind,
    Frame,
    FrameBuilder,
    Job,
    JobKind,
    Knee,
    LengthAlong,
    LoadUse,
    Moment,
    Severity,
    Shop,
    Signal,
    Template,
    Vec,
    a_choice,
    a_count,
    a_length,
    a_tube_size,
    between,
    carries,
    in_bays,
    knee_step,
    least_knee,
    over,
    parameters,
    spread,
)

TEE, SIDE_TEE, KNEE = "tee", "side-outlet-tee", "angle-tee"
DOWN = Vec(0.0, 0.0, -1.0)
SKEW_DEG = 0.9
"""Crossbars may stand off square to a side rail by this, a little less than a fixed fitting takes [degree]."""
LONE_CAB_OVERHANG = 12 * INCH
FLANGES, POCKETS = Job(kind=JobKind.FLANGES), Job(kind=JobKind.POCKETS)
LEAST_OUTSIDE = 1 * INCH
"""Of tubes that carry more than a net; common practice, no source."""
USUAL_SPAN = 60 * INCH
WELL = 3 * INCH
"""What an upright's flange needs of the bed rail before and behind it."""


class Mount(StrEnum):
    """How an upright is fixed to the bed rail: each by one positive fixing."""

    BASE_FLANGE = "base-flange"
    STAKE_POCKET = "stake-pocket"


class Uprights(StrEnum):
    """How many uprights, in pairs."""

    FOUR = "4"
    SIX = "6"

    @property
    def pairs(self) -> int:
        """How many pairs."""
        return int(self.value) // 2


class Road(StrEnum):
    """Where it is driven."""

    ON = "on"
    OFF = "off"


@parameters
class BedRackParameters:
    """What a bed rack is made to."""

    bed_length: float = a_length("inside of the bed", inch=(60, 66, 98), metric=(1500, 1680, 2500))
    span: float | None = a_length(
        "from the first to the last upright, centres",
        inch=(36, 60, 95),
        metric=(900, 1520, 2400),
        left_out="60 in, or what the bed leaves",
    )
    rail_to_rail: float = a_length(
        "between the bed rails' middles, at the front", inch=(50, 62, 68), metric=(1270, 1575, 1730)
    )
    rear_rail_to_rail: float | None = a_length(
        "between the bed rails' middles, at the rear",
        inch=(50, 62, 68),
        metric=(1270, 1575, 1730),
        left_out="as at the front",
    )
    height: float = a_length("from the bed rail to the crossbars' tops", inch=(6, 14, 30), metric=(150, 360, 760))
    uprights: Uprights = a_choice("how many, in pairs", default=Uprights.FOUR)
    crossbars: int = a_count("from the first upright to the last", limits=(2, 4, 6))
    overhang: float = a_length("of the side rails past the end uprights", inch=(2, 4, 12), metric=(50, 100, 300))
    cab_overhang: float = a_length(
        "of the side rails over the cab, beyond the overhang", inch=(0, 0, 24), metric=(0, 0, 600)
    )
    knee: float = a_length(
        "leg of the knees along the bed, at most; those across are a step longer",
        inch=(5, 8, 12),
        metric=(130, 200, 300),
    )
    mount: Mount = a_choice("one positive fixing an upright", default=Mount.BASE_FLANGE)
    road: Road = a_choice("where it is driven", default=Road.ON)
    tube: str = a_tube_size(own="emt-1")

    @property
    def uprights_apart(self) -> float:
        """From the first to the last upright [mm]."""
        return min(USUAL_SPAN, self.bed_length - WELL) if self.span is None else self.span

    def limits(self, shop: Shop) -> dict[str, tuple[float, float]]:
        """Return what the bed leaves of the span, and how far the bed rails may run together [mm]."""
        del shop
        skew = 2.0 * self.uprights_apart * math.tan(math.radians(SKEW_DEG))
        return {
            "span": (36 * INCH, self.bed_length - WELL),
            "rear_rail_to_rail": (self.rail_to_rail - skew, self.rail_to_rail + skew),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Places along the bed of uprights and crossbars, half widths at both ends, and the rails' height [mm]."""

    uprights: tuple[float, ...]
    bars: tuple[float, ...]
    front_half: float
    rear_half: float
    span: float
    rail: float
    knee: float
    across: float

    def half(self, y: float) -> float:
        """Return the side rails' distance from the bed's middle at a place along it [mm]."""
        return self.front_half + (self.rear_half - self.front_half) * y / self.span

    def side(self, sign: float, y: float) -> Vec:
        """Return the place on a side rail, -1 for the left one [mm]."""
        return Vec(self.front_half + sign * self.half(y), y, self.rail)


def lay_out(p: BedRackParameters, shop: Shop) -> Frame:
    """Lay a bed rack out: y runs from the cab to the tailgate, z from the bed rails up."""
    at = _lines(p, shop)
    frame = FrameBuilder(name="bed rack", tube=p.tube, length_along=LengthAlong.Y)
    sides = (("left", -1.0), ("right", 1.0))
    for name, sign in sides:
        start, end = (at.side(sign, y) for y in (-p.overhang - p.cab_overhang, p.uprights_apart + p.overhang))
        frame.tube(f"rail.{name}", (start, end), ends=(EndKind.CAP, EndKind.CAP))
    for n, y in enumerate(at.uprights, start=1):
        for name, sign in sides:
            top = at.side(sign, y)
            ends = (EndKind.BASE_FLANGE, EndKind.JOINT)
            frame.tube(f"upright.{name}.{n}", (Vec(top.x, top.y, 0.0), top), ends=ends)
    for n, y in enumerate(at.bars, start=1):
        frame.tube(f"crossbar.{n}", (at.side(-1.0, y), at.side(1.0, y)))
    _knees(frame, p, at)
    use = LoadUse.ROAD if p.road is Road.ON else LoadUse.OFF_ROAD
    carries(frame, "on the crossbars", *(f"crossbar.{n}" for n in range(1, len(at.bars) + 1)), use=use)
    _words(frame, p, shop)
    return frame.build()


def _knee(p: BedRackParameters, shop: Shop) -> float:
    """Return the longest leg of a knee that the height and the bays leave, up to what is asked for; 0 for none."""
    fitting = shop.fitting(KNEE, p.tube)
    low = p.height - shop.outside(p.tube) / 2.0 - knee_step(shop, p.tube) - fitting.grip / 2.0 - INCH
    bay = (p.uprights_apart / (p.uprights.pairs - 1) - shop.pitch(KNEE, KNEE, p.tube)) / 2.0
    most = min(p.knee, low, bay)
    return most if most >= least_knee(shop, p.tube) else 0.0


def _lines(p: BedRackParameters, shop: Shop) -> Lines:
    uprights = in_bays(0.0, p.uprights_apart, p.uprights_apart / (p.uprights.pairs - 1))
    leg = _knee(p, shop)
    skew = math.atan(((p.rear_rail_to_rail or p.rail_to_rail) - p.rail_to_rail) / 2.0 / p.uprights_apart)
    reach = leg * math.cos(skew)
    knees = [y + sign * reach for y in uprights for sign in (-1.0, 1.0)] if leg else []
    shared = {b for b in between(0.0, p.uprights_apart, p.crossbars - 2) if b in uprights}
    room = knee_step(shop, p.tube)
    inner = spread(room, p.uprights_apart - room, p.crossbars - 2 - len(shared), [*knees, *uprights], room, room)
    return Lines(
        uprights=uprights,
        bars=tuple(sorted({0.0, p.uprights_apart, *shared, *(inner or ())})),
        front_half=p.rail_to_rail / 2.0,
        rear_half=(p.rear_rail_to_rail or p.rail_to_rail) / 2.0,
        span=p.uprights_apart,
        rail=p.height - shop.outside(p.tube) / 2.0,
        knee=leg,
        across=leg + knee_step(shop, p.tube),
    )


def _knees(frame: FrameBuilder, p: BedRackParameters, at: Lines) -> None:
    """Brace every upright along its side rail, toward the bed's middle, and across where a crossbar is above it."""
    if not at.knee:
        return
    for name, sign in (("left", -1.0), ("right", 1.0)):
        for n, y in enumerate(at.uprights, start=1):
            corner = at.side(sign, y)
            inward = 1.0 if y < p.uprights_apart / 2.0 else -1.0
            along = (at.side(sign, y + inward) - corner).unit
            Knee(name=f"knee.along.{name}.{n}", corner=corner, along=DOWN, other=along, leg=at.knee).lay(frame)
            if y in at.bars:
                across = (at.side(-sign, y) - corner).unit
                Knee(name=f"knee.across.{name}.{n}", corner=corner, along=DOWN, other=across, leg=at.across).lay(frame)


def _words(frame: FrameBuilder, p: BedRackParameters, shop: Shop) -> None:
    if p.mount is Mount.BASE_FLANGE:
        frame.supply("bolt with washers through a bed rail, for the base flanges", 4 * p.uprights.pairs, job=FLANGES)
    else:
        block = "hardwood block made to a stake pocket, with a bolt through pocket and block"
        frame.supply(block, 2 * p.uprights.pairs, job=POCKETS)
        frame.supply("screw for a base flange, into a block", 4 * p.uprights.pairs, job=POCKETS)
    frame.fact("Crossbars", "{} from the bed rails to their tops, flush with the side rails'", over("crossbar.1"))
    frame.fact(
        "Uprights", f"{p.uprights.value}, each with one positive fixing to the truck: friction alone is no mount"
    )
    road = {Road.ON: "twice", Road.OFF: "three times"}[p.road]
    frame.fact("Load", f"count {road} what lies on it, for the bumps; tie loads to the truck, not only to the rack")
    if p.cab_overhang > LONE_CAB_OVERHANG:
        frame.find(
            "F-cab",
            Severity.WARNING,
            "bed rack",
            f"the rails reach {shop.show(p.cab_overhang)} over the cab on nothing",
            f"rest or tie them at the cab, or stay under {shop.show(LONE_CAB_OVERHANG)}",
        )
    if shop.outside(p.tube) < LEAST_OUTSIDE:
        frame.find(
            "F-light",
            Severity.WARNING,
            "bed rack",
            f"tubes of {shop.show(shop.outside(p.tube))} carry a net or a cover at most when they are driven about",
            "use emt-1 or larger",
        )
    frame.caution(
        Signal.WARNING,
        Moment.USE,
        "A load that comes loose kills. Not for people in motion, not roll-over protection. Check what the bed rails "
        "may carry, tighten every clamp again after 25, 100 and 500 miles, and mind the rules for what sticks out.",
    )


TEMPLATE = Template(
    name="bed-rack",
    summary="a rack over a truck's bed",
    parameters=BedRackParameters,
    lay_out=lay_out,
    sketch=r"""
      ____________________
     /    /        /    /
  __/____/________/____/__
    |\  /|        |\  /|
    | \/ |        | \/ |
   _|____|________|____|_
""",
)
