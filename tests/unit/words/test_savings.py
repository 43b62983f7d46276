"""What the cover says of sticks."""

from __future__ import annotations

from dataclasses import replace

from tests.building import TABLE, design_of
from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.cutting.facts import PlanHangsOn
from tubeframe.fabrication.cutting.plan import Change, HangsOn
from tubeframe.fabrication.cutting.sweet_spots import SweetSpot
from tubeframe.fabrication.make import with_sweet_spots
from tubeframe.words.savings import hanging_words, stick_lines

SPOT = SweetSpot(parameter="length", is_length=True, start=1447.8, end=1435.1, saves=1.0, unit="sticks", sticks=4)


def test_what_the_plan_hangs_on_is_told_with_what_to_measure():
    design = design_of("table")
    hang = HangsOn(tube="emt-3/4", change=Change.KERF, by=1.5875, cost=1524.0, sticks=1)
    fact = PlanHangsOn(tube="EMT 3/4", hang=hang, priced=False, currency="")
    told = Finding(code="C-hangs-on", severity=Severity.INFO, subjects=(), fact=fact)
    design = replace(design, fabrication=replace(design.fabrication, findings=(told,)))

    assert list(hanging_words(design)) == [
        'EMT 3/4: exact fit: 1/16" more kerf costs 1 stick more; '
        "measure your saw's cut on scrap, and give it as its kerf."
    ]
    assert list(stick_lines(design)) == [("Sticks", "5 sticks to buy; no plan takes less bought length")]


def test_a_near_size_that_saves_stands_on_the_cover():
    design = design_of("table", **dict(TABLE))
    design = replace(design, fabrication=with_sweet_spots(design.fabrication, [SPOT]))

    assert ("Saves", 'length 1/2" less, 56 1/2" and not 57", saves 1 stick: 4 to buy') in list(stick_lines(design))
