"""Every plan is carried out again from its design document by a builder that knows geometry alone."""

from __future__ import annotations

import copy
import tomllib

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.assembly.drawn import MAKERS, between, sawhorse
from tests.assembly.simulator import Simulator
from tests.building import design_of, design_of_text, greenhouse, table
from tests.frames.case import TEXT, read
from tests.frames.cases import CASES
from tubeframe.design import Source, make_design
from tubeframe.design_document import design_document
from tubeframe.errors import Severity
from tubeframe.template.registry import shipped_templates

SHARES = st.tuples(*[st.integers(0, 20).map(lambda n: n / 20)] * 4)


def complaints(design):
    return Simulator(design, design_document(design)).complaints()


def is_sound(design):
    return not any(f.severity is Severity.ERROR for f in design.findings)


@pytest.mark.parametrize("name", [t.name for t in shipped_templates()])
def test_templates(name):
    assert complaints(design_of(name)) == []


def _drawn(maker, shares):
    design = design_of_text(*maker(*shares))
    assume(is_sound(design))
    assert [f.code for f in design.assembly.findings] == []
    assert complaints(design) == []


@pytest.mark.parametrize("maker", MAKERS)
@given(shares=SHARES)
@settings(derandomize=True, max_examples=8, deadline=None)
def test_forty_drawn_frames_that_no_template_makes(maker, shares):
    _drawn(maker, shares)


@pytest.mark.slow
@pytest.mark.parametrize("maker", MAKERS)
@given(shares=SHARES)
@settings(max_examples=40, deadline=None)
def test_two_hundred_drawn_frames(maker, shares):
    _drawn(maker, shares)


@pytest.mark.slow
@pytest.mark.parametrize("case", [c for c in CASES if c.is_sound], ids=lambda c: c.frame)
def test_every_sound_text_frame(case):
    frame, workshop = read(case)
    design = make_design(frame, workshop, Source(template=case.frame, parameters={}, shop={}))
    assume_sound = is_sound(design)

    assert not assume_sound or complaints(design) == []


def test_the_text_frames_are_there():
    assert tomllib.loads((TEXT / "stands" / "sawhorse.toml").read_text(encoding="utf-8"))["member"]
    assert len(sawhorse(0.5, 0.5, 0.5, 0.5)) == 7
    assert between(0.5, 0, 10) == 5


# What follows plants faults into documents: a builder who sees nothing wrong would prove nothing.


def _spoilt(design, spoil):
    document = copy.deepcopy(design_document(design))
    spoil(document)
    return Simulator(design, document).complaints()


def _operation(document, part):
    return next((s, o) for s in document["steps"] for o in s["operations"] if o["part"] == part)


def _drop(document, part):
    step, operation = _operation(document, part)
    step["operations"].remove(operation)


def _twice(document, part):
    step, operation = _operation(document, part)
    step["operations"].append(operation)


def _turn(document, part, way):
    _operation(document, part)[1]["direction"] = list(way)


def _to_the_end(document, part):
    step, operation = _operation(document, part)
    step["operations"].remove(operation)
    document["steps"][-1]["operations"].append(operation)


def _nobody_holds(document):
    for step in document["steps"]:
        for thing in (*step["operations"], *step["raises"]):
            thing["held_by"] = "itself"


def _said_to_stand(document):
    for step in document["steps"]:
        step["stands"] = True


def _tighten_first(document):
    tight = next(s for s in document["steps"] if s["tightens"])
    first = next(s for s in document["steps"] if s["operations"])
    first["tightens"], tight["tightens"] = tight["tightens"], []


def _board_first(document):
    """The first strip or top is laid before the tubes that carry it are there: they then come through it."""
    _, operation = next((s, o) for s in document["steps"] for o in s["operations"] if o["kind"] == "panel")
    _drop(document, operation["part"])
    standing = next(s for s in document["steps"] if s["raises"])
    standing["operations"].insert(0, operation)
    standing["raises"][0]["after_operations"] = 1
    operation["part"] = "top"
    _drop(document, "top")


PLANTED = {
    "a tube is forgotten": (table, lambda d: _drop(d, "stretcher.middle"), "comes 0 times"),
    "a tube comes twice": (table, lambda d: _twice(d, "stretcher.middle"), "comes 2 times"),
    "a joint is forgotten": (table, lambda d: _drop(d, d["joints"][0]["id"]), "comes 0 times"),
    "a tube comes out of the floor": (table, lambda d: _turn(d, "stretcher.middle", (0, 0, -1)), "floor"),
    "a tube comes through another": (greenhouse, lambda d: _turn(d, "purlin.ridge.1", (0, 0, 1)), "runs into"),
    "a tube gets in through a shut sleeve": (greenhouse, lambda d: _turn(d, "base.left.2", (1, 0, 0)), "wall"),
    "nobody holds what falls": (table, _nobody_holds, "nobody holds it"),
    "what falls is said to stand": (table, _said_to_stand, "said to stand"),
    "bolts are tightened before their tubes are there": (table, _tighten_first, "tightened without"),
    "a fitting is put on nothing": (
        table,
        lambda d: (_drop(d, "leg.front.left"), _drop(d, "rail.left")),
        "is put on nothing",
    ),
}


@pytest.mark.parametrize("name", PLANTED)
def test_a_spoilt_document_is_seen_through(name):
    make, spoil, told = PLANTED[name]
    found = _spoilt(make(), spoil)

    assert any(told in c for c in found), found[:5]
