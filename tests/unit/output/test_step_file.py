"""STEP: header, names, colours, silence, and the same bytes every time in one process.

`tests/outputs` reads whole frames with another kernel, and compares two processes.
"""

from __future__ import annotations

import io
import tempfile
from itertools import combinations

import pytest
from OCP.Message import Message, Message_Gravity

from tests.outputs.readers import part21, step
from tubeframe.errors import OutputError
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import line
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import ORIGIN, Vec
from tubeframe.output import step_file as writer
from tubeframe.output.glb import write_glb
from tubeframe.output.step_file import write_step
from tubeframe.solids.model import Model, Occurrence, Paint, Product
from tubeframe.solids.tube import tube_solid

POST = Product(name="T1", shape=tube_solid(line(ORIGIN, Vec(0, 0, 900)), 23.4, 20.9), paint=Paint.TUBE)
BENT = Product(
    name="T2",
    shape=tube_solid(through([ORIGIN, Vec(0, 0, 400), Vec(400, 0, 400)], [140.0]), 23.4, 20.9),
    paint=Paint.TUBE,
)


def at(product, name, x):
    return Occurrence(name=name, product=product, placement=Placement(origin=Vec(x, 0, 0)))


def model(name="stand", ids=("post.left", "post.right", "rail")):
    left, right, rail = ids
    return Model(
        name=name, products=(POST, BENT), occurrences=(at(POST, left, 0), at(POST, right, 500), at(BENT, rail, 9))
    )


def written(of):
    target = io.BytesIO()
    write_step(of, target)
    return target.getvalue()


def read(of, tmp_path):
    path = tmp_path / "model.step"
    path.write_bytes(written(of))
    return step.read(path)


def test_header_says_what_made_it_and_has_no_clock(tmp_path):
    file = read(model(), tmp_path)

    assert file.file_name.name == "stand"
    assert file.file_name.time_stamp == "1970-01-01T00:00:00"
    assert file.file_name.originating_system.startswith("tubeframe ")
    assert file.schemas[0].startswith("AUTOMOTIVE_DESIGN { 1 0 10303 214 ")
    assert file.length_unit_mm == 1.0


def test_names_and_shared_shapes(tmp_path):
    file = read(model(), tmp_path)

    assert file.products == ("stand", "T1", "T2")
    assert [(o.product, o.path[-1]) for o in file.placed] == [("T1", "post.left"), ("T1", "post.right"), ("T2", "rail")]
    assert file.solids == 2


@pytest.mark.parametrize(
    "name",
    ["Bob's stand", "back\\slash", "Ger\u00fcst \u2033 10", "\U0001d11e", "semi;colon');", "a name of 80 " + "x" * 67],
)
def test_any_name_comes_back_as_it_was(name, tmp_path):
    file = read(model(name=name, ids=(name, "b", "c")), tmp_path)

    assert file.file_name.name == name
    assert file.products[0] == name
    assert file.placed[0].path[-1] == name


@pytest.mark.parametrize("length", range(50, 75))
def test_a_long_name_stays_whole_wherever_the_kernel_breaks_its_line(length, tmp_path):
    """The kernel breaks a string near column 72: in a word, after a space, between the two signs of a quote."""
    name = "x" * length + "' \u00fc' y" * 5
    file = read(model(name=name, ids=(name, "b", "c")), tmp_path)

    assert file.file_name.name == name
    assert file.placed[0].path[-1] == name


def test_the_file_is_ascii():
    written(model(name="Ger\u00fcst", ids=("\u00e4", "\u00f6", "\u00fc"))).decode("ascii")


def test_two_products_of_one_shape_stay_two(tmp_path):
    twin = Product(name="T3", shape=POST.shape, paint=Paint.TUBE)
    file = read(Model(name="twins", products=(POST, twin), occurrences=(at(POST, "a", 0), at(twin, "b", 50))), tmp_path)

    assert [(o.product, o.path[-1]) for o in file.placed] == [("T1", "a"), ("T3", "b")]
    assert file.uncoloured == ()


def test_every_solid_has_its_colour_however_long_its_name(tmp_path):
    """The longest names that fittings can have, as the writer breaks lines near them."""
    names = [f"side-outlet-cross EMT 1-1-4 x EMT 1-1-2{' ' + 'y' * n if n else ''}" for n in range(40)]
    paints = [list(Paint)[n % 3] for n in range(len(names))]
    products = tuple(Product(name=n, shape=POST.shape, paint=p) for n, p in zip(names, paints, strict=True))
    placed = tuple(at(p, f"J{n}", 50 * n) for n, p in enumerate(products))
    path = tmp_path / "model.step"
    path.write_bytes(written(Model(name="long", products=products, occurrences=placed)))
    colours = {p.product: p.colour for p in step.solids(path)}

    assert colours == {p.name: pytest.approx(p.paint.value) for p in products}


def test_the_same_bytes_again_after_other_files():
    """The kernel counts occurrences on through a process; and a mesh left on a shape must not show."""
    first = written(model())
    written(Model(name="other", products=(BENT,), occurrences=tuple(at(BENT, f"b{n}", n) for n in range(120))))
    write_glb(model(), io.BytesIO())

    assert written(model()) == first


def test_occurrences_are_counted_from_one():
    exchange = part21.parse(written(model()).decode("ascii"))
    numbers = [record.parameters[0] for _, record in exchange.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE")]

    assert [str(n) for n in numbers] == ["1", "2", "3"]


def test_nothing_is_printed_and_no_file_is_left(tmp_path, monkeypatch, capfd):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    written(model())

    assert capfd.readouterr() == ("", "")
    assert list(tmp_path.iterdir()) == []


def test_what_the_kernel_has_to_say_is_kept_off_standard_output_only_while_it_writes(monkeypatch, capfd):
    kernel, document = Message.DefaultMessenger_s(), writer._document

    def complaining(of, names):
        kernel.Send("said while writing", Message_Gravity.Message_Fail)
        return document(of, names)

    monkeypatch.setattr(writer, "_document", complaining)
    written(model())
    kernel.Send("said afterwards", Message_Gravity.Message_Fail)
    said = capfd.readouterr().out

    assert "said while writing" not in said
    assert "said afterwards" in said


def test_a_failure_of_the_kernel_is_told_and_nothing_is_printed(tmp_path, monkeypatch, capfd):
    class Gone(tempfile.TemporaryDirectory):
        def __enter__(self):
            return str(tmp_path / "not" / "there")

    monkeypatch.setattr(writer.tempfile, "TemporaryDirectory", Gone)

    with pytest.raises(OutputError, match="could not write the solid model"):
        written(model())
    assert capfd.readouterr() == ("", "")


def test_another_model_gives_other_bytes():
    all_written = [written(model()), written(model(name="other")), written(model(ids=("a", "b", "c")))]

    assert all(one != other for one, other in combinations(all_written, 2))
