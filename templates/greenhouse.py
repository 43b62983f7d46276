"""A round hoop greenhouse: bent hoops on ground stakes, purlins and base rails inside, braces at the corners."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tubeframe.template import (
    INCH,
    Basis,
    Cover,
    EndKind,
    Frame,
    FrameBuilder,
    InputError,
    LengthAlong,
    MemberId,
    Moment,
    Path,
    Problem,
    Severity,
    Shop,
    Signal,
    Template,
    Vec,
    a_length,
    a_tube_size,
    carries,
    parameters,
    pushed_at,
    through,
    under,
)

COUPLER, SWIVEL, SLEEVE = "right-angle-coupler", "swivel-coupler", "sleeve-coupler"
RIDGE = "purlin.ridge"
BEND_ANGLES = (10.0, 15.0, 22.5, 30.0)
BASE_RAIL_HEIGHT = 3 * INCH
BRACE_LOW = 7 * INCH
BRACE_STEP = 4 * INCH
LEAST_BRACED_WALL = 24 * INCH
MOST_WALL = 48 * INCH
USUAL_WALL = 36 * INCH
LEG_SPLIT = 6 * INCH
SIDE_PURLIN_AT = 50.0
CAPPED = (EndKind.CAP, EndKind.CAP)
ACROSS = (Basis.OUTSIDE, Basis.CENTRES, Basis.INSIDE)
UPRIGHT = (Basis.TOP, Basis.UNDER)


@parameters
class GreenhouseParameters:
    """What a greenhouse is made to."""

    width: float = a_length("outside of the hoops' feet", inch=(48, 96, 168), metric=(1200, 2400, 4200), bases=ACROSS)
    length: float = a_length("outside of the end hoops", inch=(48, 144, 480), metric=(1200, 3600, 12000), bases=ACROSS)
    height: float | None = a_length(
        "floor to the outside of the crown",
        inch=(24, 84, 132),
        metric=(600, 2100, 3300),
        bases=UPRIGHT,
        left_out="half the width and 36 in of straight wall",
    )
    spacing: float = a_length("of the hoops, at most", inch=(24, 36, 60), metric=(600, 900, 1500))
    tube: str = a_tube_size()

    @property
    def crown(self) -> float:
        """Floor to the outside of the crown [mm]."""
        return self.width / 2.0 + USUAL_WALL if self.height is None else self.height

    def limits(self, shop: Shop) -> dict[str, tuple[float, float]]:
        """Return what a round hoop of this width leaves of the height: half of it, and a straight wall [mm]."""
        del shop
        return {"height": (self.width / 2.0, self.width / 2.0 + MOST_WALL)}

    def bases(self, shop: Shop) -> dict[str, dict[Basis, float]]:
        """Return what each basis is less than outside, and `under` the ridge purlin than the crown [mm]."""
        outside = shop.outside(self.tube)
        across = {Basis.CENTRES: outside, Basis.INSIDE: 2.0 * outside}
        under = {Basis.UNDER: outside + shop.fitting(COUPLER, self.tube).offset}
        return {"width": across, "length": across, "height": under}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hoop:
    """A hoop's shape [mm, degree]: n small bends a half, of one angle and radius; the circle they go round."""

    width: float
    wall: float
    circle: float
    bend_radius: float
    bend_angle: float
    stub: float
    split_at: tuple[float, ...]
    ridge_shift: float

    @property
    def bends_a_half(self) -> int:
        """Bends in a quarter turn."""
        return round(90.0 / self.bend_angle)


def lay_out(p: GreenhouseParameters, shop: Shop) -> Frame:
    """Lay a greenhouse out: hoops square to y, everything lengthwise tied to them from inside by couplers."""
    hoop = _hoop(p, shop)
    stations = _hoop_stations(p, shop)
    frame = FrameBuilder(name="greenhouse", tube=p.tube, length_along=LengthAlong.Y)
    hoops = _hoops(frame, hoop, shop.outside(p.tube), stations)
    frame.sized_by(hoops)
    _long_runs(frame, p, hoop, shop)
    _braces(frame, p, hoop, shop, stations)
    _loads(frame, p, hoops)
    _words(frame, p, hoop, shop, len(stations))
    return frame.build()


