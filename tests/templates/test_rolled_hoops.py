"""Hoops as one arc round a form, by hand arithmetic for generic fittings (inches; sizes: common practice, no source).

A form holds 12 in at an end; what is straight there counts. A clamp or sleeve of length L sits on an arc of
L^2/(8 x 0.6 mm) or more. The stick is 10 ft.
"""

from __future__ import annotations

import math

import pytest

from tests.building import design_of, draft_of, frame_of, inches
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import InputError, Severity
from tubeframe.fabrication.bending.forms import forms
from tubeframe.geometry.path import Arc
from tubeframe.template.nearest import laid_out
from tubeframe.template.reading import read_values
from tubeframe.template.registry import shipped_template
from tubeframe.template.shop import Shop

D, BORE = 0.922, 0.824
"""Outside and inside diameter of EMT 3/4 (Steel Tube Institute, table 'EMT Weights and Dimensions') [in]."""
A = (96 - D) / 2
"""Half an 8 ft hoop's width, between centrelines."""
HOLD, STICK = 12, 120
E = D + 3 / 16
"""Offset of a coupler."""
LOST = 37.5 * (D**3 - BORE**3) / 6 / (29000 * math.pi / 64 * (D**4 - BORE**4))
"""Fy Z/(E I) at 37.5 ksi [1/in]."""


def sound(draft):
    assert [f for f in draft.findings if f.severity is not Severity.INFO] == []


def bent(draft):
    """Return cut length, stick length and bends (start, angle, radius) of each kind of bent piece."""
    found = {}
    for piece in draft.parts.pieces:
        if piece.bends:
            bends = tuple((inches(b.start_from_a), b.angle, inches(b.radius)) for b in piece.bends)
            found[piece.id] = (inches(piece.cut_length), inches(piece.stick_length), bends)
    return found


def test_a_round_hoop_takes_more_than_a_stick_a_half():
    """36 + pi/2 x 47.539 = 110.67, with 2 and 12 held 124.67: a sleeve in the leg, 6 below the spring line."""
    draft = draft_of("greenhouse", width="8ft", height="7ft", bending="jig")
    sound(draft)
    arc = math.pi / 2 * A
    assert 36 + arc + 2 + HOLD > STICK
    cut, stick, (bend,) = bent(draft)["hoop.3.2"]
    assert cut == pytest.approx(6 + arc)
    assert stick == pytest.approx(math.floor(16 * (6 + arc)) / 16 + (HOLD - 6) + HOLD)
    assert bend == pytest.approx((6, 90, A))
    leg = next(p for p in draft.parts.pieces if p.id == "hoop.3.1")
    assert inches(leg.cut_length) == pytest.approx(30)
    assert leg.bends == ()


def test_a_lower_one_is_two_halves():
    """On a wall of 24: 24 + 74.67 and 14 held are 112.67."""
    draft = draft_of("greenhouse", width="8ft", height="6ft", bending="jig", ends="open")
    cut, _, (bend,) = bent(draft)["hoop.1.1"]
    assert cut == pytest.approx(24 + math.pi / 2 * A)
    assert bend == pytest.approx((24, 90, A))


def test_the_form_is_smaller_by_what_springs_back():
    """1/r = 1/R + what is lost; half a circle less a hair goes on it, pulled farther by the same share."""
    design = design_of("greenhouse", width="8ft", height="7ft", bending="jig", ends="open")
    (form,) = forms(design.fabrication.bend_sheets)
    assert inches(form.bent_to) == pytest.approx(1 / (1 / A + LOST), abs=0.02)
    assert form.sweep == pytest.approx(90 * (1 + LOST * A), abs=0.05)


def test_a_low_tunnel_is_one_arc():
    """4 ft wide, 2 ft high: half a circle of 23.539 from the ground, 73.95 and 2 x 12 held: one stick."""
    draft = draft_of("greenhouse", width="4ft", height="2ft", length="8ft", bending="jig")
    radius = (48 - D) / 2
    cut, stick, (bend,) = bent(draft)["hoop.2"]
    assert cut == pytest.approx(math.pi * radius)
    assert stick == pytest.approx(math.floor(16 * math.pi * radius) / 16 + 2 * HOLD)
    assert bend == pytest.approx((0, 180, radius))
    assert not any(f.severity is Severity.ERROR for f in draft.findings)


def test_a_base_rail_on_an_arc_lies_inside_it():
    """3 above the ground, the rail's middle is a coupler's offset nearer to the arc's centre than its centreline."""
    frame = frame_of("greenhouse", width="4ft", height="2ft", length="8ft", bending="jig")
    rail = next(m for m in frame.members if m.id == "base.left").path.start
    radius = (48 - D) / 2
    lean = math.asin(3 / radius)
    assert inches(24 * 25.4 - rail.x) == pytest.approx((radius - E) * math.cos(lean))
    assert inches(rail.z) == pytest.approx((radius - E) * math.sin(lean))


