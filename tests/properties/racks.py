"""A rack that is right, of any size, as plain values; and ways to spoil one thing of it."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

PITCH = 1.875 + 1 / 4
"""Least distance of two fittings on a run of EMT 3/4: grip 2 D up to the next 1/8, and the key's gap [in]."""
OFFSET = 0.922 + 3 / 16
PAST = 1.875 / 2 + 1 / 4 + 0.002
"""A run goes on past a clamp's middle by half its grip and 1/4 at least [in]."""
CLEAR_OF_A_CLAMP = (1.875 + 3 * 0.922) / 2 + 1 / 4
"""From a sleeve's middle to a clamp's: half of both and the key's gap, 2.5705 in."""
TOP = 0.461
KEEP = 2.6
"""How far a board stays off a post's middle: clear of the fittings there [in]."""

Document = dict[str, object]


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One thing spoiled: how, by how much at least and at most [in], and what has to be told."""

    spoil: Callable[[Document, float], None]
    least: float
    most: float
    about: str
    wrong: str = ""
    wrong_repair: str = ""


def rack(sizes: Mapping[str, float]) -> Document:
    """Return a rack: four posts, rails at two levels, a third rail a pitch up, a board, a knee, a laid-over bar.

    A long shelf rail in front of it, in a sleeve, is tied to the front posts by couplers.
    """
    length, width, low, high = (sizes[k] for k in ("length", "width", "low", "high"))
    top = high + 14.0
    front, back = ("front", 0.0), ("back", width)
    left, right = ("left", 0.0), ("right", length)
    rows = [
        _row(f"post.{yn}.{xn}", (x, y, 0.0), (x, y, top), ("foot", "cap"))
        for yn, y in (front, back)
        for xn, x in (left, right)
    ]
    for name, z in (("low", low), ("high", high)):
        rows += [_row(f"rail.{yn}.{name}", (0.0, y, z), (length, y, z)) for yn, y in (front, back)]
        rows += [_row(f"rail.{xn}.{name}", (x, 0.0, z), (x, width, z)) for xn, x in (left, right)]
    rows.append(_row("rail.back.third", (0.0, width, low + PITCH), (length, width, low + PITCH)))
    rows.append(_row("knee", (0.0, 0.0, high - 8.0), (0.0, 8.0, high)))
    bar = high + 7.0
    rows.append(_row("bar", (-PAST, width + OFFSET, bar), (length + PAST, width + OFFSET, bar), ("cap", "cap")))
    long = _row("long", (-2.0, -OFFSET, bar), (length + 70.0, -OFFSET, bar), ("cap", "cap"))
    long["split_at"] = [length + 2.0 + CLEAR_OF_A_CLAMP + 0.002]
    rows.append(long)
    rows.append(_row("mast", (length + 64.0, 0.0, 0.0), (length + 64.0, 0.0, top), ("foot", "cap")))
    rows.append(_row("mast.tie", (length, 0.0, low + 6.0), (length + 64.0, 0.0, low + 6.0)))
    z = high + TOP
    corners = [[KEEP, -TOP, z], [length - KEEP, -TOP, z], [length - KEEP, width + TOP, z], [KEEP, width + TOP, z]]
    return {
        "schema": "tubeframe.frame/1",
        "name": "rack",
        "units": "in",
        "member": rows,
        "panel": [{"id": "board", "corners": corners, "thickness": 0.75}],
        "joint": [{"at": [0.0, 0.0, high - 8.0], "kind": "angle-tee"}, {"at": [0.0, 8.0, high], "kind": "angle-tee"}],
    }


def spoiled(document: Document, fault: Fault, by: float) -> Document:
    """Return a rack with one thing of it spoiled."""
    made = copy.deepcopy(document)
    fault.spoil(made, by)
    return made


def member(document: Document, name: str) -> dict[str, object]:
    """Return a tube of a text frame."""
    return next(m for m in document["member"] if m["id"] == name)


def _row(name, start, end, ends=("joint", "joint")):
    return {"id": name, "path": [list(start), list(end)], "ends": list(ends)}


def _shift(name, axis):
    def spoil(document, by):
        for point in member(document, name)["path"]:
            point[axis] += by

    return spoil


def _end(name, axis, sign):
    def spoil(document, by):
        member(document, name)["path"][1][axis] += sign * by

    return spoil


def _board(sign):
    def spoil(document, by):
        for corner in document["panel"][0]["corners"]:
            corner[2] += sign * by

    return spoil


def _no_foot(document, by):
    del by
    member(document, "post.front.left")["ends"][0] = "joint"


def _angle_off(document, by):
    """Lean the knee more: its lower end goes down its post."""
    document["joint"][0]["at"][2] -= by
    member(document, "knee")["path"][0][2] -= by


def _twice(document, by):
    del by
    document["member"].append(copy.deepcopy(member(document, "rail.back.low")) | {"id": "again"})


def _sleeve(document, by):
    member(document, "long")["split_at"][0] -= by


FAULTS = {
    "a rail moved along its posts": Fault(
        spoil=_shift("rail.front.low", 2), least=0.1, most=0.8, about="rail.front.low"
    ),
    "a rail moved across its posts": Fault(
        spoil=_shift("rail.front.low", 1), least=0.05, most=0.4, about="rail.front.low"
    ),
    "an end too short": Fault(spoil=_end("rail.front.low", 0, -1), least=0.1, most=3.0, about="rail.front.low"),
    "an end too long": Fault(spoil=_end("rail.front.low", 0, 1), least=0.1, most=1.0, about="rail.front.low"),
    "an end far too long": Fault(
        spoil=_end("rail.front.low", 0, 1),
        least=1.2,
        most=3.0,
        about="rail.front.low",
        wrong_repair="the end gets a cap, and goes through its post still",
    ),
    "a rail too near to another": Fault(
        spoil=lambda d, by: _shift("rail.back.third", 2)(d, -by), least=0.05, most=0.6, about="post.back.left"
    ),
    "a foot left out": Fault(spoil=_no_foot, least=0.0, most=0.0, about="post.front.left"),
    "a board raised": Fault(spoil=_board(1), least=0.1, most=2.0, about="board"),
    "a board sunk": Fault(spoil=_board(-1), least=0.1, most=0.3, about="board"),
    "a brace at a wrong angle": Fault(spoil=_angle_off, least=0.5, most=2.5, about="knee"),
    "a tube drawn twice": Fault(spoil=_twice, least=0.0, most=0.0, about="again"),
    "a tube into the posts": Fault(spoil=lambda d, by: _shift("bar", 1)(d, -by), least=0.6, most=1.0, about="bar"),
    "a bar too short past its clamp": Fault(spoil=_end("bar", 0, -1), least=0.05, most=1.0, about="bar"),
    "a sleeve on a clamp": Fault(spoil=_sleeve, least=0.05, most=1.0, about="long"),
}
