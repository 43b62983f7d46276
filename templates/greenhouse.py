"""A greenhouse or tunnel: bent hoops or straight rafters on anchors, purlins and base rails inside, braces, a cover."""

from __future__ import annotations

import math
from dataclasses import replace
from enum import StrEnum

from tubeframe.template import (
    BEND_ANGLES,
    INCH,
    LEAST_BRACED_WALL,
    LEAST_ROLLED,
    RIDGE_PURLIN,
    Anchor,
    Basis,
    Bending,
    CornerBraces,
    Cover,
    EndKind,
    EndWall,
    Frame,
    FrameBuilder,
    Hand,
    Hoop,
    HoopNeeds,
    InputError,
    Job,
    JobKind,
    LengthAlong,
    LongerThanAStick,
    LongRuns,
    MemberId,
    Moment,
    Problem,
    Profile,
    RollUp,
    Severity,
    Shape,
    Sheet,
    Sheeting,
    Shop,
    Signal,
    Stud,
    Template,
    Units,
    YesNo,
    a_choice,
    a_length,
    a_tube_size,
    baseboards,
    brace_low,
    carries,
    evened,
    feet_of,
    fitted_out,
    in_bays,
    least_radius,
    least_step,
    parameters,
    stand_bent,
    tell_hoops,
    thresholds,
    under,
)

COUPLER, RIDGE = "right-angle-coupler", "swivel-elbow"
STUD_BAY = 48 * INCH
USUAL_DOOR = 72 * INCH
MOST_WIDTH = 168 * INCH
LEAST_DOOR = {Units.INCH: 60 * INCH, Units.MILLIMETRE: 1500.0}
TOLD_WIDER = INCH / 4
"""A door that comes out wider than asked by more is told of."""
JAMB_ROOM = 4 * INCH
"""How far a door's studs may have to stand farther off the middle, until both find a straight of the hoop."""
HEADER_ROOM = 6.5 * INCH
"""What header and fittings take between a door and the hoop's middle, at most."""
LEAST_FILM = 36 * INCH
"""A lower tunnel's ends are left open: the film is gathered there."""
RISES = 8
"""So many steps of the rise are tried until a door goes in."""
ROLLED_WALL = 14 * INCH
"""The least wall whose sides roll up."""
OPENING = 0.2
"""How much of the floor's area opens, where the wall is high enough; common practice, no source."""
MOST_WALL = 48 * INCH
USUAL_WALL = 36 * INCH
PURLIN_SLOPES: dict[int, tuple[float, ...]] = {1: (), 3: (40.0,), 5: (55.0, 25.0)}
"""How far the straights lean that side purlins are clamped to [degree], by the number of purlins."""
ACROSS = (Basis.OUTSIDE, Basis.CENTRES, Basis.INSIDE)
UPRIGHT = (Basis.TOP, Basis.UNDER)


class Purlins(StrEnum):
    """How many tubes run along the roof."""

    ONE = "1"
    THREE = "3"
    FIVE = "5"


class Ends(StrEnum):
    """What closes the ends: nothing; film on studs; or that, with a door in the front one."""

    OPEN = "open"
    FILM = "film"
    DOOR = "door"


