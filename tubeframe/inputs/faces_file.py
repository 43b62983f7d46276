"""The faces that can be made square, from a build's design.json."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tubeframe.errors import InputError, Problem, nearest_name
from tubeframe.geometry.units import Units
from tubeframe.inputs.folder import is_ours

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltFace:
    """A face of a frame that was built: its name, width, height and true diagonal [mm], and the units of the build.

    `points` are its four corners, each by the mark of its tube and the distance from end A of that [mm].
    """

    name: str
    width: float
    height: float
    diagonal: float
    points: tuple[tuple[str, float], ...]
    units: Units


def read_face(folder: Path, name: str) -> BuiltFace:
    """Read a face of a build.

    Raises:
        InputError: where the folder holds no build, or the build no such face; the message lists those it has.

    """
    document = _document(folder)
    try:
        faces = _faces(document)
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise _refused(folder, "its design.json is not as a build writes it", "build it again") from error
    if not faces:
        raise _refused(folder, "no face of this frame can be measured", "measure where two upright tubes stand alike")
    if name not in faces:
        message = f"there is no face {name}; this frame has {', '.join(faces)}"
        raise _refused(folder, message, nearest_name(name, faces))
    return faces[name]


def _faces(document: dict[str, Any]) -> dict[str, BuiltFace]:
    """Read all faces of a design, by name."""
    marks = {m["id"]: m["mark"] for m in document.get("members", [])}
    units = Units(document["units"])
    return {
        face["name"]: BuiltFace(
            name=face["name"],
            width=_length(face["width_mm"]),
            height=_length(face["height_mm"]),
            diagonal=_length(face["diagonal_mm"]),
            points=tuple((marks[c["member"]], _length(c["from_a_mm"])) for c in face["corners"]),
            units=units,
        )
        for face in document.get("faces", [])
    }


def _length(value: float) -> float:
    if not math.isfinite(value):
        raise ValueError(value)
    return value


def _document(folder: Path) -> dict[str, Any]:
    if not is_ours(folder):
        raise _refused(folder, "it holds no design.json of a build", "name the folder that tubeframe build wrote")
    with (folder / "design.json").open(encoding="utf-8") as file:
        document: dict[str, Any] = json.load(file)
    return document


def _refused(folder: Path, message: str, remedy: str) -> InputError:
    return InputError(Problem(where=str(folder), key="", message=message, remedy=remedy))
