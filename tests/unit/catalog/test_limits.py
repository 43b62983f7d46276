from __future__ import annotations

import pytest

from tubeframe.catalog.limits import LimitKey
from tubeframe.catalog.shipped import catalog_from, shipped_catalog, shipped_texts
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.errors import CatalogError, InputError


def test_every_limit_says_where_it_comes_from():
    rows = shipped_catalog().limits.rows

    assert [r.key for r in rows] == list(LimitKey)
    assert all(r.source and r.unit for r in rows)
    assert shipped_catalog().limits.row(LimitKey.YIELD).source.startswith("assumed")


def test_the_users_own_values_rule():
    shop = workshop_from_document(
        {"limits": {"yield": "36 ksi", "road": 3, "bolt_torque": "10 Nm", "clamp_stiffness": "2.5 kNm/rad"}}, "my.toml"
    )

    assert shop.limits[LimitKey.YIELD] == pytest.approx(36 * 6.894757)
    assert shop.limits[LimitKey.ROAD] == 3.0
    assert shop.limits[LimitKey.BOLT_TORQUE] == 10e3
    assert shop.limits[LimitKey.CLAMP] == 2.5e6
    assert shop.limits.row(LimitKey.YIELD).source == "the user's own"
    assert shop.limits[LimitKey.SAG_PART] == 240.0


@pytest.mark.parametrize("value", ["strong", "30 psf", -1, 0, True, "36 ksi or so", 1e9, float("nan")])
def test_a_value_that_is_none_is_told(value):
    with pytest.raises(InputError, match=r"limits\.yield: .* is not a value from 0\.000206843 to 2\.06843e\+08 MPa"):
        workshop_from_document({"limits": {"yield": value}}, "my.toml")


def test_an_unknown_limit_is_told_with_the_nearest():
    with pytest.raises(InputError, match="did you mean 'yield'"):
        workshop_from_document({"limits": {"yeild": 3}}, "my.toml")


def test_a_missing_row_is_told():
    texts = shipped_texts()
    cut = texts["limits"].split("[[limit]]")
    with pytest.raises(CatalogError, match="no row for braking"):
        catalog_from({**texts, "limits": "[[limit]]".join(cut[:-1])})
