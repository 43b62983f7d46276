from __future__ import annotations

import struct

import pytest

from tests.building import design_of
from tests.outputs.readers import pdf
from tubeframe.output.build_files import EVERYTHING, Format
from tubeframe.output.build_folder import Build

SIGNATURE = b"\x89PNG\r\n\x1a\n"  # PNG specification (W3C), 5.2
INCH_MM = 25.4
DPI = 100.0
PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}


def silent(_: str) -> None:
    pass


def size_in_dots(png: bytes) -> tuple[int, int]:
    """Width and height from the header, the first chunk (W3C PNG specification, 11.2.2)."""
    assert png.startswith(SIGNATURE)
    assert png[12:16] == b"IHDR"
    width, height = struct.unpack(">II", png[16:24])
    return width, height


@pytest.mark.parametrize("paper", PAPERS)
def test_previews_are_the_pages_of_the_sheets(tmp_path, paper) -> None:
    design = design_of("table", {"paper": paper})
    names = Build(design, (Format.PREVIEW, Format.PDF)).write(tmp_path / "t", silent)
    pages = len(pdf.read(tmp_path / "t" / "sheets.pdf").sheets)

    previews = [f"preview-{n}.png" for n in range(1, pages + 1)]
    assert [n for n in names if n.startswith("preview")] == previews
    assert sorted(p.name for p in (tmp_path / "t").glob("preview*")) == sorted(previews)
    for name in previews:
        size = size_in_dots((tmp_path / "t" / name).read_bytes())
        assert sorted(size) == pytest.approx(sorted(v / INCH_MM * DPI for v in PAPERS[paper]), abs=1.0)


def test_previews_have_the_same_bytes_twice_and_go_when_they_are_not_asked_for(tmp_path) -> None:
    design = design_of("table")
    contents = []
    for folder in (tmp_path / "one", tmp_path / "two"):
        names = Build(design, (Format.PREVIEW,)).write(folder, silent)
        contents.append({n: (folder / n).read_bytes() for n in names})
    assert contents[0] == contents[1]

    theirs = tmp_path / "one" / "preview-mine.png"
    theirs.write_bytes(b"mine")
    (tmp_path / "one" / "preview-99.png").write_bytes(b"of a build with more pages")
    Build(design, (Format.PREVIEW,)).write(tmp_path / "one", silent)
    assert not (tmp_path / "one" / "preview-99.png").exists()
    assert (tmp_path / "one" / "preview-1.png").exists()

    Build(design, (Format.CSV,)).write(tmp_path / "one", silent)
    assert [p.name for p in (tmp_path / "one").glob("preview*")] == ["preview-mine.png"]


def test_previews_are_not_part_of_a_plain_build() -> None:
    assert Format.PREVIEW not in EVERYTHING
    assert Format.PDF in EVERYTHING
