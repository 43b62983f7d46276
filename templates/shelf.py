"""A shelf unit: posts with feet, decks at several heights, zigzag braces behind, and ties to the wall."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from tubeframe.template import (
    INCH,
    Basis,
    Board,
    Crates,
    EndKind,
    Foot,
    Frame,
    FrameBuilder,
    InputError,
    Job,
    JobKind,
    LengthAlong,
    MemberId,
    Moment,
    PanelUse,
    Plot,
    PostBraces,
    Problem,
    Severity,
    Shop,
    Signal,
    Support,
    Template,
    TubeEnd,
    Vec,
    YesNo,
    a_choice,
    a_count,
    a_length,
    a_tube_size,
    boxes,
    carries,
    cut_outs,
    lay_slats,
    on_run,
    over,
    parameters,
    pushed_at,
    recesses_over,
    slat_thickness,
    some_lengths,
)

TEE, SIDE_TEE, SIDE_CROSS, CROSS = "tee", "side-outlet-tee", "side-outlet-cross", "cross"
COUPLER, SWIVEL = "right-angle-coupler", "swivel-coupler"
X, Y = Vec(1.0, 0.0, 0.0), Vec(0.0, 1.0, 0.0)
LOWEST = 4 * INCH
MID_POSTS_ABOVE = 54 * INCH
LIFT = 2 * INCH
BESIDE_A_BOX = 0.75 * INCH
TIED_ABOVE = 30 * INCH
WALL_GAP = 0.25 * INCH
LEAST_UNDER_A_RECESS = 3.0
ACROSS = (Basis.OUTSIDE, Basis.CENTRES, Basis.INSIDE)


class Deck(StrEnum):
    """What lies on a level."""

    PLY = "ply"
    SLATS = "slats"
    RAILS = "rails"


class Topology(StrEnum):
    """How rails meet posts: both rails of a level at one height; long ones a pitch above short ones; or laid over."""

    RUN_POSTS = "run-posts"
    LADDER = "ladder"
    LAID_OVER = "laid-over"


@parameters
class ShelfParameters:
    """What a shelf unit is made to."""

    length: float = a_length("outside of the posts", inch=(24, 42, 72), metric=(600, 1000, 1800), bases=ACROSS)
    depth: float = a_length("outside of the posts", inch=(14, 18, 30), metric=(360, 450, 750), bases=ACROSS)
    height: float = a_length("floor to the posts' tops", inch=(36, 74, 96), metric=(900, 1850, 2400))
    levels: int = a_count("of decks", limits=(2, 4, 7))
    heights: tuple[float, ...] = some_lengths("floor to each deck's surface", left_out="evened")
    gaps: tuple[float, ...] = some_lengths(
        "clear from a deck to the rails above, from the lowest up; the posts' height follows", left_out="evened"
    )
    totes: Crates | None = boxes("a level has to take, side by side; gaps, length and depth follow", left_out="none")
    deck: Deck = a_choice("what lies on a level", default=Deck.PLY)
    panel: float = a_length("thickness of a deck of ply", inch=(0.5, 0.75, 1), metric=(12, 18, 25))
    topology: Topology = a_choice("how rails meet posts", default=Topology.RUN_POSTS)
    back_braces: YesNo = a_choice("two in zigzag behind the posts", default=YesNo.YES)
    end_braces: YesNo = a_choice("one on the outside of each end", default=YesNo.NO)
    wall_ties: YesNo = a_choice("it stands before a wall and is tied to it, unless it rolls", default=YesNo.YES)
    foot: Foot = a_choice("what the posts stand on", default=Foot.FOOT)
    tube: str = a_tube_size()

    def bases(self, shop: Shop) -> dict[str, dict[Basis, float]]:
        """Return what each basis is less than outside [mm]."""
        outside = shop.outside(self.tube)
        across = {Basis.CENTRES: outside, Basis.INSIDE: 2.0 * outside}
        return {"length": across, "depth": across}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Places of posts along x, front and back, heights of the rails that carry the decks, and of the posts [mm]."""

    posts: tuple[float, ...]
    front: float
    back: float
    levels: tuple[float, ...]
    lower: float
    inset: float
    height: float
    thickness: float

    @property
    def left(self) -> float:
        """The first posts' place along x."""
        return self.posts[0]

    @property
    def right(self) -> float:
        """The last posts' place along x."""
        return self.posts[-1]


