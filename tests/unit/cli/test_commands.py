from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

from tubeframe.inputs.toml_text import read_toml

TABLE = ["build", "table", "--only", "csv"]


def run(*arguments, cwd, **environment):
    return subprocess.run(
        [sys.executable, "-m", "tubeframe", *arguments],
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **environment},
    )


def wrong(*arguments, cwd):
    """Run a command that must fail; return its lines of complaint."""
    before = sorted(p.name for p in cwd.iterdir())
    done = run(*arguments, cwd=cwd)
    assert done.returncode == 2, done.stdout
    assert "Traceback" not in done.stderr
    assert sorted(p.name for p in cwd.iterdir()) == before
    return [line.removeprefix("tubeframe: ") for line in done.stderr.splitlines()]


def test_version(tmp_path):
    assert run("--version", cwd=tmp_path).stdout.startswith("tubeframe 0.")


def test_help_lists_every_parameter_with_its_range_and_default(tmp_path):
    text = run("build", "greenhouse", "--help", cwd=tmp_path, COLUMNS="100").stdout
    text = " ".join(text.replace("│", " ").split())

    for word in ("--width", "--length", "--height", "--spacing", "--tube", "4 ft to 14 ft", "default 8 ft"):
        assert word in text


def test_summary_as_json(tmp_path):
    done = run(*TABLE, "--json", "--out", "t", cwd=tmp_path)
    summary = json.loads(done.stdout)

    assert done.returncode == 0
    assert summary["cut_plan"] == "optimal"
    assert summary["mass_kg"] > 10
    assert summary["price"] is None
    assert summary["files"] == ["design.json", "parameters.toml", "pieces.csv", "cut_plan.csv", "buying_list.csv"]


def test_price_and_mass_are_told(tmp_path):
    (tmp_path / "shop.toml").write_text(
        'currency = "EUR"\n[[stock]]\ntube = "emt-3/4"\nlength = "10 ft"\nprice = 9.5\n[fittings.tee]\nprice = 2.5\n'
    )
    done = run(*TABLE, "--workshop", "shop.toml", "--out", "t", cwd=tmp_path)

    assert "EUR" in done.stdout
    assert "lb" in done.stdout


def test_quiet_says_nothing(tmp_path):
    done = run(*TABLE, "--quiet", "--out", "t", cwd=tmp_path)

    assert (done.stdout, done.stderr) == ("", "")


def test_parameters_file_builds_the_same_again_and_the_command_line_rules(tmp_path):
    run(*TABLE, "--quiet", "--length", "1.2m", "--units", "mm", "--out", "first", cwd=tmp_path)
    run(*TABLE, "--quiet", "--parameters", "first/parameters.toml", "--out", "again", cwd=tmp_path)
    run(*TABLE, "-q", "--parameters", "first/parameters.toml", "--length", "1300mm", "--out", "other", cwd=tmp_path)
    first, again, other = ((tmp_path / d / "design.json").read_bytes() for d in ("first", "again", "other"))

    assert first == again
    assert json.loads(first)["overall"]["length_mm"] == pytest.approx(1200)
    assert json.loads(other)["overall"]["length_mm"] == pytest.approx(1300)


@pytest.mark.parametrize("length", ['54 1/8"', "54-1/8in", "4ft 6.125in", "1374.775mm", "1.374775m", "54.125"])
def test_lengths_in_every_way_of_writing(tmp_path, length):
    run(*TABLE, "--quiet", "--length", length, "--out", "t", cwd=tmp_path)
    design = json.loads((tmp_path / "t" / "design.json").read_text(encoding="utf-8"))

    assert design["overall"]["length_mm"] == pytest.approx(54.125 * 25.4)


def test_all_mistakes_of_a_call_are_listed_at_once(tmp_path):
    (tmp_path / "shop.toml").write_text('unit = "in"\n[saw]\nkerf = "wide"\n[fittings.tea]\nsetback = "1in"\n')
    told = wrong(
        *TABLE, "--length", "30ft", "--seat", "spacd", "--only", "pfd", "--workshop", "shop.toml", cwd=tmp_path
    )

    assert len(told) == 6
    assert "--length: '30ft' is out of range; the range is 24 in to 8 ft" in told
    assert "--seat: 'spacd' is not one of the choices; did you mean 'spaced'?" in told
    assert "--only: 'pfd' is not a format; did you mean 'pdf'?" in told
    assert any(t.startswith("shop.toml: unit: unknown key") for t in told)
    assert any(t.startswith("shop.toml: saw.kerf: 'wide' is not a length") for t in told)
    assert "shop.toml: fittings.tea: there is no such kind of fitting; did you mean 'tee'?" in told


