"""What a person reads of a finding."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """Where it is, what is wrong, and what to do."""

    where: str
    message: str
    remedy: str
