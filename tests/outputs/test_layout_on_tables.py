"""The full-size layout on tables, as a reader that did not write it takes it apart."""

from __future__ import annotations

import re
from collections import Counter, defaultdict

import pytest

from tests.building import GREENHOUSE, TABLE, design_of
from tests.outputs.readers import dxf, lengths
from tests.outputs.readers.plane import bounds
from tubeframe.drawing.drawings import Drawings
from tubeframe.drawing.model.picture import Picture
from tubeframe.output.dxf import write_dxf

DESIGNS = {
    "table": lambda: design_of("table", {"table": "4ftx8ft"}, **dict(TABLE)),
    "greenhouse": lambda: design_of("greenhouse", {"table": "4ftx8ft"}, **dict(GREENHOUSE)),
    "greenhouse on small tables": lambda: design_of("greenhouse", {"table": "30inx60in"}, **dict(GREENHOUSE)),
    "metric greenhouse": lambda: design_of("greenhouse", {"units": "mm", "table": "2400mmx1200mm"}),
    "metric table on small tables": lambda: design_of("table", {"units": "mm", "table": "700x700"}),
}
GAP, EDGE = 30.0, 20.0
WIDTH = 0.6
"""Of a letter, in heights: a little less than the mean of the font, so that no box seems wider than its text is."""
REGISTER = re.compile(r"([A-Z]+\d+) (T\d+[LR]?) (.+)")
STRIP = re.compile(r"(T\d+[LR]?) x (\d+)(, part (\d+) of (\d+))?")


def _read(items, design, path):
    with path.open("wb") as target:
        write_dxf(Picture(title="", items=tuple(items), scale=1, units=design.workshop.units), target)
    return dxf.read(path)


@pytest.fixture(scope="module", params=DESIGNS)
def laid(request, tmp_path_factory):
    """Return the design, the whole file, and a file of each drawing alone."""
    design = DESIGNS[request.param]()
    folder = tmp_path_factory.mktemp("laid")
    drawings = Drawings(design).laid.drawings
    alone = [_read(d, design, folder / f"{n}.dxf") for n, d in enumerate(drawings)]
    return design, _read(Drawings(design).layout.items, design, folder / "layout.dxf"), alone


def _texts(file):
    return dxf.texts(file.model, character_width=WIDTH)


def _box(file):
    points = [p for t in _texts(file) for p in t.corners]
    return bounds((*points, *dxf.lines(file.model).extents()))


def _tables(file):
    """Return the box of each table's outline: four lines each, one table after another."""
    sides = dxf.lines(file.model, ("BORDER",)).segments
    assert len(sides) % 4 == 0
    return [bounds(tuple(p for s in sides[k : k + 4] for p in s)) for k in range(0, len(sides), 4)]


def test_tables_have_the_asked_size_and_names(laid):
    design, file, _ = laid
    tables = _tables(file)
    names = [t.text for t in _texts(file) if t.text.startswith("TABLE")]

    assert names == [f"TABLE {n}" for n in range(1, len(tables) + 1)]
    for low, high in tables:
        assert (high[0] - low[0], high[1] - low[1]) == pytest.approx(design.workshop.layout_table)


def test_every_drawing_lies_inside_one_table(laid):
    """The layout stands 100 mm under its head, the drawings alone do not."""
    _, file, alone = laid
    for low, high in map(_box, alone):
        inside = [
            t
            for t in _tables(file)
            if t[0][0] + EDGE <= low[0] + 0.01
            and t[0][1] + EDGE <= low[1] - 100.0 + 0.01
            and high[0] <= t[1][0] - EDGE + 0.01
            and high[1] - 100.0 <= t[1][1] - EDGE + 0.01
        ]
        assert len(inside) == 1


def test_no_two_drawings_are_nearer_than_the_gap(laid):
    boxes = [_box(file) for file in laid[2]]
    for n, (low, high) in enumerate(boxes):
        for other_low, other_high in boxes[n + 1 :]:
            apart = max(max(low[k] - other_high[k], other_low[k] - high[k]) for k in (0, 1))
            assert apart >= GAP - 0.01


