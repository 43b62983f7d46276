"""Sheets as pages of a PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING, BinaryIO

import matplotlib as mpl
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages

from tubeframe._version import __version__
from tubeframe.errors import OutputError
from tubeframe.output.canvas import figure_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.sheet import Sheet

_TRUETYPE = 42
"""Fonts go in as outlines with their signs' codes, so that texts can be searched."""


def write_pdf(sheets: Sequence[Sheet], target: BinaryIO, *, title: str, author: str, subject: str) -> None:
    """Write one page a sheet, each of its sheet's size. The same sheets give the same bytes: no date is written.

    Args:
        sheets: at least one.
        target: a file that is open for writing bytes; it stays open.
        title: of the document.
        author: of the document.
        subject: of the document.

    Raises:
        OutputError: when there is no sheet.

    """
    if not sheets:
        message = "a PDF needs at least one sheet"
        raise OutputError(message)
    metadata = {
        "Title": title,
        "Author": author,
        "Subject": subject,
        "Creator": f"tubeframe {__version__}",
        "Producer": None,
        "CreationDate": None,
    }
    settings = mpl.rc_context(
        {
            "pdf.fonttype": _TRUETYPE,
            "pdf.use14corefonts": False,
            "pdf.inheritcolor": False,
            "pdf.compression": 4,
        }
    )
    with settings, PdfPages(target, metadata=metadata) as pages:
        for sheet in sheets:
            canvas = FigureCanvasPdf(figure_of(sheet, dpi=72.0, background=False))
            canvas.print_pdf(pages)  # type: ignore[no-untyped-call]  # the library says no types here
