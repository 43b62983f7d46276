from __future__ import annotations

from tubeframe import words
from tubeframe.errors import Fact
from tubeframe.fabrication import facts as shop_facts
from tubeframe.fabrication.bending import bend_facts
from tubeframe.frame import facts as frame_facts
from tubeframe.joints import facts as joint_facts
from tubeframe.joints import room_facts
from tubeframe.words import findings


def _all_facts(kind: type[Fact] = Fact) -> set[type[Fact]]:
    below = set(kind.__subclasses__())
    return below.union(*(_all_facts(k) for k in below))


def test_every_fact_has_words():
    """A stage that finds something new has to say how it is told."""
    assert words.__doc__
    assert all(m.__name__.endswith("facts") for m in (joint_facts, room_facts, frame_facts, shop_facts, bend_facts))
    # dataclasses with slots leave the class they were made from behind
    names = {f.__qualname__ for f in _all_facts()}

    assert names == {f.__qualname__ for f in findings._WORDS}
