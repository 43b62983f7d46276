from __future__ import annotations

import pytest

from tests.building import frame_of
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.errors import InputError
from tubeframe.frame.document import frame_from_document
from tubeframe.frame.load import LoadUse
from tubeframe.frame.writing import frame_document
from tubeframe.geometry.units import Units

POST = {"id": "post", "path": [[0, 0, 0], [0, 0, 60]]}
BOARD = {"id": "top", "corners": [[0, 0, 62], [30, 0, 62], [30, 12, 62], [0, 12, 62]], "thickness": 0.75}


def read(**tables):
    document = {"schema": "tubeframe.frame/1", "name": "x", "member": [POST], "panel": [BOARD], **tables}
    return frame_from_document(document, generic_workshop(), "x.toml")


@pytest.mark.parametrize("template", ["table", "greenhouse"])
@pytest.mark.parametrize("units", list(Units))
def test_loads_and_cover_come_back_from_a_text_frame(template, units):
    frame = frame_of(template)
    again = frame_from_document(frame_document(frame, units), generic_workshop(), "again")

    assert [(x.name, x.on, x.use, x.share, x.total, x.at) for x in again.loads] == [
        (x.name, x.on, x.use, x.share, x.total, x.at) for x in frame.loads
    ]
    assert [tuple(x.direction) for x in again.loads] == [pytest.approx(tuple(x.direction)) for x in frame.loads]
    assert (again.cover is None) == (frame.cover is None)
    assert [x.span for x in again.loads] == [x.span and pytest.approx(x.span) for x in frame.loads]
    if frame.cover:
        assert again.cover.over == frame.cover.over
        assert again.cover.height == pytest.approx(frame.cover.height)


def test_a_load_without_a_total_is_a_share_of_what_is_asked():
    (load,) = read(load=[{"name": "use", "panel": "top", "share": 0.5, "at": [0.5, 0]}]).loads

    assert (load.total, load.share, load.at, load.use) == (None, 0.5, (0.5, 0.0), LoadUse.CARRIED)


@pytest.mark.parametrize(
    ("table", "key"),
    [
        ({"load": [{"name": "use"}]}, "load[1].panel"),
        ({"load": [{"name": "use", "panel": "top", "member": "post"}]}, "load[1].panel"),
        ({"load": [{"name": "use", "panel": "tap"}]}, "load[1].panel"),
        ({"load": [{"name": "use", "panel": "top", "use": "fun"}]}, "load[1].use"),
        ({"load": [{"name": "use", "panel": "top", "at": [2, 0]}]}, "load[1].at"),
        ({"load": [{"name": "use", "member": "post", "from": 3}]}, "load[1].from"),
        ({"support": [{"member": "pest", "fixes": ["x"]}]}, "support[1].member"),
        ({"cover": {"over": ["roof"], "width": 3, "length": 3, "height": 3}}, "cover.over"),
        ({"cover": {"over": ["post"], "width": 3, "length": 3}}, "cover.width"),
    ],
)
def test_a_mistake_names_its_key(table, key):
    with pytest.raises(InputError) as caught:
        read(**table)

    assert key in [p.key for p in caught.value.problems]
