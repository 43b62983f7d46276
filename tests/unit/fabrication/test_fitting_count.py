"""Fittings counted by kind and size; what lies there; and what is claimed of their sizes."""

from __future__ import annotations

import pytest

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.fabrication.buying import buying_list
from tubeframe.fabrication.fitting_count import count_fittings
from tubeframe.frame.document import frame_from_document
from tubeframe.joints.resolve import jointed
from tubeframe.parts.cut import cut_pieces
from tubeframe.parts.piece import Parts
from tubeframe.words.fittings import claim, generic_words, joint_words, measured_words


def ladder(shop, *rails, post="emt-3/4"):
    """Two posts with rails of given sizes between them."""
    member = [
        {"id": name, "path": [[x, 0, 0], [x, 0, 60]], "ends": ["foot", "cap"], "tube": post}
        for name, x in (("left", 0), ("right", 40))
    ]
    member += [
        {"id": f"rail.{n}", "path": [[0, 0, 10 * n], [40, 0, 10 * n]], "ends": ["joint", "joint"], "tube": tube}
        for n, tube in enumerate(rails, start=1)
    ]
    document = {"schema": "tubeframe.frame/1", "name": "ladder", "units": "in", "member": member}
    return frame_from_document(document, shop, "ladder.toml")


def counted(shop, *rails, post="emt-3/4"):
    return count_fittings(jointed(ladder(shop, *rails, post=post), shop).joints, shop)


def shop_of(**fittings):
    return workshop_from_document({"fittings": {k.replace("_", "-"): v for k, v in fittings.items()}}, "my.toml")


def bought(shop, *rails, post="emt-3/4"):
    frame = ladder(shop, *rails, post=post)
    found = jointed(frame, shop)
    parts = Parts(pieces=cut_pieces(found, shop), groups=(), panel_groups=())
    lines = buying_list(frame, parts, count_fittings(found.joints, shop), (), None, shop)
    return {p.item: (p.quantity, p.spare, p.price) for p in lines}


def test_a_fitting_and_its_reverse_are_two_items():
    shop = shop_of()
    names = {c.tubes for c in counted(shop, "emt-3/4", post="emt-1") if c.kind == "tee"}
    assert names == {"EMT 1 run, EMT 3/4 branch"}
    names = {c.tubes for c in counted(shop, "emt-1", "emt-3/4") if c.kind == "tee"}
    assert names == {"EMT 3/4 run, EMT 1 branch", "EMT 3/4"}


def test_prices_by_size():
    shop = shop_of(tee={"price": 2, "emt-3/4": {"price": 3}, "emt-3/4 x emt-1": {"price": 4.5}})
    found = bought(shop, "emt-3/4", "emt-1", "emt-1/2")

    assert [found[f"tee for {t}, with 2 bolts"][2] for t in ("EMT 3/4", "EMT 3/4 run, EMT 1 branch")] == [3, 4.5]
    assert found["tee for EMT 3/4 run, EMT 1/2 branch, with 2 bolts"][2] == 2


@pytest.mark.parametrize(
    ("on_hand", "line"),
    [(None, (4, 1)), (0, (4, 1)), (3, (1, 1)), (4, (0, 1)), (5, (0, 0)), (9, (0, 0))],
)
@pytest.mark.parametrize("by_size", [True, False])
def test_a_surplus_covers_the_spare(on_hand, line, by_size):
    """Four tees are needed and one to spare."""
    row = {} if on_hand is None else {"on_hand": on_hand}
    shop = shop_of(tee={"emt-3/4": row} if by_size else row)

    assert bought(shop, "emt-3/4", "emt-3/4")["tee for EMT 3/4, with 2 bolts"][:2] == line


def test_what_lies_there_counts_once_needs_before_spares():
    """Two of each are needed; three that lie there go to the first two and one of the next."""
    found = bought(shop_of(tee={"on_hand": 3}), "emt-3/4", "emt-1")
    lines = {item: found[item][:2] for item in found if item.startswith("tee")}

    assert lines == {
        "tee for EMT 3/4, with 2 bolts": (0, 1),
        "tee for EMT 3/4 run, EMT 1 branch, with 2 bolts": (1, 1),
    }


@pytest.mark.parametrize(
    "row", [{}, {"price": 2.5}, {"on_hand": 4}, {"emt-3/4": {}}, {"emt-1": {"setback": "0.65 in"}}, {"grip": "2 in"}]
)
def test_what_measures_nothing_claims_nothing(row):
    """A price, a count, an empty table and another size are no lengths; a grip cuts nothing."""
    found = counted(shop_of(tee=row), "emt-3/4")

    assert "tee for EMT 3/4" in generic_words(found)
    assert ("GENERIC sizes: measure" in claim(found)) == ("grip" not in row)


def test_the_claim_names_what_is_measured_and_what_is_not():
    shop = shop_of(tee={"emt-3/4": {"setback": "0.5 in", "grip": "1.9 in"}})
    found = counted(shop, "emt-3/4", "emt-1")

    assert claim(found) == (
        "8; GENERIC sizes, measure yours before you cut: tee for EMT 3/4 run, EMT 1 branch; foot for EMT 3/4"
    )
    assert measured_words(found) == "tee for EMT 3/4: setback and grip (J1, J3)"


def test_all_measured():
    shop = shop_of(tee={"setback": "0.5 in"}, foot={"thickness": "0.1 in"})
    found = counted(shop, "emt-3/4")

    assert claim(found) == "6, sizes as measured by you"
    assert generic_words(found) == ""


def test_one_angle_that_was_measured_and_one_that_was_not():
    """A knee at 45 degrees and one at 60, each in swivel tees; only 45 was measured."""
    shop = shop_of(swivel_tee={"setback": {"45": "1.5 in"}}, angle_tee={"setback": "1.5 in"})
    member = [
        {"id": "post", "path": [[0, 0, 0], [0, 0, 60]], "ends": ["foot", "cap"]},
        {"id": "knee", "path": [[0, 0, 20], [10, 0, 30]], "ends": ["joint", "cap"]},
        {"id": "arm", "path": [[0, 0, 40], [17.3205, 0, 50]], "ends": ["joint", "cap"]},
    ]
    wish = [{"at": [0, 0, 20], "kind": "swivel-tee"}]
    document = {"schema": "tubeframe.frame/1", "name": "k", "units": "in", "member": member, "joint": wish}
    found = count_fittings(jointed(frame_from_document(document, shop, "k"), shop).joints, shop)

    assert measured_words(found) == "swivel-tee for EMT 3/4: setback (J1)"
    assert generic_words(found) == "swivel-tee for EMT 3/4 (J2); foot for EMT 3/4"


def test_joints_in_turn():
    assert joint_words(["J3", "J1", "J2", "J7", "J8", "J12"]) == "J1 to J3, J7, J8, J12"
