"""A straight rod does not pass a bend: it ends half an inch below the first one, and the lists say so."""

from __future__ import annotations

import math

import pytest

from tests.building import design_of, greenhouse, inches
from tubeframe.errors import Severity
from tubeframe.fabrication.stakes import stake_ends, stake_lots
from tubeframe.words.steps import told_steps


def test_a_wall_takes_the_whole_rod():
    (lot,) = stake_lots(greenhouse().parts, greenhouse().workshop)

    assert (lot.quantity, inches(lot.inside), inches(lot.length)) == (10, pytest.approx(12), pytest.approx(36))
    assert not [f for f in greenhouse().findings if f.code == "F-stake"]


def test_without_a_wall_the_rod_ends_below_the_first_bend():
    """8 ft wide, no wall: straight (47.539 - 5.539) tan 7.5 = 5.529 in, less 1/2 in."""
    design = design_of("greenhouse", width="8ft", length="12ft", height="4ft")
    (lot,) = stake_lots(design.parts, design.workshop)
    straight = (47.539 - 5.539) * math.tan(math.radians(7.5))
    (found,) = [f for f in design.findings if f.code == "F-stake"]

    assert inches(lot.inside) == pytest.approx(straight - 0.5)
    assert found.severity is Severity.WARNING
    assert 'ground stake, #5 reinforcing bar, 29"' in [p.item for p in design.fabrication.buying]


def test_the_rectangle_of_the_stakes_is_told_in_numbers():
    """Feet 96 - 0.922 by 144 - 0.922 in, hoops 35 3/4 in apart."""
    step = told_steps(greenhouse())[0]

    assert '95 1/16" wide and 143 1/16" long' in step.action[0]
    assert '0", 35 3/4", 71 9/16", 107 5/16", 143 1/16"' in step.action[1]
    assert '24" deep, 12" left above the ground' in step.action[2]
    assert len(stake_ends(greenhouse().parts)) == 10


def test_a_rod_goes_up_an_arc_as_far_as_the_bore_lets_it():
    """S^2/(2 R) = (0.824 - 0.625)/2 from the middle to the wall: 2.16 in at R 23.539."""
    design = design_of("greenhouse", width="4ft", height="2ft", length="8ft", bending="jig")
    (lot,) = stake_lots(design.parts, design.workshop)
    assert inches(lot.inside) == pytest.approx(math.sqrt((0.824 - 0.625) * (48 - 0.922) / 2), abs=1e-3)
