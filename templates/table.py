"""A table or workbench: four legs, four rails and an H of stretchers under a top."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tubeframe.template import (
    INCH,
    Basis,
    EndKind,
    Frame,
    FrameBuilder,
    InputError,
    LengthAlong,
    Moment,
    PanelUse,
    Pocket,
    Problem,
    Shop,
    Signal,
    Template,
    Units,
    Vec,
    a_choice,
    a_length,
    a_tube_size,
    parameters,
)

CORNER, TEE, FOOT = "side-outlet-elbow", "tee", "foot"
STRAP_SPACING = 14 * INCH
STRIP_WIDTH = {Units.INCH: 1.5 * INCH, Units.MILLIMETRE: 38.0}
SPACER = {Units.INCH: 0.375 * INCH, Units.MILLIMETRE: 10.0}
LEAST_BESIDE_POCKET = 3.0
ACROSS = (Basis.OUTSIDE, Basis.CENTRES, Basis.INSIDE)
UPRIGHT = (Basis.TOP, Basis.UNDER)


class Seat(StrEnum):
    """How the top sits on the rails: on strips over the fittings' shells, or with its underside notched for them."""

    SPACED = "spaced"
    NOTCHED = "notched"


@parameters
class TableParameters:
    """What a table is made to."""

    length: float = a_length(
        "outside of the legs, the long way", inch=(24, 54, 96), metric=(600, 1400, 2400), bases=ACROSS
    )
    width: float = a_length(
        "outside of the legs, the short way", inch=(18, 26, 36), metric=(450, 650, 900), bases=ACROSS
    )
    height: float = a_length("floor to the top's surface", inch=(26, 34.5, 42), metric=(660, 880, 1070), bases=UPRIGHT)
    panel: float = a_length("thickness of the top", inch=(0.5, 0.75, 1.5), metric=(12, 18, 38))
    overhang: float = a_length("of the top past the legs, on every side", inch=(0, 1, 4), metric=(0, 25, 100))
    seat: Seat = a_choice("the top on strips, or notched over the fittings", default=Seat.SPACED)
    stretcher_height: float = a_length("floor to the stretchers' centreline", inch=(4, 7, 20), metric=(100, 180, 500))
    tube: str = a_tube_size()

    def bases(self, shop: Shop) -> dict[str, dict[Basis, float]]:
        """Return what each basis is less than outside, and `under` the rails than the top's surface [mm]."""
        outside = shop.outside(self.tube)
        across = {Basis.CENTRES: outside, Basis.INSIDE: 2.0 * outside}
        spacer = SPACER[shop.units] if self.seat is Seat.SPACED else 0.0
        return {"length": across, "width": across, "height": {Basis.UNDER: self.panel + spacer + outside}}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The planes and heights that the tubes' centrelines lie in [mm]."""

    left: float
    right: float
    front: float
    back: float
    rail: float
    stretcher: float
    underside: float

    @property
    def middle(self) -> float:
        """Halfway between front and back [mm]."""
        return (self.front + self.back) / 2.0


def lay_out(p: TableParameters, shop: Shop) -> Frame:
    """Lay a table out.

    The corner fittings take leg, long rail and short rail, all cut; tees hold the end stretchers between the legs and
    the middle stretcher between the end stretchers.
    """
    at = _lines(p, shop)
    frame = FrameBuilder(name="table", tube=p.tube, length_along=LengthAlong.X)
    _tubes(frame, at)
    _top(frame, p, shop, at)
    _words(frame, p, shop)
    return frame.build()


def _lines(p: TableParameters, shop: Shop) -> Lines:
    radius = shop.outside(p.tube) / 2.0
    spacer = SPACER[shop.units] if p.seat is Seat.SPACED else 0.0
    underside = p.height - p.panel
    at = Lines(
        left=radius,
        right=p.length - radius,
        front=radius,
        back=p.width - radius,
        rail=underside - spacer - radius,
        stretcher=p.stretcher_height,
        underside=underside,
    )
    room = at.rail - shop.fitting(CORNER, p.tube).reach - shop.tool_gap - shop.fitting(TEE, p.tube).grip / 2.0
    if at.stretcher > room:
        raise InputError(
            Problem(
                where="table",
                key="stretcher-height",
                message=f"{shop.show(at.stretcher)} runs into the corner fittings; they leave {shop.show(room)}",
                remedy="lower the stretchers or raise the top",
            )
        )
    return at


