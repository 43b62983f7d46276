"""Each topology of table, shelf and bed rack with lengths by hand (formulas in the tests), for generic fittings.

Generic sizes (common practice, no source): a tee's setback D/2 + 1/16 in, grip 2 D up to the next 1/8 in, 1/4 in for
the key, a run goes on past half a grip by 1/4 in, feet and flanges 1/8 in.
"""

from __future__ import annotations

import math
from collections import Counter

import pytest

from tests.building import draft_of, frame_of, inches
from tubeframe.errors import InputError, Severity

EMT_34, EMT_1 = 0.922, 1.163
"""Outside diameters (Steel Tube Institute, table 'EMT Weights and Dimensions') [in]."""
EIGHTH, SIXTEENTH = 1 / 8, 1 / 16


def setback(outside):
    return outside / 2 + SIXTEENTH


def grip(outside):
    return math.ceil(2 * outside / EIGHTH) * EIGHTH


def pitch(outside):
    return grip(outside) + 0.25


def overhang(outside):
    return grip(outside) / 2 + 0.25


def cut(draft):
    return {p.id: inches(p.cut_length) for p in draft.parts.pieces}


def kinds(draft):
    return Counter(j.kind for j in draft.jointed.joints)


def sound(draft):
    assert [f for f in draft.findings if f.severity is Severity.ERROR] == []


# --- shelf


def shelf(**values):
    """900 x 400 x 1800 mm of 25 mm tube, 4 levels."""
    shop = {"units": "mm", "tube": "tube-25x1.5"}
    sizes = {"length": "900mm", "depth": "400mm", "height": "1800mm", "levels": "4"}
    return draft_of("shelf", shop, **{**sizes, **values})


def test_a_shelf_with_posts_that_run_through():
    """Posts 1800 - foot; long rails 875 - 2 s, short ones 375 - 2 s, from middle to middle 25 less than outside."""
    draft = shelf()
    length = {p.id: p.cut_length for p in draft.parts.pieces}
    s, foot = 25 / 2 + 25.4 / 16, 25.4 / 8
    sound(draft)
    assert length["post.front.1"] == pytest.approx(1800 - foot)
    assert length["long.1.front.1"] == pytest.approx(875 - 2 * s)
    assert length["short.4.2"] == pytest.approx(375 - 2 * s)
    # four levels on four posts, both rails of a level in one fitting; two braces behind, at both ends each
    assert kinds(draft) == {"side-outlet-tee": 16, "swivel-coupler": 4, "foot": 4, "cap": 8}


def test_a_shelf_of_ladders():
    """Short rails a pitch below the long ones: grip 2 x 25 up to 2 in (50.8) and 6.35 for the key, 57.15."""
    draft = shelf(topology="ladder")
    sound(draft)
    rails = {m.id: m.path.start.z for m in draft.frame.members}
    assert rails["long.2.front.1"] - rails["short.2.1"] == pytest.approx(50.8 + 6.35)
    assert kinds(draft)["tee"] == 32
    assert "side-outlet-tee" not in kinds(draft)


def test_a_shelf_laid_over():
    """Long rails over the short ones by couplers: past the posts' middles by the least overhang on both sides."""
    draft = shelf(topology="laid-over", panel="25mm")
    sound(draft)
    length = {p.id: p.cut_length for p in draft.parts.pieces}
    assert length["long.1.front"] == pytest.approx(875 + 2 * (50.8 / 2 + 6.35))
    assert kinds(draft)["right-angle-coupler"] == 16
    assert kinds(draft)["tee"] == 16


def test_a_long_shelf_has_posts_in_the_middle():
    """Over 54 in: inner levels meet the middle posts in side-outlet crosses, never a cross and a tee at one height."""
    draft = draft_of("shelf", length="60in")
    sound(draft)
    assert kinds(draft)["side-outlet-cross"] == 8
    assert kinds(draft)["side-outlet-tee"] == 16


# --- bed rack


def rack(**values):
    sizes = {"bed_length": "66in", "span": "60in", "rail_to_rail": "62in", "height": "22in", "overhang": "4in"}
    return draft_of("bed-rack", **{**sizes, **values})


def test_a_rack_by_hand():
    """Side rails 60 + 2 x 4; posts 22 - D/2 - flange - s; crossbars 62 - 2 s; knees of 8 along, a step more across."""
    draft = rack()
    length, s = cut(draft), setback(EMT_1)
    sound(draft)
    assert length["rail.left"] == pytest.approx(68)
    assert length["upright.left.1"] == pytest.approx(22 - EMT_1 / 2 - EIGHTH - s)
    assert length["crossbar.2"] == pytest.approx(62 - 2 * s)
    at_45 = EMT_1 / 2 / math.sin(math.pi / 4) + EMT_1 / 2 + SIXTEENTH
    assert length["knee.along.left.1"] == pytest.approx(8 * math.sqrt(2) - 2 * at_45)
    # the typical rack: 4 uprights, 2 rails, 4 crossbars, 8 knees
    assert len(length) == 18
    found = kinds(draft)
    assert found["angle-tee"] == 16
    assert found["base-flange"] == 4
    assert found["cap"] == 4
    assert found["side-outlet-tee"] + found["tee"] == 8  # four uprights with a crossbar each, two crossbars between


def test_a_rack_over_the_cab():
    """The rails go on by the overhang over the cab, and say so beyond 12 in."""
    long, short = rack(cab_overhang="18in"), rack(cab_overhang="12in")
    assert cut(long)["rail.left"] == pytest.approx(68 + 18)
    assert [f.code for f in long.findings] == ["F-cab"]
    assert short.findings == ()


