"""A greenhouse or tunnel: bent hoops or straight rafters on anchors, purlins and base rails inside, braces, a cover."""

from __future__ import annotations

import math
from enum import StrEnum

from tubeframe.template import (
    INCH,
    Basis,
    Cover,
    EndKind,
    Frame,
    FrameBuilder,
    Hoop,
    HoopNeeds,
    InputError,
    LengthAlong,
    LongerThanAStick,
    MemberId,
    Moment,
    Problem,
    Profile,
    Severity,
    Shop,
    Signal,
    Template,
    Vec,
    YesNo,
    a_choice,
    a_length,
    a_tube_size,
    carries,
    fitted_out,
    gable,
    gothic_arch,
    in_bays,
    parameters,
    round_hoop,
    segmental_hoop,
    under,
)

COUPLER, SWIVEL, RIDGE, EAVE = "right-angle-coupler", "swivel-coupler", "swivel-elbow", "swivel-elbow"
RIDGE_PURLIN = "purlin.ridge"
BEND_ANGLES = (10.0, 15.0, 22.5, 30.0)
BASE_RAIL_HEIGHT = 3 * INCH
BRACE_LOW = 7 * INCH
BRACE_STEP = 4 * INCH
LEAST_BRACED_WALL = 24 * INCH
MOST_WALL = 48 * INCH
USUAL_WALL = 36 * INCH
PURLIN_SLOPES: dict[int, tuple[float, ...]] = {1: (), 3: (40.0,), 5: (55.0, 25.0)}
"""How far the straights lean that side purlins are clamped to [degree], by the number of purlins."""
TUCK = 18 * INCH
PAST_THE_ENDS = 30 * INCH
CLIP_SPACING = 24 * INCH
CAPPED = (EndKind.CAP, EndKind.CAP)
ACROSS = (Basis.OUTSIDE, Basis.CENTRES, Basis.INSIDE)
UPRIGHT = (Basis.TOP, Basis.UNDER)


class Shape(StrEnum):
    """What a bay looks like across."""

    ROUND = "round"
    SEGMENTAL = "segmental"
    GOTHIC = "gothic"
    GABLE = "gable"

    @property
    def rises(self) -> tuple[float, float, float]:
        """The least, the usual and the most rise over the wall, in widths."""
        return {
            Shape.ROUND: (0.5, 0.5, 0.5),
            Shape.SEGMENTAL: (0.2, 0.3, 0.45),
            Shape.GOTHIC: (0.6, 0.625, 0.85),
            Shape.GABLE: (0.19, 0.5, 0.6),
        }[self]

    @property
    def least_wall(self) -> float:
        """The least straight wall: a post needs room for its eave, a leg for the bend there [mm]."""
        return 12 * INCH if self in {Shape.GABLE, Shape.SEGMENTAL} else 0.0


class Purlins(StrEnum):
    """How many tubes run along the roof."""

    ONE = "1"
    THREE = "3"
    FIVE = "5"


class Anchor(StrEnum):
    """What holds the feet down."""

    STAKE = "stake"
    BASE_FLANGE = "base-flange"


class Sheet(StrEnum):
    """What goes over it."""

    FILM = "film"
    NET = "net"
    NONE = "none"


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
        left_out="what the shape makes on a wall of 36 in",
    )
    shape: Shape = a_choice("across: round, flatter, pointed, or with straight rafters", default=Shape.ROUND)
    wall: float | None = a_length(
        "straight wall, floor to where the roof begins; a round hoop's follows from width and height",
        inch=(0, 36, 48),
        metric=(0, 900, 1200),
        left_out="36 in, or what height and width leave",
    )
    spacing: float = a_length("of the hoops, at most", inch=(24, 36, 60), metric=(600, 900, 1500))
    purlins: Purlins = a_choice("along the roof, the ridge among them", default=Purlins.THREE)
    base_rails: YesNo = a_choice("along both sides, inside the feet", default=YesNo.YES)
    wind_braces: YesNo = a_choice("at the corners, where the wall has 24 in", default=YesNo.YES)
    anchor: Anchor = a_choice("what holds the feet down", default=Anchor.STAKE)
    cover: Sheet = a_choice("what goes over it; it is put on the buying list", default=Sheet.FILM)
    tube: str = a_tube_size()

    @property
    def sides(self) -> float:
        """Height of the straight wall [mm]."""
        if self.shape is Shape.ROUND:
            return USUAL_WALL if self.height is None else self.height - self.width / 2.0
        if self.wall is not None:
            return self.wall
        if self.height is None:
            return USUAL_WALL
        usual = self.shape.rises[1] * self.width
        return min(max(self.height - usual, self.shape.least_wall), USUAL_WALL)

    @property
    def crown(self) -> float:
        """Floor to the outside of the crown [mm]."""
        return self.sides + self.shape.rises[1] * self.width if self.height is None else self.height

    def limits(self, shop: Shop) -> dict[str, tuple[float, float]]:
        """Return what the shape of this width leaves of the height, over its wall [mm]."""
        del shop
        least, _, most = (share * self.width for share in self.shape.rises)
        low, high = self.shape.least_wall, MOST_WALL if self.shape is Shape.ROUND else USUAL_WALL
        if self.wall is not None and self.shape is not Shape.ROUND:
            low = high = self.wall
        return {"height": (low + least, high + most), "wall": (self.shape.least_wall, MOST_WALL)}

    def bases(self, shop: Shop) -> dict[str, dict[Basis, float]]:
        """Return what each basis is less than outside, and `under` the ridge purlin than the crown [mm]."""
        outside = shop.outside(self.tube)
        across = {Basis.CENTRES: outside, Basis.INSIDE: 2.0 * outside}
        under = {Basis.UNDER: outside + shop.fitting(COUPLER, self.tube).offset}
        return {"width": across, "length": across, "height": under}