def _hoop(p: GreenhouseParameters, shop: Shop) -> Hoop:
    outside, radius = shop.outside(p.tube), shop.bend_radius(p.tube)
    circle, wall = (p.width - outside) / 2.0, p.crown - p.width / 2.0
    for angle in BEND_ANGLES:
        made = _bent(p, shop, wall, circle, radius, angle)
        if made is not None:
            return made
    raise _refusal(
        key="width",
        message=f"at {shop.show(p.width)} no bend up to {BEND_ANGLES[-1]:g} degrees leaves straight enough for the "
        f"clamps at the crown and for the base rail {shop.show(BASE_RAIL_HEIGHT)} above the floor",
        remedy="make it wider or higher, or use a bender of a smaller radius",
    )


def _bent(p: GreenhouseParameters, shop: Shop, wall: float, circle: float, radius: float, angle: float) -> Hoop | None:
    """Try a bend angle: the crown's clamp and the base rail's clamp must both find a straight."""
    stub = (circle - radius) * math.tan(math.radians(angle) / 2.0)
    bends = round(90.0 / angle)
    half = wall + bends * (2.0 * stub + radius * math.radians(angle))
    whole = shop.fits_stick(2.0 * half, (wall + stub, wall + stub), p.tube)
    shift = 0.0 if whole else shop.sleeve_off(COUPLER, p.tube)
    off_bend = shop.fitting(COUPLER, p.tube).off_bend
    if stub < shift + off_bend or wall + stub < BASE_RAIL_HEIGHT + off_bend:
        return None
    return Hoop(
        width=p.width,
        wall=wall,
        circle=circle,
        bend_radius=radius,
        bend_angle=angle,
        stub=stub,
        split_at=() if whole else _splits(p, shop, wall, stub, half, bends),
        ridge_shift=shift,
    )


def _splits(
    p: GreenhouseParameters, shop: Shop, wall: float, stub: float, half: float, bends: int
) -> tuple[float, ...]:
    """Say where the sleeves of a hoop go [mm from a foot]: at the crown, and when a half is too long in the legs.

    Where the arc alone is more than a stick: in the middle of a straight between two bends, as low as it goes.
    """
    if shop.fits_stick(half, (wall + stub, stub), p.tube):
        return (half,)
    clear = shop.sleeve_off(COUPLER, p.tube)
    braced = _brace_low(p, shop) + _least_step(p, shop)
    lowest = (braced if wall >= LEAST_BRACED_WALL else BASE_RAIL_HEIGHT) + clear
    highest = wall + stub - shop.sleeve_off_bend(p.tube)
    arc, pitch = half - wall, (half - wall) / bends
    for at in _leg_split_places(wall, clear):
        fits = shop.fits_stick(half - at, (wall + stub - at, stub), p.tube) and at <= shop.stick_length(p.tube)
        if lowest <= at <= highest and fits:
            return (at, half, 2.0 * half - at)
    for k in (k for k in range(1, bends) if k != _purlin_bend(bends)):
        at = wall + k * pitch
        if shop.fits_stick(half - at, (stub, stub), p.tube) and shop.fits_stick(at, (wall + stub, stub), p.tube):
            return (at, half, 2.0 * half - at)
    raise _refusal(
        key="width",
        message=f"a hoop {shop.show(p.width)} wide and {shop.show(p.crown)} high cannot be made from sticks of "
        f"{shop.show(shop.stick_length(p.tube))}; the arc alone takes {shop.show(arc + 4 * INCH)} a half",
        remedy=f"make it narrower, or add [[stock]] of {shop.show(arc + wall + 5 * INCH)} to the workshop file",
    )


def _purlin_bend(bends: int) -> int:
    """Return after how many bends the straight comes that the side purlin is clamped to."""
    angle = 90.0 / bends
    return min(range(1, bends), key=lambda k: (abs(k * angle - SIDE_PURLIN_AT), k))


def _leg_split_places(wall: float, clear: float) -> list[float]:
    """List places below and above the spring line, best first; a brace may be clamped at the spring line itself."""
    below = [wall - LEG_SPLIT * (1.0 - step / 8.0) for step in range(9)]
    return [at for at in below if wall - at >= clear] + [wall + clear]


