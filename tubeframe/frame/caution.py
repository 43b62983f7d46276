"""Warnings to the person who builds."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Signal(StrEnum):
    """How bad it can be (signal words after ANSI Z535.6, from memory)."""

    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


class Moment(StrEnum):
    """The work that a caution belongs before."""

    CUTTING = "cutting"
    BENDING = "bending"
    SETTING_OUT = "setting out"
    FLAT = "flat"
    STANDING = "standing"
    TIGHTENING = "tightening"
    BRACING = "bracing"
    COVERING = "covering"
    ANCHORING = "anchoring"
    USE = "use"


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """Hazard, consequence and how to avoid it, in one text."""

    signal: Signal
    before: Moment
    text: str
