from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest

from tests.building import design_of, greenhouse, table
from tests.outputs.readers import pdf, pdf_faults
from tubeframe.catalog.fitting import PortRole
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.design import Source, make_design
from tubeframe.drawing.labels.callouts import Callout, callouts
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Arc, Area, Lines
from tubeframe.drawing.sheets.joint_kinds import heads, joint_kinds, stubs
from tubeframe.drawing.sheets.joint_pages import joint_pages
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.views.part_book import part_book
from tubeframe.frame.document import frame_from_document
from tubeframe.geometry.units import format_length
from tubeframe.geometry.vector import Vec, X, Z, rotated
from tubeframe.output.pdf import write_pdf

DESIGNS = {"table": table, "greenhouse": greenhouse}
EMT_OUTSIDE = 23.4188  # 3/4 trade size, 0.922 in: ANSI C80.3, from memory


@pytest.fixture(params=DESIGNS)
def design(request):
    return DESIGNS[request.param]()


def texts(sheet):
    return [item.text for item in sheet.items if isinstance(item, Text)]


def pages(design, paper=(215.9, 279.4)):
    flow = Flow(paper, Running(title="t", units="u", foot="f", maker="m"))
    joint_pages(flow, part_book(design))
    return flow.sheets()


def cells(sheet):
    """The frames of the cells: left, bottom, right, top."""
    frames = [
        i.shape.corners for i in sheet.items if isinstance(i, Drawn) and isinstance(i.shape, Area) and i.fill is None
    ]
    return [(p[0][0], p[0][1], p[2][0], p[2][1]) for p in frames]


def lies_alongside(kind):
    """Whether it ties tubes that lie side by side: no two centrelines name a place on those."""
    return kind.is_coupler and not kind.swings and kind.takes_angle(0.0)


def every_kind(axis, turn):
    """A frame with one joint of each kind that holds tubes together, far apart, all turned, each asked for."""
    workshop = generic_workshop()
    rows, wishes = [], []
    for n, kind in enumerate(k for k in workshop.catalog.kinds if len(k.ports) > 1 and not lies_alongside(k)):
        tube = workshop.catalog.tube("emt-3/4")
        sized = workshop.sized(kind, dict.fromkeys((p.name for p in kind.ports), tube), 70.0 if kind.swings else None)
        for port in sized.ports:
            way = rotated(port.axis, axis, turn)
            middle = Vec(n * 2000.0, 0.0, 1000.0) + rotated(port.middle, axis, turn)
            is_run = port.role is PortRole.RUN
            path = [list(middle - way * 500.0 if is_run else middle), list(middle + way * 500.0)]
            rows.append({"id": f"{kind.key}.{port.name}", "path": path, "ends": ["cap" if is_run else "joint", "cap"]})
        between = rotated(sized.ports[0].middle + sized.ports[1].middle, axis, turn) * 0.5
        wishes.append({"at": list(Vec(n * 2000.0, 0.0, 1000.0) + between), "kind": kind.key})
    document = {"schema": "tubeframe.frame/1", "name": "all", "units": "mm", "member": rows, "joint": wishes}
    frame = frame_from_document(document, workshop, "all.toml")
    return make_design(frame, workshop, Source(template="all", parameters={}, shop={}))


def test_every_kind_stands_there_once(design) -> None:
    kinds = joint_kinds(part_book(design))
    joints = [j.id for k in kinds for j in k.joints]

    assert sorted(joints) == sorted(j.id for j in design.jointed.joints if not j.is_end_piece)
    assert len({(k.name, k.tubes) for k in kinds}) == len(kinds)
    bought = {(f.kind, f.tubes): f.quantity for f in design.fabrication.fittings}
    assert {(k.name, k.tubes): len(k.joints) for k in kinds} == {
        key: n for key, n in bought.items() if key[0] not in ("cap", "foot")
    }


def test_stubs_are_at_the_joint_and_hold_out_of_it(design) -> None:
    """For every joint, not only those that are drawn: pieces may run against the tube that they are cut from."""
    for kind in joint_kinds(part_book(design)):
        for joint in kind.joints:
            for use, stub in zip(joint.uses, stubs(part_book(design), replace(kind, shown=joint), 2.0), strict=True):
                (tube,) = stub.body.tubes
                port = joint.fitting.port(use.port)
                middle = joint.placement.point(port.middle)
                farthest = port.setback + port.grip + 2.0 * port.outside
                ends = sorted(middle.distance(p) for p in (tube.path.start, tube.path.end))
                assert ends[1] <= farthest + 1e-3
                assert tube.path.length > port.grip / 2.0
                if use.end is not None:
                    assert ends[0] == pytest.approx(port.setback, abs=1e-3)


def test_a_head_stands_on_the_side_where_it_faces(design) -> None:
    high = design.workshop.catalog.bolt.head_height
    for kind in joint_kinds(part_book(design)):
        ways = [w for w in design.jointed.bolts if w.joint == kind.shown.id]
        for head, way, place in zip(heads(part_book(design), kind), ways, kind.fitting.bolts, strict=True):
            assert (head.at - way.at).dot(way.head) == pytest.approx(place.half + high)


