from __future__ import annotations

import pytest

from tests.building import words_of
from tubeframe.errors import FrameError
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.frame import LengthAlong
from tubeframe.frame.load import Support
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.frame.wall import Wall
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import joined
from tubeframe.geometry.vector import Vec

OPEN = (EndKind.OPEN, EndKind.OPEN)


def _findings(*paths, along=LengthAlong.X):
    frame = FrameBuilder(name="test", tube="emt-3/4", length_along=along)
    for n, path in enumerate(paths):
        frame.tube(f"t{n}", path, ends=OPEN)
    return [words_of(f).message.split(":")[0] for f in frame.build().findings]


def test_a_post_alone_sways_both_ways():
    told = "nothing leans against a push lengthwise or sideways"
    assert _findings((Vec(0, 0, 0), Vec(0, 0, 900))) == [told]


def test_a_diagonal_braces_its_own_plane_only():
    brace = (Vec(0, 0, 0), Vec(500, 0, 500))

    assert _findings(brace) == ["nothing leans against a push sideways"]
    assert _findings(brace, along=LengthAlong.Y) == ["nothing leans against a push lengthwise"]


def test_three_directions_are_looked_at():
    """Common practice, no source: along, across, and the plan; a slanting tube that lies flat keeps the plan."""
    upright = ((Vec(0, 0, 0), Vec(500, 0, 500)), (Vec(0, 0, 0), Vec(0, 500, 500)))

    assert _findings(*upright) == ["nothing leans against a twist seen from above"]
    assert _findings(*upright, (Vec(0, 0, 500), Vec(500, 500, 500))) == []


def test_feet_that_are_held_from_outside_keep_the_plan():
    """Three legs in sockets, held along all axes, stand as if they were anchored by themselves."""
    frame = FrameBuilder(name="test", tube="emt-3/4")
    legs = [frame.tube(f"leg.{x}", (Vec(x, 0, 0), Vec(x, 0, 900)), ends=OPEN) for x in (0, 500, 1000)]
    frame.tube("along", (Vec(0, 0, 0), Vec(500, 0, 900)), ends=OPEN)
    frame.tube("across", (Vec(0, 0, 0), Vec(0, 500, 900)), ends=OPEN)
    for leg in legs:
        frame.hold(Support(member=leg, end=TubeEnd.A, fixes=("x", "y", "z")))

    assert frame.build().findings == ()


def test_a_hoop_that_goes_over_and_down_braces_its_own_plane():
    """Half a circle ends level with where it begins; each of its quarters leans."""
    hoop = through([Vec(0, 0, 0), Vec(0, 0, 450), Vec(900, 0, 450), Vec(900, 0, 0)], [450.0, 450.0])

    assert _findings(joined(hoop)) == ["nothing leans against a push sideways"]


def test_a_wall_holds_all_three():
    frame = FrameBuilder(name="test", tube="emt-3/4")
    frame.tube("post", (Vec(0, 0, 0), Vec(0, 0, 900)), ends=OPEN)
    frame.tube("rail", (Vec(0, 0, 900), Vec(600, 400, 900)), ends=OPEN)
    frame.hold(Wall(id="back", at=Vec(0, 500, 0), toward=Vec(0, -1, 0)))

    assert frame.build().findings == ()


def test_a_hoop_braces_its_own_plane():
    hoop = through([Vec(0, 0, 0), Vec(0, 0, 900), Vec(900, 0, 900), Vec(900, 0, 0)], [200.0, 200.0])

    assert _findings(hoop) == ["nothing leans against a push sideways"]


def test_a_frame_without_tubes_and_two_tubes_of_one_name_are_refused():
    with pytest.raises(FrameError, match="no tube"):
        FrameBuilder(name="test", tube="emt-3/4").build()
    frame = FrameBuilder(name="test", tube="emt-3/4")
    frame.tube("a", (Vec(0, 0, 0), Vec(0, 0, 1)), ends=OPEN)
    with pytest.raises(FrameError, match="this name"):
        frame.tube("a", (Vec(0, 0, 0), Vec(0, 0, 1)), ends=OPEN)
