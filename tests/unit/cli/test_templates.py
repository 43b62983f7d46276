"""The list of templates, all parameters of one, and a template of one's own to start from."""

from __future__ import annotations

import json

import pytest

from tests.unit.cli.test_commands import run, wrong
from tubeframe.template.parameters import specs_of
from tubeframe.template.registry import load_template, shipped_templates


def test_each_template_is_listed_with_a_line_its_size_and_a_picture(tmp_path):
    text = run("templates", cwd=tmp_path).stdout
    for template in shipped_templates():
        assert f"{template.name}: {template.summary}\n" in text
        assert all(line in text for line in template.sketch.strip("\n").splitlines())
        assert 4 <= len(template.sketch.strip("\n").splitlines()) <= 10
    assert '54" long, 26" wide, 34 1/2" high' in text  # the table's own defaults


@pytest.mark.parametrize("name", [t.name for t in shipped_templates()])
def test_every_parameter_of_one_is_told(name, tmp_path):
    text = run("templates", name, cwd=tmp_path).stdout
    template = next(t for t in shipped_templates() if t.name == name)
    for key, spec in specs_of(template.parameters).items():
        assert f"--{key} ({spec.kind.value}): {spec.about}" in text
    assert text.count("; default ") >= len(specs_of(template.parameters))


def test_ranges_are_told_in_both_units(tmp_path):
    text = run("templates", "greenhouse", cwd=tmp_path).stdout
    assert "24 in to 5 ft; default 36 in" in text
    assert "600 mm to 1500 mm; default 900 mm" in text


def test_an_unknown_template_is_told_with_the_nearest(tmp_path):
    (line,) = wrong("templates", "greenhose", cwd=tmp_path)
    assert "did you mean 'greenhouse'" in line


def test_a_new_template_builds_as_it_is_and_at_the_ends_of_its_ranges(tmp_path):
    assert run("new", "my_stand", cwd=tmp_path).returncode == 0
    least = ("--width", "24in", "--depth", "24in", "--height", "18in")
    most = ("--width", "60in", "--depth", "36in", "--height", "36in", "--tube", "emt-1")
    for sizes in ((), least, most, ("--units", "mm")):
        done = run("build", "my_stand.py", *sizes, "--only", "csv", "--json", "--force", cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert json.loads(done.stdout)["findings"] == []
    assert load_template(tmp_path / "my_stand.py").name == "my_stand"
    assert "--depth (length)" in run("templates", "my_stand.py", cwd=tmp_path).stdout


def test_a_new_template_overwrites_nothing(tmp_path):
    (tmp_path / "mine.py").write_text("kept")
    (line,) = wrong("new", "mine", cwd=tmp_path)
    assert line.startswith("mine.py: it cannot be written")
    (line,) = wrong("new", "my-stand", cwd=tmp_path)
    assert "my-stand: this is no name for a template" in line


def test_a_folder_built_from_a_template_of_ones_own_names_its_file(tmp_path):
    run("new", "my_stand", cwd=tmp_path)
    run("build", "my_stand.py", "--only", "csv", "--out", "built", cwd=tmp_path)
    (line,) = wrong("build", "built", "--out", "again", cwd=tmp_path)
    assert line.endswith("name its file: tubeframe build my_stand.py --parameters built/parameters.toml")
    command = ("my_stand.py", "--parameters", "built/parameters.toml", "--only", "csv", "--out", "again")
    assert run("build", *command, cwd=tmp_path).returncode == 0


def test_a_measuring_sheet_is_written(tmp_path):
    assert run("measure", "bed-rack", "--units", "mm", "--out", "take.pdf", cwd=tmp_path).returncode == 0
    assert (tmp_path / "take.pdf").read_bytes().startswith(b"%PDF")
    (line,) = wrong("measure", "bed-rack", "--out", "no/such/take.pdf", cwd=tmp_path)
    assert "it cannot be written" in line
