"""Files that are fine, to be spoiled: each holds every table and key that there is, or nearly."""

from __future__ import annotations

from typing import Any

FRAME: dict[str, Any] = {
    "schema": "tubeframe.frame/1",
    "name": "a bench",
    "units": "in",
    "tube": "emt-3/4",
    "length_along": "x",
    "sized_by": ["rail.front", "rail.left"],
    "member": [
        {"id": "leg.1", "path": [[0, 0, 0], [0, 0, 30]], "ends": ["foot", "joint"]},
        {"id": "leg.2", "path": [[48, 0, 0], [48, 0, 30]]},
        {"id": "leg.3", "path": [[0, 20, 0], [0, 20, 30]]},
        {"id": "leg.4", "path": [[48, 20, 0], [48, 20, 30]]},
        {"id": "rail.front", "path": [[0, 0, 30], [48, 0, 30]], "split_at": [20]},
        {"id": "rail.back", "path": [[0, 20, 30], [48, 20, 30]], "tube": "emt-3/4"},
        {"id": "rail.left", "path": [[0, 0, 30], [0, 20, 30]]},
        {"id": "rail.right", "path": [[48, 0, 30], [48, 20, 30]]},
        {"id": "bow", "path": [[0, 0, 12], {"at": [24, 0, 24], "radius": 12, "bends": "fewest"}, [48, 0, 12]]},
        {"id": "swing", "path": [[1, 0, 20], [20, 0, 20]], "passes": ["bow"]},
    ],
    "joint": [{"at": [0, 0, 30], "kind": "side-outlet-elbow"}],
    "panel": [
        {
            "id": "top",
            "use": "top",
            "corners": [[0, 0, 30.461], [48, 0, 30.461], [48, 20, 30.461], [0, 20, 30.461]],
            "thickness": 0.75,
            "material": "plywood",
            "pockets": [[0, 0, 2, 2, 0.4]],
        }
    ],
    "wall": [{"id": "house", "at": [0, 24, 0], "toward": [0, -1, 0]}],
    "group": [{"id": "gate", "members": ["swing"], "turns_on": "leg.1"}],
    "support": [{"member": "leg.1", "end": "a", "fixes": ["x", "y", "z"]}],
    "load": [{"name": "books", "panel": "top", "total": "100 lb", "share": 0.5, "at": [0.5, 0.5]}],
    "cover": {"over": ["rail.front", "rail.back"], "width": 20, "length": 48, "height": 30},
    "supply": [{"item": "cable ties", "quantity": 12, "unit": "pcs"}],
    "caution": [{"signal": "CAUTION", "before": "use", "text": "Do not stand on it."}],
    "fact": [{"label": "clear under", "text": "{}", "sizes": [{"length": 29.5}]}],
}

SOUND: tuple[dict[str, Any], ...] = (
    FRAME,
    {k: v for k, v in FRAME.items() if k in {"schema", "name", "units", "member", "panel", "load"}}
    | {"member": [m for m in FRAME["member"] if m["id"] not in {"bow", "swing"}]},
)
"""Frames to be moved about in: one with every table there is, and a plain one."""

WORKSHOP: dict[str, Any] = {
    "units": "in",
    "paper": "letter",
    "currency": "USD",
    "tube": "emt-3/4",
    "wind": "100mph",
    "snow": "25psf",
    "pull_out": "300lb",
    "load": "200lb",
    "prefer": "plainest",
    "bolts": "included",
    "carry_length": "8 ft",
    "table": "4ft x 8ft",
    "arcs": "form",
    "projection": "third",
    "hidden_lines": "boards",
    "dxf": "r2010",
    "saw": {"kerf": "1/16 in", "grip": "1 in"},
    "stock": [
        {"tube": "emt-3/4", "length": "10 ft", "usable": "119.75 in", "price": 9.5},
        {"tube": "emt-3/4", "length": "44.2 in", "on_hand": 1},
    ],
    "fittings": {
        "tee": {"setback": "0.5 in", "grip": "1.875 in", "branch_grip": "1.4 in", "price": 2.5, "on_hand": 4},
        "swivel-tee": {"setback": {"45": "1.5 in", "90": "0.6 in"}, "slip_force": "300 lb", "twist_moment": "8 Nm"},
        "right-angle-coupler": {"offset": "1.11 in", "bolt_torque": "70 in-lb"},
        "sleeve-coupler": {"length": "2.75 in"},
        "foot": {"thickness": "1/8 in", "emt-1": {"thickness": "1/8 in", "price": 1.25}},
    },
    "limits": {"yield": "30 ksi", "bolt_torque": "8 Nm"},
    "clearance": {"tool_gap": "1/4 in"},
    "bender": [{"tube": "emt-3/4", "take_up": "6 in", "springback": 2.0}],
}

PARAMETERS: dict[str, Any] = {
    "template": "table",
    "parameters": {
        "length": "54in",
        "width": "26in",
        "height": 34.5,
        "seat": "spaced",
        "knee": "10in",
        "tube": "emt-3/4",
        "joists": 2,
    },
    "workshop": {"units": "in", "saw": {"kerf": "0 in"}},
}

PIECES = [["mark", "length", "quantity", "tube"], ["T1", "60in", "4", "emt-1"], ["T2", '34 1/8"', "2", "emt-1"]]

COMMANDS: tuple[tuple[str, ...], ...] = (
    ("build", "table", "--length", "57in", "--width", "24in inside", "--height", "33in", "--joists", "2"),
    ("build", "greenhouse", "--width", "8ft", "--length", "12ft", "--height", "7ft", "--purlins", "3"),
    ("build", "shelf", "--totes", "3 of 16in x 18in x 10in", "--table", "4ftx8ft", "--paper", "a4"),
    ("build", "table", "--load", "100lb", "--wind", "100mph", "--snow", "25psf", "--pull-out", "300lb"),
    ("build", "table", "--units", "mm", "--projection", "first", "--hidden-lines", "shown", "--dxf", "r12"),
    ("build", "table", "--explain", "T1", "--json"),
    ("check", "table", "--length", "60in", "--load", "200lb"),
    ("templates", "table"),
    ("bend", "offset", "--tube", "emt-3/4", "--rise", "6in", "--angle", "30", "--roll", "2in", "--before", "12in"),
    ("bend", "back-to-back", "--height", "12in", "--between", "30in", "--second", "10in", "--units", "in"),
    ("bend", "stub", "--height", "12in", "--after", "10in"),
    ("bend", "kick", "--rise", "6in", "--angle", "30"),
    ("bend", "saddle", "--rise", "3in", "--angle", "45"),
)

FITTING = (
    *("fittings", "calibrate", "tee", "--tube", "emt-3/4", "--offcut", "12in", "--measured", "12.961in"),
    *("--date", "2026-05-01", "--workshop"),
)
BENDER = (
    *("bender", "calibrate", "--tube", "emt-3/4", "--stub", "6in", "--measured", "12in", "--angle", "92"),
    *("--read", "90", "--date", "2026-05-01", "--workshop"),
)
CUT = ("cut", "--stock", "10ft@9.50", "--stock", "5ft@5.25", "--on-hand", "44.2inx3", "--kerf", "1/16in")
