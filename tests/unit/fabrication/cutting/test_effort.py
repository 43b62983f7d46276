from __future__ import annotations

from tubeframe.fabrication.cutting.effort import Effort


def test_a_time_that_the_user_set_is_used_up():
    """Without a time the work ends a search; with one the clock alone does."""
    counted, timed, short = Effort(), Effort.of_time(3600.0), Effort.of_time(1e-9)
    for effort in (counted, timed):
        effort.spend(10**11)

    assert counted.over
    assert not timed.over
    assert short.over
    assert short.seconds == 0.0
