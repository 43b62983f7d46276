"""A design that somebody has been in is told so, not read half."""

from __future__ import annotations

import json

import pytest

from tubeframe.errors import InputError
from tubeframe.inputs.faces_file import read_face

FACE = {
    "name": "front",
    "width_mm": 1000.0,
    "height_mm": 700.0,
    "diagonal_mm": 1220.7,
    "corners": [{"member": "post", "from_a_mm": 20.0}],
}
WHOLE = {
    "schema": "tubeframe.design/1",
    "units": "mm",
    "members": [{"id": "post", "mark": "T1"}],
    "faces": [FACE],
}


def _written(folder, document):
    (folder / "design.json").write_text(json.dumps(document), encoding="utf-8")
    return folder


def test_a_face_as_a_build_writes_it(tmp_path):
    face = read_face(_written(tmp_path, WHOLE), "front")
    assert (face.width, face.points) == (1000.0, (("T1", 20.0),))


@pytest.mark.parametrize(
    "changed",
    [
        {"units": "furlong"},
        {"members": []},
        {"members": 3},
        {"faces": {"front": FACE}},
        {"faces": [3]},
        {"faces": [{**FACE, "width_mm": "wide"}]},
        {"faces": [{**FACE, "width_mm": float("inf")}]},
        {"faces": [{**FACE, "corners": [{"member": "post"}]}]},
        {"faces": [{"name": "front"}]},
    ],
)
def test_a_design_that_was_changed_is_refused(tmp_path, changed):
    with pytest.raises(InputError, match="is not as a build writes it; build it again"):
        read_face(_written(tmp_path, WHOLE | changed), "front")
