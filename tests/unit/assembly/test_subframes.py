from __future__ import annotations

import math

import pytest

from tests.bays import rack_of
from tests.building import design_of_text
from tubeframe.assembly import subframes
from tubeframe.assembly.subframes import sub_frames
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.drawing.drawings import Drawings
from tubeframe.geometry.vector import Vec
from tubeframe.joints.resolve import jointed

SPLAYED = (
    {"id": "beam", "path": [[0, 0, 800], [1200, 0, 800]], "ends": ["cap", "cap"]},
    {"id": "leg.1", "path": [[100, 0, 800], [100, -300, 0]]},
    {"id": "leg.2", "path": [[1100, 0, 800], [1100, -300, 0]]},
    {"id": "rail", "path": [[100, -150, 400], [1100, -150, 400]]},
)
"""One side of a sawhorse: legs that spread 300 mm on a height of 800 mm, and the rail between them at half height."""


def test_a_slanted_sub_frame_lies_in_its_plane_and_is_drawn_at_full_size():
    """The plane holds x and the legs' way (0, -3, -8): its normal is their vector product over its length."""
    design = design_of_text(*SPLAYED)
    (flat,) = design.assembly.flats

    assert flat.members == ("beam", "leg.1", "leg.2", "rail")
    assert not flat.is_upright
    length = math.hypot(3, 8)
    assert tuple(flat.plane.x) == pytest.approx((1, 0, 0))
    assert tuple(flat.plane.y) == pytest.approx((0, 3 / length, 8 / length))
    assert tuple(flat.plane.z) == pytest.approx((0, -8 / length, 3 / length))
    for axes in (flat.plane.x.dot(flat.plane.y), flat.plane.y.dot(flat.plane.z), flat.plane.z.dot(flat.plane.x)):
        assert axes == pytest.approx(0, abs=1e-12)
    texts = [item.text for item in Drawings(design).layout.items if hasattr(item, "text")]
    assert any(t.startswith("S1: ") for t in texts)


def test_a_sub_frame_is_drawn_at_full_size_as_far_apart_as_its_tubes_are():
    """In its own plane the rail is half of the legs' slant from the beam: 0.5 hypot(300, 800) = 427.2 mm."""
    (flat,) = design_of_text(*SPLAYED).assembly.flats

    seen = flat.plane.seen(Vec(600, -150, 400) - flat.plane.origin)

    assert (seen.y, seen.z) == pytest.approx((-math.hypot(300, 800) / 2, 0), abs=1e-9)


@pytest.mark.parametrize(("off", "members"), [(0.499, 4), (-0.499, 4), (0.501, 3), (-0.501, 3)])
def test_a_tube_is_in_the_plane_within_half_a_millimetre(off, members):
    """Two posts and a rail span the plane; the foot of a third post stands off it."""
    design = design_of_text(
        {"id": "left", "path": [[0, 0, 0], [0, 0, 900]]},
        {"id": "right", "path": [[1000, 0, 0], [1000, 0, 900]]},
        {"id": "rail", "path": [[0, 0, 600], [1000, 0, 600]]},
        {"id": "prop", "path": [[500, 0, 600], [500, off, 0]]},
    )

    assert [len(f.members) for f in design.assembly.flats] == [members]


IN_ONE_PLANE = {"id": "hook", "path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 0, 300]]}
IN_TWO_PLANES = {"id": "arm", "path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 600, 900]]}


def test_a_tube_bent_in_two_planes_is_no_sub_frame():
    assert [f.members for f in design_of_text(IN_ONE_PLANE).assembly.flats] == [("hook",)]
    assert design_of_text(IN_TWO_PLANES).assembly.flats == ()


@pytest.mark.parametrize(("off", "count"), [(0.4, 1), (0.6, 0)])
def test_a_bent_tube_is_flat_within_half_a_millimetre(off, count):
    """The last straight, bent out of the plane of the first bend by so much at its end."""
    design = design_of_text({"id": "hook", "path": [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, off, 300]]})

    assert len(design.assembly.flats) == count


def test_a_tube_bent_in_two_planes_has_no_outline_at_full_size_but_its_strip():
    """Straight, as it is marked from its rough end A, 50.8 before the cut one; a foot takes 3.175.

    The first bend starts 900 - 140.69 - 3.175 from the cut end; the second ends two arcs of 221.0 and 318.6 on.
    """
    items = Drawings(design_of_text(IN_TWO_PLANES)).layout.items
    texts = [item.text for item in items if hasattr(item, "text")]

    assert not any(t.startswith("S1") for t in texts)
    assert [t for t in texts if "T1" in t] == ["T1 x 1"]
    assert [t for t in texts if " bend " in t] == ["807 mm bend 1, hook A", "1568 mm bend 2, hook B, turn 90°"]
    assert len([t for t in texts if t.endswith(" trim")]) == 2


def _tried(monkeypatch: pytest.MonkeyPatch, bays: int) -> tuple[int, int]:
    frame, count = rack_of(bays), 0
    joints = jointed(frame, generic_workshop())
    real = subframes.lies_in

    def counted(*arguments):
        nonlocal count
        count += 1
        return real(*arguments)

    monkeypatch.setattr(subframes, "lies_in", counted)
    sub_frames(frame, joints)
    monkeypatch.setattr(subframes, "lies_in", real)
    return len(frame.members), count


def test_the_work_of_finding_sub_frames_grows_with_the_tubes(monkeypatch):
    """Tries of a member for a plane, from 66 to 244 tubes: exponent at most 1.2."""
    (tubes, tries), (more_tubes, more_tries) = _tried(monkeypatch, 8), _tried(monkeypatch, 33)

    assert math.log(more_tries / tries) / math.log(more_tubes / tubes) <= 1.2
