"""A second process makes the same bytes, and where it does not, the first one makes them."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.building import table
from tubeframe.output import second_process
from tubeframe.output.build_files import Content, Format
from tubeframe.output.second_process import SecondProcess

FORMATS = (Format.STEP, Format.DXF)
NAMES = ("elevations.dxf", "model.step")


@pytest.fixture(autouse=True)
def _two_processors(monkeypatch):
    monkeypatch.setattr(second_process, "_processors", lambda: 2)


def test_the_files_are_those_that_this_process_makes():
    with SecondProcess() as beside:
        beside.give(table(), FORMATS, NAMES)
        made = beside.made()
    assert made == Content(table(), FORMATS).files(NAMES)


@pytest.mark.parametrize("code", ["raise SystemExit(3)", "import os, signal; os.kill(os.getpid(), signal.SIGKILL)"])
def test_one_that_ends_early_has_made_nothing(monkeypatch, code):
    def started():
        return subprocess.Popen(
            [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )

    monkeypatch.setattr(second_process, "_started", started)
    with SecondProcess() as beside:
        beside.give(table(), FORMATS, NAMES)
        assert beside.made() == {}


def test_a_lone_processor_is_not_shared(monkeypatch):
    monkeypatch.setattr(second_process, "_processors", lambda: 1)
    with SecondProcess() as beside:
        beside.give(table(), FORMATS, NAMES)
        assert beside.made() == {}


def test_it_does_not_outlive_what_it_is_for():
    beside = SecondProcess()
    with pytest.raises(KeyboardInterrupt), beside:
        raise KeyboardInterrupt
    assert beside._process is not None
    assert beside._process.poll() is not None


def test_what_cannot_be_handed_over_is_made_here():
    """A template of one's own may put a thing into a frame that only this process knows."""

    class Own(float):
        pass

    with SecondProcess() as beside:
        beside.give(Own(1.0), FORMATS, NAMES)  # type: ignore[arg-type]
        assert beside.made() == {}
