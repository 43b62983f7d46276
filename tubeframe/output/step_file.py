"""The solid model as STEP (ISO 10303-21, AP214), in mm: product = mark, occurrence = id."""

from __future__ import annotations

import re
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tubeframe._version import __version__
from tubeframe.errors import OutputError
from tubeframe.output.part21 import coloured, numbered
from tubeframe.output.part21_names import Names
from tubeframe.solids.placing import location

# after solids, which tells what is missing when the kernel does not load
from OCP.APIHeaderSection import APIHeaderSection_MakeHeader  # isort: skip
from OCP.IFSelect import IFSelect_RetDone  # isort: skip
from OCP.Interface import Interface_Static  # isort: skip
from OCP.Message import Message  # isort: skip
from OCP.STEPCAFControl import STEPCAFControl_Writer  # isort: skip
from OCP.STEPControl import STEPControl_StepModelType  # isort: skip
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString  # isort: skip
from OCP.TDataStd import TDataStd_Name  # isort: skip
from OCP.TDocStd import TDocStd_Document  # isort: skip
from OCP.XCAFDoc import XCAFDoc_DocumentTool  # isort: skip

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import BinaryIO

    from tubeframe.solids.model import Model

_STAMP = "1970-01-01T00:00:00"
_STRING = re.compile(r"'[^']*'")
_BREAK = re.compile(r"(?<!;)\n\s*(?=.)")


def write_step(model: Model, target: BinaryIO) -> None:
    """Write `model.step`: a flat assembly, so that every occurrence keeps its own name; shapes are shared.

    Raises:
        OutputError: when the kernel does not write.

    """
    names = Names()
    with _silence():
        text = _one_line_each(_written(_document(model, names), names.stand_in(model.name)))
    text = coloured(numbered(text), {names.stand_in(p.name): p.paint for p in model.products})
    target.write(names.put_in(text).encode("ascii"))


def _document(model: Model, names: Names) -> Any:  # noqa: ANN401  the kernel carries no types
    """Put products and occurrences into a document of the kernel."""
    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    top = shapes.NewShape()
    _name(top, names.stand_in(model.name))
    labels = {}
    for product in model.products:
        # a copy: the kernel knows a product by its shape, and two marks may share one
        label = shapes.AddShape(product.shape.copy().wrapped, False)  # noqa: FBT003  the kernel's own signature
        _name(label, names.stand_in(product.name))
        labels[product.name] = label
    for occurrence in model.occurrences:
        placed = shapes.AddComponent(top, labels[occurrence.product.name], location(occurrence.placement).wrapped)
        _name(placed, names.stand_in(occurrence.name))
    shapes.UpdateAssemblies()
    return document


def _written(document: Any, name: str) -> str:  # noqa: ANN401
    """Let the kernel write the file, which it does to a path only, and return the text."""
    writer = STEPCAFControl_Writer()
    writer.SetNameMode(True)  # noqa: FBT003
    writer.SetColorMode(False)  # noqa: FBT003
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 0)
    writer.Transfer(document, STEPControl_StepModelType.STEPControl_AsIs)
    _set_header(APIHeaderSection_MakeHeader(writer.ChangeWriter().Model()), name)
    with tempfile.TemporaryDirectory(prefix="tubeframe-") as folder:
        path = Path(folder) / "model.step"
        if writer.Write(str(path)) != IFSelect_RetDone:
            message = "the CAD kernel could not write the solid model"
            raise OutputError(message)
        return path.read_text(encoding="ascii")


def _one_line_each(text: str) -> str:
    """Undo the kernel's line breaks, in long strings and between words, never after a semicolon.

    So names stay whole, and every record is found by its words.
    """
    return _BREAK.sub("", _STRING.sub(lambda found: found[0].replace("\n", ""), text))


def _set_header(header: Any, name: str) -> None:  # noqa: ANN401
    """Say what the file is, without a clock."""
    maker, nobody = _text(f"tubeframe {__version__}"), _text("")
    header.SetName(_text(name))
    header.SetTimeStamp(_text(_STAMP))
    header.SetAuthorValue(1, nobody)
    header.SetOrganizationValue(1, nobody)
    header.SetPreprocessorVersion(maker)
    header.SetOriginatingSystem(maker)
    header.SetAuthorisation(nobody)
    header.SetDescriptionValue(1, _text(f"{name}, calculated, not tested"))


def _text(words: str) -> Any:  # noqa: ANN401
    return TCollection_HAsciiString(words)


def _name(label: Any, name: str) -> None:  # noqa: ANN401
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))


@contextmanager
def _silence() -> Iterator[None]:
    """Keep the kernel's own messages off standard output, even those of a failure."""
    messenger = Message.DefaultMessenger_s()
    printers = list(messenger.Printers())
    for printer in printers:
        messenger.RemovePrinter(printer)
    try:
        yield
    finally:
        for printer in printers:
            messenger.AddPrinter(printer)
