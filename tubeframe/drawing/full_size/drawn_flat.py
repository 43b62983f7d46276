"""One flat part of a frame at full size: tubes, clamps, and what is marked on them."""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.assembly.diagonals import sub_frame_sides
from tubeframe.drawing.full_size.flat_lines import centreline, hidden_lines
from tubeframe.drawing.full_size.laid_flat import WHOLE, Flat, MarkedTube, Part, Tick
from tubeframe.drawing.full_size.tube_marks import CLEAR, SHARES, TEXT, TubeMarks
from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.labels.free_places import FreePlaces
from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Anchor, Drawn, Text, cut_out, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import Item, box_of
from tubeframe.drawing.model.scene import View
from tubeframe.drawing.views.bodies import chosen_bodies
from tubeframe.drawing.views.drawn_bodies import drawn_bodies
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from tubeframe.assembly.subframes import SubFrame
    from tubeframe.drawing.shapes.plane import Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.parts.piece import Piece

STATION_PAST, BEND_PAST = 25.0, 8.0
"""A mark runs this far past a tube's outline [mm]."""
_TITLE = 20.0
_ABOVE = 40.0


def flat_items(book: PartBook, group: tuple[SubFrame, ...]) -> list[Item]:
    """Draw the first of some equal flat parts in its own plane, under a title for all of them."""
    return marked(flat_of(book, group))


def flat_of(book: PartBook, group: tuple[SubFrame, ...]) -> Flat:
    """Return the first of some equal flat parts in its own plane, with a title for all of them."""
    flat = group[0]
    pieces = [p for p in book.parts.pieces if p.member in flat.members]
    view = View(to_viewer=flat.plane.z, right=flat.plane.x)
    diagonals = _diagonals(book, flat, view)
    length = math.dist(*diagonals[0]) if diagonals else 0.0
    return Flat(
        title=_title(pieces, group),
        view=view,
        tubes=tuple(_marked_tube(book, p) for p in pieces),
        lines=tuple(_drawn(book, pieces, view)),
        diagonals=diagonals,
        diagonal_text=f"both diagonals {format_length(length, book.units)}" if diagonals else "",
    )


def marked(flat: Flat, part: Part = WHOLE, title_width: float = math.inf) -> list[Item]:
    """Draw what lies flat, or one part of it, with its marks and texts, under its title.

    Args:
        flat: what lies flat.
        part: the part that is drawn.
        title_width: how wide a line of the title may be [mm].

    """
    lines = cut_out(flat.lines, part.window)
    diagonals = cut_out([strokes(Pen.DIM, flat.diagonals)], part.window)
    items: list[Item] = [*lines, *diagonals]
    free = FreePlaces(items, CLEAR)
    marks = [TubeMarks(tube, flat.view, part, free) for tube in flat.tubes]
    for draw in (TubeMarks.crosses, TubeMarks.ticks, TubeMarks.places, TubeMarks.names):
        for tube in marks:
            items += draw(tube)
    items += _diagonal_text([s for d in diagonals for s in d.chords()], flat, free)
    return items + _title_notes(items, flat, part, title_width)


def _drawn(book: PartBook, pieces: list[Piece], view: View) -> list[Drawn]:
    """Draw what is seen of the tubes and of the clamps on them, centre lines, and what the clamps hide."""
    tubes = {str(p.id) for p in pieces}
    joints = {str(j.id) for j in book.joints if any(u.tube in tubes for u in j.uses)}
    seen = visible_lines(chosen_bodies(book, tubes | joints), view)
    items = drawn_bodies((v for v in seen if v.key in tubes), Pen.TUBE)
    items += drawn_bodies((v for v in seen if v.key not in tubes), Pen.FITTING)
    items += hidden_lines(book, pieces, view, seen)
    return items + [i for p in pieces for i in centreline(p.path, view)]


def _marked_tube(book: PartBook, piece: Piece) -> MarkedTube:
    """Mark where each bend starts, with its number, and the middle of every clamp, with its distance from end A."""
    bends = [
        Tick(at=bend.start_from_a, past=BEND_PAST, text=f"bend {number}")
        for number, bend in enumerate(piece.bends, start=1)
    ]
    stations = [Tick(at=s.from_a, past=STATION_PAST, text=format_length(s.from_a, book.units)) for s in piece.stations]
    radius = book.outside(piece) / 2.0
    return MarkedTube(piece=piece, radius=radius, label=piece.mark, ticks=(*bends, *stations))


def _title(pieces: list[Piece], group: tuple[SubFrame, ...]) -> tuple[str, ...]:
    marks = Counter(p.mark for p in pieces)
    shown = ", ".join(f"{n} x {m}" for m, n in marks.items())
    title = f"{' '.join(f.id for f in group)}: {shown}"
    return (title, f"x {len(group)}: drawn once, made {len(group)} times") if len(group) > 1 else (title,)


def _title_notes(items: list[Item], flat: Flat, part: Part, width: float) -> list[Item]:
    """Write the title over what is drawn: the first of its lines large, broken where it is too wide."""
    if not flat.title:
        return []
    first, *more = flat.title
    name, colon, made_of = first.partition(":")
    head = first if part.count == 1 else f"{name}, part {part.number} of {part.count}{colon}{made_of}"
    large = (head,) if math.isinf(width) else wrap(head, width, _TITLE)
    lines = [(text, _TITLE) for text in large] + [(text, TEXT) for text in more]
    left, _, _, top = box_of(items)
    notes: list[Item] = []
    y = top + _ABOVE
    if not more:
        y += 1.5 * _TITLE
    for text, height in reversed(lines):
        notes.insert(0, Text(at=(left, y), text=text, height=height))
        y += 1.5 * _TITLE
    return notes


def _diagonals(book: PartBook, flat: SubFrame, view: View) -> tuple[Segment, ...]:
    sides = sub_frame_sides(flat, book.parts)
    if sides is None:
        return ()
    (a, b), (c, d) = ((view.project(p.path.start), view.project(p.path.end)) for p in sides)
    return ((a, d), (c, b))


def _diagonal_text(diagonals: list[Segment], flat: Flat, free: FreePlaces) -> list[Item]:
    """Write on one of the diagonals how long both are, where what is drawn of it is as long as the text."""
    half = text_width(flat.diagonal_text, TEXT) / 2.0
    found = free.put(
        _on_line(line, share, flat.diagonal_text)
        for share in SHARES[1:]
        for line in diagonals
        if min(share, 1.0 - share) * math.dist(*line) >= half
    )
    return [found] if found else []


def _on_line(segment: Segment, share: float, text: str) -> Text:
    """Set a text on a line, to be read from below."""
    (ax, ay), (bx, by) = sorted(segment)
    angle = math.atan2(by - ay, bx - ax)
    off = 2.0 * CLEAR
    at = (ax + (bx - ax) * share - off * math.sin(angle), ay + (by - ay) * share + off * math.cos(angle))
    return Text(at=at, text=text, height=TEXT, anchor=Anchor.CENTRE, angle_deg=math.degrees(angle))
