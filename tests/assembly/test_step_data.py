"""Counts, tools and labels: what lists and labels are made from."""

from __future__ import annotations

from collections import Counter

from tests.building import greenhouse, table
from tubeframe.design_document import design_document
from tubeframe.words.tools import tool_list


def test_the_parts_of_all_steps_are_all_parts():
    for design in (table(), greenhouse()):
        document = design_document(design)
        counted = {"tube": Counter(), "fitting": Counter(), "board": Counter()}
        for step in document["steps"]:
            for row in step["parts"]:
                counted[row["what"]][row["name"]] += row["quantity"]
        assert counted["tube"] == Counter(m["mark"] for m in document["members"])
        assert counted["fitting"] == Counter(j["kind"] for j in document["joints"])
        assert counted["board"] == Counter(p["mark"] for p in document["panels"])


def test_every_piece_has_its_label_with_what_takes_its_ends():
    document = design_document(table())
    labels = {label["member"]: label for label in document["labels"]}

    assert set(labels) == {m["id"] for m in document["members"]}
    assert labels["leg.front.left"]["end_a"] == "foot"
    assert labels["leg.front.left"]["end_b"] == "side-outlet-elbow"
    assert all(labels[m["id"]]["mark"] == m["mark"] for m in document["members"])


def test_tools_are_those_that_the_frame_needs():
    plain, bent = tool_list(table()), tool_list(greenhouse())

    assert "hex key 5 mm" in plain
    assert not any(t.startswith(("bender", "string")) for t in plain)
    assert 'drill with a 3/32" bit' in plain  # for the screws of the top's straps
    assert [t for t in bent if t.startswith(("bender", "drill"))] == ["bender for EMT 3/4", 'drill with a 1/4" bit']
    assert len(set(bent)) == len(bent)


def test_operations_say_which_ports_take_each_tube_and_each_port_is_named_once():
    for design in (table(), greenhouse()):
        document = design_document(design)
        named = Counter(
            (e["joint"], e["port"])
            for step in document["steps"]
            for done in (*step["operations"], *step["raises"])
            for e in done["into"]
        )
        assert set(named) == {(j["id"], port) for j in document["joints"] for port in j["ports"]}
        assert set(named.values()) == {1}
