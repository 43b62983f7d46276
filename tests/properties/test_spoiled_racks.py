"""A rack that is right, spoiled in one thing: the fault is found; mended, it is right again, or as it was."""

from __future__ import annotations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.properties.racks import FAULTS, rack, spoiled
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.joints.repair.search import mended
from tubeframe.joints.resolve import resolved

WORKSHOP = generic_workshop()
NEAR_MM = 0.5
SIZES = st.fixed_dictionaries(
    {
        "length": st.integers(24, 50),
        "width": st.integers(14, 30),
        "low": st.integers(6, 14),
        "high": st.integers(30, 50),
    }
)
SHARE = st.floats(0.0, 1.0)


def _frame(document):
    return frame_from_document(document, WORKSHOP, "rack.toml")


def _told(frame):
    return [f for f in resolved(frame, WORKSHOP).findings if f.severity is not Severity.INFO]


def _by(fault, share):
    return fault.least + (fault.most - fault.least) * share


def _same(one, other):
    """Whether two frames are the same to half a millimetre: tubes, ends, sleeves, boards."""
    if [m.id for m in one.members] != [m.id for m in other.members]:
        return False
    tubes = all(
        a.ends == b.ends
        and a.path.start.distance(b.path.start) <= NEAR_MM
        and a.path.end.distance(b.path.end) <= NEAR_MM
        and list(a.split_at) == pytest.approx(list(b.split_at), abs=NEAR_MM)
        for a, b in zip(one.members, other.members, strict=True)
    )
    return tubes and all(
        p.placement.origin.distance(q.placement.origin) <= NEAR_MM
        for p, q in zip(one.panels, other.panels, strict=True)
    )


def _marked(reason_of):
    return [
        pytest.param(
            name,
            marks=[pytest.mark.xfail(strict=True, raises=AssertionError, reason=reason)]
            if (reason := reason_of(f))
            else [],
        )
        for name, f in FAULTS.items()
    ]


@given(sizes=SIZES)
@settings(derandomize=True, max_examples=4, deadline=None, phases=[Phase.generate])
def test_the_rack_is_right(sizes):
    assert [(f.code, f.subjects) for f in _told(_frame(rack(sizes))) if f.code != "J-held-once"] == []


@pytest.mark.parametrize("name", _marked(lambda f: f.wrong))
@given(sizes=SIZES, share=SHARE)
@settings(derandomize=True, max_examples=4, deadline=None, phases=[Phase.generate])
def test_a_planted_fault_is_found(name, sizes, share):
    fault = FAULTS[name]
    told = _told(_frame(spoiled(rack(sizes), fault, _by(fault, share))))
    about = {s for f in told if f.code != "J-held-once" for s in f.subjects}

    assert fault.about in about | {s.rsplit(".", 1)[0] for s in about}


@pytest.mark.parametrize("name", _marked(lambda f: f.wrong_repair))
@given(sizes=SIZES, share=SHARE)
@settings(derandomize=True, max_examples=4, deadline=None, phases=[Phase.generate])
def test_mended_it_is_the_right_rack_again_or_as_it_was(name, sizes, share):
    fault = FAULTS[name]
    right = rack(sizes)
    frame = _frame(spoiled(right, fault, _by(fault, share)))
    done = mended(frame, WORKSHOP)

    assert not done.done or _same(done.frame, _frame(right))
