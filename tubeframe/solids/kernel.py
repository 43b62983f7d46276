"""The one place where the CAD kernel is loaded; a missing system library is told in plain words."""

from __future__ import annotations

from tubeframe.errors import MissingLibraryError, Problem

try:
    import cadquery
except ImportError as error:
    raise MissingLibraryError(
        Problem(
            where="solid model",
            key="",
            message=f"the CAD kernel does not load: {error}",
            remedy="install libGL and libXrender (Debian and Ubuntu: apt-get install libgl1 libxrender1), "
            "or leave the model out with --only pdf,dxf,csv",
        )
    ) from error

cq = cadquery

__all__ = ["cq"]
