"""A frame put together from its list alone: tubes as cut, bent and marked, and the fitting table.

Nothing of the joints or parts of the package is imported. The walk starts at one tube and goes through every fitting
from tube to tube; it must land on every joint again from every side, and on the asked size.
"""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from tests.building import GREENHOUSE, TABLE, design_of
from tubeframe.design_document import design_document

CATALOG = Path(__file__).parents[2] / "tubeframe" / "catalog"
KINDS = {k["key"]: k for k in tomllib.loads((CATALOG / "fittings.toml").read_text(encoding="utf-8"))["kind"]}
GENERIC = tomllib.loads((CATALOG / "fittings.toml").read_text(encoding="utf-8"))["generic"]
TUBES = {t["key"]: t for t in tomllib.loads((CATALOG / "tubes.toml").read_text(encoding="utf-8"))["tube"]}
TOLERANCE = 0.3


def _outside(tube):
    row = TUBES[tube]
    return row["outside_mm"] if "outside_mm" in row else row["outside_in"] * 25.4


def _turned(vector, axis, degrees):
    """Rodrigues' rotation of a vector about a unit axis."""
    a = math.radians(degrees)
    return vector * math.cos(a) + np.cross(axis, vector) * math.sin(a) + axis * (axis @ vector) * (1 - math.cos(a))


class Tube:
    """A tube from its row: walked from cut end A, whose place, direction and reference line are found on the way."""

    def __init__(self, row, piece):
        self.row = row
        self.length = piece["cut_length_mm"]
        self.size = piece["tube"]
        self.place = None

    def frames(self, at):
        """Return point, direction and reference at a distance from A, in the tube's own frame (start at 0, along z)."""
        point, way, reference, done = np.zeros(3), np.array([0.0, 0, 1]), np.array([1.0, 0, 0]), 0.0
        for bend in self.row["bends"]:
            if bend["start_from_a_mm"] >= at:
                break
            point = point + way * (bend["start_from_a_mm"] - done)
            arc = bend["radius_mm"] * math.radians(bend["angle_deg"])
            inside = _turned(reference, way, bend["roll_deg"])
            part = min(at - bend["start_from_a_mm"], arc)
            turn = part / bend["radius_mm"]
            point = point + bend["radius_mm"] * (way * math.sin(turn) + inside * (1 - math.cos(turn)))
            axis = np.cross(way, inside)
            way, reference = _turned(way, axis, math.degrees(turn)), _turned(reference, axis, math.degrees(turn))
            done = bend["start_from_a_mm"] + part
        return point + way * (at - done), way, reference

    def held(self, use):
        """Return the own frame (origin and axes as columns) of the port that holds this tube, without the place."""
        at = {"a": 0.0, "b": self.length, None: use.get("at")}[use["end"]]
        point, way, reference = self.frames(at)
        up = _turned(reference, way, use["roll"])
        axis = way * use["sense"]
        return point - axis * use["setback"], np.column_stack([axis, up, np.cross(axis, up)])


def _uses(rows):
    """List, for every joint, the tubes in its ports."""
    uses = {}
    for row in rows:
        for end, sense in (("a", 1), ("b", -1)):
            e = row[f"end_{end}"]
            if e["joint"] and e["kind"] == "joint":
                use = {"tube": row["id"], "end": end, "sense": sense, "roll": e["roll_deg"], "setback": e["setback_mm"]}
                uses.setdefault(e["joint"], []).append({**use, "port": e["port"], "angle": e["angle_deg"]})
        for s in row["stations"]:
            use = {"tube": row["id"], "end": None, "sense": s["sense"], "roll": s["roll_deg"], "setback": 0.0}
            use |= {"at": s["from_a_mm"], "port": s["port"], "angle": s["angle_deg"]}
            uses.setdefault(s["joint"], []).append(use)
    return uses


def _port_frame(kind, port, angle, offset):
    """Return a port's middle and axes (axis, up) in the fitting's own frame, from the table."""
    row = next(p for p in KINDS[kind]["ports"] if p["name"] == port)
    axis, up = np.array(row["axis"], float), np.array(row["up"], float)
    if angle is not None and "swing_deg" in row:
        axis = np.array([1.0, 0, 0]) * math.cos(math.radians(angle)) + axis * math.sin(math.radians(angle))
    middle = np.array([0, 0, offset]) if row.get("lift") else np.zeros(3)
    up = up - axis * (axis @ up)
    up = up / np.linalg.norm(up)
    return middle, np.column_stack([axis, up, np.cross(axis, up)])


