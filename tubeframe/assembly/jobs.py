"""When in the assembly the work is done that a frame asks for besides its parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.step import Work
from tubeframe.frame.job import JobKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.job import Job

_WHEN: Mapping[JobKind, tuple[Work, ...]] = {
    JobKind.SOCKETS: (Work.SET_OUT, Work.ANCHOR),
    JobKind.THRESHOLDS: (Work.SET_OUT, Work.ANCHOR),
    JobKind.BASEBOARDS: (Work.ANCHOR,),
    JobKind.FLANGES: (Work.ANCHOR,),
    JobKind.POCKETS: (Work.ANCHOR,),
    JobKind.WALL_TIES: (Work.ANCHOR,),
    JobKind.LATCH: (Work.DOOR,),
    JobKind.COVER_ENDS: (Work.COVER,),
    JobKind.COVER: (Work.COVER,),
    JobKind.COVER_DOOR: (Work.COVER,),
    JobKind.ROLL_UP: (Work.COVER,),
    JobKind.BRAKES: (Work.LAST_LOOK,),
}
"""A cover comes when all is square, tight and anchored: it makes the wind load."""


def jobs_for(frame: Frame, work: Work) -> tuple[Job, ...]:
    """Return what is done in a step of some work, in the order of the kinds, each once."""
    wanted = dict.fromkeys(s.job for s in frame.supplies if s.job is not None)
    return tuple(job for kind in JobKind if work in _WHEN[kind] for job in wanted if job.kind is kind)
