"""What must not change a cut list: where a frame stands, how it is turned, its mirror image, what tubes are called."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.building import design_of, frame_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.member import EndKind
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import Units
from tubeframe.joints.resolve import jointed
from tubeframe.parts.marks import make_parts

WORKSHOP = generic_workshop()
SIZES = {
    "table": st.fixed_dictionaries(
        {"length": st.integers(30, 90), "width": st.integers(20, 34), "height": st.integers(28, 40)}
    ),
    "greenhouse": st.fixed_dictionaries({"width": st.integers(60, 120), "length": st.integers(60, 240)}),
}


def _document(template, sizes):
    values = {name: f"{value}in" for name, value in sizes.items()}
    if template == "greenhouse":
        values["height"] = f"{sizes['width'] / 2 + 36}in"
    return frame_document(frame_of(template, **values), Units.MILLIMETRE)


def _moved(document, change, rename=lambda name: name):
    """Return a text frame with every point changed and every member renamed."""

    def point(p):
        return {**p, "at": list(change(*p["at"]))} if isinstance(p, dict) else list(change(*p))

    rows = [{**m, "id": rename(m["id"]), "path": [point(p) for p in m["path"]]} for m in document["member"]]
    kept = {
        k: v
        for k, v in document.items()
        if k not in {"panel", "member", "sized_by", "fact", "caution", "supply", "load", "cover"}
    }
    wishes = [{**w, "at": point(w["at"])} for w in document.get("joint", [])]
    groups = [
        {**g, "members": [rename(m) for m in g["members"]], "turns_on": rename(g["turns_on"])}
        for g in document.get("group", [])
    ]
    return {**kept, "member": rows, "joint": wishes, "group": groups}


def cut_list(document):
    """Count pieces by all that is made of them; a left and a right one of a pair count as one kind here."""
    frame = frame_from_document(document, WORKSHOP, "test")
    parts = make_parts(frame, jointed(frame, WORKSHOP), WORKSHOP)
    return Counter(
        (g.mark.rstrip("LR"), g.first.size, round(g.first.cut_length, 2), len(g.first.stations), len(g.first.bends))
        for g in parts.groups
        for _ in g.pieces
    )


CHANGES = {
    "moved in plan": lambda x, y, z: (x + 1234.5, y - 777.25, z),
    "turned by 30 degrees": lambda x, y, z: (
        x * math.cos(math.pi / 6) - y * math.sin(math.pi / 6),
        x * math.sin(math.pi / 6) + y * math.cos(math.pi / 6),
        z,
    ),
    "turned by 90 degrees": lambda x, y, z: (-y, x, z),
    "mirrored left to right": lambda x, y, z: (-x, y, z),
    "mirrored front to back": lambda x, y, z: (x, -y, z),
}


@pytest.mark.parametrize("template", SIZES)
@pytest.mark.parametrize("change", CHANGES)
@given(data=st.data())
@settings(derandomize=True, max_examples=4, deadline=None)
def test_the_cut_list_stays(template, change, data):
    document = _document(template, data.draw(SIZES[template]))

    assert cut_list(_moved(document, CHANGES[change])) == cut_list(_moved(document, lambda *p: p))


@pytest.mark.parametrize("template", SIZES)
def test_names_do_not_matter(template):
    sizes = {"table": {"length": 57, "width": 27, "height": 33}, "greenhouse": {"length": 60, "width": 60}}
    document = _document(template, sizes[template])
    names = {m["id"]: f"z{len(document['member']) - n}" for n, m in enumerate(document["member"])}
    plain = cut_list(_moved(document, lambda *p: p))

    assert cut_list(_moved(document, lambda *p: p, names.__getitem__)) == plain


@given(length=st.integers(30, 90))
@settings(derandomize=True, max_examples=10, deadline=None)
def test_an_inch_more_length_changes_only_the_long_pieces(length):
    one, more = (design_of("table", length=f"{v}in", width="27in", height="33in") for v in (length, length + 1))
    for a, b in zip(one.parts.pieces, more.parts.pieces, strict=True):
        longer = 25.4 if a.member in {"rail.front", "rail.back", "stretcher.middle"} else 0.0
        assert b.cut_length - a.cut_length == pytest.approx(longer, abs=1e-6)


@pytest.mark.parametrize("template", SIZES)
@given(data=st.data())
@settings(derandomize=True, max_examples=10, deadline=None)
def test_tube_ends_are_ports_used_or_pieces_or_stakes(template, data):
    frame = frame_from_document(_document(template, data.draw(SIZES[template])), WORKSHOP, "test")
    found = jointed(frame, WORKSHOP)
    held = sum(1 for j in found.joints for u in j.uses if u.end)
    free = sum(1 for t in found.tubes for e in (t.end_a, t.end_b) if e in {EndKind.STAKE, EndKind.OPEN})

    assert held + free == 2 * len(found.tubes)
