"""A part of a frame that moves as one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.frame.member import MemberId


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Tubes that are rigid among themselves and turn together on a tube of the rest, as a door does on its post.

    It closes an opening: it braces nothing and carries nothing but itself.
    """

    name: str
    members: tuple[MemberId, ...]
    turns_on: MemberId


def in_groups(groups: Iterable[Group]) -> frozenset[MemberId]:
    """Return the tubes of groups."""
    return frozenset(m for g in groups for m in g.members)


def without(groups: Iterable[Group], gone: MemberId) -> tuple[Group, ...]:
    """Return groups of which a tube is gone; one that has nothing left to turn, or to turn on, is no group."""
    kept = (
        Group(name=g.name, members=tuple(m for m in g.members if m != gone), turns_on=g.turns_on)
        for g in groups
        if g.turns_on != gone
    )
    return tuple(g for g in kept if g.members)
