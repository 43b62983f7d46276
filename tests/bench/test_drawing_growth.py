"""How the work of drawing grows with the number of tubes; run with -m bench."""

from __future__ import annotations

import logging
import math
import time

import pytest

from tests.bays import rack_of
from tubeframe.assembly.subframes import sub_frames
from tubeframe.catalog.workshop import generic_workshop
from tubeframe.design import Source, Stage, make_design
from tubeframe.drawing.elevations.elevation import marks_by_view, with_balloons
from tubeframe.drawing.elevations.view_set import ViewSet
from tubeframe.drawing.labels.balloons import BalloonSide
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.views.part_book import part_book

pytestmark = pytest.mark.bench

LOG = logging.getLogger(__name__)
BAYS = (8, 33, 139)
MOST = 1.2


def _stages(bays):
    """Time each stage of a rack's drawing: the least of three [s]."""
    workshop = generic_workshop()
    draft = make_design(rack_of(bays), workshop, Source(template="rack", parameters={}, shop={}), until=Stage.PARTS)
    times = {}

    def timed(name, work):
        made, times[name] = None, math.inf
        for _ in range(3):
            start = time.process_time()
            made = work()
            times[name] = min(times[name], time.process_time() - start)
        return made

    timed("sub-frames", lambda: sub_frames(draft.frame, draft.jointed))
    book = timed("part book", lambda: part_book(draft))
    timed("dimensions and outlines", lambda: [ViewSet(book, workshop.drafting).blank(n, 100) for n in Named])
    bare = timed("views with dimensions", lambda: _looked_at(book, workshop))
    marks = marks_by_view(book, bare)
    timed("balloons", lambda: [with_balloons(book, v, marks[v.named], BalloonSide.BOTH) for v in bare])
    return len(draft.parts.pieces), times


def _looked_at(book, workshop):
    views = ViewSet(book, workshop.drafting)
    return tuple(views.drawn(n, 100) for n in Named)


def test_drawing_grows_with_the_tubes():
    made = [_stages(bays) for bays in BAYS]
    LOG.info("tubes                    %s", "".join(f"{tubes:>9}" for tubes, _ in made))
    for name in made[0][1]:
        row = [times[name] for _, times in made]
        growth = math.log(row[-1] / row[0]) / math.log(made[-1][0] / made[0][0])
        LOG.info("%-24s %s s, exponent %.2f", name, "".join(f"{t:9.4f}" for t in row), growth)
        assert growth <= MOST, name
