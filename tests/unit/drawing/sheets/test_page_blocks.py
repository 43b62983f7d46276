"""Tables: columns as wide as their words."""

from __future__ import annotations

import pytest

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Text
from tubeframe.drawing.model.lettering import SMALL
from tubeframe.drawing.sheets.page_blocks import table
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.sheets.table_columns import Column

RUNNING = Running(title="t", units="u", foot="f", maker="m")


def _texts(columns, rows, paper=(210.0, 297.0)):
    flow = Flow(paper, RUNNING)
    flow.page("x")
    table(flow, columns, rows)
    width = flow.width
    return [i for i in flow.sheets()[0].items if isinstance(i, Text)][5:], width


@pytest.mark.parametrize("shares", [(1, 1, 1), (50, 1, 1), (1, 50, 1), (1, 1, 50)])
def test_no_word_is_broken_and_no_number_parted_from_its_unit(shares):
    titles, words = ("Mark", "Exact", "End"), ("T1L", "12296.82 mm", "swivel-base-flange")
    columns = [
        Column(title=t, share=s, anchor=Anchor.RIGHT if t == "Exact" else Anchor.LEFT)
        for t, s in zip(titles, shares, strict=True)
    ]
    texts, _ = _texts(columns, [words])

    assert {t.text for t in texts} >= {*titles, *words}


def test_words_stay_in_their_columns():
    columns = [Column(title="One", share=1), Column(title="Two", share=60), Column(title="Three", share=60)]
    texts, width = _texts(columns, [("longest-of-words", "a", "b")])
    at = {t.text: t.at[0] for t in texts}
    size = next(t.height for t in texts if t.text == "a")

    assert at["longest-of-words"] + text_width("longest-of-words", size) <= at["a"]
    assert at["b"] < 20.0 + width


def test_a_table_too_wide_is_set_smaller():
    words = ["a-word-of-some-length"] * 4
    texts, _ = _texts([Column(title=str(n), share=1) for n in range(4)], [words])

    assert [t.text for t in texts[4:]] == words
    assert {t.height for t in texts[4:]} == {SMALL}
