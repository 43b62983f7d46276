"""Boards: what goes into them, and whether anything carries them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.geometry.grid import Grid, near_pairs
from tubeframe.geometry.overlap import overlap
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.tolerance import COUPLER_MM
from tubeframe.joints.bearing import under
from tubeframe.joints.facts import InBoard
from tubeframe.joints.room_facts import BoardFloats, BoardsMeet, FittingInBoard
from tubeframe.joints.things import TOUCH_MM

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.errors import Fact
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.panel import Panel
    from tubeframe.joints.joint import Bearing, Joint, Tube
    from tubeframe.joints.things import Thing, Things

_MOST_RAISED = 100.0
"""A board that would have to be raised by more than this beyond its thickness is gone through [mm]."""
_FINE = 0.02


def board_findings(
    frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], things: Things, bearings: Sequence[Bearing]
) -> Iterator[Finding]:
    """Find tubes, fittings and other boards in a board, and boards that nothing carries. Pockets are room."""
    if not frame.panels:
        return
    sunk = tuple(_sunk(frame, tubes, joints, things))
    yield from sunk
    for i, j in near_pairs(b.hull for b in things.boards).pairs:
        deep = things.boards[i].depth(things.boards[j], COUPLER_MM)
        if deep:
            names = frame.panels[i].id, frame.panels[j].id
            yield _error("J-panel-panel", BoardsMeet(first=names[0], second=names[1], short=deep), names)
    # what a tube goes into hangs on that tube: told once
    carried = {b.board for b in bearings}.union(f.fact.panel for f in sunk if isinstance(f.fact, InBoard))
    for panel in frame.panels:
        if panel.id not in carried:
            nearest, gap = under(panel, tubes, things)
            yield _error("J-panel-floats", BoardFloats(panel=panel.id, nearest=nearest, gap=gap), (panel.id,))


def _sunk(frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], things: Things) -> Iterator[Finding]:
    """Find tubes, with their caps and feet, and fittings in boards."""
    capped = _with_end_pieces(tubes, joints, things)
    inner = [k for k, joint in enumerate(joints) if not joint.is_end_piece]
    tube_grid, fitting_grid = Grid(t.hull for t in capped), Grid(things.fittings[k].hull for k in inner)
    for panel, board in zip(frame.panels, things.boards, strict=True):
        for k in tube_grid.near(board.hull):
            if short := _short(panel, board, capped[k], COUPLER_MM):
                tube = tubes[k].id
                fact = InBoard(panel=panel.id, tube=tube, short=short, thickness=panel.thickness)
                yield _error("J-panel", fact, (tube, panel.id))
        for k in (inner[n] for n in fitting_grid.near(board.hull)):
            if short := _short(panel, board, things.fittings[k], TOUCH_MM):
                named = joints[k].named
                stood = FittingInBoard(panel=panel.id, fitting=named, short=short, thickness=panel.thickness)
                yield _error("J-panel-fitting", stood, (*named.tubes, panel.id))


def _with_end_pieces(tubes: Sequence[Tube], joints: Sequence[Joint], things: Things) -> list[Thing]:
    """Return tubes with their caps and feet: these go where the tube goes."""
    found = dict(zip((t.id for t in tubes), things.tubes, strict=True))
    for joint, thing in zip(joints, things.fittings, strict=True):
        if joint.is_end_piece:
            found[joint.uses[0].tube] = found[joint.uses[0].tube].joined(thing)
    return list(found.values())


def _short(panel: Panel, board: Thing, thing: Thing, over: float) -> float:
    """Return by how much a board has to be raised until a thing is out of it [mm]; 0 when it is."""
    return _raise(panel, board, thing, over) if any(overlap(a, b, over) for a, b in board.touching(thing)) else 0.0


def _raise(panel: Panel, board: Thing, thing: Thing, over: float) -> float:
    """Return by how much a board has to be raised until a thing is out of it [mm]."""

    def clears(by: float) -> bool:
        raised = Placement(origin=panel.placement.z * by)
        return not any(overlap(brick.placed(raised), piece, over) for brick in board.pieces for piece in thing.pieces)

    low, high = 0.0, panel.thickness + _MOST_RAISED
    if not clears(high):
        return high
    while high - low > _FINE:
        middle = (low + high) / 2.0
        low, high = (low, middle) if clears(middle) else (middle, high)
    return high + over


def _error(code: str, fact: Fact, subjects: tuple[str, ...]) -> Finding:
    return Finding(code=code, severity=Severity.ERROR, subjects=subjects, fact=fact)
