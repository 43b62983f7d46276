"""A table or workbench: legs, rails under a top, stretchers, joists, knees; a shelf or a tool wall if asked."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tubeframe.template import (
    INCH,
    Basis,
    Board,
    EndKind,
    Foot,
    Frame,
    FrameBuilder,
    InputError,
    Knee,
    LengthAlong,
    Moment,
    PanelUse,
    Plot,
    Problem,
    Shop,
    Signal,
    Standing,
    Template,
    Units,
    Vec,
    a_choice,
    a_count,
    a_length,
    a_tube_size,
    across,
    beyond,
    cut_outs,
    in_bays,
    knee_step,
    lay_row,
    lay_slats,
    least_knee,
    on_ends,
    on_run,
    parameters,
    recesses_over,
    spread,
    step_past,
    strips_along_x,
    under,
    worked_on,
)

CORNER, SIDE_TEE, TEE, KNEE, SWIVEL = "side-outlet-elbow", "side-outlet-tee", "tee", "angle-tee", "swivel-tee"
ELBOW = "elbow"
X, Y, DOWN = Vec(1.0, 0.0, 0.0), Vec(0.0, 1.0, 0.0), Vec(0.0, 0.0, -1.0)
STRIP_WIDTH = {Units.INCH: 1.5 * INCH, Units.MILLIMETRE: 38.0}
LEAST_STRIP = 3 * INCH
SPACER = {Units.INCH: 0.375 * INCH, Units.MILLIMETRE: 10.0}
LEAST_UNDER_A_RECESS = 3.0
LEAST_KNEE = 5 * INCH
JOIST_SPACING = 80.0 / 3.0
"""How far apart joists are at most, in thicknesses of the top: 20 in for 3/4 in; common practice, no source."""
WALL_RAILS = 24 * INCH
MOST_STRETCHER = 10 * INCH
ACROSS = (Basis.OUTSIDE, Basis.CENTRES, Basis.INSIDE)
UPRIGHT = (Basis.TOP, Basis.UNDER)


class Seat(StrEnum):
    """How the top sits on the rails: on strips over the fittings' shells, or with its underside notched for them."""

    SPACED = "spaced"
    NOTCHED = "notched"


class Corner(StrEnum):
    """How legs and rails meet: cut ends in one fitting, or legs that run through with rails teed one pitch apart."""

    SIDE_OUTLET = "side-outlet"
    STAGGERED = "staggered"


class Stretchers(StrEnum):
    """What ties the legs near the floor: nothing, an H that leaves the knees free, or a box that takes a shelf."""

    NONE = "none"
    H = "h"
    BOX = "box"


class Shelf(StrEnum):
    """What lies on a box of stretchers."""

    NO = "no"
    PLY = "ply"
    SLATS = "slats"


