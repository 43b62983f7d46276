"""Sizes in the words of the cover follow the frame, whoever changed it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.building import design_of, frame_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import InputError
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import INCH_MM
from tubeframe.words.cover import cover_lines

WORKSHOP = generic_workshop()


def _lines(frame):
    return dict(cover_lines(frame, WORKSHOP))


def _lowered(document, by):
    """Lower all that is above the floor, as a person would in the text file."""
    for row in document["member"]:
        row["path"] = [[x, y, z - by if z > by else z] for x, y, z in row["path"]]
    for row in document.get("panel", ()):
        row["corners"] = [[x, y, z - by] for x, y, z in row["corners"]]
    return document


def test_under_a_table_by_hand():
    """33 in high, a top of 3/4 on strips of 3/8 over rails of 0.922 in: 30.953 in are left, 30 15/16."""
    said = _lines(frame_of("table", length="57in", width="27in", height="33in"))["Under it"]

    assert said.startswith('30 15/16" from the floor')


def test_a_table_that_is_lowered_in_its_text_file_says_so():
    frame = frame_of("table", length="57in", width="27in", height="33in")
    document = frame_document(frame, WORKSHOP.units)
    again = frame_from_document(_lowered(document, 2.0), WORKSHOP, "table.toml")

    assert _lines(again)["Under it"].startswith('28 15/16" from the floor')
    assert _lines(again)["Top"] == _lines(frame)["Top"]


def test_what_is_not_there_any_more_is_not_measured():
    """As after a repair that takes a tube away."""
    frame = frame_of("table", length="57in", width="27in", height="33in")
    members = tuple(m for m in frame.members if m.id != "rail.front")

    assert "Under it" not in _lines(replace(frame, members=members))


def test_a_text_file_that_measures_what_is_not_there_is_told_so():
    frame = frame_of("table", length="57in", width="27in", height="33in")
    document = frame_document(frame, WORKSHOP.units)
    document["member"] = [row for row in document["member"] if row["id"] != "rail.front"]
    document["load"] = [row for row in document["load"] if row.get("member") != "rail.front"]

    with pytest.raises(InputError, match=r"fact\[1\]\.sizes\[1\]\.under: there is no tube or board 'rail.front'"):
        frame_from_document(document, WORKSHOP, "table.toml")


@pytest.mark.parametrize(("name", "label", "tube"), [("greenhouse", "Headroom", "purlin.ridge")])
def test_headroom_is_under_the_lowest_side_of_the_purlin(name, label, tube):
    design = design_of(name)
    lowest = min(p.path.start.z for p in design.parts.pieces if p.member == tube) - 0.922 * INCH_MM / 2.0
    told = _lines(design.frame)[label]

    assert f"{int(lowest / INCH_MM // 12)}'" in told or f"{int(lowest / INCH_MM)}" in told
