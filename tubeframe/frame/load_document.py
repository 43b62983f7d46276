"""Supports, loads and a cover as plain values of a text frame, both ways."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.catalog.ranges import Range, as_number
from tubeframe.errors import shown
from tubeframe.frame.load import Cover, Load, LoadUse, Support
from tubeframe.frame.member import MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.catalog.user_table import UserTable
    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.frame import Frame

_DOWN = [0.0, 0.0, -1.0]
_MIDDLE = (0.5, 0.5)
_MOST_STEP = 1e6
"""A direction's numbers are shares, no lengths."""
_AXES = ("x", "y", "z")
_SHARE = Range(most=1e3, words="1,000")


def read_statics(table: UserTable, frame: FrameBuilder, members: tuple[str, ...], boards: tuple[str, ...]) -> None:
    """Read `support`, `load` and `cover` into a frame that has these members and boards."""
    for row in table.inner_rows("support"):
        _support(row, frame, members)
    for row in table.inner_rows("load"):
        load = _load(row, members, boards)
        if load is not None:
            frame.carry(load)
    for row in table.one_or_rows("cover"):
        _cover(row, frame, members)


def direction(value: object) -> Vec | None:
    """Read a direction, made one long; None when it is none."""
    numbers = [as_number(v) for v in value] if isinstance(value, list) and len(value) == 3 else []
    known = [n for n in numbers if n is not None and abs(n) <= _MOST_STEP]
    if len(known) != 3:
        return None
    way = Vec(*known)
    return way.unit if way.length > TINY else None


def statics_document(frame: Frame, scale: float) -> dict[str, list[dict[str, Any]]]:
    """Return the tables that `read_statics` reads; a length is divided by `scale` [mm]."""
    covers = [frame.cover] if frame.cover else []
    return {
        "support": [{"member": s.member, "end": s.end.value, "fixes": list(s.fixes)} for s in frame.supports],
        "load": [_written(load, frame, scale) for load in frame.loads],
        "cover": [
            {"over": [str(m) for m in c.over]}
            | {key: round(getattr(c, key) / scale, 9) for key in ("width", "length", "height")}
            | ({"closed_ends": True} if c.closed_ends else {})
            for c in covers
        ],
    }


def _support(row: UserTable, frame: FrameBuilder, members: tuple[str, ...]) -> None:
    member = row.one_of("member", members, "")
    end = row.one_of("end", tuple(e.value for e in TubeEnd), TubeEnd.A.value)
    stated = "fixes" in row.names()
    fixes = row.some_of("fixes", _AXES, "axis")
    row.close()
    if not stated:
        row.wrong("fixes", "along which axes is it held?", 'write fixes = ["x", "y", "z"]')
    if member and fixes is not None:
        frame.hold(Support(member=member, end=TubeEnd(end), fixes=tuple(dict.fromkeys(fixes))))


def _load(row: UserTable, members: tuple[str, ...], boards: tuple[str, ...]) -> Load | None:
    name, total, share = row.name("name"), row.load("total"), row.number("share", 1.0, _SHARE)
    stated = [key for key in ("panel", "member") if key in row.names()]
    panel, member = row.one_of("panel", boards, ""), row.one_of("member", members, "")
    use = row.one_of("use", tuple(u.value for u in LoadUse), LoadUse.CARRIED.value)
    given = row.take("direction")
    way, at = direction(_DOWN if given is None else given), _place(row, row.take("at"))
    start, end = row.length("from"), row.length("to")
    row.close()
    if way is None:
        row.wrong("direction", f"{shown(given)} is no direction", "write direction = [0, 0, -1] for down")
    if len(stated) != 1:
        row.wrong("panel", "a load is on a panel or on a member", "name one of them")
    if (start is None) != (end is None):
        row.wrong("from", "from and to go together", "give both, equal for a load at one place")
        return None
    if way is None or bool(panel) == bool(member):
        return None
    span = None if start is None or end is None else (start, end)
    return Load(
        name=name, on=panel or member, total=total, share=share, use=LoadUse(use), direction=way, span=span, at=at
    )


def _place(row: UserTable, value: object) -> tuple[float, float]:
    """Read a place on a board in shares of its length and width."""
    if value is None:
        return _MIDDLE
    numbers = [as_number(v) for v in value] if isinstance(value, list) and len(value) == 2 else []
    shares = [n for n in numbers if n is not None and 0.0 <= n <= 1.0]
    if len(shares) != 2:
        row.wrong("at", f"{shown(value)} is not a place on a board", "write two shares from 0 to 1, such as [0.5, 0]")
        return _MIDDLE
    return (shares[0], shares[1])


def _cover(row: UserTable, frame: FrameBuilder, members: tuple[str, ...]) -> None:
    stated = "over" in row.names()
    over = row.some_of("over", members, "tube")
    sides = [row.length(key) for key in ("width", "length", "height")]
    closed = row.take("closed_ends")
    row.close()
    if closed is not None and not isinstance(closed, bool):
        row.wrong("closed_ends", f"true or false is needed, not {shown(closed)}", "write closed_ends = true")
    width, length, height = (side or 0.0 for side in sides)
    if not stated or over == []:
        row.wrong("over", "over which tubes?", "list the tubes under the sheet from one end to the other")
    if not all(sides):
        row.wrong("width", "a cover needs its width, length and height, each over 0")
    elif over:
        tubes = tuple(MemberId(m) for m in over)
        frame.carry(Cover(over=tubes, width=width, length=length, height=height, closed_ends=closed is True))


def _written(load: Load, frame: Frame, scale: float) -> dict[str, Any]:
    kind = "panel" if any(p.id == load.on for p in frame.panels) else "member"
    made: dict[str, Any] = {"name": load.name, kind: load.on, "use": load.use.value}
    if load.total is not None:
        made["total"] = f"{load.total:.6f} N"
    if load.share != 1.0:
        made["share"] = load.share
    made["direction"] = [round(v, 9) + 0.0 for v in load.direction]
    if load.span is not None:
        made |= {"from": round(load.span[0] / scale, 9), "to": round(load.span[1] / scale, 9)}
    if load.at != _MIDDLE:
        made["at"] = list(load.at)
    return made
