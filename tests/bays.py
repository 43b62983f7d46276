"""A rack of bays that goes on as long as one likes: to measure on, and to count work on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.member import EndKind
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame

_BAY = 600.0
_DEPTH = 500.0
_OUT = 23.4188 + 4.7625
"""Offset of a coupler on EMT 3/4: D + 3/16 in [mm]."""
_TOP = 1800.0
_ENDS = (EndKind.CAP, EndKind.CAP)


def rack_of(bays: int) -> Frame:
    """Two posts, three ties and a brace at each end of a bay, and six rails that couplers clamp to all posts.

    8 bays have 66 tubes, 33 have 244, 139 have 1008; all that grows grows alike.
    """
    made = FrameBuilder(name="rack", tube="emt-3/4")
    for i in range(bays + 1):
        x = _BAY * i
        for side, y in (("front", 0.0), ("back", _DEPTH)):
            made.tube(f"post.{i}.{side}", (Vec(x, y, 0.0), Vec(x, y, _TOP)), ends=(EndKind.FOOT, EndKind.CAP))
        for level, z in enumerate((200.0, 900.0, 1600.0)):
            made.tube(f"tie.{i}.{level}", (Vec(x, 0.0, z), Vec(x, _DEPTH, z)))
        made.tube(f"brace.{i}", (Vec(x + _OUT, -60.0, 367.0), Vec(x + _OUT, 560.0, 863.0)), ends=_ENDS)
    for side, y in (("front", -_OUT), ("back", _DEPTH + _OUT)):
        for level, z in enumerate((300.0, 1000.0, 1500.0)):
            start, end = Vec(-60.0, y, z), Vec(_BAY * bays + 60.0, y, z)
            made.tube(f"rail.{side}.{level}", (start, end), ends=_ENDS)
    return made.build()