def test_a_gothic_arch_is_one_arc_a_half():
    """a 47.539, h over the wall: R = (a^2 + h^2)/(2 a), sweep asin(h/R), to the crown's middle."""
    sizes = {"shape": "gothic", "width": "8ft", "wall": "36in", "height": "96in", "bending": "jig", "ends": "open"}
    sound(draft_of("greenhouse", **sizes))
    ((start, arc),) = next(m for m in frame_of("greenhouse", **sizes).members if m.id == "hoop.1.left").path.bends
    h = 96 - D / 2 - 36
    radius = (A**2 + h**2) / (2 * A)
    assert inches(start) == pytest.approx(36)
    assert inches(arc.radius) == pytest.approx(radius)
    assert arc.angle == pytest.approx(math.asin(h / radius))


def test_a_flatter_roof_has_a_bend_at_its_eave():
    """Both bends turn 90 degrees together, 3 in of straight between them, and the roof keeps its rise and width."""
    frame = frame_of("greenhouse", shape="segmental", width="8ft", wall="36in", height="64in", bending="jig")
    hoop = next(m for m in frame.members if m.id == "hoop.1").path
    eave, between, arc = (p for p in hoop.pieces[1:4])
    assert isinstance(eave, Arc)
    assert isinstance(arc, Arc)
    assert math.degrees(eave.angle + arc.angle / 2) == pytest.approx(90)
    assert inches(between.length) == pytest.approx(3)
    assert inches(arc.point(arc.length / 2).z) == pytest.approx(64 - D / 2)
    assert inches(hoop.end.x - hoop.start.x) == pytest.approx(96 - D)


def test_side_purlins_share_the_arc():
    """Where it leans 40 degrees: 50/90 of the quarter up from the spring line, a coupler's offset inside."""
    frame = frame_of("greenhouse", width="8ft", height="7ft", bending="jig", ends="open")
    purlin = next(m for m in frame.members if m.id == "purlin.left").path.start
    assert inches(purlin.z) == pytest.approx(36 + (A - E) * math.sin(math.radians(50)))


@pytest.mark.parametrize("shape", ["round", "segmental", "gothic"])
@pytest.mark.parametrize("anchor", ["stake", "socket", "baseboard", "base-flange"])
def test_every_shape_on_every_anchor_with_vents(shape, anchor):
    sound(draft_of("greenhouse", width="9ft", shape=shape, anchor=anchor, vents="sides", bending="jig"))


@pytest.mark.parametrize(("width", "height"), [("6ft", "5ft"), ("10ft", "8ft"), ("12ft", "9ft"), ("14ft", "10ft")])
def test_widths(width, height):
    """6 ft: the arc is too tight for a sleeve, so some of the crown is left level; 12 ft up: parted on the arc."""
    sound(
        draft_of(
            "greenhouse",
            width=width,
            height=height,
            bending="jig",
            tube="emt-1" if width.startswith("1") else "emt-3/4",
        )
    )


def test_a_door_is_as_wide_as_asked():
    """A stud may be clamped anywhere on an arc."""
    frame = frame_of("greenhouse", width="9ft", bending="jig", ends="door", door_width="33in")
    left, right = (next(m for m in frame.members if m.id == f"jamb.front.{h}").path.start.x for h in ("left", "right"))
    assert inches(right - left) == pytest.approx(33 + D)


def test_an_arc_too_tight_for_a_clamp_is_refused():
    """A coupler on EMT 1 holds 2 3/8: 60.325^2/4.8 mm is 29.85 in. Sleeves of 3.489 want 2.245 level at the crown.

    R = (W - 1.163)/2 - 2.245: 21.17 at 48 in, 29.67 at 65, 29.92 at 65 1/2.
    """
    least, level = (2.375 * 25.4) ** 2 / 4.8 / 25.4, 3 * 1.163 / 2 + 0.5
    assert (65.5 - 1.163) / 2 - level > least > (65 - 1.163) / 2 - level
    found, workshop = shipped_template("greenhouse"), generic_workshop()
    raw = {"width": "4ft", "length": "8ft", "bending": "jig", "tube": "emt-1"}
    values = read_values(found.parameters, raw, workshop, {})
    with pytest.raises(InputError) as refused:
        laid_out(found, values, Shop(workshop=workshop))
    (problem,) = refused.value.problems
    assert problem.key == "width"
    assert '21 3/16"' in problem.message
    assert '29 7/8"' in problem.message
    assert problem.remedy.endswith('the nearest that can be built is 65 1/2"')