class Vents(StrEnum):
    """What opens besides a door."""

    NONE = "none"
    SIDES = "sides"


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
        left_out="what the shape makes on a wall of 36 in, higher for a door",
    )
    shape: Shape = a_choice("across: round, flatter, pointed, or with straight rafters", default=Shape.ROUND)
    wall: float | None = a_length(
        "straight wall, floor to where the roof begins; a round hoop's follows from width and height",
        inch=(0, 36, 48),
        metric=(0, 900, 1200),
        left_out="36 in, or what height and width leave",
    )
    bending: Bending = a_choice(
        "of the hoops: small bends by hand, or one arc pulled round a form; rafters are straight",
        default=Bending.SMALL_BENDS,
    )
    spacing: float = a_length("of the hoops, at most", inch=(24, 36, 60), metric=(600, 900, 1500))
    purlins: Purlins = a_choice("along the roof, the ridge among them", default=Purlins.THREE)
    base_rails: YesNo = a_choice("along both sides, inside the feet", default=YesNo.YES)
    wind_braces: YesNo = a_choice("at the corners, where the wall has 24 in", default=YesNo.YES)
    anchor: Anchor = a_choice("what holds the feet down", default=Anchor.STAKE)
    ends: Ends | None = a_choice(
        "what closes them; a door is in the front end",
        default=Ends.DOOR,
        left_out="a door where it fits, else film; open below 3 ft",
    )
    door_width: float = a_length("clear between the door's studs, at least", inch=(28, 32, 40), metric=(700, 800, 1000))
    door_height: float | None = a_length(
        "clear under the header",
        inch=(60, 72, 78),
        metric=(1500, 1800, 2000),
        left_out="72 in, or what the end leaves",
    )
    hinges: Hand = a_choice("of the door, seen from outside", default=Hand.LEFT)
    vents: Vents = a_choice(
        "that open besides a door: both sides roll up, for a fifth of the floor", default=Vents.NONE
    )
    cover: Sheet = a_choice("what goes over it; it is put on the buying list", default=Sheet.FILM)
    tube: str = a_tube_size()

    @property
    def least_wall(self) -> float:
        """The least straight wall: sides that roll up need some [mm]."""
        return max(self.shape.least_wall, ROLLED_WALL if self.vents is Vents.SIDES else 0.0)

    @property
    def least_width(self) -> float:
        """The least width that has room for the door [mm]."""
        return (self.door_width + 2.0 * JAMB_ROOM) / self.shape.studs_within

    @property
    def closed(self) -> Ends:
        """What closes the ends: what is asked for, else a door where there is about room for one."""
        if self.ends is not None:
            return self.ends
        if self.height is not None and self.height < LEAST_FILM:
            return Ends.OPEN
        is_wide = self.width >= self.least_width
        is_high = self.height is None or self.most_door >= (self.door_height or LEAST_DOOR[Units.INCH])
        return Ends.DOOR if is_wide and is_high else Ends.FILM

    @property
    def sides(self) -> float:
        """Height of the straight wall [mm]."""
        if self.shape is Shape.ROUND and self.height is not None:
            return self.height - self.width / 2.0
        if self.wall is not None and self.shape is not Shape.ROUND:
            return self.wall
        if self.height is None:
            return min(max(USUAL_WALL, self._wall_for(self.door_height or USUAL_DOOR)), MOST_WALL)
        usual = self.shape.rises[1] * self.width
        return min(max(self.height - usual, self.least_wall), USUAL_WALL)

    @property
    def crown(self) -> float:
        """Floor to the outside of the crown: of what is usual, or higher for a door [mm]."""
        if self.height is not None:
            return self.height
        _, usual, most = self.shape.rises
        rises = [(usual + (most - usual) * n / RISES) * self.width for n in range(RISES + 1)]
        door = 0.0 if self.closed is not Ends.DOOR else self.door_height or USUAL_DOOR
        return self.sides + next((r for r in rises if self.under_header(self.sides, r) >= door), rises[-1])

    def _wall_for(self, door: float) -> float:
        """About the wall that lets a door in under the usual rise [mm]; the least where there is none."""
        if self.closed is not Ends.DOOR:
            return self.least_wall
        return door - self.under_header(0.0, self.shape.rises[1] * self.width)

    def under_header(self, wall: float, rise: float) -> float:
        """Return about how high a door may be under a roof that rises so far over its wall [mm]."""
        off, half = self.door_width / 2.0 + JAMB_ROOM, self.width / 2.0
        return wall + self.shape.height_at(min(off / half, 1.0), rise / half) * half - HEADER_ROOM

    def limits(self, shop: Shop) -> dict[str, tuple[float, float]]:
        """Return what the shape of this width, and the door, leave of the height, over its wall [mm]."""
        least, _, most = (share * self.width for share in self.shape.rises)
        low, high = self.least_wall, MOST_WALL if self.shape is Shape.ROUND else USUAL_WALL
        if self.wall is not None and self.shape is not Shape.ROUND:
            low = high = self.wall
        found = {"height": (low + least, high + most), "wall": (self.least_wall, MOST_WALL)}
        if self.ends is not Ends.DOOR:
            return found
        door, top = self.door_height or LEAST_DOOR[shop.units], low + least
        while top < high + most and replace(self, height=top).most_door < door:
            top += INCH
        highest = replace(self, wall=MOST_WALL).most_door if self.height is None else self.most_door
        wall = max(self.least_wall, self._wall_for(door)) if self.height is None else self.least_wall
        return {
            "width": (self.least_width, MOST_WIDTH),
            "height": (min(top, high + most), high + most),
            "door_height": (LEAST_DOOR[shop.units], max(highest, LEAST_DOOR[shop.units])),
            "wall": (min(wall, MOST_WALL), MOST_WALL),
        }

    @property
    def most_door(self) -> float:
        """About how high a door may be [mm]."""
        return self.under_header(self.sides, self.crown - self.sides)

    def bases(self, shop: Shop) -> dict[str, dict[Basis, float]]:
        """Return what each basis is less than outside, and `under` the ridge purlin than the crown [mm]."""
        outside = shop.outside(self.tube)
        across = {Basis.CENTRES: outside, Basis.INSIDE: 2.0 * outside}
        under = {Basis.UNDER: outside + shop.fitting(COUPLER, self.tube).offset}
        return {"width": across, "length": across, "height": under}


