"""Check the certificates of a stick plan with whole numbers and nothing of the program that made them.

    python certificate_check.py design.json

A stick holds pieces when their sum and a kerf between each two are within its length. Each row of weights gives every
length a weight; the most that a stick can hold of it is found by trying all sums (dynamic programming). Numbers of
sticks whose mosts add up to less than all pieces weigh are too few. It is then gone through all numbers of sticks that
cost less than the certificate `proves`: one row or another has to find each of them too few.
"""

from __future__ import annotations

import json
import sys
from fractions import Fraction
from pathlib import Path


def most_weights(certificate, row):
    """Return the most that each stick holds of a row's weights, no piece oftener than it is wanted."""
    kerf = certificate["kerf"]
    rooms = [s["length"] + kerf for s in certificate["sticks"]]
    room = max(rooms)
    best = [0] * (max(room, 0) + 1)
    for piece, weight in zip(certificate["pieces"], row, strict=True):
        size = piece["length"] + kerf
        left, lot = min(piece["quantity"], room // size), 1
        while left > 0:
            lot = min(lot, left)
            left -= lot
            more = [b + lot * weight for b in best[: room + 1 - lot * size]]
            best[lot * size :] = map(max, best[lot * size :], more)
            lot *= 2
    return [best[r] if r >= 0 else 0 for r in rooms]


def faults(certificate):
    """Return what is wrong with a certificate: nothing, when it proves what it says."""
    pieces, sticks, rows = certificate["pieces"], certificate["sticks"], certificate["weights"]
    numbers = [p["length"] for p in pieces] + [p["quantity"] for p in pieces] + [s["length"] for s in sticks]
    numbers += [s["cost"] for s in sticks] + [w for row in rows for w in row]
    numbers += [certificate["kerf"], certificate["proves"], certificate["cost"]]
    if any(type(n) is not int for n in numbers) or any(n < 0 for row in rows for n in row):
        return ["not in whole numbers"]
    if certificate["proves"] > certificate["cost"]:
        return ["it proves more than the plan costs"]
    carries = [most_weights(certificate, row) for row in rows]
    totals = [sum(w * p["quantity"] for w, p in zip(row, pieces, strict=True)) for row in rows]
    passed = _let_pass(sticks, carries, totals, certificate["proves"] - 1, sum(p["quantity"] for p in pieces))
    return (
        [] if passed is None else [f"sticks {passed} cost less than {certificate['proves']}, and no row refuses them"]
    )


def _let_pass(sticks, carries, totals, budget, pieces):
    """Return numbers of sticks within a budget that no row refuses, or None."""
    if budget < 0:
        return None
    free = [min(s["quantity"], pieces) if s["cost"] == 0 else 0 for s in sticks]
    paid = [t for t, s in enumerate(sticks) if s["cost"]]
    needs = [
        total - sum(c * n for c, n in zip(row, free, strict=True)) for row, total in zip(carries, totals, strict=True)
    ]

    def search(place, needs, budget):
        rest = paid[place:]
        for row, need in zip(carries, needs, strict=True):
            if need > max((Fraction(row[t], sticks[t]["cost"]) for t in rest), default=Fraction(0)) * budget:
                return None
        if not rest:
            return []
        t = rest[0]
        most = budget // sticks[t]["cost"]
        if sticks[t]["quantity"] is not None:
            most = min(most, sticks[t]["quantity"])
        for number in [most] if len(rest) == 1 else range(most + 1):
            left = [need - row[t] * number for row, need in zip(carries, needs, strict=True)]
            found = search(place + 1, left, budget - number * sticks[t]["cost"])
            if found is not None:
                return [number, *found]
        return None

    return search(0, needs, budget)


def main(path):
    """Check every certificate of a design; return how many are faulty."""
    plan = json.loads(Path(path).read_text(encoding="utf-8"))
    found = [(c["tube"], fault) for c in plan.get("cut_plan", plan)["certificate"] for fault in faults(c)]
    for tube, fault in found:
        sys.stdout.write(f"{tube}: {fault}\n")
    return len(found)


if __name__ == "__main__":
    sys.exit(bool(main(sys.argv[1])))
