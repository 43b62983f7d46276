"""Where tubes sit along each other, and which of their ends is meant, as one stands before the frame."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, nearest_on
from tubeframe.geometry.tolerance import LOWER_MM, MEET_MM, TINY
from tubeframe.geometry.units import format_exact, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.geometry.units import Units
    from tubeframe.geometry.vector import Vec

_CLAMPED = 60.0
"""Tubes of one coupler are nearer than this, middle to middle [mm]."""
_STEEP = 0.5
_NAMED_AT_MOST = 4


def stations(members: Sequence[Member], names: Sequence[MemberId], frame: Frame, units: Units) -> str:
    """Say where tubes sit along the ones that hold them; hosts at one distance, and distances on one host, together."""
    hosts: dict[tuple[str, str], list[str]] = {}
    for member in members:
        held = list(_hosts(member, names, frame))
        along = [(h, at) for h, at in held if LOWER_MM < at < h.path.length - LOWER_MM]
        for host, at in along or held:
            hosts.setdefault(_station(host, at, units), []).append(host.id)
    places: dict[tuple[str, str], list[str]] = {}
    for (station, end), on in hosts.items():
        places.setdefault((end, _some(on)), []).append(station)
    parts = [f"{listed(at)} from {end} of {on}" if at != [""] else f"{end} of {on}" for (end, on), at in places.items()]
    return f": to {' and '.join(parts)}" if 0 < len(parts) <= _NAMED_AT_MOST else ""


def _some(names: Sequence[str]) -> str:
    """List names, of many the first few."""
    unique = list(dict.fromkeys(names))
    more = len(unique) - _NAMED_AT_MOST
    return f"{', '.join(unique[:_NAMED_AT_MOST])} and {more} more" if more > 1 else listed(unique)


def at_station(host: Member, at: float, units: Units) -> str:
    """Say how far a place [mm from A] is from which end of a tube."""
    station, end = _station(host, at, units)
    return f"{station} from {end}" if station else end


def end_word(member: Member, end: TubeEnd) -> str:
    """Name an end by where it lies, as one stands before the frame."""
    way = member.path.end - member.path.start
    way = (way if end is TubeEnd.B else -way).unit if way.length > TINY else member.path.tangent(0.0)
    return f"the {_side(way)} end"


def edge_word(way: Vec) -> str:
    """Name a board's edge by the way that it faces."""
    return f"{_side(way)} edge"


def _side(way: Vec) -> str:
    if abs(way.z) >= _STEEP:
        return "upper" if way.z > 0.0 else "lower"
    if abs(way.x) >= abs(way.y):
        return "right" if way.x > 0.0 else "left"
    return "back" if way.y > 0.0 else "front"


def listed(names: Sequence[str]) -> str:
    """List names, each once."""
    unique = list(dict.fromkeys(names))
    return " and ".join([", ".join(unique[:-1]), unique[-1]]) if len(unique) > 1 else unique[0]


def _station(host: Member, at: float, units: Units) -> tuple[str, str]:
    """Return how far a place [mm from A] is from an end, nothing when it is there, and which end that is.

    A straight tube is measured from its lower end, else from the one stated first; a bent one from the nearer.
    """
    end, left = TubeEnd.A, host.path.length - at
    if host.path.start.z > host.path.end.z + LOWER_MM if host.is_straight else left < at:
        end, at, left = TubeEnd.B, left, at
    if at <= LOWER_MM or left <= LOWER_MM:
        return "", end_word(host, end if at <= LOWER_MM else end.other)
    return shown(at, units), end_word(host, end)


def _hosts(member: Member, names: Sequence[MemberId], frame: Frame) -> Iterator[tuple[Member, float]]:
    """Give the tubes that a tube sits on or is clamped to, and where along them [mm from A]."""
    for host in (m for m in frame.members if m.id not in names):
        ends = [p for e, p in _ends(member) if e is EndKind.JOINT]
        seats = [at for p in ends for at, gap in (nearest_on(host.path, p),) if gap <= MEET_MM]
        if not seats and not _is_along(member, host):
            near = approaches(member.path, host.path, _CLAMPED)
            seats = [
                a.at_second
                for a in near
                if MEET_MM < a.at_first < member.path.length - MEET_MM
                and MEET_MM < a.at_second < host.path.length - MEET_MM
            ]
        yield from ((host, at) for at in seats)


def _is_along(a: Member, b: Member) -> bool:
    return a.path.tangent(0.0).cross(b.path.tangent(0.0)).length < TINY


def _ends(member: Member) -> tuple[tuple[EndKind, Vec], ...]:
    return ((member.end_a, member.path.start), (member.end_b, member.path.end))


def shown(length: float, units: Units) -> str:
    """Print a length [mm] as a tape shows it; one that a tape does not show, to the last digit."""
    return format_length(length, units) if is_on_a_tape(length, units) else format_exact(length, units)


def is_on_a_tape(length: float, units: Units) -> bool:
    """Whether a tape shows a length [mm], or rounds it away."""
    return format_length(abs(length), units) != format_length(0.0, units)