def _hoop_stations(p: GreenhouseParameters, shop: Shop) -> tuple[float, ...]:
    outside = shop.outside(p.tube)
    run = p.length - outside
    bays = math.ceil(run / p.spacing - 1e-9)
    return tuple(outside / 2.0 + run * i / bays for i in range(bays + 1))


def _hoops(frame: FrameBuilder, hoop: Hoop, outside: float, stations: tuple[float, ...]) -> list[MemberId]:
    ends = (EndKind.STAKE, EndKind.STAKE)
    return [
        frame.tube(f"hoop.{i}", _hoop_path(hoop, outside, y), ends=ends, split_at=hoop.split_at)
        for i, y in enumerate(stations, start=1)
    ]


def _loads(frame: FrameBuilder, p: GreenhouseParameters, hoops: list[MemberId]) -> None:
    """State the sheet for wind and snow, what hangs under the ridge, and a push at the ridge."""
    frame.carry(Cover(over=tuple(hoops), width=p.width, length=p.length, height=p.crown))
    carries(frame, "hung along the ridge", RIDGE)
    pushed_at(frame, RIDGE)


def _hoop_path(hoop: Hoop, outside: float, y: float) -> Path:
    """Lay the polygon round the circle: it touches at the spring line and at the crown, so width and top are exact."""
    middle, corner = hoop.width / 2.0, hoop.circle / math.cos(math.radians(hoop.bend_angle) / 2.0)
    corners = [Vec(outside / 2.0, y, 0.0)]
    for k in range(2 * hoop.bends_a_half):
        turn = math.radians((k + 0.5) * hoop.bend_angle)
        corners.append(Vec(middle - corner * math.cos(turn), y, hoop.wall + corner * math.sin(turn)))
    corners.append(Vec(hoop.width - outside / 2.0, y, 0.0))
    return through(corners, [hoop.bend_radius] * (len(corners) - 2))


def _long_runs(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop) -> None:
    """Lay base rails, side purlins and the ridge purlin inside the hoops, past the end hoops by the least overhang."""
    outside, offset = shop.outside(p.tube), shop.fitting(COUPLER, p.tube).offset
    over = shop.fitting(COUPLER, p.tube).overhang
    front, back = outside / 2.0 - over, p.length - outside / 2.0 + over
    turn = math.radians(_purlin_bend(hoop.bends_a_half) * hoop.bend_angle)
    inner = hoop.circle - offset
    side = inner * math.cos(turn)
    places = [
        ("base.left", outside / 2.0 + offset, BASE_RAIL_HEIGHT),
        ("base.right", p.width - outside / 2.0 - offset, BASE_RAIL_HEIGHT),
        ("purlin.left", p.width / 2.0 - side, hoop.wall + inner * math.sin(turn)),
        ("purlin.right", p.width / 2.0 + side, hoop.wall + inner * math.sin(turn)),
        (RIDGE, p.width / 2.0 + hoop.ridge_shift, hoop.wall + inner),
    ]
    for name, x, z in places:
        frame.tube(name, (Vec(x, front, z), Vec(x, back, z)), ends=CAPPED)


def _braces(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop, stations: tuple[float, ...]) -> None:
    """Brace the corners, from low on the second hoop to the end hoop's spring line, inside the legs."""
    if hoop.wall < LEAST_BRACED_WALL:
        return
    outside, offset = shop.outside(p.tube), shop.fitting(SWIVEL, p.tube).offset
    sides = {"left": outside / 2.0 + offset, "right": p.width - outside / 2.0 - offset}
    step = _brace_step(p, hoop, shop, stations)
    for name, x, low, high, height in _brace_places(sides, stations, (_brace_low(p, shop), step)):
        start, end = Vec(x, low, height), Vec(x, high, hoop.wall)
        over = (end - start).unit * shop.fitting(SWIVEL, p.tube).overhang
        frame.tube(f"brace.{name}", (start - over, end + over), ends=CAPPED)


def _brace_low(p: GreenhouseParameters, shop: Shop) -> float:
    """Say how high a brace starts: a pitch above the base rail at least."""
    pitch = shop.pitch(COUPLER, SWIVEL, p.tube)
    return max(BRACE_LOW, BASE_RAIL_HEIGHT + pitch)


