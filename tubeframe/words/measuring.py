"""What is measured on the spot before a frame is asked for: rows of a sheet to take along."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.template.parameters import ParameterKind, specs_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.template.template import AnyTemplate


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """Something to measure, what it decides, and in how many places it is read."""

    label: str
    what_for: str
    places: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuringSheet:
    """A sheet to fill in: the place itself, what goes in or on it, and what is then asked for."""

    title: str
    advice: tuple[str, ...]
    place: tuple[Reading, ...]
    asked: tuple[Reading, ...]


_ADVICE = (
    "Read every width and length at three places and take the smallest, less the gap that you want to keep. One tape "
    "reading has misled everybody once.",
    "Both diagonals tell whether the place is square: a frame fits the largest true rectangle in it.",
    "Say whether a size is outside of the tubes, between their middles or clear inside: write out, mid or in beside "
    "it. Clamps stand a thumb's width into what is clear.",
)
_PLACE = (
    Reading(label="Width of the place", what_for="the frame is the smallest reading less its gap", places=3),
    Reading(label="Length of the place", what_for="as the width; skirting and pipes count", places=3),
    Reading(label="Both diagonals of the place", what_for="equal when it is square", places=2),
    Reading(label="Fall of the ground over the length", what_for="feet that level, or packing", places=2),
    Reading(label="Fall of the ground across", what_for="the same, the other way", places=2),
    Reading(label="Narrowest door or gate on the way", what_for="whether it goes through put together", places=2),
    Reading(label="Longest thing the car takes", what_for="cuts to make in the shop: carry_length"),
)
_OWN: Mapping[str, tuple[Reading, ...]] = {
    "table": (
        Reading(label="Height of your elbow, standing", what_for="a bench is a hand lower, for sitting 28 to 30 in"),
        Reading(label="Highest thing kept under it", what_for="the rails' underside; knees and clamps hang lower"),
        Reading(label="Skirting: depth and height", what_for="how far the legs stand off the wall", places=2),
        Reading(label="Heaviest thing on it", what_for="--load of tubeframe check"),
    ),
    "shelf": (
        Reading(label="Largest box: width, depth, height", what_for="--totes: with its lid and handles", places=3),
        Reading(label="Height of the ceiling, lowest", what_for="posts, and room to tilt it up", places=3),
        Reading(label="Studs in the wall: first, apart", what_for="where the ties go", places=2),
        Reading(label="Skirting: depth and height", what_for="how far the posts stand off the wall", places=2),
        Reading(label="Sockets and switches: place, height", what_for="kept clear of rails and braces", places=3),
        Reading(label="Heaviest level", what_for="--load of tubeframe check, and it goes lowest"),
    ),
    "greenhouse": (
        Reading(label="Buried lines: asked, and marked", what_for="a stake in a cable can kill: call first"),
        Reading(label="How deep a rod goes in by hand", what_for="what a stake finds to hold", places=3),
        Reading(label="Way that the wind comes from", what_for="the door goes to the other end"),
        Reading(label="Wind and snow, from the authority", what_for="--wind and --snow of tubeframe check", places=2),
        Reading(label="Tallest person, tallest plant", what_for="headroom under the ridge purlin", places=2),
        Reading(label="Widest barrow or mower", what_for="the door's clear width"),
        Reading(label="Baseboards: outside, both ways", what_for="the hoops' feet stand inside them", places=2),
    ),
    "bed-rack": (
        Reading(label="Inside length of the bed", what_for="--bed-length", places=2),
        Reading(label="Bed rail to bed rail, middles, front", what_for="--rail-to-rail"),
        Reading(label="Bed rail to bed rail, middles, rear", what_for="--rear-rail-to-rail: beds taper"),
        Reading(label="Bed rail to bed floor; width of a rail", what_for="room for flanges and bolts", places=2),
        Reading(label="Between the wheel wells; their height", what_for="what goes in below", places=2),
        Reading(label="Bed rail to the cab's roof", what_for="--height: flush is that and an inch"),
        Reading(label="Stake pockets: size, places from the cab", what_for="--mount, and where uprights go", places=3),
        Reading(label="What a bed rail may carry (handbook)", what_for="the frame cannot carry more than it"),
        Reading(label="Tailgate, cover, lamps, aerial", what_for="kept free, and lit"),
    ),
}


def measuring_sheet(template: AnyTemplate) -> MeasuringSheet:
    """Return what to measure for a template; of one's own, the place and its lengths."""
    asked = tuple(
        Reading(label=f"--{key}", what_for=spec.about)
        for key, spec in specs_of(template.parameters).items()
        if spec.kind is ParameterKind.LENGTH
    )
    return MeasuringSheet(
        title=f"{template.name}: measuring sheet",
        advice=_ADVICE,
        place=_PLACE + _OWN.get(template.name, ()),
        asked=asked,
    )