def test_a_rack_on_a_bed_that_tapers():
    """An inch narrower at the rear: crossbars at the ends 62 and 61 less two setbacks, square within a degree."""
    draft = rack(rear_rail_to_rail="61in")
    sound(draft)
    length, s = cut(draft), setback(EMT_1)
    assert length["crossbar.1"] == pytest.approx(62 - 2 * s, abs=0.01)
    assert length["crossbar.4"] == pytest.approx(61 - 2 * s, abs=0.01)


@pytest.mark.parametrize("uprights", ["4", "6"])
@pytest.mark.parametrize("mount", ["base-flange", "stake-pocket"])
def test_every_upright_has_one_positive_fixing(mount, uprights):
    """Friction alone is no mount: bolts through the bed rail, or a block bolted into a stake pocket."""
    frame = frame_of("bed-rack", mount=mount, uprights=uprights)
    bought = {s.item: s.quantity for s in frame.supplies}
    number = int(uprights)
    if mount == "base-flange":
        assert any("bolt with washers through a bed rail" in item and n == 2 * number for item, n in bought.items())
    else:
        assert any("block made to a stake pocket" in item and n == number for item, n in bought.items())
        assert any("screw for a base flange" in item and n == 2 * number for item, n in bought.items())


def test_a_rack_of_thin_tube_is_told():
    assert [f.code for f in frame_of("bed-rack", tube="emt-3/4").findings] == ["F-light"]
    assert frame_of("bed-rack").findings == ()


# --- table


def table(**values):
    sizes = {"length": "54in", "width": "26in", "height": "34.5in"}
    return draft_of("table", **{**sizes, **values})


def test_a_table_with_corner_fittings():
    """Rails L - D - 2 s; legs H - top - spacer - D/2 - s - foot; H stretchers; two joists under 3/4 in, 20 in apart."""
    draft = table()
    length, s = cut(draft), setback(EMT_34)
    sound(draft)
    assert length["rail.front"] == pytest.approx(54 - EMT_34 - 2 * s)
    assert length["rail.left"] == pytest.approx(26 - EMT_34 - 2 * s)
    assert length["leg.front.left"] == pytest.approx(34.5 - 0.75 - 0.375 - EMT_34 / 2 - s - EIGHTH)
    assert length["stretcher.middle"] == pytest.approx(54 - EMT_34 - 2 * s)
    assert length["joist.1"] == pytest.approx(26 - EMT_34 - 2 * s)
    # 4 legs, 4 rails, 3 stretchers, 2 joists, 6 knees; tees: 4 + 2 at the stretchers, 4 at the joists
    assert len(length) == 19
    assert kinds(draft) == {"side-outlet-elbow": 4, "tee": 10, "angle-tee": 12, "foot": 4}


def test_a_table_with_legs_that_run_through():
    """Long rails carry the top, short ones a pitch lower; a leg goes on past the long rail's middle by the overhang."""
    draft = table(corner="staggered")
    sound(draft)
    rails = {m.id: inches(m.path.start.z) for m in draft.frame.members if m.id.startswith("rail")}
    long = 34.5 - 0.75 - 0.375 - EMT_34 / 2
    assert rails["rail.front"] == pytest.approx(long)
    assert rails["rail.left"] == pytest.approx(long - pitch(EMT_34))
    assert cut(draft)["leg.front.left"] == pytest.approx(long + overhang(EMT_34) - EIGHTH)
    assert kinds(draft)["tee"] == 4 * 2 + 6 + 4
    assert kinds(draft)["cap"] == 4


def test_a_table_with_a_tool_wall():
    """Rear legs go up to the wall's top; rails no farther than 24 in apart, the uppermost in elbows."""
    draft = table(back_height="36in")
    sound(draft)
    z = [inches(m.path.start.z) for m in draft.frame.members if m.id.startswith("wall.")]
    assert z[-1] == pytest.approx(34.5 + 36 - EMT_34 / 2)
    assert all(b - a <= 24 for a, b in zip([34.5, *z], z, strict=False))
    assert kinds(draft)["elbow"] == 2


def test_a_tool_wall_of_one_rail_clears_the_top():
    """Its elbows' ears stand 3/4 beyond the tube: back-height D + 3/4 at least, where nothing else is higher."""
    least = EMT_34 + 0.75
    draft = table(back_height=f"{least + 0.01}in", panel="1.5in", corner="staggered")
    sound(draft)
    with pytest.raises(InputError, match="back-height"):
        table(back_height=f"{least - 0.01}in", panel="1.5in", corner="staggered")


@pytest.mark.parametrize(
    ("stretchers", "shelf", "tubes"), [("none", "no", 0), ("h", "no", 3), ("box", "no", 4), ("h", "ply", 4)]
)
def test_what_ties_the_legs(stretchers, shelf, tubes):
    """An H is two and one between; a box is four, and a shelf asks for a box."""
    draft = table(stretchers=stretchers, shelf=shelf)
    sound(draft)
    assert sum(1 for m in draft.frame.members if m.id.startswith("stretcher")) == tubes


def test_joists_follow_the_top():
    """At most 20 in apart under 3/4 in (80/3 of the thickness; common practice, no source): 53.078 in are 3 bays.

    Under 1/2 in, 13.3 in apart: 4 bays.
    """
    assert sum(1 for m in table().frame.members if m.id.startswith("joist")) == 2
    assert sum(1 for m in table(panel="0.5in").frame.members if m.id.startswith("joist")) == 3
