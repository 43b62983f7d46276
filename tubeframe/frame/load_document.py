"""Supports, loads and a cover as plain values of a text frame, both ways."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.frame.load import Cover, Load, LoadUse, Support
from tubeframe.frame.member import MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.catalog.rows import UserTable
    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.frame import Frame

_DOWN = [0.0, 0.0, -1.0]
_MIDDLE = (0.5, 0.5)


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
    if not isinstance(value, list) or len(value) != 3 or any(not isinstance(v, int | float) for v in value):
        return None
    way = Vec(*(float(v) for v in value))
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
            for c in covers
        ],
    }


def _support(row: UserTable, frame: FrameBuilder, members: tuple[str, ...]) -> None:
    member = row.one_of("member", members, "")
    end = row.one_of("end", tuple(e.value for e in TubeEnd), TubeEnd.A.value)
    fixes = row.take("fixes")
    row.close()
    if not isinstance(fixes, list) or any(f not in {"x", "y", "z"} for f in fixes):
        row.wrong("fixes", f"{fixes!r} is not a list of axes", 'write fixes = ["x", "y", "z"]')
        return
    frame.hold(Support(member=member, end=TubeEnd(end), fixes=tuple(fixes)))


def _load(row: UserTable, members: tuple[str, ...], boards: tuple[str, ...]) -> Load | None:
    name, total, share = row.text("name"), row.load("total"), row.number("share", 1.0)
    panel, member = row.one_of("panel", boards, ""), row.one_of("member", members, "")
    use = row.one_of("use", tuple(u.value for u in LoadUse), LoadUse.CARRIED.value)
    way, at = direction(row.take("direction") or _DOWN), _place(row, row.take("at"))
    start, end = row.length("from"), row.length("to")
    row.close()
    if bool(panel) == bool(member) or way is None:
        row.wrong("panel", "a load needs a direction, and either a panel or a member that it is on")
        return None
    if (start is None) != (end is None):
        row.wrong("from", "from and to go together", "give both, equal for a load at one place")
        return None
    span = None if start is None or end is None else (start, end)
    return Load(
        name=name, on=panel or member, total=total, share=share, use=LoadUse(use), direction=way, span=span, at=at
    )


def _place(row: UserTable, value: object) -> tuple[float, float]:
    """Read a place on a board in shares of its length and width."""
    if value is None:
        return _MIDDLE
    if (
        not isinstance(value, list)
        or len(value) != 2
        or not all(isinstance(v, int | float) and 0 <= v <= 1 for v in value)
    ):
        row.wrong("at", f"{value!r} is not a place on a board", "write two shares from 0 to 1, such as [0.5, 0]")
        return _MIDDLE
    return (float(value[0]), float(value[1]))


def _cover(row: UserTable, frame: FrameBuilder, members: tuple[str, ...]) -> None:
    over = row.take("over")
    width, length, height = (row.length(key) for key in ("width", "length", "height"))
    row.close()
    if not isinstance(over, list) or not over or any(m not in members for m in over):
        row.wrong("over", f"{over!r} are not members", "list the tubes under the sheet from one end to the other")
    elif width is None or length is None or height is None:
        row.wrong("width", "a cover needs its width, length and height")
    else:
        frame.carry(Cover(over=tuple(MemberId(m) for m in over), width=width, length=length, height=height))


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
