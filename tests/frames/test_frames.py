"""Every text frame against what was worked out by hand for it."""

from __future__ import annotations

import pytest

from tests.frames.case import codes, draft, every_text, fittings, names, scale
from tests.frames.cases import CASES
from tubeframe.errors import Severity

PASSING = frozenset({"J-key", "J-held-once", "J-asked-for", "F-bracing"})
"""What is told of many a good frame too: none of it tells a planted fault."""


def _asked(aspect):
    """Give every case that says something of an aspect; a known fault is expected, and has to go when it is mended."""
    found = []
    for case in CASES:
        if getattr(case, aspect) is None or (aspect in {"fittings", "lengths", "about"} and not getattr(case, aspect)):
            continue
        reason = case.wrong.get(aspect) or case.wrong.get("all")
        marks = [pytest.mark.xfail(strict=True, raises=AssertionError, reason=reason)] if reason else []
        found.append(pytest.param(case, id=case.frame, marks=marks))
    return found


@pytest.mark.parametrize("case", _asked("fittings"))
def test_fittings(case):
    assert fittings(draft(case)) == dict(case.fittings)


@pytest.mark.parametrize("case", _asked("lengths"))
def test_lengths(case):
    cut = {p.id: p.cut_length / scale(case) for p in draft(case).parts.pieces}

    assert {name: cut[name] for name in case.lengths} == pytest.approx(dict(case.lengths), abs=1e-3)


@pytest.mark.parametrize("case", _asked("errors"))
def test_errors(case):
    assert codes(draft(case), Severity.ERROR) == case.errors


@pytest.mark.parametrize("case", _asked("warnings"))
def test_warnings(case):
    assert codes(draft(case), Severity.WARNING) == case.warnings


@pytest.mark.parametrize("case", _asked("about"))
def test_the_fault_is_told_of_what_is_at_fault(case):
    told = [f for f in draft(case).findings if f.severity is not Severity.INFO and f.code not in PASSING]

    assert any(names(f, case.about) for f in told)


def test_every_text_frame_has_its_case():
    assert sorted(c.frame for c in CASES) == list(every_text())


@pytest.mark.parametrize("name", ["shops/large_tee", "shops/larger_tee", "shops/lone_cross"])
def test_a_key_reaches_every_bolt_of_a_lone_fitting(name):
    case = next(c for c in CASES if c.frame == name)

    assert "J-key" not in [f.code for f in draft(case).findings]
