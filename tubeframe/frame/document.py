"""A frame as plain values: what a text frame holds. No code, safe to open from anybody."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.catalog.ranges import MOST_BENDS, MOST_MEMBERS
from tubeframe.catalog.user_table import UserTable
from tubeframe.errors import FrameError, InputError, Problem, Problems, nearest_name, shown
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.frame import LengthAlong
from tubeframe.frame.load_document import direction, read_statics
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.notes_document import read_notes
from tubeframe.frame.opening_document import read_openings
from tubeframe.frame.panel_document import read_panel, read_point
from tubeframe.frame.path_document import Bendable, read_path
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
    problems = Problems()
    units = frame_units(document)
    table = UserTable(where, document, problems, units)
    if table.take("schema") != SCHEMA:
        given = f" ({shown(document['schema'])})" if "schema" in document else ""
        table.wrong("schema", f"this is not a text frame of ours{given}", f"write schema = '{SCHEMA}'")
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
        name = table.name("name", "frame")
        self._frame = FrameBuilder(name=name, tube=self._tube, length_along=LengthAlong(along))
        self._paths: dict[str, Path] = {}
        self._boards: list[str] = []

    def read(self) -> Frame | None:
        """Read all; None when something is wrong."""
        self._members(self._member_rows())
        sizing = self._table.some_of("sized_by", self._paths, "member")
        if sizing:
            self._frame.sized_by([MemberId(n) for n in sizing])
        for row in self._table.inner_rows("joint"):
            self._joint(row)
        for row in self._table.inner_rows("panel"):
            board = read_panel(row, self._frame, self._workshop)
            if board in self._boards or board in self._paths:
                row.wrong("id", f"two parts are called {shown(board)}", "rename one")
            self._boards.append(board)
        for row in self._table.inner_rows("wall"):
            self._wall(row)
        for row in self._table.inner_rows("group"):
            self._group(row)
        read_openings(self._table, self._frame, tuple(self._paths))
        read_statics(self._table, self._frame, tuple(self._paths), tuple(self._boards))
        read_notes(self._table, self._frame, (*self._paths, *self._boards))
        if self._problems:
            return None
        try:
            return self._frame.build()
        except FrameError as error:
            for problem in error.problems:
                self._table.wrong(problem.key, problem.message, problem.remedy)
            return None

    def _member_rows(self) -> list[UserTable]:
        before = len(self._problems)
        rows = self._table.inner_rows("member", MOST_MEMBERS)
        if not rows and len(self._problems) == before:
            self._table.wrong("member", "there is no tube", "write [[member]] with an id and path = [[0, 0, 0], ...]")
        return rows

    def _members(self, rows: list[UserTable]) -> None:
        tubes = [row.one_of("tube", self._tubes, self._tube) for row in rows]
        read = [(row, row.name("id"), self._path(row, tube), tube) for row, tube in zip(rows, tubes, strict=True)]
        self._paths = {name: path for _, name, path, _ in read if path is not None}
        for row, name, path, tube in read:
            stated = row.take("ends")
            splits = self._splits(row)
            passed = row.some_of("passes", self._paths, "tube") or []
            row.close()
            if path is None or not name:
                continue
            ends = self._ends(row, name, path, stated)
            if any(not 0.0 < p < path.length for p in splits):
                row.wrong(
                    "split_at", f"a place lies off the tube, which is {format_exact(path.length, row.units)} long"
                )
            others = [MemberId(other) for other in passed]
            try:
                self._frame.tube(name, path, ends=ends, split_at=splits, tube=tube, passes=others)
            except FrameError as error:
                row.wrong("id", f"two tubes are called {shown(name)}", error.problems[0].remedy)

    def _splits(self, row: UserTable) -> list[float]:
        """Take the places where a tube is parted [mm]."""
        places = row.take("split_at")
        if places is None:
            return []
        if not isinstance(places, list) or len(places) > MOST_BENDS:
            row.wrong("split_at", f"{shown(places)} is not a list of up to {MOST_BENDS} places", "write [40, 80]")
            return []
        read = [row.as_length(f"split_at[{n}]", v) for n, v in enumerate(places, start=1)]
        return [p for p in read if p is not None]

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
        ends = [EndKind(e) for e in stated if e in known] if isinstance(stated, list) else []
        if not isinstance(stated, list) or len(stated) != 2 or len(ends) != 2:
            wrong = next((e for e in stated if e not in known), None) if isinstance(stated, list) else None
            remedy = nearest_name(wrong, known) if isinstance(wrong, str) else "write ends = ['foot', 'joint']"
            row.wrong("ends", f"two of {', '.join(known)} are needed, not {shown(stated)}", remedy)
            return (EndKind.OPEN, EndKind.OPEN)
        return (ends[0], ends[1])

    def _left_out(self, name: str, point: Vec) -> EndKind:
        if any(nearest_on(p, point)[1] <= MEET_MM for other, p in self._paths.items() if other != name):
            return EndKind.JOINT
        return EndKind.FOOT if abs(point.z) <= _FLOOR_MM else EndKind.CAP

    def _joint(self, row: UserTable) -> None:
        at = read_point(row, "at", row.take("at"))
        stated = "kind" in row.names()
        kind = row.one_of("kind", tuple(k.key for k in self._workshop.catalog.kinds), "")
        row.close()
        if not stated:
            row.wrong("kind", "which kind of fitting?", "see tubeframe fittings")
        if at is not None and kind:
            self._frame.prefer(at, kind)

    def _wall(self, row: UserTable) -> None:
        name, at, toward = row.name("id"), read_point(row, "at", row.take("at")), direction(row.take("toward"))
        row.close()
        if toward is None:
            row.wrong("toward", "a wall needs the direction from it toward the frame", "write toward = [0, -1, 0]")
        elif at is not None:
            self._frame.hold(Wall(id=name, at=at, toward=toward.unit))

    def _group(self, row: UserTable) -> None:
        """Read tubes that turn together on another one."""
        name, post = row.name("id"), row.name("turns_on")
        stated = "members" in row.names()
        names = row.some_of("members", self._paths, "tube")
        row.close()
        if post and post not in self._paths:
            row.wrong("turns_on", f"there is no tube {shown(post)}", nearest_name(post, self._paths))
        elif post and post in (names or []):
            row.wrong("turns_on", f"{shown(post)} is a tube of the group itself", "name the post that it turns on")
        elif not names and not (stated and names is None):
            row.wrong("members", "a group needs tubes", "write members = ['rail.top', 'rail.bottom']")
        elif names:
            self._frame.group(name, [MemberId(n) for n in names], MemberId(post))
