"""The whole thing to be built."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.errors import Finding  # noqa: TC001  part of a public dataclass

if TYPE_CHECKING:
    from tubeframe.frame.caution import Caution
    from tubeframe.frame.group import Group
    from tubeframe.frame.job import Job
    from tubeframe.frame.load import Cover, Load, Support
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.frame.opening import Opening
    from tubeframe.frame.panel import Panel
    from tubeframe.frame.size import Size
    from tubeframe.frame.wall import Wall
    from tubeframe.geometry.vector import Vec


class LengthAlong(StrEnum):
    """The axis that `length` runs along."""

    X = "x"
    Y = "y"


@dataclass(frozen=True, slots=True, kw_only=True)
class Preference:
    """A kind of fitting that is wanted at a place [mm], where several would do."""

    at: Vec
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Something to buy that is neither tube nor fitting nor board, and the work that it is for, where that is known."""

    item: str
    quantity: int
    unit: str
    job: Job | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverLine:
    """What a person should know of this very frame; each {} in the text stands for one of the sizes, in turn."""

    label: str
    text: str
    sizes: tuple[Size, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Whole tubes and boards, and what the sheets say of them.

    `sized_by` are the members whose box is the asked size; empty for all. `passing` are pairs of members that no
    coupler ties though they are its offset apart. `groups` are parts that turn, each on a tube of the rest;
    `openings` are what drawings dimension as clear.
    """

    name: str
    members: tuple[Member, ...]
    panels: tuple[Panel, ...]
    length_along: LengthAlong
    sized_by: tuple[MemberId, ...]
    preferences: tuple[Preference, ...]
    supports: tuple[Support, ...]
    loads: tuple[Load, ...]
    supplies: tuple[Supply, ...]
    cautions: tuple[Caution, ...]
    facts: tuple[CoverLine, ...]
    findings: tuple[Finding, ...]
    walls: tuple[Wall, ...] = ()
    passing: tuple[tuple[MemberId, MemberId], ...] = ()
    cover: Cover | None = None
    groups: tuple[Group, ...] = ()
    openings: tuple[Opening, ...] = ()