def test_a_cell_says_what_its_kind_is(design) -> None:
    told = [t for page in pages(design) for t in texts(page)]
    words = " ".join(told)
    for kind in joint_kinds(part_book(design)):
        assert kind.sign in told
        assert kind.name in told
        assert f"{len(kind.joints)} pieces for {kind.tubes}" in words
        roles = {u.port: "end" if kind.fitting.kind.is_sleeve else u.role.value for u in kind.shown.uses}
        for use in kind.shown.uses:
            assert f"{roles[use.port]} {design.parts.piece(use.tube).mark}" in told
        if kind.has_branch:
            assert f"Setback {format_length(kind.setbacks[0], design.workshop.units)}: cut end to" in words
    assert sum(t in ("head", "head, behind") for t in told) == sum(
        len(k.fitting.bolts) for k in joint_kinds(part_book(design))
    )


def test_a_detail_is_as_large_as_its_scale_says() -> None:
    """A tube's outlines stand its outside diameter over the scale apart, from wherever it is seen."""
    (page,) = pages(design_of("table"))
    cell = cells(page)[1]
    scale = int([t for t in texts(page) if t.startswith("1:")][1].removeprefix("1:"))
    upright = {
        round(a[0], 3)
        for item in page.items
        if isinstance(item, Drawn) and isinstance(item.shape, Lines) and item.pen is Pen.NARROW
        for a, b in item.chords()
        if abs(a[0] - b[0]) < 1e-6 and abs(a[1] - b[1]) > 5.0 and cell[0] < a[0] < cell[2]
    }
    low, high = sorted(upright)[:2]  # a word's leader may stand upright too, beside the tube
    assert high - low == pytest.approx(EMT_OUTSIDE / scale, abs=0.01)


def test_cells_do_not_overlap_and_flow_on(design) -> None:
    for paper, per_page in (((100.0, 200.0), 1), ((215.9, 279.4), 6)):
        made = pages(design, paper)
        number = len(joint_kinds(part_book(design)))
        assert len(made) == -(-number // per_page)
        assert sum(len(cells(page)) for page in made) == number
        for page in made:
            for a, b in itertools.combinations(cells(page), 2):
                assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
            for left, bottom, right, top in cells(page):
                assert min(left, bottom) >= 10.0
                assert right <= paper[0] - 10.0
                assert top <= paper[1] - 10.0


def test_no_letter_is_struck_or_covered(design, tmp_path) -> None:
    path = tmp_path / "joints.pdf"
    with path.open("wb") as target:
        write_pdf(pages(design), target, title="joints", author="tubeframe", subject="test")
    for page in pdf.read(path).sheets:
        assert not pdf_faults.struck(page)
        assert not pdf_faults.collisions(page)
        assert not pdf_faults.outside(page, 10.0)


@pytest.mark.parametrize(("axis", "turn"), [(Z, 0.0), (X, math.pi / 2.0), (Vec(1.0, 2.0, 3.0).unit, 3.5)])
def test_every_kind_of_the_catalogue_can_be_drawn_and_read(tmp_path, axis, turn) -> None:
    design = every_kind(axis, turn)
    path = tmp_path / "joints.pdf"
    made = pages(design)
    with path.open("wb") as target:
        write_pdf(made, target, title="joints", author="tubeframe", subject="test")
    kinds = joint_kinds(part_book(design))

    asked = [p.kind for p in design.frame.preferences]
    assert [k.name for k in kinds] == asked
    assert [k.sign for k in kinds] == [f"F{n}" for n in range(1, len(asked) + 1)]
    told = [t for page in made for t in texts(page)]
    assert sum(t in ("1:2", "1:5", "1:10") for t in told) == len(kinds)
    assert sum(t in ("head", "head, behind") for t in told) == sum(len(k.fitting.bolts) for k in kinds)
    for page in pdf.read(path).sheets:
        assert not pdf_faults.struck(page)
        assert not pdf_faults.collisions(page)
        assert not pdf_faults.outside(page, 10.0)


def test_words_keep_off_the_picture_and_each_other() -> None:
    square = [((10.0, 10.0), (30.0, 10.0)), ((30.0, 10.0), (30.0, 30.0)), ((30.0, 30.0), (10.0, 30.0))]
    wanted = [Callout(tip=(30.0, y), toward=(1.0, 0.0), text="head", arrow=True) for y in (18.0, 20.0, 22.0)]
    items = callouts(wanted, [strokes(Pen.TUBE, square)], (0.0, 0.0, 70.0, 40.0))
    placed = [i for i in items if isinstance(i, Text)]

    assert len(placed) == 3
    assert all(i.at[0] > 30.0 for i in placed)
    heights = sorted(i.at[1] for i in placed)
    assert all(b - a >= i.height for a, b, i in zip(heights, heights[1:], placed, strict=False))
    assert not [i for i in items if isinstance(getattr(i, "shape", None), Arc)]


def test_words_without_room_are_refused() -> None:
    callout = Callout(tip=(5.0, 5.0), toward=(1.0, 0.0), text="branch T12", arrow=False)
    assert callouts([callout], [strokes(Pen.TUBE, [((0.0, 0.0), (10.0, 10.0))])], (0.0, 0.0, 10.0, 10.0)) is None