def lay_out(p: GreenhouseParameters, shop: Shop) -> Frame:
    """Lay a greenhouse out: hoops square to y, everything lengthwise tied to them from inside by couplers."""
    hoop = _hoop(p, shop)
    foot = shop.outside(p.tube) / 2.0
    stations = in_bays(foot, p.length - foot, p.spacing)
    frame = FrameBuilder(name="greenhouse", tube=p.tube, length_along=LengthAlong.Y)
    hoops = [m for n, y in enumerate(stations, start=1) for m in stand_bent(frame, hoop, n, y, p.anchor.end)]
    frame.sized_by(hoops)
    LongRuns(hoop=hoop, needs=_needs(p, shop), length=p.length).lay(frame, shop, with_base=p.base_rails is YesNo.YES)
    braces = CornerBraces(hoop=hoop, needs=_needs(p, shop), width=p.width, stations=stations)
    clamped = braces.lay(frame, shop) if p.wind_braces is YesNo.YES else ()
    doors = [] if p.closed is Ends.OPEN else _ends(frame, p, hoop, shop, stations)
    sides = RollUp(hoop=hoop, needs=_needs(p, shop), width=p.width, length=p.length, clamped=clamped)
    _vents(frame, p, sides, shop, doors)
    _words(frame, p, hoop, shop, len(stations))
    p.anchor.lay(frame, feet_of(hoops, hoop), shop, p.tube)
    if p.anchor is Anchor.BASEBOARD:
        baseboards(frame, p.length, shop)
    if p.cover is not Sheet.NONE:
        _cover(frame, p, hoop, shop, hoops, doors)
    return frame.build()


def _hoop(p: GreenhouseParameters, shop: Shop) -> Hoop:
    """Find the smallest bends, or the roundest arc, that leave room for the clamps at the crown and the base rail."""
    needs, profiles = _needs(p, shop), _profiles(p, shop)
    try:
        made = next((h for h in (fitted_out(profile, needs, shop) for profile in profiles) if h), None)
    except LongerThanAStick as error:
        message = (
            f"a hoop {shop.show(p.width)} wide and {shop.show(p.crown)} high cannot be made from sticks of "
            f"{shop.show(shop.stick_length(p.tube))}; the arc alone takes {shop.show(error.arc + 4 * INCH)} a half"
        )
        longer = f"add [[stock]] of {shop.show(error.half + 5 * INCH)} to the workshop file"
        raise _refusal(key="width", message=message, remedy=f"make it narrower, or {longer}") from error
    if made is None:
        raise _no_room(p, profiles[-1], needs, shop)
    return made


def _profiles(p: GreenhouseParameters, shop: Shop) -> list[Profile]:
    left, bender = shop.outside(p.tube) / 2.0, shop.bend_radius(p.tube)
    half, rise = p.width / 2.0 - left, p.crown - left - p.sides
    if p.bending is Bending.JIG:
        return p.shape.rolled(left, half, p.sides, rise, bender, shop.sleeve_off_bend(p.tube))
    return p.shape.profiles(left, half, p.sides, rise, bender)


