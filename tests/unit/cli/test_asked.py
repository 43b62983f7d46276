"""What a frame has to bear, told on the command line or in the workshop file."""

from __future__ import annotations

import json

from tests.unit.cli.test_commands import run


def _verdicts(folder):
    return json.loads((folder / "design.json").read_text())["verdicts"]


def _strength(verdicts):
    return next(v for v in verdicts if v["code"] == "V-strength")


def test_a_build_looks_at_the_load_that_is_asked_for_and_is_made_again_with_it(tmp_path):
    def build(name, *options):
        done = run("build", "table", "--only", "csv", "--quiet", "--out", name, *options, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        return _strength(_verdicts(tmp_path / name))

    assert build("plain")["verdict"] == "needs input"
    asked = build("asked", "--load", "150lb")
    assert asked["verdict"] == "ok"
    assert build("again", "--parameters", "asked/parameters.toml") == asked
    checked = json.loads(run("check", "table", "--load", "150lb", "--json", cwd=tmp_path).stdout)["verdicts"]
    assert _strength(checked) == asked


def test_wind_and_snow_of_the_place_stand_in_the_workshop_file(tmp_path):
    (tmp_path / "my.toml").write_text('wind = "70mph"\nsnow = "5psf"\npull_out = "400lb"\n')
    told, asked = (
        json.loads(run("check", "greenhouse", "--json", *options, cwd=tmp_path).stdout)
        for options in (("--workshop", "my.toml"), ("--wind", "70mph", "--snow", "5psf", "--pull-out", "400lb"))
    )

    assert told == asked
    assert {v["verdict"] for v in told["verdicts"] if v["code"] in {"V-wind", "V-anchor", "V-snow"}} <= {"ok", "fails"}


def test_an_option_rules_over_the_workshop_file(tmp_path):
    (tmp_path / "my.toml").write_text('load = "50lb"\n')
    both, option = (
        run("check", "table", "--load", "150lb", "--json", *more, cwd=tmp_path).stdout
        for more in (("--workshop", "my.toml"), ())
    )

    assert both == option


def test_mistakes_are_told_under_the_option_or_the_key(tmp_path):
    (tmp_path / "my.toml").write_text('wind = "hard"\n')
    options = run("build", "table", "--pull-out", "deep", "--load", "big", cwd=tmp_path)
    file = run("check", "table", "--workshop", "my.toml", cwd=tmp_path)
    design = run("check", "table", "--design-for", "much", cwd=tmp_path)

    assert (options.returncode, file.returncode, design.returncode) == (2, 2, 2)
    assert "--load: 'big' is not a load" in options.stderr
    assert "--pull-out: 'deep' is not a load" in options.stderr
    assert "my.toml: wind: 'hard' is not a speed" in file.stderr
    assert "--design-for: 'much' is not a load" in design.stderr
