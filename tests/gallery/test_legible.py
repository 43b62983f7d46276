"""Every sheet of the gallery as a reader sees it that did not write it."""

from __future__ import annotations

import pytest

from tests.gallery.regenerate import design_of, examples
from tests.outputs.readers import pdf, pdf_faults
from tubeframe.drawing.drawings import Drawings
from tubeframe.output.pdf import write_pdf

STRUCK = {"backyard-greenhouse": 1, "market-tunnel": 2, "pointed-greenhouse": 1}
"""Letters that a line runs through: numbers of bends on the sketches of hoops, to be mended."""


@pytest.mark.parametrize("path", examples(), ids=lambda p: p.parent.name)
def test_nothing_is_cut_off_covered_or_struck(path, tmp_path):
    sheets = Drawings(design_of(path)).sheets
    with (tmp_path / "sheets.pdf").open("wb") as target:
        write_pdf(sheets, target, title="t", author="a", subject="s")
    struck = 0
    for sheet in pdf.read(tmp_path / "sheets.pdf").sheets:
        assert not pdf_faults.outside(sheet, 10.0), sheet.number
        assert not pdf_faults.collisions(sheet), sheet.number
        struck += len(pdf_faults.struck(sheet))

    assert struck == STRUCK.get(path.parent.name, 0)
