"""Which lines of opaque bodies are seen: exact, from straight edges and convex occluders, without a mesh.

Every body is a union of convex pieces. Of a straight edge, what is inside or behind a convex piece is one stretch with
a closed form; what is seen of the edge is what no stretch covers. Curves go in as short chords, which know what
they are of, and come out as chords or as true curves.
"""

from tubeframe.drawing.hidden_line.body_lines import BodyLines
from tubeframe.drawing.hidden_line.engine import Seen, lines, visible_lines

__all__ = [
    "BodyLines",
    "Seen",
    "lines",
    "visible_lines",
]
