"""The list of commands says of each what the command says of itself, without loading it."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tubeframe.cli.app import Commands, loaded

NAMES = Commands().list_commands(None)


@pytest.mark.parametrize("name", NAMES)
def test_a_command_is_listed_as_it_speaks_of_itself(name):
    listed, own = Commands().get_command(None, name), loaded(name)
    assert " ".join((own.help or "").split()).startswith(listed.help)


def test_a_name_that_is_no_command_is_none():
    assert Commands().get_command(None, "buidl") is None


def test_help_loads_nothing_of_frames():
    code = "import sys; from tubeframe.__main__ import main\ntry:\n main()\nexcept SystemExit: print(*sys.modules)"
    told = subprocess.run([sys.executable, "-c", code, "--help"], capture_output=True, text=True, check=True)
    modules = told.stdout.split()
    assert "tubeframe.cli.app" in modules
    assert not {"numpy", "tubeframe.frame.frame", "tubeframe.catalog.workshop"} & set(modules)