def lay_out(p: ShelfParameters, shop: Shop) -> Frame:
    """Lay a shelf unit out."""
    at = _lines(p, shop)
    frame = FrameBuilder(name="shelf", tube=p.tube, length_along=LengthAlong.X)
    posts = _posts(frame, p, at)
    frame.sized_by(posts)
    rails = [rail for n, z in enumerate(at.levels, start=1) for rail in _level(frame, p, shop, at, n, z)]
    _braces(frame, p, shop, at, rails)
    if p.deck is not Deck.RAILS:
        for n, z in enumerate(at.levels, start=1):
            _deck(frame, p, shop, at, n, z)
    _wall(frame, p, shop, at, posts)
    longs = [r for r in rails if r.startswith("long.")]
    carries(frame, "on every level", *longs, share=float(len(at.levels)))
    pushed_at(frame, next(r for r in longs if r.startswith(f"long.{len(at.levels)}.front")))
    _words(frame, p, shop, at)
    return frame.build()


def _thickness(p: ShelfParameters, shop: Shop) -> float:
    return {Deck.PLY: p.panel, Deck.SLATS: slat_thickness(shop.units), Deck.RAILS: 0.0}[p.deck]


def _lower(p: ShelfParameters, shop: Shop) -> float:
    """Say how far the short rails lie under those that carry the deck [mm]."""
    return {
        Topology.RUN_POSTS: 0.0,
        Topology.LADDER: shop.pitch(TEE, TEE, p.tube),
        Topology.LAID_OVER: shop.fitting(COUPLER, p.tube).offset,
    }[p.topology]


def _lines(p: ShelfParameters, shop: Shop) -> Lines:
    radius = shop.outside(p.tube) / 2.0
    length, depth = _outline(p, shop)
    levels = _levels(p, shop)
    above = shop.fitting(TEE, p.tube).overhang
    height = max(levels[-1] - _lower(p, shop) + above, levels[-1] + radius) if p.gaps or p.totes else p.height
    _check(p, shop, levels, height - above)
    mid = length > MID_POSTS_ABOVE and p.topology is not Topology.LAID_OVER
    ends = (radius, length - radius)
    tee = shop.fitting(TEE, p.tube)
    return Lines(
        posts=(ends[0], length / 2.0, ends[1]) if mid else ends,
        front=radius,
        back=depth - radius,
        levels=levels,
        lower=_lower(p, shop),
        inset=tee.reach + shop.tool_gap + shop.fitting(COUPLER, p.tube).grip / 2.0,
        height=height,
        thickness=_thickness(p, shop),
    )


def _outline(p: ShelfParameters, shop: Shop) -> tuple[float, float]:
    """Return length and depth outside; boxes that it has to take rule over the rest [mm]."""
    if p.totes is None:
        return p.length, p.depth
    clear = p.totes.number * p.totes.width + (p.totes.number + 1) * BESIDE_A_BOX
    return clear + 2.0 * shop.outside(p.tube), p.totes.depth


def _is_tied(p: ShelfParameters) -> bool:
    """Whether it is tied to a wall: what rolls is not."""
    return p.wall_ties is YesNo.YES and p.foot is not Foot.CASTER


def _levels(p: ShelfParameters, shop: Shop) -> tuple[float, ...]:
    """Return the heights of the rails that carry the decks [mm]."""
    radius, thickness = shop.outside(p.tube) / 2.0, _thickness(p, shop)
    lowest = max(LOWEST, p.foot.clear(SIDE_TEE, p.tube, shop)) + _lower(p, shop)
    if p.heights:
        return tuple(h - thickness - radius for h in p.heights)
    gaps = p.gaps or ((p.totes.height + LIFT,) * (p.levels - 1) if p.totes else ())
    if gaps:
        step = thickness + 2.0 * radius + _lower(p, shop)
        found = [lowest]
        for gap in gaps:
            found.append(found[-1] + gap + step)
        return tuple(found)
    top = p.height - shop.fitting(TEE, p.tube).overhang
    bays = p.levels - 1
    return tuple(lowest + (top - lowest) * n / bays for n in range(p.levels))


