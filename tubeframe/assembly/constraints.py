"""What has to be there before what: braces, caps and boards that cannot wait, sub-frames that can be built flat."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.assembly.fitter import Way
from tubeframe.assembly.room import FLOOR, WALL
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.extent import around_points

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Sequence

    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.joining import Joining
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Fit, Number
    from tubeframe.assembly.room import Room
    from tubeframe.assembly.subframes import SubFrame

_LEAN = 0.2
"""A straight tube leans when its direction has at least this share both upright and level."""
_LIFT = 50.0
"""A board is lifted by this before it is slid out level [mm]."""
_TOUCHES = 15.0
"""What carries a board is this near to it [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What was found of a frame before its order is looked for, by the parts' numbers.

    `early` are caps that have to go on before their tube is closed in. `captured` are boards that cannot come last,
    `supports` what carries each of them. `barred` are fittings that a sub-frame is built without: they come with an
    earlier one.
    """

    braces: frozenset[Number]
    early: frozenset[Number]
    captured: frozenset[Number]
    supports: tuple[tuple[Number, frozenset[Number]], ...]
    flats: tuple[tuple[Number, ...], ...]
    flat_ids: tuple[str, ...]
    barred: tuple[frozenset[Number], ...]


def rules_of(model: Model, room: Room, joining: Joining, flats: Sequence[SubFrame]) -> Rules:
    """Look at a whole frame."""
    braces = braces_of(model)
    everything = frozenset(range(len(model.parts)))
    boards = set(range(model.first_panel, len(model.parts)))
    early = frozenset(
        f.number
        for f in model.fits
        if f.is_cap and joining.fitter.fitted(f, everything - {f.number}, flat=False) is None
    )
    captured: set[Number] = set()
    below = everything - boards
    for panel in board_order(model):
        if board_way(model, room, panel, below) is None:
            captured.add(panel)
        below |= {panel}
    kept: list[tuple[str, tuple[Number, ...], frozenset[Number]]] = []
    taken: frozenset[Number] = frozenset()
    for flat in flats:
        tubes = _buildable(model, flat, braces, taken)
        if tubes:
            own = frozenset(f.number for t in tubes for f in model.fits_of[t] if _held_here(f, tubes) > 1)
            kept.append((flat.id, tubes, own & taken))
            taken |= own
    return Rules(
        braces=braces,
        early=early,
        captured=frozenset(captured),
        supports=tuple((n, _under(model, n)) for n in sorted(captured)),
        flats=tuple(tubes for _, tubes, _ in kept),
        flat_ids=tuple(name for name, _, _ in kept),
        barred=tuple(barred for _, _, barred in kept),
    )


def only(rules: Rules, names: Collection[str]) -> Rules:
    """Leave out the sub-frames that cannot be built flat: their tubes are put up one by one."""
    kept = [n for n, name in enumerate(rules.flat_ids) if name in names]
    return replace(
        rules,
        flats=tuple(rules.flats[n] for n in kept),
        flat_ids=tuple(rules.flat_ids[n] for n in kept),
        barred=tuple(rules.barred[n] for n in kept),
    )


def _held_here(fit: Fit, tubes: Collection[Number]) -> int:
    return sum(1 for t in dict.fromkeys(f.tube for f in fit.faces) if t in tubes)


def braces_of(model: Model) -> frozenset[Number]:
    """Return the straight leaning tubes without which all still hangs together, and nothing loses its last hold."""
    leaning = {n for n in range(model.first_joint) if _leans(model, n) and not model.feet(n)}
    others = [n for n in range(model.first_joint) if n not in leaning]
    while leaning:
        reached = _tied(model, others[0], set(others).__contains__) if others else set()
        needed = {
            b
            for b in sorted(leaning)
            for _, o in model.neighbours(b)
            if o not in leaning and (o not in reached or _held_once(model, o, leaning))
        }
        needed |= {b for b in leaning if all(o in leaning for _, o in model.neighbours(b))}
        if not needed:
            break
        leaning -= needed
        others = [n for n in range(model.first_joint) if n not in leaning]
    return frozenset(leaning)


def _held_once(model: Model, tube: Number, without: Collection[Number]) -> bool:
    """Whether nothing but one fitting, or none, holds a tube that would have two with all the rest there."""
    if model.feet(tube):
        return False
    fits = {f.number for f, _ in model.neighbours(tube)}
    left = {f.number for f, o in model.neighbours(tube) if o not in without}
    return len(left) < min(2, len(fits))


def _leans(model: Model, tube: Number) -> bool:
    piece = model.piece(tube)
    if piece.bends:
        return False
    rise = abs(piece.path.tangent(0.0).z)
    return _LEAN < rise < 1.0 - _LEAN * _LEAN / 2.0


def _tied(
    model: Model, first: Number, takes: Callable[[Number], bool], without: frozenset[Number] = frozenset()
) -> set[Number]:
    reached, frontier = {first}, [first]
    while frontier:
        for fit, other in model.neighbours(frontier.pop()):
            if fit.number not in without and other not in reached and takes(other):
                reached.add(other)
                frontier.append(other)
    return reached


def _buildable(model: Model, flat: SubFrame, braces: frozenset[Number], taken: frozenset[Number]) -> tuple[Number, ...]:
    """Return a sub-frame's tubes where two people can build it flat and turn it; else none.

    Fittings that come with another sub-frame do not hold it together.
    """
    members = set(flat.members)
    tubes = [n for n, p in enumerate(model.pieces) if p.member in members and n not in braces]
    if len(tubes) < 2 or len(_tied(model, tubes[0], set(tubes).__contains__, taken)) < len(tubes):
        return ()
    mass = sum(model.masses[t] for t in tubes)
    size = around_points(p for t in tubes for p in (model.piece(t).path.start, model.piece(t).path.end)).size
    if mass > weights.HEAVIEST or max(size) > weights.LONGEST:
        return ()
    return tuple(tubes)


def board_order(model: Model) -> list[Number]:
    """Return the boards in the order in which they are laid: strips first, then tops; from low to high."""
    numbers = range(model.first_panel, len(model.parts))
    return sorted(
        numbers,
        key=lambda n: (model.panel(n).use is not PanelUse.STRIP, round(model.panel(n).placement.origin.z, 1)),
    )


def board_way(model: Model, room: Room, panel: Number, placed: Placed) -> Way | None:
    """Return how a board gets in: straight down, from a side, or in from a side over its place and down."""
    board = model.panel(panel)
    up = board.placement.z
    box = around_points(c for p in model.parts for b in p.boxes for c in (b.low, b.high))
    far = max(box.size) + max(board.length, board.width)
    against = placed | {FLOOR, WALL}
    sides = (board.placement.x, -board.placement.x, board.placement.y, -board.placement.y)
    if not room.blockers(panel, up, far) & against:
        return Way(way=up, distance=min(far, 350.0), cost=0.0, opens=False)
    for lift in (_LIFT, 2.0 * _LIFT, 4.0 * _LIFT):
        if room.blockers(panel, up, lift) & against:
            break
        for side in sides:
            if not room.blockers(panel, side, far, up * lift) & against:
                return Way(way=up, distance=lift, cost=1.0, opens=False)
    for side in sides:
        if not room.blockers(panel, side, far) & against:
            return Way(way=side, distance=350.0, cost=2.0, opens=False)
    return None


def _under(model: Model, panel: Number) -> frozenset[Number]:
    return frozenset(n for n in _near(model, panel) if model.is_tube(n))


def _near(model: Model, panel: Number) -> Iterator[Number]:
    board = model.parts[panel].boxes[0]
    for part in model.parts:
        if any(
            all(
                lo - _TOUCHES <= other_hi and other_lo <= hi + _TOUCHES
                for lo, hi, other_lo, other_hi in zip(board.low, board.high, b.low, b.high, strict=True)
            )
            for b in part.boxes
        ):
            yield part.number
