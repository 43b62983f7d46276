"""Marks on a straight tube become the shape that was drawn: bent again by a program of its own."""

from __future__ import annotations

import numpy as np
import pytest

from tests.bending.bend_back import missed
from tests.bending.drawn_shapes import SHOP, drawn, mirrored, tube
from tests.building import design_of
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, make_design
from tubeframe.design_document import design_document
from tubeframe.frame.document import frame_from_document
from tubeframe.template.registry import shipped_templates

WITHIN = 0.5
"""[mm]"""
STEP = {"in": 25.4 / 16, "mm": 1.0}
"""Cut lengths are rounded down to what a tape shows [mm]."""
TEMPLATES = [(t.name, {}) for t in shipped_templates()]
ROOFS = [("greenhouse", {"shape": s}) for s in ("gothic", "gable")]


def _document(tubes, shop=SHOP):
    workshop = workshop_from_document(shop, "shop.toml")
    text = {"schema": "tubeframe.frame/1", "name": "shape", "units": "mm", "member": tubes}
    source = Source(template="shape.toml", parameters={}, shop=shop)
    return design_document(make_design(frame_from_document(text, workshop, "shape.toml"), workshop, source))


def worst(document, step):
    """Return how far the worst bent member is missed, with how many there are [mm]."""
    entries = {e["mark"]: e for e in document["bending"]}
    bent = [m for m in document["members"] if m["bends"]]
    points = [m["path_mm"][::-1] if m["reversed"] else m["path_mm"] for m in bent]
    return max((missed(entries[m["mark"]], p, step) for m, p in zip(bent, points, strict=True)), default=0.0), len(bent)


@pytest.mark.parametrize(("template", "values"), [*TEMPLATES, *ROOFS])
@pytest.mark.parametrize("units", ["in", "mm"])
def test_templates_close(template, values, units):
    off, count = worst(design_document(design_of(template, {"units": units}, **values)), STEP[units])

    assert off <= WITHIN
    assert bool(count) == (template == "greenhouse" and values.get("shape") != "gable")


@pytest.mark.parametrize("seed", [*range(40), *(pytest.param(n, marks=pytest.mark.slow) for n in range(40, 340))])
def test_drawn_shapes_close(seed):
    """Every fourth lies in one plane, the others in as many as they have bends."""
    corners = drawn(seed, flat=seed % 4 == 0)
    document = _document([tube("t", corners)])
    off, count = worst(document, STEP["mm"])
    (entry,) = document["bending"]

    assert count == 1
    assert off <= WITHIN
    assert entry["flat"] == (seed % 4 == 0 or len(entry["bends"]) == 1)
    for bend in entry["bends"]:
        assert 0.0 <= bend["arrow_mm"] <= entry["rough_length_mm"]
        assert bend["reading_deg"] > bend["angle_deg"]


@pytest.mark.parametrize("seed", [1, 2, 3, 5, 6, 7])
def test_a_mirror_pair_is_left_and_right(seed):
    corners = drawn(seed)
    assert len(corners) > 3
    document = _document([tube("one", corners), tube("other", mirrored(corners) + np.array([9000.0, 0.0, 0.0]))])

    assert [e["mark"] for e in document["bending"]] == ["T1L", "T1R"]
    assert worst(document, STEP["mm"])[0] <= WITHIN
    one, other = document["bending"]
    turns = [(a["roll_deg"] + b["roll_deg"]) % 360 for a, b in zip(one["bends"], other["bends"], strict=True)]
    assert np.allclose(np.minimum(turns, 360 - np.array(turns)), 0.0, atol=1e-3)


def test_a_pair_that_lies_in_one_plane_is_one_mark():
    corners = drawn(4, flat=True)
    document = _document([tube("one", corners), tube("other", mirrored(corners) + np.array([9000.0, 0.0, 0.0]))])

    assert [e["mark"] for e in document["bending"]] == ["T1"]
