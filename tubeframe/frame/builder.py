"""Putting a frame together, tube by tube: the one thing here that changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, FrameError, Noted, Problem, Severity
from tubeframe.frame.audit import audit
from tubeframe.frame.caution import Caution, Moment, Signal
from tubeframe.frame.frame import CoverLine, Frame, LengthAlong, Preference, Supply
from tubeframe.frame.group import Group
from tubeframe.frame.load import Cover
from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.frame.opening import Opening
from tubeframe.frame.panel import Panel, PanelUse, Pocket
from tubeframe.frame.snap import snapped
from tubeframe.frame.wall import Wall
from tubeframe.geometry.path import Path, line
from tubeframe.geometry.placement import Placement

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.job import Job
    from tubeframe.frame.load import Load, Support
    from tubeframe.frame.size import Size
    from tubeframe.geometry.vector import Vec


class FrameBuilder:
    """Gathers the parts of a frame in the order they are stated; ties later go to what is stated first."""

    def __init__(self, *, name: str, tube: str, length_along: LengthAlong = LengthAlong.X) -> None:
        """Start a frame of a tube size."""
        self._name = name
        self._tube = tube
        self._length_along = length_along
        self._members: list[Member] = []
        self._panels: list[Panel] = []
        self._sized_by: tuple[MemberId, ...] = ()
        self._preferences: list[Preference] = []
        self._supports: list[Support] = []
        self._loads: list[Load] = []
        self._supplies: list[Supply] = []
        self._cautions: list[Caution] = []
        self._facts: list[CoverLine] = []
        self._findings: list[Finding] = []
        self._walls: list[Wall] = []
        self._passing: list[tuple[MemberId, MemberId]] = []
        self._cover: Cover | None = None
        self._groups: list[Group] = []
        self._openings: list[Opening] = []

    def tube(
        self,
        name: str,
        path: Path | tuple[Vec, Vec],
        *,
        ends: tuple[EndKind, EndKind] = (EndKind.JOINT, EndKind.JOINT),
        split_at: Sequence[float] = (),
        tube: str = "",
        passes: Sequence[MemberId] = (),
    ) -> MemberId:
        """Add a whole tube along a centreline, or straight between two points [mm].

        It is not tied to the tubes that it `passes` a coupler's offset away.
        """
        if any(m.id == name for m in self._members):
            raise FrameError(Problem(where=name, key="id", message="two tubes have this name", remedy="rename one"))
        made = Member(
            id=MemberId(name),
            tube=tube or self._tube,
            path=path if isinstance(path, Path) else line(*path),
            end_a=ends[0],
            end_b=ends[1],
            split_at=tuple(split_at),
        )
        self._members.append(made)
        self._passing += [(made.id, other) for other in passes]
        return made.id

    def panel(
        self,
        name: str,
        use: PanelUse,
        *,
        corner: Vec | Placement,
        length: float,
        width: float,
        thickness: float,
        material: str,
        pockets: Sequence[Pocket] = (),
    ) -> None:
        """Add a board (all [mm]).

        `corner` is its underside's corner of least x and y when it lies flat with its edges along x and y; anywhere
        else the underside's frame, edges along that frame's x and y.
        """
        self._panels.append(
            Panel(
                id=name,
                use=use,
                placement=corner if isinstance(corner, Placement) else Placement(origin=corner),
                length=length,
                width=width,
                thickness=thickness,
                material=material,
                pockets=tuple(pockets),
            )
        )

    def sized_by(self, members: Sequence[MemberId] | Opening) -> None:
        """Say which members carry the asked size, or which bound an opening that is dimensioned."""
        if isinstance(members, Opening):
            self._openings.append(members)
        else:
            self._sized_by = tuple(members)

    def prefer(self, at: Vec, kind: str) -> None:
        """Say which kind of fitting is wanted at a place [mm]."""
        self._preferences.append(Preference(at=at, kind=kind))

    def group(self, name: str, members: Sequence[MemberId], turns_on: MemberId) -> None:
        """Say that tubes are one rigid part, which turns on another tube."""
        self._groups.append(Group(name=name, members=tuple(members), turns_on=turns_on))

    def hold(self, by: Support | Wall) -> None:
        """Add a support, or a wall that the frame stands against."""
        if isinstance(by, Wall):
            self._walls.append(by)
        else:
            self._supports.append(by)

    def carry(self, load: Load | Cover) -> None:
        """Add a load, or say which tubes a sheet lies over, for wind and snow."""
        if isinstance(load, Cover):
            self._cover = load
        else:
            self._loads.append(load)

    def supply(self, item: str, quantity: int, unit: str = "pcs", job: Job | None = None) -> None:
        """Add something to buy, and say in which work it is used."""
        self._supplies.append(Supply(item=item, quantity=quantity, unit=unit, job=job))

    def caution(self, signal: Signal, before: Moment, text: str) -> None:
        """Add a warning, before the work it belongs to."""
        self._cautions.append(Caution(signal=signal, before=before, text=text))

    def fact(self, label: str, text: str, *sizes: Size) -> None:
        """Add a line for the cover; each {} in it stands for one of the sizes, which follow the frame."""
        self._facts.append(CoverLine(label=label, text=text, sizes=sizes))

    def find(self, code: str, severity: Severity, where: str, message: str, remedy: str) -> None:
        """Add a finding."""
        fact = Noted(where=where, message=message, remedy=remedy)
        self._findings.append(Finding(code=code, severity=severity, subjects=(), fact=fact))

    def build(self) -> Frame:
        """Freeze the frame and look it over."""
        frame = Frame(
            name=self._name,
            members=tuple(self._members),
            panels=tuple(self._panels),
            length_along=self._length_along,
            sized_by=self._sized_by,
            preferences=tuple(self._preferences),
            supports=tuple(self._supports),
            loads=tuple(self._loads),
            supplies=tuple(self._supplies),
            cautions=tuple(self._cautions),
            facts=tuple(self._facts),
            findings=tuple(self._findings),
            walls=tuple(self._walls),
            passing=tuple(self._passing),
            cover=self._cover,
            groups=tuple(self._groups),
            openings=tuple(self._openings),
        )
        return audit(snapped(frame))
