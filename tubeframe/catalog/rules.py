"""The rules of clamping, bending and cutting a tube, each in one place. Common practice, no source; lengths in [mm].

`held` is the length of tube that a fitting takes up from its middle to one side: half its grip on a run, setback and
grip on a branch, the skirt of a cap; of a foot, its thickness too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import INCH_MM, Units, cut_rounded

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path

KEY_LEAD = 76.2
"""Straight way that a hex key needs before a bolt's head: 3 in."""

BEND_CLEARANCE = 0.5 * INCH_MM
"""What a fitting holds ends at least this far off a bend's start."""

_CLAMP_GIVE = 0.6
"""A clamp or a sleeve gives so much where its tube bows inside it; judgement, no source [mm]."""

LEAST_BETWEEN_BENDS = 3.0 * INCH_MM
"""Straight that a hand bender's hook and shoe want between two bends."""

MOST_BULGE = 3.0 / 8.0 * INCH_MM
"""A small bend stands out of the arc that it helps to make by no more than this, where the fewest are asked for."""

LEAST_AT_END = 2.0 * INCH_MM
"""Straight that a tube cutter's rollers want beside a cut, when a bent tube is trimmed."""

_SHOE_GIVE = 1.0
"""A bend is the shoe's own when its radius is within this of it [mm]."""

LEAST_CUT = INCH_MM / 16.0
"""A shorter piece of tube is no piece."""

LEAST_PART = 12.0 * INCH_MM
"""A tube that is split leaves no part shorter than this where it can be helped: a stub holds nothing straight."""

_LEAST_ALLOWANCE = 2.0 * INCH_MM
HELD_BY_BENDER = 8.0 * INCH_MM
"""Straight that a bender's hook and lever want at an end."""
HELD_BY_FORM = 12.0 * INCH_MM
"""Straight that stays at an end that is pulled round a form; 12 to 18 in."""
_ROUNDING = 1e-6


def pitch(first: float, second: float, tool_gap: float) -> float:
    """Return the least distance of two fittings' middles on a tube, from what each holds toward the other.

    (G1 + G2)/2 and the gap for the key on two runs; a cap or a foot needs no key: its gap is 0.
    """
    return first + second + tool_gap


def overhang(held: float, beyond: float) -> float:
    """Return how far a tube goes on past a fitting's middle at least: past what is held by the shop's overhang."""
    return held + beyond


def off_bend(held: float) -> float:
    """Return the least distance of a fitting's middle from a bend's start or end."""
    return held + BEND_CLEARANCE


def least_arc(length: float) -> float:
    """Return the least radius of an arc that a fitting sits on: over its length the tube bows by L^2/(8 R) [mm]."""
    return length**2 / (8.0 * _CLAMP_GIVE)


def takes_fitting(radius: float, length: float) -> bool:
    """Whether a fitting of a length sits on an arc as on a straight [mm]."""
    return radius >= least_arc(length)


def sleeve_off_fitting(held: float, sleeve: float, tool_gap: float) -> float:
    """Return the least distance of a sleeve's middle from a fitting's, from the sleeve's whole length."""
    return pitch(held, sleeve / 2.0, tool_gap)


def sleeve_off_bend(sleeve: float) -> float:
    """Return the least distance of a sleeve's middle from a bend, from the sleeve's whole length."""
    return off_bend(sleeve / 2.0)


def is_on_shoe(radius: float, shoe: float) -> bool:
    """Whether a bend of a radius comes off a shoe, which makes one radius only."""
    return abs(radius - shoe) <= _SHOE_GIVE


def held_straight(radius: float, shoe: float) -> float:
    """Return the straight that is wanted at an end next to a bend of a radius: by the bender's shoe, or on a form."""
    return HELD_BY_BENDER if radius <= shoe or is_on_shoe(radius, shoe) else HELD_BY_FORM


def bend_allowance(straight: float, held: float = HELD_BY_BENDER) -> float:
    """Return what an end of a bent piece needs beyond its cut length, from the straight left there.

    The bender, or the form, wants so much of straight; 2 in are left to trim in any case. It is cut off after bending.
    """
    return max(_LEAST_ALLOWANCE, held - max(straight, 0.0))


def bend_allowances(cut: Path, shoe: float) -> tuple[float, float]:
    """Return what both ends of a piece need beyond its cut length, by the shoe's radius; nothing without a bend."""
    if not cut.bends:
        return 0.0, 0.0
    (first, bend), (last, other) = cut.bends[0], cut.bends[-1]
    return (
        bend_allowance(first, held_straight(bend.radius, shoe)),
        bend_allowance(cut.length - last - other.length, held_straight(other.radius, shoe)),
    )


def stick_length(length: float, allowances: tuple[float, float], units: Units) -> float:
    """Return what a piece takes of a stick: its cut length as a tape shows it, and what the bender needs."""
    return cut_rounded(length, units) + sum(allowances)


def fits(stick_length: float, usable: float) -> bool:
    """Whether a piece comes out of a stick; one that ends at the stick's end needs no cut there."""
    return stick_length <= usable + _ROUNDING
