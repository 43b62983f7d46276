"""No two solids of different parts share room that no error tells of; and what an error tells of do share some.

OpenCASCADE cuts every two solids whose boxes meet. arris, which shares nothing with it, reads the written STEP file and
judges every two that no error names: there the claim is that they are clear. (It takes ten seconds for two fittings.)

By design: a fitting's shell is around its own tubes; envelopes may come 1 mm into each other, and 0.5 mm into tubes and
boards, a cap's or foot's thin shell by its own 1/16 in more. Pared by that all round they are apart, so what they share
lies between two planes no farther apart than that times the square root of 3, for the corner of a brick.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import Phase, given, settings

from tests.outputs.shared_room import ByArris, by_opencascade, near_pairs_of
from tests.properties.drawn_frames import WORKSHOP, drawn_frames
from tubeframe.errors import Severity
from tubeframe.geometry.tolerance import COUPLER_MM
from tubeframe.joints.resolve import jointed
from tubeframe.joints.things import TOUCH_MM
from tubeframe.parts.marks import make_parts
from tubeframe.solids.model import build_model

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Jointed

_LEAST = 1.0
"""Solids that share less share nothing [mm3]."""
_TOLD = {"J-fouls", "J-body", "J-panel", "J-panel-fitting", "J-panel-panel"}


class Names:
    """Who is who: the names by which findings tell of a part, and how deep others may come into it."""

    def __init__(self, found: Jointed, frame: Frame) -> None:
        self.tubes = {t.id for t in found.tubes}
        self.joints = {j.id: j for j in found.joints}
        self.boards = {p.id for p in frame.panels}
        self.errors = [frozenset(f.subjects) for f in found.findings if f.severity is Severity.ERROR]

    def of(self, part: str) -> frozenset[str]:
        return frozenset(u.tube for u in self.joints[part].uses) if part in self.joints else frozenset((part,))

    def is_own(self, one: str, other: str) -> bool:
        """Whether one is a fitting on the other."""
        return any(p in self.joints and q in self.of(p) for p, q in ((one, other), (other, one)))

    def is_told(self, one: str, other: str) -> bool:
        """Whether an error names both."""
        return any(e & self.of(one) and e & self.of(other) for e in self.errors)

    def may_share(self, one: str, other: str) -> float:
        """How thick what they share by design may be at most [mm]."""
        fittings = [self.joints[p] for p in (one, other) if p in self.joints]
        deep = TOUCH_MM if fittings else COUPLER_MM
        if len(fittings) == 2:
            deep += sum(j.fitting.end_shell for j in fittings if j.is_end_piece)
        return deep * math.sqrt(3.0)


def _check(frame: Frame) -> None:
    found = jointed(frame, WORKSHOP)
    model = build_model(make_parts(frame, found, WORKSHOP), found.joints, WORKSHOP.catalog, name="drawn")
    names = Names(found, frame)
    pairs = {k: v for k, v in near_pairs_of(model).items() if not names.is_own(*k)}
    shared = {k: by_opencascade(*v) for k, v in pairs.items()}
    for pair in pairs:
        free = shared[pair].volume <= _LEAST or shared[pair].thickness <= names.may_share(*pair)
        assert free or names.is_told(*pair), (pair, shared[pair])
    for finding in (f for f in found.findings if f.code in _TOLD):
        mine = [s.volume for k, s in shared.items() if names.of(k[0]) | names.of(k[1]) <= frozenset(finding.subjects)]
        assert max(mine) > _LEAST, finding
    untold = [pair for pair in pairs if not names.is_told(*pair)]
    other_kernel = ByArris(model, {name for pair in untold for name in pair})
    for pair in untold:
        volume = other_kernel.shared(pair)
        assert volume is None or volume == pytest.approx(shared[pair].volume, abs=_LEAST), pair


_FEW = settings(max_examples=20, deadline=None, derandomize=True, database=None, phases=[Phase.generate])
_MANY = settings(_FEW, max_examples=120)


@given(frame=drawn_frames())
@_FEW
def test_no_solids_share_room_that_no_error_tells_of(frame):
    _check(frame)


@pytest.mark.slow
@given(frame=drawn_frames())
@_MANY
def test_no_solids_share_room_in_many_frames(frame):
    _check(frame)
