"""What a name may do: nothing but be there, and read back as it was typed."""

from __future__ import annotations

import csv
import dataclasses
import io
import json
import tomllib
from functools import cache

import ezdxf
import pytest
from ezdxf.lldxf.encoding import decode_dxf_unicode, has_dxf_unicode
from ezdxf.tools.text import plain_text

from tests.hostile.values import NAMES
from tests.outputs.readers import part21, step_text
from tubeframe.catalog.drafting import DxfRelease
from tubeframe.catalog.ranges import fault_of_name
from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, make_design
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.picture import Picture
from tubeframe.errors import InputError, printable
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.panel import PanelUse
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import Units
from tubeframe.geometry.vector import Vec
from tubeframe.output.build_files import Format
from tubeframe.output.build_folder import Build
from tubeframe.output.dxf import write_dxf

MORE = (
    "tubeframe.name.0.",
    "^J",
    "a^b",
    "100%",
    "%%%",
    "\\U+00E9",
    "\\M+1A0E1",
    "''",
    "\\\\",
    "＝1",
    "é\u0301",
    "𝔘",
    "🚜",
)
ODD = tuple(dict.fromkeys((*NAMES, *MORE)))
"""Every name that may come, also from the code of a template, which nothing checks."""
TYPED = tuple(n for n in ODD if fault_of_name(n) is None)
"""Those that a file may hold."""
FILES = ("model.step", "elevations.dxf", "layout.dxf", "sheets.pdf", "pieces.csv", "buying_list.csv", "design.json")


def frame_of(names):
    """Lay posts under a rail, with every name on a post; a board, a thing to buy and the frame take names too."""
    frame = FrameBuilder(name="".join(names)[:60], tube="emt-3/4")
    frame.tube("rail", (Vec(-200.0, 0.0, 800.0), Vec(300.0 * len(names), 0.0, 800.0)))
    for n, name in enumerate(names):
        frame.tube(name, (Vec(300.0 * n, 0.0, 0.0), Vec(300.0 * n, 0.0, 800.0 - n)))
        frame.supply(name, 1, "pcs")
    frame.panel(
        f"board {names[0]}",
        PanelUse.TOP,
        corner=Vec(0, -50, 812),
        length=250,
        width=100,
        thickness=12,
        material="plywood",
    )
    return frame.build()


@cache
def design(names):
    shop = workshop_from_document({}, "test")
    return make_design(frame_of(names), shop, Source(template=names[0], parameters={names[-1]: names[0]}, shop={}))


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    out = tmp_path_factory.mktemp("names") / "out"
    formats = (Format.STEP, Format.CSV, Format.DXF, Format.PDF, Format.FRAME, Format.GLB)
    Build(design(ODD), formats).write(out, lambda _: None)
    return out


@pytest.mark.parametrize("release", DxfRelease)
def test_every_name_reads_back_from_a_dxf_file(release, tmp_path):
    items = tuple(Text(at=(0.0, 10.0 * n), text=name, height=3.0) for n, name in enumerate(ODD) if name)
    path = tmp_path / "names.dxf"
    with path.open("wb") as target:
        write_dxf(Picture(title="".join(ODD), items=items, scale=1, units=Units.MILLIMETRE), target, release)
    raw = [e.dxf.text for e in ezdxf.readfile(path).modelspace().query("TEXT")]
    read = [plain_text(decode_dxf_unicode(text)) for text in raw]
    if release is DxfRelease.R2010:
        assert read == [printable(i.text) for i in items]
    else:  # it knows letters of four figures only
        assert read == ["".join(c if ord(c) < 0x10000 else "?" for c in printable(i.text)) for i in items]
    assert all(has_dxf_unicode(t) or "\\" in t or t.isprintable() for t in raw)


def test_every_name_reads_back_from_a_step_file(built):
    exchange = part21.read(built / "model.step")

    assert {u.occurrence for u in step_text.usages(exchange)} >= {printable(n) for n in ODD if n.strip()}


def test_every_name_reads_back_from_the_lists_and_none_is_a_formula(built):
    for name, key in (("pieces.csv", "members"), ("buying_list.csv", "item")):
        text = (built / name).read_bytes().decode()
        rows = list(csv.DictReader(io.StringIO(text, newline="")))
        cells = [cell for row in rows for cell in row.values()]
        assert not any(c.lstrip()[:1] in set("=+-@＝") for c in cells)
        assert all(line.startswith('"') and line.endswith('"') for line in text.splitlines())
        told = " ".join(row[key] for row in rows)
        assert [n for n in ODD if printable(n) not in told] == []


def test_no_file_holds_what_a_terminal_obeys(built):
    """Text files only; in them control characters are shown by their numbers."""
    for path in built.iterdir():
        if path.suffix in {".csv", ".json", ".toml", ".step", ".dxf"}:
            text = path.read_bytes().decode().replace("\r\n", "\n")
            assert {c for c in text if not c.isprintable()} == {"\n"}, path.name


def test_names_read_back_from_json(built):
    document = json.loads((built / "design.json").read_text(), parse_constant=lambda word: pytest.fail(word))

    assert {m["id"] for m in document["members"]} >= set(ODD)


def test_parameters_read_back(built):
    document = tomllib.loads((built / "parameters.toml").read_text())

    assert document["template"] == ODD[0]
    assert document["parameters"] == {ODD[-1]: ODD[0]}


def test_a_text_frame_reads_back_with_every_name(built):
    document = tomllib.loads((built / "frame.toml").read_text())

    assert [m["id"] for m in document["member"]] == ["rail", *ODD]


@pytest.mark.parametrize("name", TYPED)
def test_a_text_frame_with_a_name_builds_the_same_again(name):
    shop = workshop_from_document({}, "test")
    frame = frame_of((name, f"{name[:50]} 2"))
    again = frame_from_document(frame_document(frame, Units.MILLIMETRE), dataclasses.replace(shop), "a.toml")

    assert again == frame


@pytest.mark.parametrize("name", [n for n in ODD if fault_of_name(n)])
def test_a_name_that_cannot_be_printed_or_is_too_long_is_refused(name):
    shop = workshop_from_document({}, "test")
    document = frame_document(frame_of(("one", "other")), Units.MILLIMETRE)
    document["member"][1]["id"] = name

    with pytest.raises(InputError) as refused:
        frame_from_document(document, shop, "a.toml")
    lines = str(refused.value).split("\n")
    assert any(line.startswith("a.toml: member[2].id: ") for line in lines)
    assert all(line.isprintable() and len(line) < 300 for line in lines)
