"""From where a tube gets into a port: sideways through its open mouth, or along itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.assembly.port_face import PortFace
    from tubeframe.geometry.vector import Vec

_SQUARE = 0.03
"""A way that is out of a port's plane by less lies in it: ports take tubes within a degree or so [sine]."""
_CLEAR = 10.0
"""A tube is out of a port when it is this far from it [mm]."""


def ways_into(face: PortFace) -> Iterator[Vec]:
    """Give the plain ways from which a tube comes into a port: along itself first, then through the mouth."""
    if face.is_run:
        if face.mouth is not None:
            yield face.mouth
        yield face.axis
        yield -face.axis
    else:
        yield face.axis
        if face.mouth is not None:
            yield face.mouth


def admits(face: PortFace, way: Vec) -> bool:
    """Whether a tube gets into a port, coming in a straight line from some way (unit vector).

    A shut port takes it along its axis only: an end from outside, a run from either side. An open one takes it from
    its mouth too, and slanting between the two.
    """
    if face.is_unknown:
        return True
    along = way.dot(face.axis)
    if face.mouth is None or way.dot(face.mouth) <= _SQUARE:
        return abs(along) >= 1.0 - _SQUARE if face.is_run else along >= 1.0 - _SQUARE
    aside = way.dot(face.axis.cross(face.mouth))
    return abs(aside) <= _SQUARE and (face.is_run or along >= -_SQUARE)


def is_opened(face: PortFace, way: Vec) -> bool:
    """Whether a port has to be opened for a tube that comes from some way: an end slides in without."""
    return face.mouth is not None and (face.is_run or way.dot(face.mouth) > _SQUARE)


def slides_along(face: PortFace, way: Vec) -> bool:
    """Whether a tube that passes through an open port is laid in aside of its place and slid along."""
    return face.is_run and face.mouth is not None and way.dot(face.mouth) <= _SQUARE


def release(face: PortFace, way: Vec) -> float:
    """Return how far a tube has to be off its place along a way until it is out of a port [mm]."""
    if is_opened(face, way) or face.is_unknown:
        return face.outside + _CLEAR
    return (face.ahead(way) if face.is_run else face.depth) + _CLEAR
