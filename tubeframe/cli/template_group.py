"""Commands that take a template, each with its parameters as options; or a text frame's file, or a folder of ours."""

from __future__ import annotations

import inspect
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperGroup

from tubeframe.cli.text_frame import TEXT_FRAME, TEXT_SUFFIX, TextFrame
from tubeframe.errors import InputError, Problem, shown
from tubeframe.geometry.units import Units
from tubeframe.inputs.parameters_file import read_parameters
from tubeframe.template.describing import describe_bases, describe_default, describe_range
from tubeframe.template.parameters import ParameterSpec, specs_of
from tubeframe.template.registry import load_template, shipped_template, shipped_templates

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from tubeframe.template.template import AnyTemplate

Option = tuple[Any, tuple[str, ...], str]
"""The kind of an option's value, how it is written, and what it does."""
_PARAMETERS = "parameters.toml"


def template_app(verb: str, help_text: str, general: Mapping[str, Option], run: Callable[..., None]) -> typer.Typer:
    """Make a command of commands, one a template.

    Args:
        verb: how it is called.
        help_text: of each command, with `{summary}` for the template's.
        general: options that every template takes.
        run: takes the template, its parameters' values and the other options.

    """

    class Group(TyperGroup):
        """The templates as commands; a file of a template, a text frame or a built folder is one too."""

        def list_commands(self, ctx: Any) -> list[str]:
            """List the shipped templates."""
            del ctx
            return [t.name for t in shipped_templates()]

        def get_command(self, ctx: Any, cmd_name: str) -> Any:
            """Make the command of a template; InputError when there is no such template or file."""
            del ctx
            if cmd_name.endswith(TEXT_SUFFIX):
                frame = TextFrame(path=Path(cmd_name))
                return _command(frame, {}, help_text.format(summary="the frame of this text file"), general, run)
            built = Path(cmd_name) / _PARAMETERS
            if built.is_file():
                return self._built(built)
            template = load_template(Path(cmd_name)) if cmd_name.endswith(".py") else shipped_template(cmd_name)
            text = help_text.format(summary=template.summary)
            return _command(template, specs_of(template.parameters), text, general, run)

        @staticmethod
        def _built(file: Path) -> Any:
            """Make the command of a folder that was built: its own parameters, where no others are given."""
            source = _source_of(file)
            specs = {} if isinstance(source, TextFrame) else specs_of(source.parameters)

            def again(source: AnyTemplate | TextFrame, values: dict[str, str], options: dict[str, Any]) -> None:
                run(source, values, options | {"parameters_file": options["parameters_file"] or file})

            return _command(source, specs, help_text.format(summary="the frame of this folder"), general, again)

    app = typer.Typer(cls=Group, no_args_is_help=True)
    name = f"tubeframe {verb} TEMPLATE --PARAMETER VALUE ..."
    app.callback(help=f"{help_text.format(summary='a frame from a template')[:-1]}: {name}")(_nothing)
    return app


def _source_of(file: Path) -> AnyTemplate | TextFrame:
    """Return what a folder was built from; of a user's own template, the file has to be named."""
    name = read_parameters(file).template
    beside = file.parent / TEXT_FRAME
    if name.endswith(TEXT_SUFFIX) and beside.is_file():
        return TextFrame(path=beside)
    if any(t.name == name for t in shipped_templates()):
        return shipped_template(name)
    raise InputError(
        Problem(
            where=str(file),
            key="template",
            message=f"the folder was built from {shown(name)}, a template of your own",
            remedy=f"name its file: tubeframe build {name}.py --parameters {file}",
        )
    )


def _nothing() -> None:
    """Leave everything to the template's command."""


def _command(
    source: AnyTemplate | TextFrame,
    specs: dict[str, ParameterSpec],
    text: str,
    general: Mapping[str, Option],
    run: Callable[..., None],
) -> Any:
    """Make a command whose options are the parameters and the general ones."""
    app = typer.Typer(add_completion=False)
    app.command(source.name, help=text)(_signed(source, specs, general, run))
    return typer.main.get_command(app)


def _signed(
    source: AnyTemplate | TextFrame,
    specs: dict[str, ParameterSpec],
    general: Mapping[str, Option],
    run: Callable[..., None],
) -> Callable[..., None]:
    """Return a function of the signature that the command line is made from."""

    def called(**options: Any) -> None:
        values = {name: options.pop(name.replace("-", "_")) for name in specs}
        run(source, {n: v for n, v in values.items() if v is not None}, options)

    called.__signature__ = inspect.Signature(list(_options(specs, general)))  # type: ignore[attr-defined]
    return called


def _options(specs: dict[str, ParameterSpec], general: Mapping[str, Option]) -> Iterator[inspect.Parameter]:
    for name, spec in specs.items():
        span, default = describe_range(spec, Units.INCH), describe_default(spec, Units.INCH)
        text = f"{spec.about} ({span}; default {default}{describe_bases(spec)})"
        yield _option(name.replace("-", "_"), str | None, (f"--{name}",), text, spec.kind.value)
    for name, (kind, flags, text) in general.items():
        yield _option(name, kind, flags, text, "")


def _option(name: str, kind: Any, flags: tuple[str, ...], text: str, value: str) -> inspect.Parameter:
    option = typer.Option(
        *flags,
        help=text,
        show_default=False,
        metavar=value.upper().replace(" ", "_") or None,
        rich_help_panel="Parameters" if value else "Options",
    )
    return inspect.Parameter(
        name,
        inspect.Parameter.KEYWORD_ONLY,
        default=False if kind is bool else None,
        annotation=Annotated[kind, option],
    )
