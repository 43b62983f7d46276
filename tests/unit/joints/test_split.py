"""Tubes longer than a stick: setbacks, feet and what the bender needs all count. Sticks are 120 in."""

from __future__ import annotations

import pytest

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.design import Source, Stage, make_design
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import INCH_MM
from tubeframe.joints.facts import BadSplit, SplitFault, TooShort

WORKSHOP = generic_workshop()
OUT = ("cap", "cap")


def _draft(*members):
    rows = [{"id": name, "path": path, "ends": list(ends), **more} for name, path, ends, more in members]
    document = {"schema": "tubeframe.frame/1", "name": "test", "units": "in", "tube": "emt-3/4", "member": rows}
    frame = frame_from_document(document, WORKSHOP, "test.toml")
    return make_design(frame, WORKSHOP, Source(template="t", parameters={}, shop={}), until=Stage.PARTS)


def _between_posts(span, **more):
    """A rail square between two posts, `span` [in] centre to centre."""
    posts = [(name, [[x, 0, 0], [x, 0, 40]], ("foot", "cap"), {}) for name, x in (("left", 0), ("right", span))]
    return _draft(*posts, ("rail", [[0, 0, 30], [span, 0, 30]], ("joint", "joint"), more))


def _cuts(draft, member="rail"):
    return [p.cut_length / INCH_MM for p in draft.parts.pieces if p.member == member]


def _errors(draft):
    return [f.code for f in draft.findings if f.severity is Severity.ERROR]


@pytest.mark.parametrize(("span", "parts"), [(121.0, 1), (121.04, 1), (121.2, 2)])
def test_setbacks_count(span, parts):
    """A tee's setback is D/2 + 1/16 = 0.5235 in: 121 - 1.047 = 119.953 comes out of a stick, 121.2 does not."""
    draft = _between_posts(span)

    assert len(_cuts(draft)) == parts
    assert sum(_cuts(draft)) == pytest.approx(span - 2 * 0.5235)
    assert _errors(draft) == []


def test_a_foot_counts():
    """A foot of 1/8 in is taken off: a post of 120 1/16 in to the floor is cut 119 15/16."""
    draft = _draft(("post", [[0, 0, 0], [0, 0, 120.0625]], ("foot", "cap"), {}))

    assert _cuts(draft, "post") == [pytest.approx(119.9375)]


def test_no_stub_is_left():
    """122 in of tube: 120 + 2 would leave a stub; the last part is a foot long at least."""
    draft = _draft(("bar", [[0, 0, 10], [122, 0, 10]], OUT, {}))

    assert len(_cuts(draft, "bar")) == 2
    assert min(_cuts(draft, "bar")) >= 12.0 - 1e-6


def _u_frame(leg, width=26.0):
    path = [[0, 0, 0], {"at": [0, 0, leg]}, {"at": [width, 0, leg]}, [width, 0, 0]]
    return _draft(("bow", path, ("stake", "stake"), {}))


@pytest.mark.parametrize("leg", [40.0, 44.0, 46.0, 47.0, 48.0, 52.0])
def test_a_bent_tube_counts_what_the_bender_needs(leg):
    """Two bends of 90 degrees at r 5.539 in: length 2 leg + 26 - 4 r + pi r, and 2 in more at each end to bend.

    leg 44: 114 - 22.156 + 17.401 = 109.245; leg 48: 117.245 + 4 = 121.245 is more than a stick.
    """
    draft = _u_frame(leg)
    length = 2 * leg + 26 - 4 * 5.539 + 5.539 * 3.14159265
    pieces = [p for p in draft.parts.pieces if p.member == "bow"]

    assert sum(p.cut_length for p in pieces) / INCH_MM == pytest.approx(length, abs=1e-3)
    assert len(pieces) == (1 if length + 4 <= 120 else 2)
    assert all(p.stick_length <= 120 * INCH_MM + 1e-6 for p in pieces)
    assert _errors(draft) == []


@pytest.mark.parametrize(
    ("places", "fault"),
    [
        ([149.9], SplitFault.OUTSIDE),
        ([0.2], SplitFault.OUTSIDE),
        ([60.0, 60.0], SplitFault.TOO_CLOSE),
        ([1.0], SplitFault.IN_THE_WAY),
        ([20.0], SplitFault.TOO_LONG),
    ],
)
def test_a_bad_place_is_told_as_such(places, fault):
    draft = _between_posts(150.0, split_at=places)
    told = [f.fact for f in draft.findings if isinstance(f.fact, BadSplit)]

    assert fault in [f.fault for f in told]
    assert "J-split" in _errors(draft)


def test_a_good_place_is_taken():
    draft = _between_posts(150.0, split_at=[75.0])

    assert _cuts(draft) == [pytest.approx(75 - 0.5235)] * 2
    assert _errors(draft) == []


def test_a_tube_that_its_fittings_leave_nothing_of_is_told():
    """Two tees 1 in apart take 2 x 0.5235 in off."""
    draft = _between_posts(1.0)
    (told,) = (f.fact for f in draft.findings if isinstance(f.fact, TooShort))

    assert told.left / INCH_MM == pytest.approx(1.0 - 1.047)