def test_unknown_template_and_unknown_option(tmp_path):
    (told,) = wrong("build", "greenhose", cwd=tmp_path)
    assert told == "greenhose: there is no such template; did you mean 'greenhouse'?"
    assert run("build", "table", "--lenght", "4ft", cwd=tmp_path).returncode == 2


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        (["--width", "8ft", "--height", "3ft"], ["height", '48" to 96"', '36"']),
        (["--shape", "gable", "--wall", "6in"], ["wall", '6"', '12" to 48"', "the nearest"]),
    ],
)
def test_impossible_sizes_say_which_limit(tmp_path, sizes, words):
    (told,) = wrong("build", "greenhouse", *sizes, cwd=tmp_path)

    assert all(w in told for w in words)


def test_a_folder_that_is_not_ours_is_left_alone(tmp_path):
    (tmp_path / "t").mkdir()
    (tmp_path / "t" / "notes.txt").write_text("mine")
    (told,) = wrong(*TABLE, "--out", "t", cwd=tmp_path)
    assert "did not write" in told
    assert "--force" in told

    assert run(*TABLE, "--out", "t", "--force", "-q", cwd=tmp_path).returncode == 0
    assert (tmp_path / "t" / "notes.txt").read_text() == "mine"


def test_a_folder_that_is_ours_is_written_anew_and_old_files_go(tmp_path):
    run("build", "table", "--only", "csv", "-q", "--out", "t", cwd=tmp_path)
    (tmp_path / "t" / "mine.txt").write_text("mine")
    (tmp_path / "t" / "model.step").write_text("old")

    assert run(*TABLE, "-q", "--out", "t", cwd=tmp_path).returncode == 0
    assert not (tmp_path / "t" / "model.step").exists()
    assert (tmp_path / "t" / "mine.txt").exists()


def test_a_file_in_place_of_the_folder(tmp_path):
    (tmp_path / "t").write_text("")
    (told,) = wrong(*TABLE, "--out", "t", cwd=tmp_path)

    assert "not a folder" in told


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written(tmp_path):
    (tmp_path / "locked").mkdir(mode=0o500)
    (told,) = wrong(*TABLE, "--out", "locked/t", cwd=tmp_path)

    assert "cannot be written" in told


def test_a_workshop_file_that_is_missing_or_broken(tmp_path):
    (tmp_path / "broken.toml").write_text("units = \n")

    assert "cannot be read" in wrong(*TABLE, "--workshop", "none.toml", cwd=tmp_path)[0]
    assert "line 1" in wrong(*TABLE, "--workshop", "broken.toml", cwd=tmp_path)[0]


def test_workshop_new_and_check(tmp_path):
    assert run("workshop", "new", "my.toml", cwd=tmp_path).returncode == 0
    assert run("workshop", "check", "my.toml", cwd=tmp_path).stdout == "my.toml is fine\n"
    assert read_toml(tmp_path / "my.toml")["tube"] == "emt-3/4"
    assert "File exists" in wrong("workshop", "new", "my.toml", cwd=tmp_path)[0]


def test_a_template_of_the_users_own(tmp_path):
    (tmp_path / "stand.py").write_text(
        '''"""A post."""
from tubeframe.template import EndKind, FrameBuilder, Template, Vec, a_length, parameters

@parameters
class Stand:
    height: float = a_length("of the post", inch=(10, 20, 30), metric=(250, 500, 750))

def lay_out(p, shop):
    frame = FrameBuilder(name="stand", tube="emt-3/4")
    frame.tube("post", (Vec(0, 0, 0), Vec(0, 0, p.height)), ends=(EndKind.FOOT, EndKind.CAP))
    return frame.build()

TEMPLATE = Template(name="stand", summary="a post", parameters=Stand, lay_out=lay_out)
'''
    )
    done = run("build", "./stand.py", "--height", "25in", "--only", "csv", "--json", cwd=tmp_path)

    assert json.loads(done.stdout)["tubes"] == 1


