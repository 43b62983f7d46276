"""Which of several fittings is taken, and what is said of the others."""

from __future__ import annotations

import pytest

from tests.building import words_of
from tests.unit.joints.test_planted_faults import OUT, SOUND, WORKSHOP
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document
from tubeframe.joints.resolve import jointed
from tubeframe.words.reasons import reason_words


def _jointed(*members, shop=WORKSHOP, tubes=None, **tables):
    rows = [
        {"id": name, "path": path, "ends": list(ends), **({"tube": tubes[name]} if name in (tubes or {}) else {})}
        for name, path, ends in members
    ]
    document = {"schema": "tubeframe.frame/1", "name": "choice", "units": "mm", "member": rows, **tables}
    return jointed(frame_from_document(document, shop, "choice.toml"), shop)


def _of(found, *members):
    return next(j for j in found.joints if {u.tube for u in j.uses} == set(members))


@pytest.mark.parametrize(
    ("prices", "kind", "why"),
    [
        ({"tee": {"price": 4}, "swivel-tee": {"price": 7}}, "tee", "tee is plainer"),
        ({"tee": {"price": 7}, "swivel-tee": {"price": 4}}, "swivel-tee", "swivel-tee is cheaper"),
        ({"tee": {"price": 0}, "swivel-tee": {"price": 4}}, "tee", "tee is plainer"),
        ({"swivel-tee": {"price": 4}}, "tee", "tee is plainer"),
        ({}, "tee", "tee is plainer"),
        ({"tee": {"price": 4, "emt-3/4": {"price": 8}}, "swivel-tee": {"price": 7}}, "swivel-tee", "is cheaper"),
        ({"tee": {"price": 4, "emt-1": {"price": 8}}, "swivel-tee": {"price": 7}}, "tee", "tee is plainer"),
    ],
)
def test_a_cheaper_kind_is_taken_when_it_is_asked_for(prices, kind, why):
    """A known price alone changes nothing: the plainest stays."""
    asked, told = (
        _of(_jointed(*SOUND, shop=workshop_from_document({"fittings": prices, **more}, "test")), "left", "low")
        for more in ({"prefer": "cheapest"}, {})
    )

    assert (asked.kind, told.kind) == (kind, "tee")
    other = next(r for r in asked.refused if r.kind in {"tee", "swivel-tee"})
    assert reason_words(other.why).endswith(why)


def test_every_other_kind_has_its_reason():
    found = _of(_jointed(*SOUND), "left", "low")
    why = {r.kind: reason_words(r.why) for r in found.refused}

    assert why["angle-tee"] == "its ports stand at 45 degrees, these tubes at 90.0"
    assert why["cross"] == "it takes 1 passing and 2 ending"
    assert why["swivel-tee"] == "it fits too, but tee is plainer"
    assert "cap" not in why


def test_no_fitting_names_the_nearest():
    knee = ("knee", [[0, 0, 400], [120, 0, 400 + 400]], ("joint", "cap"))
    found = _jointed(*SOUND, knee)
    told = [words_of(f).message for f in found.findings if f.code == "J-no-fitting"]

    assert told
    assert "the nearest is the swivel-tee, but it swings from 30 to 150 degrees, these tubes stand at 16.7" in told[0]


def test_a_branch_of_another_size_takes_a_reducing_tee():
    """Floor of a square end: (D_run/2)/sin 90 = 1.163/2 in for EMT 1, and 1/16 in over it (generic table)."""
    found = _jointed(*SOUND, tubes={"left": "emt-1", "right": "emt-1"})
    tee = _of(found, "left", "low")

    assert tee.kind == "tee"
    assert [round(p.outside / 25.4, 3) for p in tee.fitting.ports] == [1.163, 0.922]
    assert tee.setback(tee.uses[1]) / 25.4 == pytest.approx(1.163 / 2 + 1 / 16, abs=1e-4)
    assert not [f for f in found.findings if f.severity is Severity.ERROR]


def test_a_collar_sits_where_it_is_asked_for():
    found = _jointed(*SOUND, joint=[{"at": [400, 0, 200], "kind": "collar"}])
    collar = next(j for j in found.joints if j.kind == "collar")

    assert [(u.tube, round(u.at, 3)) for u in collar.uses] == [("low", 400.0)]
    assert not [f for f in found.findings if f.severity is Severity.ERROR]


def test_tubes_side_by_side_are_tied_where_it_is_asked_for():
    twin = ("twin", [[100, OUT, 200], [700, OUT, 200]], ("cap", "cap"))
    wishes = [{"at": [x, OUT / 2, 200], "kind": "parallel-coupler"} for x in (200, 600)]
    found = _jointed(*SOUND, twin, joint=wishes)

    assert [j.kind for j in found.joints if "twin" in {u.tube for u in j.uses} and not j.is_end_piece] == [
        "parallel-coupler",
        "parallel-coupler",
    ]
    assert not [f for f in found.findings if f.severity is Severity.ERROR]


def test_a_kind_that_does_not_fit_is_not_taken_silently():
    """A wished angle tee at a square node: the tee is taken, and the wish is told with its reason."""
    found = _jointed(*SOUND, joint=[{"at": [0, 0, 200], "kind": "angle-tee"}])
    told = [f for f in found.findings if f.code == "J-asked-for"]

    assert [f.severity for f in told] == [Severity.WARNING]
    assert "its ports stand at 45 degrees, these tubes at 90.0; tee is there instead" in words_of(told[0]).message


def test_a_wish_where_no_tube_is_is_told():
    found = _jointed(*SOUND, joint=[{"at": [400, 0, 450], "kind": "tee"}])
    told = [f for f in found.findings if f.code == "J-asked-for"]

    assert [words_of(f).where for f in told] == ["joint at (15.748 in, 0.000 in, 17.717 in)"]
    assert "no tube passes there" in words_of(told[0]).message
