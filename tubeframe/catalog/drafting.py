"""How drawings are made: the user's choice, like paper and units."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Projection(StrEnum):
    """Where views stand round the front view (ISO 5456-2, ASME Y14.3, from memory)."""

    FIRST = "first"
    THIRD = "third"


class HiddenLines(StrEnum):
    """Whether tubes that are hidden are drawn dashed; `boards`: only in frames with boards, which hide most."""

    SHOWN = "shown"
    BOARDS = "boards"
    LEFT_OUT = "left-out"


class DxfRelease(StrEnum):
    """The release of DXF that is written."""

    R2010 = "r2010"
    R12 = "r12"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafting:
    """How drawings are made."""

    projection: Projection
    hidden_lines: HiddenLines = HiddenLines.BOARDS
    dxf: DxfRelease = DxfRelease.R2010
