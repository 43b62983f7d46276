"""Bolt heads and the key's straight way: 3 in, common practice, no source."""

from __future__ import annotations

import pytest

from tests.bays import rack_of
from tests.building import words_of
from tests.unit.joints.test_planted_faults import SOUND, WORKSHOP, post, rail
from tubeframe.catalog.rules import KEY_LEAD as LEAD
from tubeframe.frame.document import frame_from_document
from tubeframe.joints.obstacles import Bar, Brick, Drum
from tubeframe.joints.resolve import jointed
from tubeframe.words.directions import direction_word


def _jointed(*members, **tables):
    rows = [{"id": name, "path": path, "ends": list(ends)} for name, path, ends in members]
    document = {"schema": "tubeframe.frame/1", "name": "keys", "units": "mm", "member": rows, **tables}
    return jointed(frame_from_document(document, WORKSHOP, "keys.toml"), WORKSHOP)


def _wall(y, toward):
    return [{"id": "wall", "at": [0, y, 0], "toward": [0, toward, 0]}]


def test_every_bolt_of_a_free_frame_is_reached():
    found = _jointed(*SOUND)

    assert len(found.bolts) == 8
    assert all(b.free == LEAD for b in found.bolts)


def test_heads_face_away_from_a_wall():
    """A wall 40 mm behind the middles: the bolts that run front to back have their heads to the front."""
    found = _jointed(*SOUND, wall=_wall(40, -1))

    assert not [f for f in found.findings if f.code == "J-key"]
    across = [b for b in found.bolts if abs(b.head.y) > 0.9]
    assert all(direction_word(b.head) == "to the front" for b in across)


def test_a_fitting_is_turned_where_the_plainest_way_does_not_do():
    """The bolt across a tee's run stands off to one side; with a wall close on that side it goes to the other."""
    free, walled = (_jointed(*SOUND, wall=_wall(y, s)) for y, s in ((2000, -1), (25, -1)))
    side = {b.joint: b.at.y for b in free.bolts}
    assert any(y > 15 for y in side.values())
    assert all(b.at.y < 25 for b in walled.bolts)


def test_a_bolt_between_two_walls_is_told():
    walls = [
        {"id": "back", "at": [0, 40, 0], "toward": [0, -1, 0]},
        {"id": "front", "at": [0, -40, 0], "toward": [0, 1, 0]},
        {"id": "under", "at": [0, 0, 560], "toward": [0, 0, 1]},
        {"id": "over", "at": [0, 0, 640], "toward": [0, 0, -1]},
    ]
    found = _jointed(post("left", 0), post("right", 800), rail("low", 600), wall=walls)
    tight = [f for f in found.findings if f.code == "J-key"]

    assert tight
    assert 'but needs 3"' in words_of(tight[0]).message


@pytest.mark.parametrize(("z", "free"), [(300.0, LEAD), (40.0, None)])
def test_the_floor_stops_a_key(z, free):
    """A tee 40 mm over the floor: no bolt's head faces down, where less than 3 in are left."""
    found = _jointed(post("left", 0), post("right", 800), rail("low", z))

    if free:
        assert all(b.free == free for b in found.bolts)
    else:
        assert all(direction_word(b.head) != "down" for b in found.bolts if b.free < LEAD or abs(b.head.z) > 0.9)


@pytest.mark.parametrize(("y", "errors"), [(22.0, False), (15.0, True), (5.0, True)])
def test_what_goes_into_a_wall_is_told(y, errors):
    """Clamps stand out 23.4188/2 + 3/8 in = 21.2 mm from the middle, tubes 11.7 mm."""
    found = _jointed(*SOUND, wall=_wall(y, -1))
    told = [words_of(f).where for f in found.findings if f.code == "J-wall"]

    assert bool(told) is errors
    assert any(w.startswith("left;") for w in told) is (y < 11.7)


_RUN = ("run", [[0, 0, 1000], [2000, 0, 1000]], ("cap", "cap"))
_BRANCHES = {
    name: (name, [[1000, 0, 1000], [1000 + x, y, 1000 + z]], ("joint", "cap"))
    for name, x, y, z in (("back", 0, 900, 0), ("front", 0, -900, 0), ("up", 0, 0, 900), ("slant", 700, 700, 0))
}


@pytest.mark.parametrize("size", [t.key for t in WORKSHOP.catalog.tubes])
@pytest.mark.parametrize(
    ("kind", "branches"),
    [
        ("tee", ["back"]),
        ("cross", ["back", "front"]),
        ("side-outlet-tee", ["back", "up"]),
        ("side-outlet-cross", ["back", "front", "up"]),
        ("angle-tee", ["slant"]),
    ],
)
def test_a_fitting_that_stands_alone_lets_its_key_in(size, kind, branches):
    found = _jointed(_RUN, *(_BRANCHES[b] for b in branches), tube=size)

    assert [j.kind for j in found.joints if not j.is_end_piece] == [kind]
    assert all(b.is_reached for b in found.bolts)


@pytest.mark.parametrize("size", [t.key for t in WORKSHOP.catalog.tubes])
def test_a_tees_head_faces_away_from_its_branch(size):
    """Up is liked better than down, but there its own body is in the way."""
    (run,) = [b for b in _jointed(_RUN, _BRANCHES["up"], tube=size).bolts if b.port == "run"]

    assert direction_word(run.head) == "down"


def test_a_bolts_neighbours_are_looked_at_only_however_long_the_rack_is(monkeypatch):
    """Things looked at a bolt stay the same from 66 tubes to 246."""
    looked_at = []
    for kind in (Bar, Drum, Brick):
        free = kind.free
        monkeypatch.setattr(kind, "free", lambda *a, free=free: (looked_at.append(1), free(*a))[1])
    counts = []
    for bays in (8, 33):
        looked_at.clear()
        bolts = jointed(rack_of(bays), WORKSHOP).bolts
        counts.append(len(looked_at) / len(bolts))

    assert 1.0 < counts[1] <= counts[0] * 1.1 <= 60.0