OWN = """from tubeframe.template import FrameBuilder, Template, Vec, a_length, parameters

@parameters
class Stand:
    height: float = a_length("of the post", inch=(10, 20, 30), metric=(250, 500, 750))

def lay_out(p, shop):
    frame = FrameBuilder(name="stand", tube="emt-3/4")
    frame.tube("post", (Vec(0, 0, 0), Vec(0, 0, p.height)))
    return frame.build()

TEMPLATE = Template(name="stand", summary="a post", parameters=Stand, lay_out=lay_out)
"""


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("@parameters", "1 / 0"), "own.py, line 3: the template stops with ZeroDivisionError: division by zero"),
        (("@parameters", "1 +"), "own.py, line 3: the template stops with SyntaxError: invalid syntax"),
        (("@parameters", "raise SystemExit"), "own.py, line 3: the template stops with SystemExit"),
        (("p.height", "p.hieght"), "own.py, line 9: the template stops with AttributeError: 'Stand' object has no"),
        (
            ("p.height", 'shop.fitting("tea", "emt-1").grip'),
            "own.py, line 9: fitting: 'tea' is not known; did you mean",
        ),
        (("return frame.build()", "pass"), "own.py: `lay_out` gives NoneType, not a frame"),
        (("@parameters\n", ""), "own.py: the template stops with TypeError: must be called with a dataclass type"),
        (("TEMPLATE = ", "template = "), "own.py: TEMPLATE: there is no template in this file"),
    ],
)
def test_a_fault_in_the_users_template_is_told_as_the_users(tmp_path, change, told):
    """Never as a fault of this program: with the file, and the line where its own code stopped."""
    assert change[0] in OWN
    (tmp_path / "own.py").write_text(OWN.replace(*change))
    (line,) = wrong("build", "own.py", cwd=tmp_path)

    assert line.startswith(told)


def test_a_finding_of_severity_error_is_status_1_and_still_written(tmp_path):
    (tmp_path / "bad.py").write_text(
        '''"""Two tubes through one point."""
from tubeframe.template import EndKind, FrameBuilder, Template, Vec, parameters

@parameters
class None_:
    pass

def lay_out(p, shop):
    frame = FrameBuilder(name="bad", tube="emt-3/4")
    ends = (EndKind.CAP, EndKind.CAP)
    frame.tube("a", (Vec(0, 0, 100), Vec(900, 0, 100)), ends=ends)
    frame.tube("b", (Vec(450, -400, 100), Vec(450, 400, 100)), ends=ends)
    return frame.build()

TEMPLATE = Template(name="bad", summary="nothing", parameters=None_, lay_out=lay_out)
'''
    )
    done = run("build", "bad.py", "--only", "csv", cwd=tmp_path)

    assert done.returncode == 1
    assert "two tubes pass through one point" in done.stdout
    assert (tmp_path / "bad" / "pieces.csv").exists()