def _check(p: ShelfParameters, shop: Shop, levels: tuple[float, ...], highest: float) -> None:
    """Refuse levels that are out of order, too near, too low or too high."""
    problems = []
    least = shop.pitch(SIDE_TEE, SIDE_TEE, p.tube) + _lower(p, shop) + _thickness(p, shop)
    key = "heights" if p.heights else "levels"
    lowest = levels[0] - _lower(p, shop)
    if lowest < p.foot.clear(SIDE_TEE, p.tube, shop) - 0.01 or levels[-1] > highest + 0.01:
        message = f"decks at {', '.join(shop.show(z) for z in levels)} leave the posts of {shop.show(p.height)}"
        problems.append(Problem(where="shelf", key=key, message=message, remedy="make the posts higher, or move them"))
    if any(b - a < least for a, b in pairwise(levels)):
        message = f"two levels are nearer than {shop.show(least)}, what their fittings need on a post"
        problems.append(Problem(where="shelf", key=key, message=message, remedy="use fewer levels or make it higher"))
    depth = shop.fitting(COUPLER, p.tube).body_radius - shop.outside(p.tube) / 2.0
    if p.topology is Topology.LAID_OVER and p.deck is Deck.PLY and depth > p.panel - LEAST_UNDER_A_RECESS:
        message = f"{shop.show(p.panel)} is too thin to be recessed {shop.show(depth)} deep over the couplers"
        problems.append(Problem(where="shelf", key="panel", message=message, remedy="use a thicker deck, or slats"))
    if problems:
        raise InputError(*problems)


def _posts(frame: FrameBuilder, p: ShelfParameters, at: Lines) -> list[MemberId]:
    ends = (p.foot.end, EndKind.CAP)
    return [
        frame.tube(f"post.{side}.{n}", (Vec(x, y, 0.0), Vec(x, y, at.height)), ends=ends)
        for side, y in (("front", at.front), ("back", at.back))
        for n, x in enumerate(at.posts, start=1)
    ]


def _level(frame: FrameBuilder, p: ShelfParameters, shop: Shop, at: Lines, n: int, z: float) -> list[MemberId]:
    """Lay the rails of a level."""
    rails = [
        frame.tube(f"short.{n}.{k}", (Vec(x, at.front, z - at.lower), Vec(x, at.back, z - at.lower)))
        for k, x in enumerate(at.posts, start=1)
    ]
    if p.topology is Topology.LAID_OVER:
        over = shop.fitting(COUPLER, p.tube).overhang
        for side, y in (("front", at.front + at.inset), ("back", at.back - at.inset)):
            ends = (Vec(at.left - over, y, z), Vec(at.right + over, y, z))
            rails.append(frame.tube(f"long.{n}.{side}", ends, ends=(EndKind.CAP, EndKind.CAP)))
        return rails
    for side, y in (("front", at.front), ("back", at.back)):
        for k, (a, b) in enumerate(pairwise(at.posts), start=1):
            rails.append(frame.tube(f"long.{n}.{side}.{k}", (Vec(a, y, z), Vec(b, y, z))))
    return rails


def _braces(frame: FrameBuilder, p: ShelfParameters, shop: Shop, at: Lines, rails: list[MemberId]) -> None:
    """Brace the first bay behind, and both ends outside; laid over rails leave room at the ends in one bay only."""
    taken = tuple(sorted(z - low for z in at.levels for low in {0.0, at.lower}))
    heights = (taken[0], taken[-1])
    if p.back_braces is YesNo.YES:
        behind = PostBraces(tube=p.tube, taken=taken, rails=rails)
        taken += behind.zigzag(frame, (at.posts[0], at.posts[1]), at.back, shop)
    if p.end_braces is YesNo.YES:
        if p.topology is Topology.LAID_OVER:
            heights = (at.levels[0], at.levels[1] - at.lower)
        sides, depth = (at.left, at.right), (at.front, at.back)
        PostBraces(tube=p.tube, taken=taken, rails=rails).ends(frame, sides, depth, heights, shop)


