from __future__ import annotations

import pytest

from tests.gallery.regenerate import GALLERY, design_of, examples, index
from tubeframe.errors import Severity


@pytest.mark.parametrize("path", examples(), ids=lambda p: p.parent.name)
def test_an_example_builds_without_errors(path):
    assert [f for f in design_of(path).findings if f.severity is Severity.ERROR] == []
    assert (path.parent / "sheets.pdf").is_file()
    assert (path.parent / "cover.png").is_file()


def test_the_index_is_up_to_date():
    assert (GALLERY / "index.md").read_text(encoding="utf-8") == index()