def _tubes(frame: FrameBuilder, at: Lines) -> None:
    leg = (EndKind.FOOT, EndKind.JOINT)
    corners = [
        ("front.left", at.left, at.front),
        ("front.right", at.right, at.front),
        ("back.left", at.left, at.back),
        ("back.right", at.right, at.back),
    ]
    for name, x, y in corners:
        frame.tube(f"leg.{name}", (Vec(x, y, 0.0), Vec(x, y, at.rail)), ends=leg)
    for name, y in (("front", at.front), ("back", at.back)):
        frame.tube(f"rail.{name}", (Vec(at.left, y, at.rail), Vec(at.right, y, at.rail)))
    for name, x in (("left", at.left), ("right", at.right)):
        frame.tube(f"rail.{name}", (Vec(x, at.front, at.rail), Vec(x, at.back, at.rail)))
    for name, x in (("left", at.left), ("right", at.right)):
        frame.tube(f"stretcher.{name}", (Vec(x, at.front, at.stretcher), Vec(x, at.back, at.stretcher)))
    frame.tube("stretcher.middle", (Vec(at.left, at.middle, at.stretcher), Vec(at.right, at.middle, at.stretcher)))


def _top(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    if p.seat is Seat.SPACED:
        _strips(frame, p, shop, at)
    frame.panel(
        "top",
        PanelUse.TOP,
        corner=Vec(-p.overhang, -p.overhang, at.underside),
        length=p.length + 2.0 * p.overhang,
        width=p.width + 2.0 * p.overhang,
        thickness=p.panel,
        material="plywood",
        pockets=_pockets(p, shop) if p.seat is Seat.NOTCHED else (),
    )


def _strips(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    """Lay a strip on each long rail, between the corner fittings."""
    width, end = STRIP_WIDTH[shop.units], shop.fitting(CORNER, p.tube).reach + shop.tool_gap
    for name, y in (("front", at.front), ("back", at.back)):
        frame.panel(
            f"strip.{name}",
            PanelUse.STRIP,
            corner=Vec(at.left + end, y - width / 2.0, at.rail + shop.outside(p.tube) / 2.0),
            length=at.right - at.left - 2.0 * end,
            width=width,
            thickness=SPACER[shop.units],
            material="softwood",
        )


def _pockets(p: TableParameters, shop: Shop) -> tuple[Pocket, ...]:
    """Recess the underside at each corner for the fitting's shell, with the tool gap around it."""
    depth = shop.fitting(CORNER, p.tube).body_radius - shop.outside(p.tube) / 2.0
    if depth > p.panel - LEAST_BESIDE_POCKET:
        raise InputError(
            Problem(
                where="table",
                key="panel",
                message=f"{shop.show(p.panel)} is too thin to be notched {shop.show(depth)} deep for the fittings",
                remedy="use a thicker top or seat = spaced",
            )
        )
    edge = _pocket_edge(p, shop)
    length, width = p.length + 2.0 * p.overhang, p.width + 2.0 * p.overhang
    return tuple(
        Pocket(low=Vec(x, y, 0.0), high=Vec(x + edge, y + edge, depth))
        for x in (0.0, length - edge)
        for y in (0.0, width - edge)
    )


def _pocket_edge(p: TableParameters, shop: Shop) -> float:
    """Return the side of a corner's recess [mm]: to where the fitting's body ends, and the tool gap."""
    return p.overhang + shop.outside(p.tube) / 2.0 + shop.fitting(CORNER, p.tube).reach + shop.tool_gap


def _words(frame: FrameBuilder, p: TableParameters, shop: Shop) -> None:
    straps = 2 * max(2, round((p.length - 2.0 * shop.fitting(CORNER, p.tube).reach) / STRAP_SPACING))
    frame.supply("two-hole strap for the tube, to hold the top from below", straps)
    frame.supply("wood screw for the straps, shorter than top and strip together", 2 * straps)
    under = p.height - p.bases(shop)["height"][Basis.UNDER]
    frame.fact(
        "Under it", f"{shop.show(under)} from the floor to the rails' underside; clamps hang lower at the corners"
    )
    frame.fact("Top", f"overhangs the legs by {shop.show(p.overhang)} on every side")
    if p.seat is Seat.NOTCHED:
        depth = shop.fitting(CORNER, p.tube).body_radius - shop.outside(p.tube) / 2.0
        edge = shop.show(_pocket_edge(p, shop))
        frame.fact(
            "Notches",
            f"before assembly, recess the underside {shop.show(depth)} deep at each corner, {edge} by {edge} from the "
            "board's edges, for the fittings",
        )
    frame.caution(
        Signal.WARNING,
        Moment.USE,
        "A person on the edge can tip the table or twist a clamp. Do not stand, sit or climb on it; "
        "no engine hoist, no child's bed.",
    )


TEMPLATE = Template(
    name="table",
    summary="a table or workbench with a wooden top",
    parameters=TableParameters,
    lay_out=lay_out,
)