def lay_out(p: GreenhouseParameters, shop: Shop) -> Frame:
    """Lay a greenhouse out: hoops square to y, everything lengthwise tied to them from inside by couplers."""
    hoop = _hoop(p, shop)
    stations = _hoop_stations(p, shop)
    frame = FrameBuilder(name="greenhouse", tube=p.tube, length_along=LengthAlong.Y)
    hoops = [m for n, y in enumerate(stations, start=1) for m in _bent(frame, p, hoop, n, y)]
    frame.sized_by(hoops)
    _long_runs(frame, p, hoop, shop)
    if p.wind_braces is YesNo.YES:
        _braces(frame, p, hoop, shop, stations)
    if p.cover is not Sheet.NONE:
        _loads(frame, p, hoops)
    _words(frame, p, hoop, shop, len(stations))
    return frame.build()


def _hoop(p: GreenhouseParameters, shop: Shop) -> Hoop:
    """Find the smallest bends that leave straight enough for the clamps at the crown and for the base rail."""
    needs = _needs(p, shop)
    try:
        made = next((h for h in (fitted_out(profile, needs, shop) for profile in _profiles(p, shop)) if h), None)
    except LongerThanAStick as error:
        message = (
            f"a hoop {shop.show(p.width)} wide and {shop.show(p.crown)} high cannot be made from sticks of "
            f"{shop.show(shop.stick_length(p.tube))}; the arc alone takes {shop.show(error.arc + 4 * INCH)} a half"
        )
        longer = f"add [[stock]] of {shop.show(error.half + 5 * INCH)} to the workshop file"
        raise _refusal(key="width", message=message, remedy=f"make it narrower, or {longer}") from error
    if made is not None:
        return made
    message = (
        f"at {shop.show(p.width)} no bend up to {BEND_ANGLES[-1]:g} degrees leaves straight enough for the clamps at "
        f"the crown and for the base rail {shop.show(BASE_RAIL_HEIGHT)} above the floor"
    )
    raise _refusal(key="width", message=message, remedy="make it wider or higher, or use a bender of a smaller radius")


def _needs(p: GreenhouseParameters, shop: Shop) -> HoopNeeds:
    """Say what is clamped to a hoop: a brace at the spring line too, where the wall is high enough for one."""
    braced = _brace_low(p, shop) + _least_step(p, shop)
    return HoopNeeds(
        tube=p.tube,
        coupler=COUPLER,
        ridge=RIDGE,
        slopes=PURLIN_SLOPES[int(p.purlins.value)],
        base=BASE_RAIL_HEIGHT,
        clamped_below=braced if p.sides >= LEAST_BRACED_WALL else BASE_RAIL_HEIGHT,
    )