def _deck(frame: FrameBuilder, p: ShelfParameters, shop: Shop, at: Lines, n: int, z: float) -> None:
    radius = shop.outside(p.tube) / 2.0
    on = z + radius
    if p.deck is Deck.SLATS:
        _slats(frame, shop, at, n, on, radius)
        return
    clear = shop.fitting(SIDE_TEE, p.tube).reach + shop.tool_gap
    corners = [Vec(x, y, 0.0) for x in at.posts for y in (at.front, at.back)]
    for k, (a, b) in enumerate(pairwise(at.posts), start=1):
        left = a - radius if k == 1 else a
        right = b + radius if k == len(at.posts) - 1 else b
        plot = Plot(left=left, right=right, front=at.front - radius, back=at.back + radius)
        recesses = cut_outs([c for c in corners if left <= c.x <= right], clear, plot)
        if p.topology is Topology.LAID_OVER:
            rails = (at.front + at.inset, at.back - at.inset)
            standing = [on_run(COUPLER, p.tube, shop, Vec(x, y, 0.0), X) for x in at.posts for y in rails]
            depth = shop.fitting(COUPLER, p.tube).body_radius - radius
            recesses += recesses_over(standing, depth, shop.tool_gap)
        Board(name=f"deck.{n}.{k}", use=PanelUse.SHELF, plot=plot, underside=on, thickness=p.panel).lay(frame, recesses)


def _slats(frame: FrameBuilder, shop: Shop, at: Lines, n: int, on: float, radius: float) -> None:
    """Lay slats from front to back between the posts' fittings."""
    stretches = [(a + at.inset, b - at.inset) for a, b in pairwise(at.posts)]
    lay_slats(frame, f"slat.{n}", stretches, (at.front - radius, at.back + radius), on, shop.units)


def _wall(frame: FrameBuilder, p: ShelfParameters, shop: Shop, at: Lines, posts: list[MemberId]) -> None:
    """Tie the back posts to a wall at their tops; it is put before the wall when it stands."""
    if not _is_tied(p):
        return
    swivel = shop.fitting(SWIVEL, p.tube)
    off = swivel.ears + (swivel.offset if p.back_braces is YesNo.YES else 0.0) + WALL_GAP
    behind = posts[len(at.posts) :]
    for post in behind:
        frame.hold(Support(member=post, end=TubeEnd.B, fixes=("x", "y")))
    tie = Job(kind=JobKind.WALL_TIES, lengths=(off,))
    frame.supply("wall tie: bracket from a back post to a stud, with its screws", len(behind), job=tie)
    frame.fact("Wall", f"back posts stand {shop.show(off)} from the wall, to their middle; tie them under the top deck")


def _carrier(p: ShelfParameters, n: int) -> str:
    """Name a board of a level, or where it has none a rail that carries what is put there."""
    if p.deck is not Deck.RAILS:
        return f"deck.{n}.1" if p.deck is Deck.PLY else f"slat.{n}.1"
    return f"long.{n}.front" if p.topology is Topology.LAID_OVER else f"long.{n}.front.1"


def _words(frame: FrameBuilder, p: ShelfParameters, shop: Shop, at: Lines) -> None:
    radius = shop.outside(p.tube) / 2.0
    levels = range(1, len(at.levels) + 1)
    places = ", ".join("{}" for _ in levels)
    frame.fact("Decks", f"{places} from the floor to their surface", *(over(_carrier(p, n)) for n in levels))
    clear = [b - a - at.thickness - 2.0 * radius - at.lower for a, b in pairwise(at.levels)]
    frame.fact("Between", f"{', '.join(shop.show(c) for c in clear)} clear from a deck to the rails above")
    frame.caution(
        Signal.WARNING,
        Moment.USE,
        "A tall shelf tips when somebody climbs it or loads the top. Tie it to the wall, put what is heavy low, and "
        "keep children off.",
    )
    p.foot.words(frame, 2 * len(at.posts), (at.height, at.back + radius), shop, is_tied=True)
    if not _is_tied(p) and at.height > TIED_ABOVE:
        frame.find(
            "F-tie",
            Severity.WARNING,
            "shelf",
            f"{shop.show(at.height)} high and {shop.show(at.back + radius)} deep, it is not tied to a wall",
            f"tie what is over {shop.show(TIED_ABOVE)} high; leave wall-ties on, and casters off",
        )


TEMPLATE = Template(
    name="shelf",
    summary="a shelf unit of decks between posts",
    parameters=ShelfParameters,
    lay_out=lay_out,
    sketch=r"""
   |_____________|
   |\            |
   |___\_________|
   |      \      |
   |______/______|
   |   /         |
   |/____________|
   |             |
""",
)
