"""What has to come of a text frame: fittings, hand-worked lengths, findings; and where the engine still falls short."""

from __future__ import annotations

import tomllib
from collections import Counter
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from tubeframe.catalog.workshop_document import workshop_from_document
from tubeframe.design import Source, Stage, make_design
from tubeframe.errors import Severity
from tubeframe.frame.document import frame_from_document, frame_units
from tubeframe.geometry.units import INCH_MM, Units

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.design import Draft
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame

TEXT = Path(__file__).parent / "text"

D = 0.922
"""Outside diameter of EMT 3/4 (Steel Tube Institute, table 'EMT Weights and Dimensions') [in]."""
S = D / 2 + 1 / 16
"""Setback of a square end on a tube of 3/4: half of it and 1/16, 0.5235 in (common practice, no source)."""
S45 = 0.461 / 0.70711 + 0.461 / 1.0 + 1 / 16
"""Setback at 45 degrees: (D/2)/sin 45 + (D/2)/tan 45 + 1/16, 1.1755 in."""
FOOT = 1 / 8
"""Thickness of a foot or a base flange [in]."""
OFFSET = D + 3 / 16
"""Between the middles of two tubes of 3/4 in a coupler, 1.1095 in."""


@dataclass(frozen=True, kw_only=True)
class Case:
    """What has to come of one text frame.

    `fittings` are all kinds in number. `lengths` are cut lengths in the frame's own units, by the tube's id. `errors`
    are the codes of all errors, `warnings` those of warnings on joints; None where only `about` counts: names of which
    one finding has to tell all. `wrong` says of an aspect what the engine still gets wrong, "all" for a crash.
    """

    frame: str
    fittings: Mapping[str, int] = field(default_factory=dict)
    lengths: Mapping[str, float] = field(default_factory=dict)
    errors: frozenset[str] | None = frozenset()
    warnings: frozenset[str] | None = frozenset()
    about: tuple[str, ...] = ()
    shop: Mapping[str, object] = field(default_factory=dict)
    wrong: Mapping[str, str] = field(default_factory=dict)

    @property
    def path(self) -> Path:
        """The text frame."""
        return TEXT / f"{self.frame}.toml"

    @property
    def is_sound(self) -> bool:
        """Whether nothing is wrong with the frame itself."""
        return self.errors == frozenset() and not self.about


def read(case: Case) -> tuple[Frame, Workshop]:
    """Read a case's frame and shop."""
    document = tomllib.loads(case.path.read_text(encoding="utf-8"))
    workshop = workshop_from_document({"units": frame_units(document).value, **case.shop}, "shop.toml")
    return frame_from_document(document, workshop, case.path.name), workshop


def scale(case: Case) -> float:
    """Return the frame's unit [mm]."""
    document = tomllib.loads(case.path.read_text(encoding="utf-8"))
    return INCH_MM if frame_units(document) is Units.INCH else 1.0


_drafts: dict[str, Draft] = {}


def draft(case: Case) -> Draft:
    """Take a case's frame through joints and parts, once."""
    if case.frame not in _drafts:
        frame, workshop = read(case)
        source = Source(template=case.frame, parameters={}, shop={})
        _drafts[case.frame] = make_design(frame, workshop, source, until=Stage.PARTS)
    return _drafts[case.frame]


def fittings(made: Draft) -> dict[str, int]:
    """Count the kinds of fittings, caps and feet among them."""
    return dict(Counter(j.kind for j in made.jointed.joints))


def codes(made: Draft, severity: Severity) -> frozenset[str]:
    """Return the codes of findings; of warnings only those on joints, without the reach of a key."""
    found = frozenset(f.code for f in made.findings if f.severity is severity)
    if severity is Severity.WARNING:
        return frozenset(c for c in found if c.startswith("J-") and c != "J-key")
    return found


def names(finding: Finding, names: tuple[str, ...]) -> bool:
    """Whether a finding is about all of these tubes and boards."""
    told = {part for subject in finding.subjects for part in (subject, subject.rsplit(".", 1)[0])}
    return told.issuperset(names)


@cache
def every_text() -> tuple[str, ...]:
    """Return every text frame that lies here."""
    return tuple(sorted(str(p.relative_to(TEXT).with_suffix("")) for p in TEXT.rglob("*.toml")))