def _no_room(p: GreenhouseParameters, profile: Profile, needs: HoopNeeds, shop: Shop) -> InputError:
    """Say why no hoop so wide takes its clamps."""
    if profile.rolled is not None:
        _, arc = profile.rolled
        level = ", with what a sleeve wants left level at the crown" if profile.is_one else ""
        message = (
            f"at {shop.show(p.width)} the arc's radius is {shop.show(arc.radius)} on the centreline{level}; clamps "
            f"on {p.tube} want {shop.show(least_radius(profile, needs, shop))} or more"
        )
        return _refusal(key="width", message=message, remedy="make it wider, or bending = small-bends")
    message = (
        f"at {shop.show(p.width)} no bend up to {BEND_ANGLES[-1]:g} degrees leaves straight enough for the clamps at "
        f"the crown and for the base rail {shop.show(needs.base)} above the floor"
    )
    remedy = "make it wider or higher, use a bender of a smaller radius, or bending = jig"
    return _refusal(key="width", message=message, remedy=remedy)


def _needs(p: GreenhouseParameters, shop: Shop) -> HoopNeeds:
    """Say what is clamped to a hoop: a brace at the spring line too, where the wall is high enough for one."""
    base = p.anchor.base_rail(COUPLER, p.tube, shop)
    braced = brace_low(p.tube, base, COUPLER, shop) + least_step(p.tube, shop)
    return HoopNeeds(
        tube=p.tube,
        coupler=COUPLER,
        ridge=RIDGE,
        slopes=PURLIN_SLOPES[int(p.purlins.value)],
        base=base,
        clamped_below=braced if p.sides >= LEAST_BRACED_WALL else base,
    )


def _cover(
    frame: FrameBuilder,
    p: GreenhouseParameters,
    hoop: Hoop,
    shop: Shop,
    hoops: list[MemberId],
    doors: list[tuple[float, float]],
) -> None:
    """State the sheet for wind and snow, and what hangs under the ridge; put it on the buying list."""
    is_shut = p.closed is not Ends.OPEN
    frame.carry(Cover(over=tuple(hoops), width=p.width, length=p.length, height=p.crown, closed_ends=is_shut))
    carries(frame, "hung along the ridge", RIDGE_PURLIN)
    Sheeting(
        name=p.cover.item,
        girth=2.0 * hoop.profile.half.length + math.pi * shop.outside(p.tube),
        length=p.length,
        width=p.width,
        height=p.crown,
        has_ends=is_shut,
        doors=doors,
    ).buy(frame, shop)


def _ends(
    frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop, stations: tuple[float, ...]
) -> list[tuple[float, float]]:
    """Stand studs under both end hoops, the same, a door between two in front; return what doors leave clear [mm]."""
    front, back = (
        EndWall(name=name, y=y, hoop=hoop, needs=_needs(p, shop), foot=EndKind.BASE_FLANGE)
        for name, y in (("front", stations[0]), ("back", stations[-1]))
    )
    wanted = evened(p.width, STUD_BAY)
    opening = _doorway(frame, p, front, shop) if p.closed is Ends.DOOR else None
    if opening is not None:
        back.stand(frame, "stud.back.0", opening[0])
        wanted = tuple(w for w in wanted if w > max(jamb.off for jamb in opening[0]) + STUD_BAY / 2.0)
    beside, _ = (wall.studs(frame, wanted, shop) for wall in (back, front))
    sides = [off for stud in beside for off in (-stud, stud)]
    if opening is not None:
        sides += (-opening[0][0].off, opening[0][1].off)
    if sides:
        thresholds(frame, p.width, [hoop.profile.middle - stations[0] + off for off in sorted(sides)], shop)
    return [] if opening is None else [opening[1:]]


