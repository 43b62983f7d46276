"""Stands with rods, arms, hoops and boards put anywhere: many go through each other."""

from __future__ import annotations

from hypothesis import strategies as st

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.frame.document import frame_from_document

WORKSHOP = generic_workshop()
D = 23.4188
"""EMT 3/4 [mm]."""
OUT = D + 4.7625
"""Between the middles of two tubes in a coupler [mm]."""
BEND = 140.7
_HEIGHT = 900


def _tube(name, path, a="cap", b="cap"):
    return {"id": name, "path": path, "ends": [a, b]}


def _stand(width, depth, rail, tie):
    posts = [("fl", 0, 0), ("fr", width, 0), ("bl", 0, depth), ("br", width, depth)]
    return [
        *(_tube(n, [[x, y, 0], [x, y, _HEIGHT]], "foot", "cap") for n, x, y in posts),
        *(_tube(f"rail.{y}", [[0, y, rail], [width, y, rail]], "joint", "joint") for y in (0, depth)),
        *(_tube(f"tie.{x}", [[x, 0, tie], [x, depth, tie]], "joint", "joint") for x in (0, width)),
    ]


@st.composite
def _rod(draw, name, width, depth, rail):
    """A rod along an axis or on a slant, tied by whatever it meets."""
    x, y = draw(st.integers(-60, width + 60)), draw(st.integers(-60, depth + 60))
    z = draw(st.one_of(st.integers(40, _HEIGHT), st.integers(rail - 60, rail + 60)))
    way = draw(st.sampled_from([(1, 0, 0), (0, 1, 0), (0, 0, 1), (1, 1, 0), (0, 1, 1), (3, 1, 1)]))
    half = draw(st.integers(80, 250))
    ends = [[c + sign * half * w for c, w in zip((x, y, z), way, strict=True)] for sign in (-1, 1)]
    return [_tube(name, ends, draw(st.sampled_from(["cap", "open"])))]


@st.composite
def _clamped(draw, name, width, depth, rail):
    """A rod before the front rail, a coupler's offset away, and what it carries."""
    x = draw(st.integers(40, width - 40))
    return [_tube(name, [[x, -OUT, rail - draw(st.integers(60, 200))], [x, -OUT, rail + draw(st.integers(30, 200))]])]


@st.composite
def _arm(draw, name, width, depth, rail):
    """An arm off the front rail, straight or bent, long enough to reach other things or not."""
    x, reach = draw(st.integers(30, width - 30)), draw(st.integers(160, 260))
    side = draw(st.sampled_from([-1, 1]))
    path = [[x, 0, rail], [x, side * reach, rail]]
    if draw(st.booleans()):
        corner = {"at": path.pop(), "radius": BEND}
        path += [corner, [x + draw(st.sampled_from([0, 60])), side * reach, rail + draw(st.sampled_from([-250, 250]))]]
    return [_tube(name, path, "joint", draw(st.sampled_from(["cap", "open"])))]


@st.composite
def _hoop(draw, name, width, depth, rail):
    """A hoop on stakes across the stand, its bends near the rails."""
    x, y = draw(st.integers(-40, width + 40)), draw(st.integers(-160, 40))
    top = rail + draw(st.integers(20, 160))
    far = depth + draw(st.integers(-40, 160))
    bends = [{"at": [x, v, top], "radius": BEND} for v in (y, far)]
    return [_tube(name, [[x, y, 0], *bends, [x, far, 0]], "stake", "stake")]


@st.composite
def _board(draw, name, width, depth, rail):
    low_x, low_y = draw(st.integers(-40, 80)), draw(st.integers(-40, 40))
    high_x, high_y = width - draw(st.integers(-40, 80)), depth - draw(st.integers(-40, 40))
    z = rail + D / 2 + draw(st.sampled_from([-8.0, -0.3, 0.0, 0.0, 0.0, 4.0, 40.0]))
    thickness = draw(st.sampled_from([12, 18]))
    board = {
        "id": name,
        "corners": [[low_x, low_y, z], [high_x, low_y, z], [high_x, high_y, z], [low_x, high_y, z]],
        "thickness": thickness,
    }
    if draw(st.booleans()):
        depth_in, size = draw(st.sampled_from([6, 10, thickness])), draw(st.integers(40, 110))
        xs, ys = (0, high_x - low_x - size), (0, high_y - low_y - size)
        board["pockets"] = [[a, b, a + size, b + size, depth_in] for a in xs for b in ys]
    return [board]


@st.composite
def drawn_frames(draw):
    """A stand and up to four things more."""
    width, depth = draw(st.integers(450, 700)), draw(st.integers(350, 500))
    rail = draw(st.integers(400, 800))
    tie = rail - draw(st.sampled_from([30, 54, 80, 200]))
    members, boards = _stand(width, depth, rail, tie), []
    for n in range(draw(st.integers(1, 4))):
        made = draw(st.sampled_from([_rod, _clamped, _arm, _hoop, _board]))(f"more.{n}", width, depth, rail)
        (thing,) = draw(made)
        (boards if "corners" in thing else members).append(thing)
    document = {"schema": "tubeframe.frame/1", "name": "drawn", "units": "mm", "member": members}
    return frame_from_document({**document, **({"panel": boards} if boards else {})}, WORKSHOP, "drawn.toml")
