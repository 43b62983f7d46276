"""The design: everything that is known of a frame, frozen, and the stages that lead to it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Literal, overload

from tubeframe.assembly.plan import Assembly, assemble
from tubeframe.fabrication.make import Fabrication, fabricate
from tubeframe.frame.frame import LengthAlong
from tubeframe.geometry.extent import Extent, joined, of_convex, of_tube
from tubeframe.joints.resolve import jointed
from tubeframe.parts.marks import make_parts
from tubeframe.structure.verdict import finding

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tubeframe.catalog.conditions import Conditions
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Jointed, JointId
    from tubeframe.parts.piece import Parts
    from tubeframe.structure.shape import Shape
    from tubeframe.structure.verdict import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """What a design was made from: enough to make it again.

    `parameters` and `shop` (the user's own workshop table) are plain values as they are written to a file; `file` names
    the file that it came from, where it is no template of ours.
    """

    template: str
    parameters: Mapping[str, Any]
    shop: Mapping[str, Any]
    file: str = ""

    @property
    def named(self) -> str:
        """What has to be named to build it again."""
        return self.file or self.template


class Stage(StrEnum):
    """How far a design is made."""

    PARTS = "parts"
    FABRICATION = "fabrication"


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A frame, what it was made from and in which shop, its joints and parts."""

    source: Source
    workshop: Workshop
    frame: Frame
    jointed: Jointed
    parts: Parts

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything that was found so far, in the order of the stages."""
        return self.frame.findings + self.jointed.findings

    @property
    def overall(self) -> Extent:
        """The asked size: the box of the tubes that carry it from the floor up, its top also over the boards [mm]."""
        names = self.frame.sized_by or tuple(m.id for m in self.frame.members)
        tubes = joined(self._tube_boxes(names))
        top = max([tubes.high.z, *(of_convex(p.box).high.z for p in self.frame.panels)])
        return Extent(low=_at_height(tubes.low, min(0.0, tubes.low.z)), high=_at_height(tubes.high, top))

    @property
    def sizes(self) -> tuple[float, float, float]:
        """Width, length and height of the asked size [mm]."""
        size = self.overall.size
        along_x = self.frame.length_along is LengthAlong.X
        return (size.y, size.x, size.z) if along_x else (size.x, size.y, size.z)

    @property
    def extent(self) -> Extent:
        """The box of everything [mm]."""
        boxes = [*self._tube_boxes(tuple(m.id for m in self.frame.members))]
        boxes += [of_convex(piece) for j in self.jointed.joints for piece in j.body]
        boxes += [of_convex(p.box) for p in self.frame.panels]
        return joined(boxes)

    @property
    def mass(self) -> float:
        """Mass of tubes and boards [kg]; what fittings weigh is not known."""
        catalog = self.workshop.catalog
        tubes = sum(p.cut_length * catalog.tube(p.size).mass_per_length for p in self.parts.pieces)
        boards = sum(
            p.length * p.width * p.thickness * catalog.material(p.material).density * 1e-9 for p in self.frame.panels
        )
        return tubes + boards

    def joint(self, joint: JointId) -> Joint:
        """Return the joint of that id."""
        return next(j for j in self.jointed.joints if j.id == joint)

    def _tube_boxes(self, members: Iterable[str]) -> list[Extent]:
        wanted = set(members)
        return [
            of_tube(p.path, self.workshop.catalog.tube(p.size).outside) for p in self.parts.pieces if p.member in wanted
        ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Design(Draft):
    """A draft, its order of assembly, how it is fabricated, and whether it holds; no verdicts where nobody looked."""

    assembly: Assembly
    fabrication: Fabrication
    verdicts: tuple[Verdict, ...] = ()
    shapes: tuple[Shape, ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything that was found, in the order of the stages."""
        failing = tuple(f for v in self.verdicts if (f := finding(v)))
        earlier = self.frame.findings + self.jointed.findings
        return earlier + self.assembly.findings + self.fabrication.findings + failing


@overload
def make_design(
    frame: Frame, workshop: Workshop, source: Source, *, until: Literal[Stage.FABRICATION] = Stage.FABRICATION
) -> Design: ...
@overload
def make_design(frame: Frame, workshop: Workshop, source: Source, *, until: Literal[Stage.PARTS]) -> Draft: ...
def make_design(frame: Frame, workshop: Workshop, source: Source, *, until: Stage = Stage.FABRICATION) -> Draft:
    """Run the stages on a frame: joints, parts, fabrication; or stop with the parts, which takes no stick plan."""
    joints = jointed(frame, workshop)
    draft = Draft(
        source=source,
        workshop=workshop,
        frame=frame,
        jointed=joints,
        parts=make_parts(frame, joints, workshop),
    )
    if until is Stage.PARTS:
        return draft
    return Design(
        source=source,
        workshop=workshop,
        frame=frame,
        jointed=joints,
        parts=draft.parts,
        assembly=assemble(frame, joints, draft.parts, workshop),
        fabrication=fabricate(frame, joints, draft.parts, workshop),
    )


def with_verdicts(design: Design, conditions: Conditions) -> Design:
    """Look whether a design holds, under what is asked of it."""
    from tubeframe.structure.check import checked  # it loads the solver

    found = checked(design.frame, design.jointed, design.workshop, conditions)
    return replace(design, verdicts=found.verdicts, shapes=found.shapes)


def _at_height(point: Vec, z: float) -> Vec:
    return type(point)(point.x, point.y, z)
