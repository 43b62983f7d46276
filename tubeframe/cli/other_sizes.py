"""What a template's frame would cost of the other tubes that the user told prices of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.cli.variants import Variants
from tubeframe.errors import PlanError
from tubeframe.fabrication.other_sizes import priced_tubes, size_cost
from tubeframe.template.parameters import ParameterKind, specs_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.design import Design
    from tubeframe.fabrication.other_sizes import SizeCost
    from tubeframe.template.template import AnyTemplate


def other_sizes(template: AnyTemplate, design: Design) -> Iterator[SizeCost]:
    """Lay the frame out of each priced tube; nothing where fewer than two are priced, or the frame has several."""
    names = [n for n, spec in specs_of(template.parameters).items() if spec.kind is ParameterKind.TUBE]
    tubes = priced_tubes(design.workshop)
    now = design.source.parameters.get(names[0]) if len(names) == 1 else None
    if now not in tubes or len(tubes) < 2:
        return
    variants = Variants(template, design.source, design.workshop)
    for tube in tubes:
        draft = variants.draft({names[0]: tube})
        if draft is None:
            continue
        try:
            yield size_cost(tube, draft.parts, draft.jointed.joints, design.workshop, chosen=tube == now)
        except PlanError:  # a piece comes out of no stick of that tube: there is no such frame to price
            continue