def _doorway(
    frame: FrameBuilder, p: GreenhouseParameters, wall: EndWall, shop: Shop
) -> tuple[tuple[Stud, Stud], float, float] | None:
    """Hang a door; return its studs, and the clear width and height [mm].

    None where it does not fit and none was asked for.
    """
    jambs = wall.jambs(p.door_width, shop)
    most = 0.0 if jambs is None else wall.most_under_header(jambs, shop)
    least, wanted = LEAST_DOOR[shop.units], p.door_height or min(USUAL_DOOR, most)
    if jambs is None or most < max(least, wanted) - 0.01:
        if p.ends is None:
            return None
        message = (
            f"a door {shop.show(p.door_width)} wide and {shop.show(max(wanted, least))} high does not fit under the "
            f"end hoop; it leaves {shop.show(most)}"
        )
        raise _refusal(key="door-height", message=message, remedy="make the greenhouse higher, or ends = film")
    clear = wall.hang(frame, jambs, wanted, p.hinges, shop)
    frame.supply("hook and eye, or another latch for a door of tubes", 1, job=Job(kind=JobKind.LATCH))
    wider = f" ({shop.show(p.door_width)} asked: studs stand off bends)" if clear > p.door_width + TOLD_WIDER else ""
    frame.fact(
        "Door", f"{shop.show(clear)} wide{wider} and {shop.show(wanted)} high, clear; hinges {p.hinges}, from outside"
    )
    if wider:
        message = f"the door is {shop.show(clear)} wide, not {shop.show(p.door_width)}: its studs stand off bends"
        frame.find("F-door", Severity.INFO, "greenhouse", message, "bending = jig lets them stand anywhere")
    return jambs, clear, wanted


def _vents(
    frame: FrameBuilder, p: GreenhouseParameters, sides: RollUp, shop: Shop, doors: list[tuple[float, float]]
) -> None:
    """Put a rail outside the legs above each side that rolls up; say what share of the floor opens."""
    opens, rolled = sum(w * h for w, h in doors), 0.0
    if p.vents is Vents.SIDES:
        rail = sides.rail(OPENING * p.width / 2.0, shop)
        if rail is None:
            message = f"the straight wall is too low for a side that rolls up; a rail needs {shop.show(LEAST_ROLLED)}"
            raise _refusal(key="wall", message=message, remedy="make the wall higher, or vents = none")
        sides.lay(frame, rail, shop, with_base=p.base_rails is YesNo.YES)
        rolled = rail - sides.needs.base
    share = (opens + 2.0 * rolled * p.length) / (p.width * p.length)
    if share > 0.0:
        what = f"both sides roll up by {shop.show(rolled)}" if rolled else "the door"
        frame.fact(
            "Vents",
            f"{100.0 * share:.0f} % of the floor's area opens: {what}{' and the door' * bool(rolled and opens)}",
        )


def _words(frame: FrameBuilder, p: GreenhouseParameters, hoop: Hoop, shop: Shop, hoops: int) -> None:
    over = shop.fitting(COUPLER, p.tube).overhang
    profile = hoop.profile
    tell_hoops(frame, hoop, hoops, shop)
    frame.fact("Headroom", "{} under the ridge purlin; clamps hang lower", under(RIDGE_PURLIN))
    shift = profile.mirrored(hoop.ridge.at).x - profile.middle
    if shift > 1.0:
        frame.fact("Ridge", f"purlin {shop.show(shift)} right of the middle, clear of the crown's fittings")
    frame.fact("Overhang", f"purlins and rails stand {shop.show(over)} past the end hoops' middle")
    if p.cover is not Sheet.NONE:
        frame.caution(
            Signal.WARNING,
            Moment.COVERING,
            "The cover makes the wind load, and the frame's own weight will not hold it down. Anchor first, cover on a "
            "still morning, take the film off before storm or snow. Leave 15 to 20 % of the floor's area to open as "
            "vents.",
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


def _refusal(*, key: str, message: str, remedy: str) -> InputError:
    return InputError(Problem(where="greenhouse", key=key, message=message, remedy=remedy))


TEMPLATE = Template(
    name="greenhouse",
    summary="a greenhouse or tunnel of hoops or rafters",
    parameters=GreenhouseParameters,
    lay_out=lay_out,
    sketch=r"""
       .--------------.
     /   \     \       \
    /_____\     \       \
    | |  /|     |       |
    | | / |     |    .' |
    | |/  |     | .'    |
    |_|___|_____|_______|
""",
)