def _profiles(p: GreenhouseParameters, shop: Shop) -> list[Profile]:
    """Return the shape in bends of each angle, the smallest first."""
    left, radius = shop.outside(p.tube) / 2.0, shop.bend_radius(p.tube)
    half, wall, rise = p.width / 2.0 - left, p.sides, p.crown - left - p.sides
    if p.shape is Shape.GABLE:
        return [gable(left, half, wall, rise)]
    sweep = math.degrees(2.0 * math.atan(rise / half))
    if p.shape is Shape.ROUND:
        return [round_hoop(left, half, wall, radius, round(90.0 / angle)) for angle in BEND_ANGLES]
    if p.shape is Shape.SEGMENTAL:
        numbers = [max(2, round(sweep / angle)) for angle in BEND_ANGLES]
        return [segmental_hoop(left, half, wall, rise, radius, number) for number in numbers]
    numbers = [max(2, round((180.0 - sweep) / angle)) for angle in BEND_ANGLES]
    return [gothic_arch(left, half, wall, rise, radius, number) for number in numbers]


def _hoop_stations(p: GreenhouseParameters, shop: Shop) -> tuple[float, ...]:
    radius = shop.outside(p.tube) / 2.0
    return in_bays(radius, p.length - radius, p.spacing)


def _loads(frame: FrameBuilder, p: GreenhouseParameters, hoops: list[MemberId]) -> None:
    """State the sheet for wind and snow, and what hangs under the ridge."""
    frame.carry(Cover(over=tuple(hoops), width=p.width, length=p.length, height=p.crown))
    carries(frame, "hung along the ridge", RIDGE_PURLIN)


def _bent(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, n: int, y: float) -> list[MemberId]:
    """Add one hoop, or the tubes of one pair of rafters."""
    foot, profile = EndKind(p.anchor.value), hoop.profile.at(y)
    if profile.is_one:
        return [frame.tube(f"hoop.{n}", profile.whole, ends=(foot, foot), split_at=hoop.split_at)]
    names = ("hoop",) if profile.eave is None else ("post", "rafter")
    made = []
    for hand, side in (("left", profile), ("right", profile.other_side)):
        for name, part in zip(names, side.parts, strict=True):
            ends = (foot if name != "rafter" else EndKind.JOINT, EndKind.JOINT)
            made.append(frame.tube(f"{name}.{n}.{hand}", part, ends=ends, split_at=hoop.split_at))
    return made


def _long_runs(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop) -> None:
    """Lay base rails, side purlins and the ridge purlin inside the hoops, past the end hoops by the least overhang."""
    outside, offset = shop.outside(p.tube), shop.fitting(COUPLER, p.tube).offset
    over = shop.fitting(COUPLER, p.tube).overhang
    front, back = outside / 2.0 - over, p.length - outside / 2.0 + over
    profile = hoop.profile
    places = []
    if p.base_rails is YesNo.YES:
        places.append(("base", Vec(outside / 2.0 + offset, 0.0, BASE_RAIL_HEIGHT)))
    sides = hoop.sides
    for n, place in enumerate(sides, start=1):
        places.append(("purlin" if len(sides) == 1 else f"purlin.{n}", place.at + place.inward * offset))
    for name, at in places:
        for hand, x in (("left", at.x), ("right", profile.mirrored(at).x)):
            frame.tube(f"{name}.{hand}", (Vec(x, front, at.z), Vec(x, back, at.z)), ends=CAPPED)
    ridge = profile.mirrored(hoop.ridge.at + hoop.ridge.inward * offset)
    frame.tube("purlin.ridge", (Vec(ridge.x, front, ridge.z), Vec(ridge.x, back, ridge.z)), ends=CAPPED)


def _braces(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop, stations: tuple[float, ...]) -> None:
    """Brace the corners, from low on the second hoop to high on the end hoop's leg, inside the legs."""
    top = _brace_top(p, hoop, shop)
    if hoop.profile.wall < LEAST_BRACED_WALL or top - _brace_low(p, shop) < BRACE_STEP:
        return
    outside, offset = shop.outside(p.tube), shop.fitting(SWIVEL, p.tube).offset
    sides = {"left": outside / 2.0 + offset, "right": p.width - outside / 2.0 - offset}
    step = _brace_step(p, top, shop, stations)
    for name, x, low, high, height in _brace_places(sides, stations, (_brace_low(p, shop), step)):
        start, end = Vec(x, low, height), Vec(x, high, top)
        over = (end - start).unit * shop.fitting(SWIVEL, p.tube).overhang
        frame.tube(f"brace.{name}", (start - over, end + over), ends=CAPPED)


def _brace_top(p: GreenhouseParameters, hoop: Hoop, shop: Shop) -> float:
    """Say how high a brace goes on a leg: to the spring line, or as near as a bend or the eave lets it [mm]."""
    swivel = shop.fitting(SWIVEL, p.tube)
    if hoop.profile.eave is None:
        return min(hoop.profile.wall, hoop.leg - swivel.off_bend)
    return hoop.profile.wall - shop.fitting(EAVE, p.tube).reach - shop.tool_gap - swivel.grip


