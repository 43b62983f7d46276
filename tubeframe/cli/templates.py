"""`tubeframe templates`: what can be built."""

from __future__ import annotations

import typer

from tubeframe.geometry.units import Units
from tubeframe.template.describing import describe_default, describe_range
from tubeframe.template.parameters import specs_of
from tubeframe.template.registry import shipped_templates


def templates() -> None:
    """List the templates with their parameters."""
    for template in shipped_templates():
        typer.echo(f"{template.name}: {template.summary}")
        for name, spec in specs_of(template.parameters).items():
            inch, metric = (
                "; default ".join(filter(None, (describe_range(spec, u), describe_default(spec, u)))) for u in Units
            )
            shown = inch if inch == metric else f"{inch} | {metric}"
            typer.echo(f"  --{name}: {spec.about} ({shown})")
