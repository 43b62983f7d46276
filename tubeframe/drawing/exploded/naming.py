"""What is written on a step's picture: marks of new parts, ends of new tubes, signs of new fittings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.words.listing import kind_word

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tubeframe.drawing.exploded.stages import Stage
    from tubeframe.drawing.views.part_book import PartBook

_SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74)
"""A tube may be named at these shares of its length, the first best."""

_MANY = 4
"""More boards that are alike are not named one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A text on one of some points in space, the best first [mm]."""

    at: tuple[Vec, ...]
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EndName:
    """The name of a tube's end: where it is, and the way out of the tube."""

    at: Vec
    out: Vec
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """Marks and sub-frames go into circles; ends and kinds of small parts are set plain."""

    marks: tuple[Label, ...]
    ends: tuple[EndName, ...]
    small: tuple[Label, ...]


def names_of(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> Names:
    """Name a stage's new parts where they are drawn."""
    return Names(
        marks=(*_tubes(book, stage, offsets), *_boards(book, stage, offsets), *_raised(book, stage, offsets)),
        ends=tuple(_ends(book, stage, offsets)),
        small=tuple(_small(book, stage, offsets)),
    )


def _tubes(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> Iterator[Label]:
    for tube in (o.part for o in stage.operations if o.part in book.piece_of):
        piece, off = book.piece_of[tube], offsets[tube]
        yield Label(at=tuple(piece.path.point(piece.cut_length * share) + off for share in _SHARES), text=piece.mark)


def _boards(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> Iterator[Label]:
    """Name every board; of many that are alike the first and the last."""
    for group in book.parts.panel_groups:
        names = {p.id for p in group.panels}
        alike = [b for b in book.boards if b.id in names and b.id in stage.added]
        for board in alike if len(alike) <= _MANY else (alike[0], alike[-1]):
            yield Label(at=(board.box.centre + offsets[board.id],), text=group.mark)


def _raised(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> Iterator[Label]:
    """Name a sub-frame on its longest tube, a third along it."""
    for name, parts in stage.raised.items():
        tubes = [book.piece_of[p] for p in sorted(parts) if p in book.piece_of]
        longest = max(tubes, key=lambda p: p.cut_length)
        at = tuple(longest.path.point(longest.cut_length * s) + offsets[longest.id] for s in (0.34, 0.66, 0.5))
        yield Label(at=at, text=name)


def _ends(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> Iterator[EndName]:
    for tube in (o.part for o in stage.operations if o.part in book.piece_of):
        path, off = book.piece_of[tube].path, offsets[tube]
        yield EndName(at=path.start + off, out=-path.tangent(0.0), text="A")
        yield EndName(at=path.end + off, out=path.tangent(path.length), text="B")


def _small(book: PartBook, stage: Stage, offsets: Mapping[str, Vec]) -> Iterator[Label]:
    """Name caps, feet and the like, one of each kind."""
    found: dict[str, list[Vec]] = {}
    for operation in stage.operations:
        joint = book.joint_of.get(operation.part)
        if joint is not None and joint.is_end_piece:
            found.setdefault(joint.kind, []).append(joint.at + offsets.get(operation.part, ORIGIN))
    for kind, places in found.items():
        yield Label(at=tuple(places), text=kind_word(kind))