def test_strips_are_as_long_together_as_the_tubes_are_marked(laid):
    """As they are cut; a tube that is bent before it is trimmed, as long as it is taken from the stick."""
    design, file, _ = laid
    lengths = {g.mark: g.first.stick_length if g.first.bends else g.first.cut_length for g in design.parts.groups}
    longest: dict[str, list[float]] = defaultdict(list)
    for one in laid[2]:
        segments = dxf.lines(one.model, ("STRIP",)).segments
        if not segments:
            continue
        (label,) = [m for t in _texts(one) if (m := STRIP.fullmatch(t.text))]
        longest[label[1]].append(max(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in segments))

    assert {m: sum(v) for m, v in longest.items()} == pytest.approx(lengths, abs=0.01)
    along = [abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in dxf.lines(file.model, ("STRIP",)).segments]
    across = sum(2.0 * design.workshop.catalog.tube(g.first.size).outside for g in design.parts.groups)
    assert sum(along) == pytest.approx(sum(2.0 * v for v in lengths.values()) + across, abs=0.01)


def test_strips_tell_mark_and_number(laid):
    design = laid[0]
    labels = {m[1]: int(m[2]) for t in _texts(laid[1]) if (m := STRIP.fullmatch(t.text))}

    assert labels == {g.mark: g.quantity for g in design.parts.groups}


def test_parts_are_numbered_without_a_gap(laid):
    found: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for text in (t.text for t in _texts(laid[1])):
        if m := re.match(r"(.+?), part (\d+) of (\d+)(?:$|:)", text):
            found[m[1]].append((int(m[2]), int(m[3])))

    for parts in found.values():
        assert sorted(parts) == [(k, len(parts)) for k in range(1, len(parts) + 1)]


def test_register_marks_come_in_pairs_on_two_drawings(laid):
    """The same name, tube and distance on two parts, and no name in a third place."""
    places: dict[str, list[tuple[int, str, str]]] = defaultdict(list)
    for n, file in enumerate(laid[2]):
        for text in _texts(file):
            if m := REGISTER.fullmatch(text.text):
                places[m[1]].append((n, m[2], m[3]))

    for name, ((first, *told), (other, *same)) in places.items():
        assert first != other
        assert not set("IOPST") & set(name)
        assert told == same
    crosses = sum(len(dxf.lines(f.model, ("DIM",)).segments) for f in laid[2] if _is_parted(f))
    assert crosses >= 4 * len(places)


def _is_parted(file):
    return any(", part " in t.text for t in _texts(file))


def test_distances_on_strips_are_what_they_measure(laid):
    """Each text of a strip in one part: its tick's distance from the cut end A is what it says, to half a step."""
    checked = Counter()
    for file in laid[2]:
        strip = dxf.lines(file.model, ("STRIP",)).segments
        told = [t.text for t in _texts(file)]
        if not strip or _is_parted(file):
            continue
        axis = 0 if max(abs(b[0] - a[0]) for a, b in strip) > max(abs(b[1] - a[1]) for a, b in strip) else 1
        start = min(p[axis] for s in strip for p in s)
        ticks = [
            a[axis] - start for a, b in dxf.lines(file.model, ("CENTER",)).segments if abs(a[axis] - b[axis]) < 1e-6
        ]
        shown = [lengths.read(" ".join(t.split(" ")[: _words(t)])) for t in told if _words(t)]
        for one in shown:
            assert min(abs(one.mm - tick) for tick in ticks) <= one.step_mm / 2.0 + 1e-6
            checked["read"] += 1

    assert checked["read"] or all(_is_parted(f) for f in laid[2] if dxf.lines(f.model, ("STRIP",)).segments)


def _words(text):
    """Return how many words of a strip's text are its distance: it ends in an inch sign or in mm; 0 for other texts."""
    if REGISTER.fullmatch(text):
        return 0
    words = text.split(" ")
    return next((n for n, w in enumerate(words, start=1) if w.endswith('"') or w == "mm"), 0)


def test_no_text_covers_another_or_is_crossed(laid):
    for file in laid[2]:
        assert dxf.overlapping(_texts(file)) == ()
        assert [t.text for t, _ in dxf.crossed(_texts(file), dxf.lines(file.model).segments)] == []


def test_layers_are_known_and_strips_have_their_own(laid):
    assert laid[1].unknown_layers() == ()
    assert laid[1].of("LINE", ("STRIP",))