def _least_step(p: GreenhouseParameters, shop: Shop) -> float:
    """Say how far two braces' clamps are apart on one leg: a pitch at least."""
    return max(BRACE_STEP, shop.pitch(SWIVEL, SWIVEL, p.tube))


def _brace_step(p: GreenhouseParameters, hoop: Hoop, shop: Shop, stations: tuple[float, ...]) -> float:
    """Say how much higher the second brace sits where two share a hoop, so that their ends pass each other clear.

    The one's overhang stays out of the other's clamp.
    """
    rise, run = hoop.wall - _brace_low(p, shop), stations[1] - stations[0]
    swivel = shop.fitting(SWIVEL, p.tube)
    thick = shop.outside(p.tube) / 2.0 + swivel.body_radius + swivel.overhang
    return max(_least_step(p, shop), thick * math.hypot(rise, run) / run)


def _brace_places(
    sides: dict[str, float], stations: tuple[float, ...], heights: tuple[float, float]
) -> list[tuple[str, float, float, float, float]]:
    """List name, x, y of the low and of the high end, and the low end's height [mm]."""
    lowest, step = heights
    first, second, last_but_one, last = stations[0], stations[1], stations[-2], stations[-1]
    if len(stations) == 2:
        return [
            ("left", sides["left"], last, first, lowest),
            ("right", sides["right"], first, last, lowest),
        ]
    back = lowest + (step if len(stations) == 3 else 0.0)
    return [
        (f"{end}.{side}", x, low, high, height)
        for end, low, high, height in (("front", second, first, lowest), ("back", last_but_one, last, back))
        for side, x in sides.items()
    ]


def _words(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop, hoops: int) -> None:
    over = shop.fitting(COUPLER, p.tube).overhang
    bends = f"{hoops}, each {2 * hoop.bends_a_half} bends of {hoop.bend_angle:g} degrees"
    frame.fact("Hoops", f"{bends} above {shop.show(hoop.wall)} of straight wall")
    frame.fact("Headroom", "{} under the ridge purlin; clamps hang lower", under("purlin.ridge"))
    if hoop.ridge_shift:
        frame.fact("Ridge", f"purlin {shop.show(hoop.ridge_shift)} right of the middle, clear of the crown sleeves")
    frame.fact("Overhang", f"purlins and base rails stand {shop.show(over)} past the end hoops, to the tube's middle")
    _stake_words(frame, p, shop)
    frame.caution(
        Signal.WARNING,
        Moment.COVERING,
        "The cover makes the wind load, and the frame's own weight will not hold it down. Anchor first, cover on a "
        "still morning, take the film off before storm or snow.",
    )
    frame.caution(
        Signal.WARNING,
        Moment.USE,
        "A cold frame, not a building: get local wind and snow values, ask for local rules and permits, and have a "
        "licensed engineer look where a code asks for one. Not for holding people or hanging loads.",
    )
    if p.tube == "emt-3/4" and p.width > 120 * INCH:
        frame.find(
            "F-span",
            Severity.WARNING,
            "greenhouse",
            f"hoops {shop.show(p.width)} wide of {p.tube} are beyond what builders use it for (10 ft)",
            "use emt-1 or make it narrower",
        )


def _stake_words(frame: FrameBuilder, p: GreenhouseParameters, shop: Shop) -> None:
    stake = shop.stake(p.tube)
    if stake is None:
        return
    frame.fact(
        "Stakes",
        f"drill {shop.show(stake.pin_diameter)} through leg and stake {shop.show(stake.pin_height)} above the ground "
        "for a cross pin, the only drilled hole. Without the pin nothing resists uplift.",
    )
    frame.caution(
        Signal.WARNING,
        Moment.SETTING_OUT,
        "Driving a stake into a buried cable or pipe can kill. Call the service that marks buried lines before you "
        "drive one.",
    )
    frame.caution(
        Signal.WARNING,
        Moment.ANCHORING,
        "A hoop slipped over a stake without its cross pin lifts off in the first wind. Pin every foot.",
    )


def _refusal(*, key: str, message: str, remedy: str) -> InputError:
    return InputError(Problem(where="greenhouse", key=key, message=message, remedy=remedy))


TEMPLATE = Template(
    name="greenhouse",
    summary="a round hoop greenhouse on ground stakes",
    parameters=GreenhouseParameters,
    lay_out=lay_out,
)
