from __future__ import annotations

import pytest

from tests.building import greenhouse, inches, table
from tubeframe.parts.explain import explained
from tubeframe.words.lengths import term_words


@pytest.mark.parametrize("built", [table, greenhouse])
def test_the_terms_add_up_to_the_cut_length(built):
    design = built()
    kinds = {str(j.id): j.kind for j in design.jointed.joints}
    for group in design.parts.groups:
        terms = explained(group.first, kinds)
        assert sum(t.length for t in terms) == pytest.approx(group.first.cut_length)


def test_a_leg_of_the_table_by_hand():
    """33 - 3/4 - 3/8 - 0.461 = 31.414 to the corner's middle; less 0.5235 there and 1/8 of foot."""
    design = table()
    leg = next(p for p in design.parts.pieces if p.id == "leg.front.left")
    terms = explained(leg, {str(j.id): j.kind for j in design.jointed.joints})

    assert [round(inches(t.length), 4) for t in terms] == [31.414, -0.125, -0.5235]
    assert [term_words(t).split(":")[0] for t in terms[1:]] == ["end A", "end B"]
