"""How a frame is taken down, so that it goes together again. Common practice, no source."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.design import Design


def take_down_words(design: Design) -> tuple[str, ...]:
    """Say what is done, in turn."""
    last = len(design.assembly.steps)
    cover = "Take off what covers it and the boards. " if design.frame.panels or design.frame.supplies else ""
    return (
        f"{cover}Go back through the steps from {last} to 1. A second person holds what hangs on one clamp.",
        "Loosen bolts, do not take them out: turn them back in by hand, so that none is lost.",
        "Leave marks and labels on. Bundle the pieces of a mark, end A all to one side, with a tag: mark and number.",
        "Before it is used again, look it over: no dent or kink near a clamp, no cracked shell, no bolt that binds. "
        "Scrap what fails.",
    )