class Braces(StrEnum):
    """What keeps the legs square to the rails, at the back and both ends."""

    KNEES = "knees"
    DIAGONALS = "diagonals"
    NONE = "none"


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
    corner: Corner = a_choice(
        "legs and rails in corner fittings, or legs running through with rails teed a pitch apart",
        default=Corner.SIDE_OUTLET,
    )
    stretchers: Stretchers = a_choice("between the legs, near the floor", default=Stretchers.H)
    stretcher_height: float = a_length("floor to the stretchers' centreline", inch=(4, 7, 10), metric=(100, 180, 250))
    shelf: Shelf = a_choice("on the stretchers, which are a box then", default=Shelf.NO)
    joists: int | None = a_count(
        "tubes under the top from front to back", limits=(0, 2, 6), left_out="as many as the top's thickness asks for"
    )
    braces: Braces = a_choice("at the back and both ends", default=Braces.KNEES)
    knee: float = a_length(
        "leg of the ends' knees, centre lines, at most; the back ones are a step longer",
        inch=(6, 10, 12),
        metric=(150, 250, 300),
    )
    foot: Foot = a_choice("what the legs stand on", default=Foot.FOOT)
    back_height: float = a_length(
        "of a frame for a tool wall above the top, at the back; 0 for none", inch=(0, 0, 48), metric=(0, 0, 1200)
    )
    tube: str = a_tube_size()

    def bases(self, shop: Shop) -> dict[str, dict[Basis, float]]:
        """Return what each basis is less than outside, and `under` the rails than the top's surface [mm]."""
        outside = shop.outside(self.tube)
        across = {Basis.CENTRES: outside, Basis.INSIDE: 2.0 * outside}
        lower = shop.pitch(TEE, TEE, self.tube) if self.corner is Corner.STAGGERED else 0.0
        under = self.panel + _spacer(self, shop) + outside + lower
        return {"length": across, "width": across, "height": {Basis.UNDER: under}}

    def limits(self, shop: Shop) -> dict[str, tuple[float, float]]:
        """Return what the legs' feet leave of the stretchers' height [mm]."""
        least = self.foot.clear(SIDE_TEE, self.tube, shop)
        return {"stretcher_height": (least, MOST_STRETCHER)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The planes and heights that the tubes' centrelines lie in [mm]."""

    left: float
    right: float
    front: float
    back: float
    long_rail: float
    short_rail: float
    stretcher: float
    underside: float
    joists: tuple[float, ...]
    knee: float
    back_knee: float

    @property
    def middle(self) -> float:
        """Halfway between front and back [mm]."""
        return (self.front + self.back) / 2.0

    @property
    def outline(self) -> Plot:
        """The middles of the legs, seen from above."""
        return Plot(left=self.left, front=self.front, right=self.right, back=self.back)


def lay_out(p: TableParameters, shop: Shop) -> Frame:
    """Lay a table out."""
    at = _lines(p, shop)
    _check(p, shop, at)
    frame = FrameBuilder(name="table", tube=p.tube, length_along=LengthAlong.X)
    _legs_and_rails(frame, p, shop, at)
    _stretchers(frame, p, at)
    for n, x in enumerate(at.joists, start=1):
        frame.tube(f"joist.{n}", (Vec(x, at.front, at.long_rail), Vec(x, at.back, at.long_rail)))
    _braces(frame, p, shop, at)
    _top(frame, p, shop, at)
    worked_on(frame, "top", "rail.front", (at.right - at.left) / 2.0)
    _shelf(frame, p, shop, at)
    _words(frame, p, shop, at)
    return frame.build()


def _spacer(p: TableParameters, shop: Shop) -> float:
    return SPACER[shop.units] if p.seat is Seat.SPACED else 0.0


def _has_stretchers(p: TableParameters) -> bool:
    return p.stretchers is not Stretchers.NONE or p.shelf is not Shelf.NO


def _corner(p: TableParameters) -> str:
    return CORNER if p.corner is Corner.SIDE_OUTLET else TEE


def _lines(p: TableParameters, shop: Shop) -> Lines:
    radius, pitch = shop.outside(p.tube) / 2.0, shop.pitch(TEE, TEE, p.tube)
    underside = p.height - p.panel
    rail = underside - _spacer(p, shop) - radius
    staggered = p.corner is Corner.STAGGERED
    left, right = radius, p.length - radius
    lower = pitch if staggered else 0.0
    knee = _knee(p, shop, rail - lower)
    back_knee = knee + knee_step(shop, p.tube) + lower
    number = p.joists
    if number is None:
        number = len(in_bays(left, right, JOIST_SPACING * p.panel)) - 2
    knees = (left + back_knee, right - back_knee) if knee else ()
    room = knee_step(shop, p.tube)
    clear = shop.fitting(_corner(p), p.tube).reach + shop.tool_gap + shop.fitting(TEE, p.tube).grip / 2.0
    joists = spread(left + clear, right - clear, number, knees, room, shop.pitch(TEE, TEE, p.tube))
    if joists is None:
        raise InputError(_refusal("joists", f"{number} do not find room between the knees", "use fewer joists"))
    return Lines(
        left=left,
        right=right,
        front=radius,
        back=p.width - radius,
        long_rail=rail,
        short_rail=rail - lower,
        stretcher=p.stretcher_height,
        underside=underside,
        joists=joists,
        knee=knee,
        back_knee=back_knee,
    )


def _check(p: TableParameters, shop: Shop, at: Lines) -> None:
    """Refuse what does not fit, all of it at once."""
    problems = _too_low(p, shop, at)
    least = _least_back(p, shop, at)
    if 0.0 < p.back_height < least:
        message = f"{shop.show(p.back_height)} leaves no room for a rail above the top"
        problems.append(_refusal("back-height", message, f"make it {shop.show(least)} at least, or 0"))
    depth = _shell(p, shop)
    if p.seat is Seat.NOTCHED and depth > p.panel - LEAST_UNDER_A_RECESS:
        message = f"{shop.show(p.panel)} is too thin to be notched {shop.show(depth)} deep for the fittings"
        problems.append(_refusal("panel", message, "use a thicker top or seat = spaced"))
    if problems:
        raise InputError(*problems)


def _least_back(p: TableParameters, shop: Shop, at: Lines) -> float:
    """Return the least height of a tool wall whose one rail clears the top and what is clamped under it [mm]."""
    elbow = shop.fitting(ELBOW, p.tube)
    above_rail = at.long_rail + shop.fitting(TEE, p.tube).grip / 2.0 + shop.tool_gap + elbow.reach
    return max(above_rail - p.height, elbow.ears) + shop.outside(p.tube) / 2.0


def _knee(p: TableParameters, shop: Shop, short_rail: float) -> float:
    """Return the longest leg of the ends' knees that legs and rails leave, up to what is asked for; 0 for none."""
    if p.braces is not Braces.KNEES:
        return 0.0
    tee, outside = shop.pitch(KNEE, TEE, p.tube), shop.outside(p.tube)
    floor = p.stretcher_height + tee if _has_stretchers(p) else p.foot.clear(KNEE, p.tube, shop)
    step = knee_step(shop, p.tube)
    lower = shop.pitch(TEE, TEE, p.tube) if p.corner is Corner.STAGGERED else 0.0
    along = (p.length - outside - shop.pitch(KNEE, KNEE, p.tube)) / 2.0 - step - lower
    end = p.width - outside - shop.fitting(_corner(p), p.tube).reach - shop.tool_gap - shop.fitting(KNEE, p.tube).grip
    most = min(p.knee, short_rail - step - floor, along, end)
    return most if most >= max(LEAST_KNEE, least_knee(shop, p.tube)) else 0.0


def _too_low(p: TableParameters, shop: Shop, at: Lines) -> list[Problem]:
    """Look for room on a leg between the stretchers and its corner."""
    room = at.short_rail - _held(shop, p) - shop.tool_gap
    if not _has_stretchers(p) or at.stretcher <= room:
        return []
    message = f"{shop.show(at.stretcher)} runs into the corner fittings; they leave {shop.show(room)}"
    return [_refusal("stretcher-height", message, "lower the stretchers or raise the top")]


def _held(shop: Shop, p: TableParameters) -> float:
    """Say how far down a leg its corner goes, with half of what clamps below it [mm]."""
    reach = shop.fitting(CORNER, p.tube).reach if p.corner is Corner.SIDE_OUTLET else shop.fitting(TEE, p.tube).grip / 2
    return reach + shop.fitting(TEE, p.tube).grip / 2.0


def _legs_and_rails(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    above = at.long_rail + shop.fitting(TEE, p.tube).overhang
    wall = p.height + p.back_height - shop.outside(p.tube) / 2.0
    foot = p.foot.end
    for side, y in (("front", at.front), ("back", at.back)):
        is_wall = side == "back" and p.back_height > 0.0
        through = p.corner is Corner.STAGGERED and not is_wall
        top = wall if is_wall else above if through else at.long_rail
        ends = (foot, EndKind.CAP if through else EndKind.JOINT)
        for hand, x in (("left", at.left), ("right", at.right)):
            frame.tube(f"leg.{side}.{hand}", (Vec(x, y, 0.0), Vec(x, y, top)), ends=ends)
    for side, y in (("front", at.front), ("back", at.back)):
        frame.tube(f"rail.{side}", (Vec(at.left, y, at.long_rail), Vec(at.right, y, at.long_rail)))
    for hand, x in (("left", at.left), ("right", at.right)):
        frame.tube(f"rail.{hand}", (Vec(x, at.front, at.short_rail), Vec(x, at.back, at.short_rail)))
    if p.back_height > 0.0:
        heights = in_bays(p.height, wall, WALL_RAILS)[1:]
        for n, z in enumerate(heights, start=1):
            frame.tube(f"wall.{n}", (Vec(at.left, at.back, z), Vec(at.right, at.back, z)))


def _stretchers(frame: FrameBuilder, p: TableParameters, at: Lines) -> None:
    z = at.stretcher
    if not _has_stretchers(p):
        return
    for hand, x in (("left", at.left), ("right", at.right)):
        frame.tube(f"stretcher.{hand}", (Vec(x, at.front, z), Vec(x, at.back, z)))
    long = (
        {"middle": at.middle}
        if p.stretchers is Stretchers.H and p.shelf is Shelf.NO
        else {"front": at.front, "back": at.back}
    )
    for side, y in long.items():
        frame.tube(f"stretcher.{side}", (Vec(at.left, y, z), Vec(at.right, y, z)))


def _braces(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    if at.knee:
        _knees(frame, p, shop, at)
    elif p.braces is Braces.DIAGONALS:
        _diagonals(frame, p, shop, at)


def _knees(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    """Brace the back, and both ends: from each leg, or where the ends are too narrow from the back legs only."""
    for hand, x, inward in (("left", at.left, X), ("right", at.right, -X)):
        corner = Vec(x, at.back, at.long_rail)
        Knee(name=f"knee.back.{hand}", corner=corner, along=DOWN, other=inward, leg=at.back_knee).lay(frame)
    both = at.back - at.front >= 2.0 * at.knee + shop.pitch(KNEE, KNEE, p.tube)
    sides = (("back", at.back, -Y), ("front", at.front, Y)) if both else (("back", at.back, -Y),)
    for hand, x in (("left", at.left), ("right", at.right)):
        for side, y, inward in sides:
            corner = Vec(x, y, at.short_rail)
            Knee(name=f"knee.{hand}.{side}", corner=corner, along=DOWN, other=inward, leg=at.knee).lay(frame)


def _diagonals(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    """Brace the back and both ends from leg to leg; on the back legs the ends' braces keep a pitch off the back's."""
    floor = at.stretcher if _has_stretchers(p) else 0.0
    low = max(floor + shop.pitch(SWIVEL, TEE, p.tube), p.foot.clear(SWIVEL, p.tube, shop))
    high = at.short_rail - _held(shop, p) - shop.tool_gap
    frame.tube("diagonal.back", (Vec(at.left, at.back, low), Vec(at.right, at.back, high)))
    step = step_past(shop, p.tube, SWIVEL, Vec(at.right - at.left, 0.0, high - low))
    for hand, x, top in (("left", at.left, high), ("right", at.right, high - step)):
        frame.tube(f"diagonal.{hand}", (Vec(x, at.front, low), Vec(x, at.back, top)))


def _shell(p: TableParameters, shop: Shop) -> float:
    """Say how far the fittings stand above the rails [mm]."""
    return shop.fitting(TEE, p.tube).body_radius - shop.outside(p.tube) / 2.0


def _standing(p: TableParameters, shop: Shop, at: Lines) -> list[Standing]:
    """List the fittings that stand above the rails which carry the top."""
    found = []
    for x, inward in ((at.left, X), (at.right, -X)):
        for y, on in ((at.front, Y), (at.back, -Y)):
            ways = (inward, on) if p.corner is Corner.SIDE_OUTLET else (inward,)
            found.append(on_ends(_corner(p), p.tube, shop, Vec(x, y, 0.0), ways))
    for x in at.joists:
        found += [on_run(TEE, p.tube, shop, Vec(x, y, 0.0), X, on) for y, on in ((at.front, Y), (at.back, -Y))]
    if at.knee:
        places = (at.left + at.back_knee, at.right - at.back_knee)
        found += [on_run(KNEE, p.tube, shop, Vec(x, at.back, 0.0), X) for x in places]
        ends = (at.front + at.knee, at.back - at.knee) if p.corner is Corner.SIDE_OUTLET else ()
        found += [on_run(KNEE, p.tube, shop, Vec(x, y, 0.0), Y) for x in (at.left, at.right) for y in ends]
    return found


def _top(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    standing = _standing(p, shop, at)
    if p.seat is Seat.SPACED:
        _strips(frame, p, shop, at, standing)
    outline = Plot(left=0.0, front=0.0, right=p.length, back=p.width).grown(p.overhang)
    through = [
        Vec(x, y, 0.0)
        for x in (at.left, at.right)
        for y in (at.front, at.back)
        if p.corner is Corner.STAGGERED or (y == at.back and p.back_height > 0.0)
    ]
    recesses = cut_outs(through, shop.fitting(TEE, p.tube).ears + shop.tool_gap, outline)
    if p.seat is Seat.NOTCHED:
        recesses += recesses_over(standing, _shell(p, shop), shop.tool_gap)
    board = Board(name="top", use=PanelUse.TOP, plot=outline, underside=at.underside, thickness=p.panel)
    board.lay(frame, recesses)


def _strips(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines, standing: list[Standing]) -> None:
    """Lay strips on the long rails, between the fittings, and on the joists."""
    width, on = STRIP_WIDTH[shop.units], at.long_rail + shop.outside(p.tube) / 2.0
    for side, y in (("front", at.front), ("back", at.back)):
        free = strips_along_x(y, (at.left, at.right), standing, shop.tool_gap, LEAST_STRIP)
        plots = [Plot(left=a, right=b, front=y - width / 2.0, back=y + width / 2.0) for a, b in free]
        lay_row(frame, f"strip.{side}", PanelUse.STRIP, plots, on, SPACER[shop.units])
    clear = shop.fitting(TEE, p.tube).reach + shop.tool_gap
    plots = across(at.joists, width, at.front + clear, at.back - clear)
    lay_row(frame, "strip.joist", PanelUse.STRIP, plots, on, SPACER[shop.units])


def _shelf(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    radius, tee = shop.outside(p.tube) / 2.0, shop.fitting(SIDE_TEE, p.tube)
    on = at.stretcher + radius
    clear = tee.reach + shop.tool_gap
    if p.shelf is Shelf.PLY:
        outline = at.outline.grown(radius)
        corners = [Vec(x, y, 0.0) for x in (at.left, at.right) for y in (at.front, at.back)]
        board = Board(name="shelf", use=PanelUse.SHELF, plot=outline, underside=on, thickness=p.panel)
        board.lay(frame, cut_outs(corners, clear, outline))
    elif p.shelf is Shelf.SLATS:
        reach = (at.front - radius, at.back + radius)
        lay_slats(frame, "slat", [(at.left + clear, at.right - clear)], reach, on, shop.units)


def _words(frame: FrameBuilder, p: TableParameters, shop: Shop, at: Lines) -> None:
    frame.fact(
        "Under it", "{} from the floor to the rails' underside; clamps and knees hang lower", under("rail.front")
    )
    p.foot.words(frame, 4, (p.height, min(p.length, p.width)), shop, is_tied=_has_stretchers(p))
    legs = [f"leg.{side}.{hand}" for side in ("front", "back") for hand in ("left", "right")]
    frame.fact("Top", "overhangs the legs by {} at the ends, {} at front and back", *beyond("top", *legs))
    if p.seat is Seat.NOTCHED:
        frame.fact(
            "Notches",
            f"before assembly, recess the underside {shop.show(_shell(p, shop))} deep over every fitting; the "
            "elevations and the parts list give their places",
        )
    frame.caution(
        Signal.WARNING,
        Moment.USE,
        "A person on the edge can tip the table or twist a clamp. Do not stand, sit or climb on it; "
        "no engine hoist, no child's bed.",
    )


def _refusal(key: str, message: str, remedy: str) -> Problem:
    return Problem(where="table", key=key, message=message, remedy=remedy)


TEMPLATE = Template(
    name="table",
    summary="a table or workbench with a wooden top",
    parameters=TableParameters,
    lay_out=lay_out,
    sketch=r"""
    __________________
   /_________________/|
   |\               /||
   | \             / ||
   |  '           '  ||
   |=================||
   |                 |
""",
)
