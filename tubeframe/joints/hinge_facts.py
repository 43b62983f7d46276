"""What can be found of parts that turn on the rest of a frame, such as doors."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Fact

if TYPE_CHECKING:
    from tubeframe.joints.facts import Named


@dataclass(frozen=True, slots=True, kw_only=True)
class CannotTurn(Fact):
    """A fitting ties a part that should turn on `post` to the rest."""

    group: str
    post: str
    fitting: Named


@dataclass(frozen=True, slots=True, kw_only=True)
class FewHinges(Fact):
    """A part that should turn on `post` has `rings` of its tubes' ends in rings there, and needs two."""

    group: str
    post: str
    rings: int
