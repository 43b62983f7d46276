"""What the author of a template imports: parameters, the shop, and everything to lay out a frame with.

A template is one file with one constant `TEMPLATE`:

    from tubeframe.template import FrameBuilder, Shop, Template, a_length, parameters

    @parameters
    class StandParameters:
        height: float = a_length("from the floor to the top", inch=(12, 30, 60), metric=(300, 750, 1500))

    def lay_out(p: StandParameters, shop: Shop) -> Frame: ...

    TEMPLATE = Template(name="stand", summary="...", parameters=StandParameters, lay_out=lay_out)
"""

from tubeframe.errors import InputError, Problem, Severity
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.frame import Frame, LengthAlong
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.panel import PanelUse, Pocket
from tubeframe.geometry.path import Path, through
from tubeframe.geometry.units import INCH_MM as INCH
from tubeframe.geometry.units import Units
from tubeframe.geometry.vector import Vec
from tubeframe.template.basis import Basis
from tubeframe.template.parameters import a_choice, a_count, a_length, a_tube_size, parameters
from tubeframe.template.shop import Shop
from tubeframe.template.template import Template

__all__ = [
    "INCH",
    "Basis",
    "EndKind",
    "Frame",
    "FrameBuilder",
    "InputError",
    "LengthAlong",
    "MemberId",
    "Moment",
    "PanelUse",
    "Path",
    "Pocket",
    "Problem",
    "Severity",
    "Shop",
    "Signal",
    "Template",
    "Units",
    "Vec",
    "a_choice",
    "a_count",
    "a_length",
    "a_tube_size",
    "parameters",
    "through",
]