def _brace_low(p: GreenhouseParameters, shop: Shop) -> float:
    """Say how high a brace starts: a pitch above the base rail at least."""
    pitch = shop.pitch(COUPLER, SWIVEL, p.tube)
    return max(BRACE_LOW, BASE_RAIL_HEIGHT + pitch)


def _least_step(p: GreenhouseParameters, shop: Shop) -> float:
    """Say how far two braces' clamps are apart on one leg: a pitch at least."""
    return max(BRACE_STEP, shop.pitch(SWIVEL, SWIVEL, p.tube))


def _brace_step(p: GreenhouseParameters, top: float, shop: Shop, stations: tuple[float, ...]) -> float:
    """Say how much higher the second brace sits where two share a hoop, so that their ends pass each other clear.

    The one's overhang stays out of the other's clamp.
    """
    rise, run = top - _brace_low(p, shop), stations[1] - stations[0]
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
    profile = hoop.profile
    bends = [round(math.degrees(b.angle), 1) for _, b in profile.half.bends] if profile.eave is None else []
    if bends:
        starts = shop.show(profile.half.bends[0][0])
        number = f"{2 * bends.count(bends[-1])} bends of {bends[-1]:g} degrees"
        frame.fact("Hoops", f"{hoops} of {number}; bending starts {starts} up")
    else:
        frame.fact("Rafters", f"{hoops} pairs, {profile.straights[-1].slope_deg:.1f} degrees off level")
    frame.fact("Headroom", "{} under the ridge purlin; clamps hang lower", under(RIDGE_PURLIN))
    shift = profile.mirrored(hoop.ridge.at).x - profile.middle
    if shift > 1.0:
        frame.fact("Ridge", f"purlin {shop.show(shift)} right of the middle, clear of the crown's fittings")
    frame.fact("Overhang", f"purlins and rails stand {shop.show(over)} past the end hoops' middle")
    if p.anchor is Anchor.STAKE:
        _stake_words(frame, p, shop)
    else:
        feet = 2 * hoops
        frame.supply("screw or bolt with washer for a base flange, into a sleeper or a slab", 3 * feet)
        frame.fact("Anchors", f"{feet} base flanges on sleepers or a slab; frame and film weigh little")
    _cover_words(frame, p, hoop, shop, hoops)
    frame.caution(
        Signal.WARNING,
        Moment.COVERING,
        "The cover makes the wind load, and the frame's own weight will not hold it down. Anchor first, cover on a "
        "still morning, take the film off before storm or snow. Leave 15 to 20 % of the floor's area to open as vents.",
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


def _cover_words(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop, hoops: int) -> None:
    """Put the cover on the buying list: over the hoops and tucked in at both sides, past both ends."""
    if p.cover is Sheet.NONE:
        return
    girth = 2.0 * hoop.profile.half.length + math.pi * shop.outside(p.tube)
    wide, long = girth + 2.0 * TUCK, p.length + 2.0 * PAST_THE_ENDS
    clips = 2 * math.ceil(p.length / CLIP_SPACING) + 2 * math.ceil(girth / CLIP_SPACING)
    what = {Sheet.FILM: "greenhouse film, UV, 6 mil", Sheet.NET: "shade net"}[p.cover]
    frame.supply(f"{what}, {shop.show(wide)} x {shop.show(long)}", 1, "piece")
    frame.supply("snap clip to the tubes' outside, on base rails and end hoops", clips)
    tuck, past = shop.show(TUCK), shop.show(PAST_THE_ENDS)
    frame.fact("Cover", f"{shop.show(wide)} x {shop.show(long)}: {tuck} to tuck in at the sides, {past} at the ends")


def _stake_words(frame: FrameBuilder, p: GreenhouseParameters, shop: Shop) -> None:
    stake = shop.stake(p.tube)
    if stake is None:
        return
    pin, height = shop.show(stake.pin_diameter), shop.show(stake.pin_height)
    frame.fact(
        "Stakes",
        f"drill {pin} through leg and stake {height} above the ground for a cross pin, the only drilled hole; "
        "without the pin nothing resists uplift",
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
    summary="a greenhouse or tunnel of hoops or rafters",
    parameters=GreenhouseParameters,
    lay_out=lay_out,
)
