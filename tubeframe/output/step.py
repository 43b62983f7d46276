"""The solid model as STEP (ISO 10303-21, AP214), in mm: product = mark, occurrence = id."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tubeframe._version import __version__
from tubeframe.errors import OutputError
from tubeframe.output.part21 import coloured, numbered, with_header
from tubeframe.solids.placing import location

# after solids, which tells what is missing when the kernel does not load
from OCP.IFSelect import IFSelect_RetDone  # isort: skip
from OCP.Interface import Interface_Static  # isort: skip
from OCP.Message import Message, Message_Gravity  # isort: skip
from OCP.STEPCAFControl import STEPCAFControl_Writer  # isort: skip
from OCP.STEPControl import STEPControl_StepModelType  # isort: skip
from OCP.TCollection import TCollection_ExtendedString  # isort: skip
from OCP.TDataStd import TDataStd_Name  # isort: skip
from OCP.TDocStd import TDocStd_Document  # isort: skip
from OCP.XCAFDoc import XCAFDoc_DocumentTool  # isort: skip

if TYPE_CHECKING:
    from typing import BinaryIO

    from tubeframe.solids.model import Model


def write_step(model: Model, target: BinaryIO) -> None:
    """Write `model.step`: a flat assembly, so that every occurrence keeps its own name; shapes are shared.

    Raises:
        OutputError: when the kernel does not write.

    """
    _be_quiet()
    writer = STEPCAFControl_Writer()
    writer.SetNameMode(True)  # noqa: FBT003  the kernel's own signature
    writer.SetColorMode(False)  # noqa: FBT003
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 0)
    document = _document(model)
    writer.Transfer(document, STEPControl_StepModelType.STEPControl_AsIs)
    with tempfile.TemporaryDirectory(prefix="tubeframe-") as folder:
        path = Path(folder) / "model.step"
        if writer.Write(str(path)) != IFSelect_RetDone:
            message = "the CAD kernel could not write the solid model"
            raise OutputError(message)
        text = path.read_text(encoding="ascii")
    text = with_header(text, name=model.name, maker=f"tubeframe {__version__}")
    text = coloured(numbered(text), {p.name: p.paint for p in model.products})
    target.write(text.encode("ascii"))


def _document(model: Model) -> Any:  # noqa: ANN401  the kernel carries no types
    """Put products and occurrences into a document of the kernel."""
    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    top = shapes.NewShape()
    _name(top, model.name)
    labels = {}
    for product in model.products:
        label = shapes.AddShape(product.shape.wrapped, False)  # noqa: FBT003
        _name(label, product.name)
        labels[id(product)] = label
    for occurrence in model.occurrences:
        placed = shapes.AddComponent(top, labels[id(occurrence.product)], location(occurrence.placement).wrapped)
        _name(placed, occurrence.name)
    shapes.UpdateAssemblies()
    return document


def _name(label: Any, name: str) -> None:  # noqa: ANN401
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))


def _be_quiet() -> None:
    """Keep the kernel's own messages off standard output."""
    for printer in Message.DefaultMessenger_s().Printers():
        printer.SetTraceLevel(Message_Gravity.Message_Fail)