def rebuilt(document):
    """Walk the whole frame; return places of the tubes, and how far any joint is missed [mm]."""
    pieces = {m: p for p in document["pieces"] for m in p["members"]}
    tubes = {row["id"]: Tube(row, pieces[row["id"]]) for row in document["members"]}
    kinds = {j["id"]: j["kind"] for j in document["joints"]}
    uses = {j: u for j, u in _uses(document["members"]).items() if len(u) > 1}
    first = next(iter(tubes.values()))
    first.place = (np.zeros(3), np.eye(3))
    worst, waiting, done = 0.0, [first.row["id"]], set()
    while waiting:
        name = waiting.pop()
        for joint, held in uses.items():
            if joint in done or all(u["tube"] != name for u in held):
                continue
            done.add(joint)
            missed, fresh = _through(tubes, held, kinds[joint], name)
            worst = max(worst, missed)
            waiting += fresh
    assert all(t.place is not None for t in tubes.values()), "the frame hangs together"
    return tubes, worst


def _through(tubes, held, kind, name):
    """Go through a fitting: place every tube in it, or see how far one that has a place is off."""
    entry = next(u for u in held if u["tube"] == name)
    angle = next((u["angle"] for u in held if u["angle"] is not None), None)
    outsides = [_outside(tubes[u["tube"]].size) for u in held]
    offset = sum(outsides[:2]) / 2 + GENERIC["coupler_gap_in"] * 25.4
    origin, turn = _in_space(tubes[name], entry)
    middle, axes = _port_frame(kind, entry["port"], angle, offset)
    fitting_turn = turn @ axes.T
    fitting_at = origin - fitting_turn @ middle
    worst, fresh = 0.0, []
    for use in held:
        tube = tubes[use["tube"]]
        middle, axes = _port_frame(kind, use["port"], angle, offset)
        target, target_turn = fitting_at + fitting_turn @ middle, fitting_turn @ axes
        own, own_turn = tube.held(use)
        if tube.place is None:
            rotation = target_turn @ own_turn.T
            tube.place = (target - rotation @ own, rotation)
            fresh.append(use["tube"])
        at, _ = _in_space(tube, use)
        worst = max(worst, float(np.linalg.norm(at - target)))
    return worst, fresh


def _in_space(tube, use):
    own, own_turn = tube.held(use)
    place, rotation = tube.place
    return place + rotation @ own, rotation @ own_turn


def _end(tube, at):
    place, rotation = tube.place
    return place + rotation @ tube.frames(at)[0]


CASES = {
    "table": lambda: design_of("table", **dict(TABLE)),
    "metric table": lambda: design_of("table", {"units": "mm", "tube": "tube-33.7x3"}),
    "greenhouse": lambda: design_of("greenhouse", **dict(GREENHOUSE)),
    "long greenhouse": lambda: design_of("greenhouse", width="10ft", length="27ft", height="8ft"),
    "short greenhouse": lambda: design_of("greenhouse", width="6ft", length="4ft", height="6ft"),
    "wide greenhouse": lambda: design_of("greenhouse", {"tube": "emt-1"}, width="12ft", length="12ft", height="9ft"),
}


@pytest.mark.parametrize("case", CASES)
def test_the_walk_lands_on_every_joint_and_on_every_end(case):
    document = design_document(CASES[case]())
    tubes, worst = rebuilt(document)

    assert worst <= TOLERANCE
    first = document["members"][0]
    a = np.array(first["a_mm"])
    ends = [(np.array(r["a_mm"]), np.array(r["b_mm"])) for r in document["members"]]
    found = [(_end(tubes[r["id"]], 0.0), _end(tubes[r["id"]], tubes[r["id"]].length)) for r in document["members"]]
    for stated, walked in zip(ends, found, strict=True):
        for s, w in zip(stated, walked, strict=True):
            assert np.linalg.norm(s - a) == pytest.approx(np.linalg.norm(w - found[0][0]), abs=TOLERANCE)
    for i in range(0, len(ends), 3):
        for j in range(i + 1, len(ends), 5):
            assert np.linalg.norm(ends[i][1] - ends[j][0]) == pytest.approx(
                np.linalg.norm(found[i][1] - found[j][0]), abs=TOLERANCE
            )


def test_a_wrong_station_is_missed():
    """The walk can fail: one clamp marked 5 mm off is noticed."""
    document = design_document(CASES["greenhouse"]())
    row = next(r for r in document["members"] if r["id"] == "base.left.1")
    row["stations"][1]["from_a_mm"] += 5.0

    assert rebuilt(document)[1] > 1.0
