"""`tubeframe templates`: what can be built, and what can be asked of each."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tubeframe.catalog.workshop import generic_workshop
from tubeframe.cli.say import say
from tubeframe.frame.frame import LengthAlong
from tubeframe.geometry.extent import joined, of_convex, of_tube
from tubeframe.geometry.units import Units, format_length
from tubeframe.template.describing import describe_bases, describe_default, describe_range
from tubeframe.template.parameters import specs_of
from tubeframe.template.reading import read_values
from tubeframe.template.registry import load_template, shipped_template, shipped_templates
from tubeframe.template.shop import Shop
from tubeframe.template.users_code import users_code

if TYPE_CHECKING:
    from tubeframe.template.parameters import ParameterSpec
    from tubeframe.template.template import AnyTemplate


def templates(
    name: Annotated[str, typer.Argument(help="a template, or the file of your own: all its parameters")] = "",
) -> None:
    """List the templates; of one that is named, every parameter with its unit, range and default."""
    if name:
        _tell(load_template(Path(name)) if name.endswith(".py") else shipped_template(name))
        return
    for template in shipped_templates():
        say(f"{template.name}: {template.summary}")
        say(f"  as it comes: {_size(template)}")
        for line in template.sketch.strip("\n").splitlines():
            say(f"    {line}")
        say("")
    say("every parameter of one: tubeframe templates NAME; a template of your own: tubeframe new my_stand")


def _tell(template: AnyTemplate) -> None:
    say(f"{template.name}: {template.summary}")
    say(f"  as it comes: {_size(template)}")
    for key, spec in specs_of(template.parameters).items():
        say("")
        say(f"  --{key} ({spec.kind.value}): {spec.about}{describe_bases(spec)}")
        for line in dict.fromkeys(_range(spec, units) for units in Units):
            say(f"      {line}")


def _range(spec: ParameterSpec, units: Units) -> str:
    span, default = describe_range(spec, units), describe_default(spec, units)
    return f"{span}; default {default}"


def _size(template: AnyTemplate) -> str:
    """Print a template's size with every parameter left out: the tubes that carry it, and boards on top of them."""
    workshop = generic_workshop()
    with users_code(template.file):
        shop = Shop(workshop=workshop)
        frame = template.lay_out(read_values(template.parameters, {}, workshop, {}), shop)
    wanted = frame.sized_by or tuple(m.id for m in frame.members)
    boxes = [of_tube(m.path, workshop.catalog.tube(m.tube).outside) for m in frame.members if m.id in wanted]
    size = joined(boxes).size
    top = max([joined(boxes).high.z, *(of_convex(p.box).high.z for p in frame.panels)])
    along, across = (size.x, size.y) if frame.length_along is LengthAlong.X else (size.y, size.x)
    shown = (format_length(v, Units.INCH) for v in (along, across, top))
    return "{} long, {} wide, {} high".format(*shown)