def test_a_text_frame_is_written_and_built_again(tmp_path):
    run("build", "greenhouse", "--only", "frame,csv", "-q", "--out", "one", cwd=tmp_path)
    done = run("build", "one/frame.toml", "--only", "csv", "--out", "two", cwd=tmp_path)

    assert done.returncode == 0
    for name in ("pieces.csv", "cut_plan.csv", "buying_list.csv"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_mistakes_in_a_text_frame_and_its_workshop_are_told_together(tmp_path):
    (tmp_path / "f.toml").write_text(
        'schema = "tubeframe.frame/1"\nname = "x"\n[[member]]\nid = "a"\npath = [[0,0,0]]\n'
    )
    (tmp_path / "shop.toml").write_text("kurf = 1\n")
    told = wrong("build", "f.toml", "--workshop", "shop.toml", cwd=tmp_path)

    assert len(told) == 2
    assert any("f.toml: member[1].path" in t for t in told)
    assert any("shop.toml: kurf" in t for t in told)


def test_calibrate_from_two_tape_readings(tmp_path):
    """B 12.000, M 12.961, D 0.922: s = 12.961 - 0.461 - 12.000 = 0.500 (common practice, no source)."""
    run("workshop", "new", "my.toml", cwd=tmp_path)
    before = (tmp_path / "my.toml").read_text()
    readings = ("--tube", "emt-3/4", "--offcut", "12in", "--measured", "12.961in", "--date", "2026-05-01")
    done = run("fittings", "calibrate", "tee", *readings, "--workshop", "my.toml", cwd=tmp_path)

    assert "s = M - B - D/(2 sin 90) = 12.961in - 12in - 0.461 in = 0.500 in" in done.stdout
    assert read_toml(tmp_path / "my.toml")["fittings"]["tee"]["emt-3/4"]["setback"] == "0.500 in"
    assert all(line in (tmp_path / "my.toml").read_text() for line in before.splitlines() if line.startswith("#"))


def test_calibrate_a_slanted_branch_beside_its_angle(tmp_path):
    """D/(2 sin 45) = 0.461 x 1.41421 = 0.652 in: 13.827 - 12 - 0.652 = 1.175 in; 120 degrees is 60."""
    (tmp_path / "my.toml").write_text("# mine\n")
    common = ("--tube", "emt-3/4", "--offcut", "12in", "--date", "2026-05-01", "--workshop", "my.toml")
    run("fittings", "calibrate", "angle-tee", *common, "--measured", "13.827in", cwd=tmp_path)
    run("fittings", "calibrate", "swivel-tee", *common, "--measured", "13.827in", "--angle", "45", cwd=tmp_path)
    done = run("fittings", "calibrate", "swivel-tee", *common, "--measured", "13.5in", "--angle", "120", cwd=tmp_path)
    run("fittings", "calibrate", "tee", *common, "--measured", "13.2005in", "--run", "emt-1", cwd=tmp_path)

    found = read_toml(tmp_path / "my.toml")["fittings"]
    assert found["angle-tee"]["emt-3/4"]["setback"] == {"45": "1.175 in"}
    assert found["swivel-tee"]["emt-3/4"]["setback"] == {"45": "1.175 in", "60": "0.968 in"}
    assert found["tee"]["emt-1 x emt-3/4"]["setback"] == "0.619 in"
    assert 'written into my.toml: [fittings.swivel-tee."emt-3/4"] setback at 60 degrees' in done.stdout
    assert (tmp_path / "my.toml").read_text().startswith("# mine\n")


@pytest.mark.parametrize(
    ("kind", "change", "words"),
    [
        ("swivel-tee", {}, "at which angle? A swivel-tee swings"),
        ("swivel-tee", {"--angle": "20"}, "no end stands at 20 degrees in a swivel-tee; its ends: 30 to 90"),
        ("tee", {"--angle": "steep"}, "'steep' is not a number of degrees"),
        ("tee", {"--angle": "45"}, "no end stands at 45 degrees in a tee; its ends: 90"),
        ("sleeve-coupler", {}, "no such kind with a branch"),
        ("tee", {"--run": "emt-9"}, "'emt-9' is not known"),
    ],
)
def test_calibrate_asks_for_an_angle_that_there_is(tmp_path, kind, change, words):
    (tmp_path / "my.toml").write_text("")
    options = {"--tube": "emt-3/4", "--offcut": "12in", "--measured": "13.5in", "--date": "2026-05-01"} | change
    told = wrong(
        "fittings", "calibrate", kind, *(w for o in options.items() for w in o), "--workshop", "my.toml", cwd=tmp_path
    )

    assert any(words in t for t in told)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"--measured": "12.8in"}, "where a square-cut end already touches"),
        ({"--measured": "11in"}, "which cannot be"),
        ({"--tube": "emt-3/5"}, "did you mean 'emt-3/4'?"),
        ({"--offcut": "long"}, "is not a length"),
        ({"--date": "May"}, "is not a day"),
    ],
)
def test_calibrate_refuses_what_cannot_be_and_leaves_the_file(tmp_path, change, words):
    run("workshop", "new", "my.toml", cwd=tmp_path)
    before = (tmp_path / "my.toml").read_bytes()
    options = {"--tube": "emt-3/4", "--offcut": "12in", "--measured": "12.961in", "--date": "2026-05-01"} | change
    told = wrong(
        "fittings", "calibrate", "tee", *(w for o in options.items() for w in o), "--workshop", "my.toml", cwd=tmp_path
    )

    assert any(words in t for t in told)
    assert (tmp_path / "my.toml").read_bytes() == before


def test_fittings_are_listed_with_their_ports_drawn(tmp_path):
    text = run("fittings", cwd=tmp_path).stdout

    for kind in ("tee", "side-outlet-elbow", "swivel-coupler", "base-flange"):
        assert f"{kind}: " in text
    assert "====o====" in text


def test_explain_prints_the_arithmetic_of_a_length(tmp_path):
    sizes = ("--length", "57in", "--width", "27in", "--height", "33in", "--braces", "none", "--joists", "0")
    done = run(*TABLE, *sizes, "--explain", "T2", "--out", "t", cwd=tmp_path)

    assert "+    31.414 in" in done.stdout
    assert "=    30.766 in  exact; cut 30 3/4" in done.stdout
    (told,) = wrong(*TABLE, *sizes, "--explain", "T9", "--out", "u", cwd=tmp_path)
    assert "there is no piece T9" in told


def test_a_wrong_table_names_its_option_with_an_example(tmp_path):
    (tmp_path / "shop.toml").write_text('units = "mm"\n')
    (told,) = wrong(*TABLE, "--workshop", "shop.toml", "--table", "4ft", cwd=tmp_path)

    assert told.startswith("--table: '4ft' is not")
    assert "4ftx8ft" in told


def test_a_table_is_kept_with_the_parameters(tmp_path):
    run(*TABLE, "-q", "--table", "4ftx8ft", "--out", "t", cwd=tmp_path)

    assert read_toml(tmp_path / "t" / "parameters.toml")["workshop"]["table"] == "4ftx8ft"
