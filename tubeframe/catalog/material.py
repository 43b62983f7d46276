"""What things are made of."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A material: its density [kg/m^3] and where the row comes from."""

    key: str
    name: str
    density: float
    source: str
