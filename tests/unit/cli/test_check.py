"""`tubeframe check`, as a person calls it."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from tubeframe.template.registry import shipped_templates

STAND = """
schema = "tubeframe.frame/1"
name = "stand"
units = "in"
[[member]]
id = "left"
path = [[0, 0, 0], [0, 0, 30]]
[[member]]
id = "right"
path = [[40, 0, 0], [40, 0, 30]]
[[member]]
id = "rail"
path = [[0, 0, 20], [40, 0, 20]]
"""
KEYS = ["code", "title", "case", "where", "value", "limit", "unit", "ratio", "bounds", "verdict", "message"]
KEYS += ["assumptions", "remedy"]


def run(*arguments, cwd):
    return subprocess.run(
        [sys.executable, "-m", "tubeframe", *arguments], cwd=cwd, capture_output=True, text=True, check=False
    )


def test_verdicts_as_json(tmp_path):
    done = run("check", "table", "--length", "60in", "--load", "200lb", "--json", cwd=tmp_path)
    document = json.loads(done.stdout)

    assert done.returncode == 0
    assert all(list(v) == KEYS for v in document["verdicts"])
    assert {v["verdict"] for v in document["verdicts"]} <= {"ok", "warning", "fails", "needs input"}
    assert "not a rating" in document["note"]
    assert list(tmp_path.iterdir()) == []


def test_lines_say_value_limit_case_and_what_it_rests_on(tmp_path):
    out = run("check", "table", "--load", "200lb", cwd=tmp_path).stdout

    assert "V-strength  strength of the tubes (rail." in out
    assert "with stiffer and softer clamps" in out
    assert "yield strength 30 ksi (assumed: 30 ksi; conduit has no published structural yield)" in out
    assert "Joints were not tested" in out


def test_a_cover_needs_wind_and_snow_of_the_place(tmp_path):
    out = run("check", "greenhouse", cwd=tmp_path).stdout

    assert "ask your building authority for the design wind speed: --wind 100mph; none is guessed" in out
    assert "ask your building authority for the ground snow load: --snow 25psf; none is guessed" in out
    assert "Anchor it" in out


def test_a_frame_that_folds_is_status_1(tmp_path):
    (tmp_path / "stand.toml").write_text(STAND, encoding="utf-8")
    done = run("check", "stand.toml", "--load", "50lb", cwd=tmp_path)

    assert done.returncode == 1
    assert done.stdout.startswith("fails")
    assert "1 way to fold" in done.stdout


def test_a_built_folder_is_checked_with_its_own_parameters(tmp_path):
    run("build", "table", "--height", "42in", "--only", "csv", "--quiet", "--out", "built", cwd=tmp_path)
    folder, same, other = (
        run("check", *arguments, "--load", "100lb", "--json", cwd=tmp_path).stdout
        for arguments in (["built"], ["table", "--height", "42in"], ["table"])
    )

    assert folder == same != other


def test_all_mistakes_at_once(tmp_path):
    done = run("check", "table", "--load", "big", "--wind", "3", "--snow", "deep", "--length", "1in", cwd=tmp_path)

    assert done.returncode == 2
    assert [line.split(": ")[1] for line in done.stderr.splitlines()] == ["--load", "--wind", "--snow", "--length"]


def test_remedies_are_tried_before_they_are_offered(tmp_path):
    out = run("check", "table", "--length", "60in", "--braces", "none", "--design-for", "50lb", cwd=tmp_path).stdout

    assert "tried, each solved again:" in out
    assert "fails:    as asked: " in out
    assert out.count("takes it:") == 1


def test_a_build_has_its_verdicts_and_says_what_fails(tmp_path):
    done = run("build", "table", "--braces", "none", "--only", "csv", "--out", "t", cwd=tmp_path)
    document = json.loads((tmp_path / "t" / "design.json").read_text(encoding="utf-8"))

    assert done.returncode == 0
    assert [list(v) for v in document["verdicts"]] == [KEYS] * len(document["verdicts"])
    assert "not a rating" in document["strength_note"]
    failing = [v["code"] for v in document["verdicts"] if v["verdict"] == "fails"]
    assert "V-sway" in failing
    assert [f["code"] for f in document["findings"] if f["code"].startswith("V-")] == failing
    assert "sway" in done.stdout


@pytest.mark.parametrize("template", [t.name for t in shipped_templates()])
def test_no_templates_parameter_is_called_like_an_option_of_ours(template, tmp_path):
    done = run("check", template, "--help", cwd=tmp_path)

    assert done.returncode == 0, done.stderr
    assert "--pull-out" in done.stdout
