"""A frame as plain values: what a text frame holds. No code, safe to open from anybody."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.catalog.rows import UserTable
from tubeframe.errors import FrameError, InputError, Problem, nearest_name
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.frame import LengthAlong
from tubeframe.frame.load_document import direction, read_statics
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.panel_document import read_panel, read_point
from tubeframe.frame.path_document import Bendable, read_path
from tubeframe.frame.size import Side, Size, given
from tubeframe.frame.wall import Wall
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.tolerance import MEET_MM
from tubeframe.geometry.units import Units, format_exact

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec

SCHEMA = "tubeframe.frame/1"
_FLOOR_MM = 0.01


def frame_units(document: Mapping[str, Any]) -> Units:
    """Return the units that bare numbers of a text frame are in; inches when it does not say."""
    return Units.MILLIMETRE if document.get("units") == Units.MILLIMETRE.value else Units.INCH


def frame_from_document(document: Mapping[str, Any], workshop: Workshop, where: str) -> Frame:
    """Build a frame from plain values.

    Raises:
        InputError: with every unknown key and wrong value, each with its place.

    """
    problems: list[Problem] = []
    units = frame_units(document)
    table = UserTable(where, document, problems, units)
    if table.take("schema") != SCHEMA:
        table.wrong("schema", f"this is not a text frame of ours ({document.get('schema')!r})", f"write '{SCHEMA}'")
    table.one_of("units", tuple(u.value for u in Units), units.value)
    reader = _Reader(table, workshop, problems)
    frame = reader.read()
    table.close()
    if problems or frame is None:
        raise InputError(*problems)
    return frame


class _Reader:
    """Reads the tables of a text frame, one after the other, into a builder."""

    def __init__(self, table: UserTable, workshop: Workshop, problems: list[Problem]) -> None:
        self._table = table
        self._problems = problems
        self._workshop = workshop
        self._tubes = tuple(t.key for t in workshop.catalog.tubes)
        self._tube = table.one_of("tube", self._tubes, workshop.tube)
        self._radius = table.length("bend_radius")
        along = table.one_of("length_along", tuple(a.value for a in LengthAlong), LengthAlong.X.value)
        name = table.text("name", "frame")
        self._frame = FrameBuilder(name=name, tube=self._tube, length_along=LengthAlong(along))
        self._paths: dict[str, Path] = {}
        self._boards: list[str] = []

    def read(self) -> Frame | None:
        """Read all; None when something is wrong."""
        self._members(self._table.inner_rows("member"))
        self._sized_by(self._table.take("sized_by"))
        for row in self._table.inner_rows("joint"):
            at = read_point(row, "at", row.take("at"))
            kind = row.one_of("kind", tuple(k.key for k in self._workshop.catalog.kinds), "")
            row.close()
            if at is not None and kind:
                self._frame.prefer(at, kind)
        for row in self._table.inner_rows("panel"):
            self._boards.append(read_panel(row, self._frame, self._workshop))
        for row in self._table.inner_rows("wall"):
            self._wall(row)
        for row in self._table.inner_rows("group"):
            self._group(row)
        read_statics(self._table, self._frame, tuple(self._paths), tuple(self._boards))
        self._words()
        if self._problems:
            return None
        try:
            return self._frame.build()
        except FrameError as error:
            self._problems += error.problems
            return None

    def _members(self, rows: list[UserTable]) -> None:
        tubes = [row.one_of("tube", self._tubes, self._tube) for row in rows]
        read = [(row, row.text("id"), self._path(row, tube), tube) for row, tube in zip(rows, tubes, strict=True)]
        self._paths = {name: path for _, name, path, _ in read if path is not None}
        for row, name, path, tube in read:
            stated = row.take("ends")
            splits = row.take("split_at")
            passed = self._passed(row)
            places = [row.as_length(f"split_at[{n}]", v) for n, v in enumerate(splits or [], start=1)]
            row.close()
            if path is None or not name:
                continue
            ends = self._ends(row, name, path, stated)
            kept = [p for p in places if p is not None]
            if any(not 0.0 < p < path.length for p in kept):
                row.wrong(
                    "split_at", f"a place lies off the tube, which is {format_exact(path.length, row.units)} long"
                )
            try:
                self._frame.tube(name, path, ends=ends, split_at=kept, tube=tube, passes=passed)
            except FrameError as error:
                row.wrong("id", f"two tubes are called '{name}'", error.problems[0].remedy)

    def _passed(self, row: UserTable) -> list[MemberId]:
        """Take the tubes that this one passes a coupler's offset away without being tied to them."""
        others = [str(other) for other in row.take("passes") or []]
        for other in (o for o in others if o not in self._paths):
            row.wrong("passes", f"there is no tube '{other}'", nearest_name(other, self._paths))
        return [MemberId(other) for other in others if other in self._paths]

    def _path(self, row: UserTable, tube: str) -> Path | None:
        own, shoe = self._bend_radius(tube), self._workshop.bend_radius(tube)
        return read_path(row, Bendable(catalog=self._workshop.catalog, tube=tube, radius=own, shoe=shoe))

    def _bend_radius(self, tube: str) -> float:
        """Return the radius of bends without their own [mm]: the file's for the file's tube, else the bender's."""
        if self._radius is not None and tube == self._tube:
            return self._radius
        return self._workshop.bend_radius(tube)

    def _ends(self, row: UserTable, name: str, path: Path, stated: object) -> tuple[EndKind, EndKind]:
        """Take the ends as stated; those left out go into a joint where a tube is, else to a foot or a cap."""
        if stated is None:
            return (self._left_out(name, path.start), self._left_out(name, path.end))
        known = [k.value for k in EndKind]
        if not isinstance(stated, list) or len(stated) != 2 or any(e not in known for e in stated):
            wrong = next((str(e) for e in stated if e not in known), "") if isinstance(stated, list) else ""
            row.wrong("ends", f"two of {', '.join(known)} are needed", nearest_name(wrong, known) if wrong else "")
            return (EndKind.OPEN, EndKind.OPEN)
        return (EndKind(stated[0]), EndKind(stated[1]))

    def _left_out(self, name: str, point: Vec) -> EndKind:
        if any(nearest_on(p, point)[1] <= MEET_MM for other, p in self._paths.items() if other != name):
            return EndKind.JOINT
        return EndKind.FOOT if abs(point.z) <= _FLOOR_MM else EndKind.CAP

    def _sized_by(self, names: object) -> None:
        if names is None:
            return
        if not isinstance(names, list) or any(n not in self._paths for n in names):
            self._table.wrong("sized_by", f"{names!r} are not all members", f"known: {', '.join(self._paths)}")
            return
        self._frame.sized_by([MemberId(n) for n in names])

    def _wall(self, row: UserTable) -> None:
        name, at, toward = row.text("id"), read_point(row, "at", row.take("at")), direction(row.take("toward"))
        row.close()
        if toward is None:
            row.wrong("toward", "a wall needs the direction from it toward the frame", "write toward = [0, -1, 0]")
        elif at is not None:
            self._frame.hold(Wall(id=name, at=at, toward=toward.unit))

    def _group(self, row: UserTable) -> None:
        """Read tubes that turn together on another one."""
        name, members, post = row.text("id"), row.take("members"), row.text("turns_on")
        row.close()
        names = [str(m) for m in members] if isinstance(members, list) else []
        unknown = [n for n in (*names, post) if n not in self._paths]
        for other in unknown:
            row.wrong("members", f"there is no tube '{other}'", nearest_name(other, self._paths))
        if not names:
            row.wrong("members", "a group needs tubes", "write members = ['rail.top', 'rail.bottom']")
        elif post in names:
            row.wrong("turns_on", f"'{post}' is a tube of the group itself", "name the post that it turns on")
        elif not unknown:
            self._frame.group(name, [MemberId(n) for n in names], MemberId(post))

    def _words(self) -> None:
        """Read what goes with a frame that a template laid out: things to buy, cautions, facts."""
        for row in self._table.inner_rows("supply"):
            self._frame.supply(row.text("item"), int(row.number("quantity")), row.text("unit", "pcs"))
            row.close()
        for row in self._table.inner_rows("caution"):
            signal = row.one_of("signal", tuple(s.value for s in Signal), Signal.CAUTION.value)
            before = row.one_of("before", tuple(m.value for m in Moment), Moment.USE.value)
            self._frame.caution(Signal(signal), Moment(before), row.text("text"))
            row.close()
        for row in self._table.inner_rows("fact"):
            self._frame.fact(row.text("label"), row.text("text"), *self._sizes(row))
            row.close()

    def _sizes(self, row: UserTable) -> list[Size]:
        """Read the sizes that a line's words are made with."""
        found = []
        for size in row.inner_rows("sizes"):
            length = size.length(Side.GIVEN.value)
            if length is not None:
                found.append(given(length))
            for side in (s for s in Side if s is not Side.GIVEN):
                names = size.take(side.value)
                if names is not None:
                    found.append(Size(side=side, names=tuple(str(n) for n in names)))
            size.close()
        return found
