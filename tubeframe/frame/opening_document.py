"""Openings of a text frame."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import nearest_name, shown
from tubeframe.frame.member import MemberId
from tubeframe.frame.opening import Opening

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.user_table import UserTable
    from tubeframe.frame.builder import FrameBuilder

_UPRIGHTS = 2


def read_openings(table: UserTable, frame: FrameBuilder, known: Sequence[str]) -> None:
    """Read what is clear under a level tube, between two uprights or along it, over another or the floor."""
    for row in table.inner_rows("opening"):
        _read(row, frame, known)


def _read(row: UserTable, frame: FrameBuilder, known: Sequence[str]) -> None:
    name, under, over = row.name("id"), row.name("under"), row.name("over", "")
    stated = "between" in row.names()
    between = row.some_of("between", known, "tube")
    row.close()
    unknown = [(key, other) for key, other in (("under", under), ("over", over)) if other and other not in known]
    for key, other in unknown:
        row.wrong(key, f"there is no tube {shown(other)}", nearest_name(other, known))
    if stated and between is not None and len(between) != _UPRIGHTS:
        row.wrong("between", "an opening lies between two tubes", "write between = ['jamb.left', 'jamb.right']")
    elif under and not unknown and not (stated and between is None):
        sides = tuple(MemberId(m) for m in between or ())
        frame.sized_by(Opening(name=name, under=MemberId(under), between=sides, over=MemberId(over) if over else None))
