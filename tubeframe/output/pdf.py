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

    from tubeframe.drawing.sheet import Sheet

_SETTINGS = {
    # TrueType, not drawings of letters: texts can be searched, and printers have the outlines
    "pdf.fonttype": 42,
    "pdf.use14corefonts": False,
    "pdf.inheritcolor": False,
    "pdf.compression": 4,
}


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
    with mpl.rc_context(_SETTINGS), PdfPages(target, metadata=metadata) as pages:
        for sheet in sheets:
            FigureCanvasPdf(figure_of(sheet, dpi=72.0, background=False)).print_pdf(pages)
