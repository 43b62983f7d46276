"""What a frame is for, as loads: what it carries, and pushes by hand. The user says how much."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.load import Load, LoadUse
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from tubeframe.frame.builder import FrameBuilder

_MIDDLE = (0.5, 0.5)


def carries(
    frame: FrameBuilder,
    name: str,
    *on: str,
    share: float = 1.0,
    use: LoadUse = LoadUse.CARRIED,
    at: tuple[float, float] = _MIDDLE,
    span: tuple[float, float] | None = None,
) -> None:
    """State what is carried: a share of what the user asks for, evenly on boards or tubes.

    Args:
        frame: what it is stated of.
        name: what it is, in a few words; loads of one name act together.
        on: boards or tubes, each with the same part of it.
        share: of what is asked for.
        use: whether it is driven about.
        at: where on each board, in shares of its length and width.
        span: between which places of each tube [mm].

    """
    for one in on:
        frame.carry(Load(name=name, on=one, direction=-Z, share=share / len(on), use=use, at=at, span=span))


def pushed_at(frame: FrameBuilder, on: str) -> None:
    """State a hand's push at a board or a tube, along x and along y."""
    frame.carry(Load(name="push along x", on=on, direction=X, use=LoadUse.PUSH))
    frame.carry(Load(name="push along y", on=on, direction=Y, use=LoadUse.PUSH))


def worked_on(frame: FrameBuilder, top: str, rail: str, half: float) -> None:
    """State what a table is for: things all over it, a quarter at a rail's middle, half at an edge; a push at the top.

    Args:
        frame: what it is stated of.
        top: the board.
        rail: a rail under its long edge.
        half: half the rail's length [mm].

    """
    carries(frame, "spread over the top", top)
    carries(frame, "a quarter of it at a rail's middle", rail, share=0.25, span=(half, half))
    carries(frame, "half of it on the long edge", top, share=0.5, at=(0.5, 0.0))
    carries(frame, "half of it on the short edge", top, share=0.5, at=(0.0, 0.5))
    pushed_at(frame, top)
