"""What every drawing is made of, as plain numbers in a plane [mm]: lines, areas, arcs, ellipses and cubic curves.

Each can be placed elsewhere, taken in chords, measured and cut to a window.
"""

from tubeframe.drawing.shapes.arc import Arc, circle
from tubeframe.drawing.shapes.curve import Curve
from tubeframe.drawing.shapes.ellipse import Ellipse
from tubeframe.drawing.shapes.lines import Area, Lines

__all__ = ["Arc", "Area", "Curve", "Ellipse", "Lines", "Shape", "circle"]

Shape = Lines | Area | Arc | Ellipse | Curve
