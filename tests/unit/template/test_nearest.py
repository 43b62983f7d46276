"""A refusal names the nearest value that can be built: it is tried, not guessed."""

from __future__ import annotations

import re

import pytest

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import InputError
from tubeframe.template.nearest import laid_out
from tubeframe.template.reading import read_values
from tubeframe.template.registry import shipped_template
from tubeframe.template.shop import Shop

SHOP = Shop(workshop=generic_workshop())


def _laid_out(name, **values):
    template = shipped_template(name)
    raw = {k.replace("_", "-"): v for k, v in values.items()}
    return laid_out(template, read_values(template.parameters, raw, SHOP.workshop, {}), SHOP)


def test_too_many_joists_are_refused_with_the_number_that_fits():
    with pytest.raises(InputError) as refused:
        _laid_out("table", length="24in", joists="6")
    (problem,) = refused.value.problems
    nearest = re.search(r"the nearest that can be built is (\d+)", problem.remedy)[1]

    assert problem.key == "joists"
    assert _laid_out("table", length="24in", joists=nearest)
    with pytest.raises(InputError):
        _laid_out("table", length="24in", joists=str(int(nearest) + 1))


def test_a_size_that_the_others_leave_no_room_for_names_its_limits():
    with pytest.raises(InputError) as refused:
        _laid_out("bed-rack", bed_length="60in", span="70in")
    (problem,) = refused.value.problems

    assert '36" to 57"' in problem.message
    assert problem.remedy == 'the nearest is 57"'
    assert _laid_out("bed-rack", bed_length="60in", span="57in")
