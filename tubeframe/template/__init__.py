"""What the author of a template imports: parameters, the shop, and everything to lay out a frame with.

A template is one file with one constant `TEMPLATE`:

    from tubeframe.template import FrameBuilder, Shop, Template, a_length, parameters

    @parameters
    class StandParameters:
        height: float = a_length("from the floor to the top", inch=(12, 30, 60), metric=(300, 750, 1500))

    def lay_out(p: StandParameters, shop: Shop) -> Frame: ...

    TEMPLATE = Template(name="stand", summary="...", parameters=StandParameters, lay_out=lay_out)
"""

from tubeframe.errors import BendError, InputError, Problem, Severity
from tubeframe.frame.builder import FrameBuilder
from tubeframe.frame.caution import Moment, Signal
from tubeframe.frame.frame import Frame, LengthAlong
from tubeframe.frame.job import Job, JobKind
from tubeframe.frame.load import Cover, LoadUse, Support
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.frame.opening import Opening
from tubeframe.frame.panel import PanelUse, Pocket
from tubeframe.frame.size import beyond, given, over, under
from tubeframe.geometry.corners import through
from tubeframe.geometry.path import Path
from tubeframe.geometry.units import INCH_MM as INCH
from tubeframe.geometry.units import Units
from tubeframe.geometry.vector import Vec
from tubeframe.template.basis import Basis
from tubeframe.template.layout.anchors import Anchor, baseboards
from tubeframe.template.layout.boards import Board, Plot, Recess, across, lay_row
from tubeframe.template.layout.braces import Knee, diagonal, knee_step, least_knee, step_past
from tubeframe.template.layout.corner_braces import LEAST_BRACED_WALL, CornerBraces, brace_low, least_step
from tubeframe.template.layout.door import Hand
from tubeframe.template.layout.end_wall import EndWall, Stud, evened
from tubeframe.template.layout.feet import Foot
from tubeframe.template.layout.hoop import Hoop, HoopNeeds, LongerThanAStick, fitted_out, least_radius
from tubeframe.template.layout.loads import carries, pushed_at, worked_on
from tubeframe.template.layout.post_braces import PostBraces
from tubeframe.template.layout.profile import Place, Profile, gable, gothic_arch, round_hoop, segmental_hoop
from tubeframe.template.layout.seat import Standing, cut_outs, on_ends, on_run, recesses_over, strips_along_x
from tubeframe.template.layout.shapes import BEND_ANGLES, Bending, Shape
from tubeframe.template.layout.sheeting import Sheet, Sheeting
from tubeframe.template.layout.slats import lay_slats, slat_thickness
from tubeframe.template.layout.stations import apart, between, clear_above, clear_below, in_bays, spread
from tubeframe.template.layout.threshold import thresholds
from tubeframe.template.layout.tunnel import RIDGE_PURLIN, LongRuns, feet_of, stand_bent, tell_hoops
from tubeframe.template.layout.vents import LEAST_ROLLED, RollUp
from tubeframe.template.parameters import (
    Crates,
    YesNo,
    a_choice,
    a_count,
    a_length,
    a_tube_size,
    boxes,
    parameters,
    some_lengths,
)
from tubeframe.template.shop import Shop
from tubeframe.template.template import Template

__all__ = [
    "BEND_ANGLES",
    "INCH",
    "LEAST_BRACED_WALL",
    "LEAST_ROLLED",
    "RIDGE_PURLIN",
    "Anchor",
    "Basis",
    "BendError",
    "Bending",
    "Board",
    "CornerBraces",
    "Cover",
    "Crates",
    "EndKind",
    "EndWall",
    "Foot",
    "Frame",
    "FrameBuilder",
    "Hand",
    "Hoop",
    "HoopNeeds",
    "InputError",
    "Job",
    "JobKind",
    "Knee",
    "LengthAlong",
    "LoadUse",
    "LongRuns",
    "LongerThanAStick",
    "MemberId",
    "Moment",
    "Opening",
    "PanelUse",
    "Path",
    "Place",
    "Plot",
    "Pocket",
    "PostBraces",
    "Problem",
    "Profile",
    "Recess",
    "RollUp",
    "Severity",
    "Shape",
    "Sheet",
    "Sheeting",
    "Shop",
    "Signal",
    "Standing",
    "Stud",
    "Support",
    "Template",
    "TubeEnd",
    "Units",
    "Vec",
    "YesNo",
    "a_choice",
    "a_count",
    "a_length",
    "a_tube_size",
    "across",
    "apart",
    "baseboards",
    "between",
    "beyond",
    "boxes",
    "brace_low",
    "carries",
    "clear_above",
    "clear_below",
    "cut_outs",
    "diagonal",
    "evened",
    "feet_of",
    "fitted_out",
    "gable",
    "given",
    "gothic_arch",
    "in_bays",
    "knee_step",
    "lay_row",
    "lay_slats",
    "least_knee",
    "least_radius",
    "least_step",
    "on_ends",
    "on_run",
    "over",
    "parameters",
    "pushed_at",
    "recesses_over",
    "round_hoop",
    "segmental_hoop",
    "slat_thickness",
    "some_lengths",
    "spread",
    "stand_bent",
    "step_past",
    "strips_along_x",
    "tell_hoops",
    "thresholds",
    "through",
    "under",
    "worked_on",
]
