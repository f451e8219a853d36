"""`hands-on check`: what a file is, what is printed, and the exit code."""

import errno
import json
import os
import shutil
from pathlib import Path

import pytest

from hands_on.commands.check import kind_of, run
from hands_on.commands.shared import CommandError
from hands_on.store.library import Library

DATA = Path(__file__).parents[1] / "data"


@pytest.fixture
def folder(tmp_path):
    """A folder of rulesets and sessions, sound, that may be broken."""
    shutil.copytree(DATA / "rulesets", tmp_path / "rulesets")
    shutil.copytree(DATA / "sessions", tmp_path / "sessions")
    return tmp_path


@pytest.fixture
def library(folder):
    return Library([folder / "rulesets"])


def broken(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_whole_folder_that_is_sound(folder, library, capsys):
    assert run([str(folder)], as_json=False, library=library) == 0
    assert capsys.readouterr().out == "7 files checked: sound.\n"


def test_a_closed_folder_is_told_beside_what_could_be_read(folder, library, capsys, monkeypatch):
    look = os.scandir

    def scandir(path):
        if Path(path).name == "sessions":
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return look(path)

    monkeypatch.setattr("os.scandir", scandir)
    assert run([str(folder)], as_json=False, library=library) == 1
    out = capsys.readouterr().out
    assert out.startswith(f"{folder / 'sessions'}: ")
    assert out.endswith("7 files checked, 1 error.\n")
    with pytest.raises(CommandError, match="you may not read there"):
        run([str(folder / "sessions")], as_json=False, library=library)


def test_a_problem_is_told_with_file_line_key_and_way_out(folder, library, capsys):
    path = folder / "rulesets/moor-hound.toml"
    broken(path, 'coat = "long" }', 'coat = "lang" }')
    line = next(n for n, row in enumerate(path.read_text().splitlines(), 1) if '"lang"' in row)
    assert run([str(path)], as_json=False, library=library) == 1
    assert capsys.readouterr().out == (
        f'{path}:{line}: rulings[1].when.coat: there is no value of coat "lang". Right would be: "long"?\n'
        "1 file checked, 1 error.\n"
    )


def test_warnings_leave_a_file_sound_enough(folder, library, capsys):
    path = folder / "sessions/good.toml"
    broken(path, 'sex = "male"\n', "")
    assert run([str(path)], as_json=False, library=library) == 0
    out = capsys.readouterr().out
    assert out.startswith("warning: ")
    assert out.endswith("1 file checked, 1 warning.\n")


def test_json_is_one_document(folder, library, capsys):
    path = folder / "sessions/good.toml"
    broken(path, "value = 68.5", "value = 685")
    assert run([str(path)], as_json=True, library=library) == 1
    document = json.loads(capsys.readouterr().out)
    assert document["errors"] == 1
    assert document["files"] == [str(path)]
    (problem,) = document["problems"]
    assert (problem["file"], problem["key"], problem["level"]) == (str(path), "takes[1].value", "error")
    assert "68.5" in problem["right"]


def test_a_common_file_is_checked_with_its_neighbours_and_only_its_own_problems_are_told(
    folder, library, capsys
):
    neck, mouth = folder / "rulesets/common/neck.toml", folder / "rulesets/common/mouth.toml"
    broken(neck, 'more = ["neck.throaty"]', 'more = ["neck.throtty"]')
    assert run([str(mouth)], as_json=False, library=library) == 0
    assert run([str(neck)], as_json=False, library=library) == 1
    assert '"neck.throaty"?' in capsys.readouterr().out


def test_one_broken_file_hides_no_other(folder, library, capsys):
    (folder / "rulesets/cut-off.toml").write_text('format = 1\nid = "cut', encoding="utf-8")
    broken(folder / "sessions/good.toml", "value = 68.5", "value = 685")
    assert run([str(folder)], as_json=False, library=library) == 1
    out = capsys.readouterr().out
    assert "cut-off.toml:2: this is not valid TOML" in out
    assert "takes[1].value" in out
    assert out.endswith("8 files checked, 2 errors.\n")


def test_a_session_of_a_broken_ruleset_is_still_checked(folder, capsys):
    broken(folder / "rulesets/moor-hound.toml", "[sources]", "[sources")
    path = folder / "sessions/good.toml"
    broken(path, "born = 2023-05-14", "born = 2027-05-14")
    assert run([str(path)], as_json=False, library=Library([folder / "rulesets"])) == 1
    out = capsys.readouterr().out
    assert "here but cannot be used" in out
    assert "dog.born" in out


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "the file is empty"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"\0\0\0\0", "zero bytes"),
    ],
)
def test_what_gives_no_text_is_bad_input(tmp_path, library, capsys, content, words):
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    assert run([str(path)], as_json=False, library=library) == 2
    assert words in capsys.readouterr().out


@pytest.mark.parametrize(
    "text", ["a = " + "[" * 5000 + "]" * 5000, "a = " + "1" * 5000, 'a = """', "=", "[[", "[a]\n[a]"]
)
def test_freakish_text_gives_a_problem_and_no_traceback(tmp_path, library, capsys, text):
    path = tmp_path / "odd.toml"
    path.write_text(text, encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) in (1, 2)
    assert str(path) in capsys.readouterr().out


def test_toml_that_is_neither_is_told_so(tmp_path, library, capsys):
    path = tmp_path / "odd.toml"
    path.write_text("[tool.ruff]\nline-length = 110\n", encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 1
    assert "neither a ruleset nor a session" in capsys.readouterr().out


def test_what_is_not_there_is_bad_usage(tmp_path, library):
    with pytest.raises(CommandError, match="no such file"):
        run([str(tmp_path / "nowhere.toml")], as_json=False, library=library)
    (tmp_path / "empty").mkdir()
    with pytest.raises(CommandError, match=r"no \.toml file"):
        run([str(tmp_path / "empty")], as_json=False, library=library)


def test_escape_codes_in_a_file_are_shown_and_not_sent(folder, library, capsys):
    path = folder / "sessions/good.toml"
    broken(path, 'point = "mouth.bite"', 'point = "\\u001b[2Jmouth"')
    run([str(path)], as_json=False, library=library)
    out = capsys.readouterr().out
    assert "\x1b" not in out
    assert "␛[2Jmouth" in out


@pytest.mark.parametrize(
    ("path", "tables", "kind"),
    [
        ("x.toml", {"builds_on": "common", "breed": "-"}, "edition"),
        ("x.toml", {"ruleset": {}, "dog": {}}, "session"),
        ("x.toml", {"region": {}, "points": []}, "common"),
        ("common/derived.toml", {"derived": []}, "common"),
        ("common/language.toml", {"words": {}}, "language"),
        ("x.toml", {"tool": {}}, "unknown"),
    ],
)
def test_what_a_file_is_shows_in_what_it_holds(path, tables, kind):
    assert kind_of(Path(path), tables) == kind


ROUND = """format = 1
[round]
id = "mill-2026"
points = ["height", "general.hoks"]
[ruleset]
id = "moor-hound"
[[dogs]]
number = 1
sex = "male"
born = 2024-01-01
"""


def test_a_round_is_checked_as_a_round(folder, library, capsys):
    path = folder / "round.toml"
    path.write_text(ROUND, encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 1
    assert "round.toml:4: round.points[2]: there is no point" in capsys.readouterr().out
    path.write_text(ROUND.replace(', "general.hoks"', ""), encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 0
    path.write_text(f"{ROUND}[[dogs]]\nnumber = 1\n", encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 1
    assert "a second time" in capsys.readouterr().out
    path.write_text(ROUND.replace(', "general.hoks"', ', "height"'), encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 1
    assert "a second time" in capsys.readouterr().out
    path.write_text(ROUND.replace(', "general.hoks"', "").replace("[[dogs]]", "[[dog]]"), encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 1
    assert "`dogs` is missing" in capsys.readouterr().out
    path.write_text(ROUND.replace(', "general.hoks"', "").replace("born", "borm"), encoding="utf-8")
    assert run([str(path)], as_json=False, library=library) == 0
    assert "a round knows no `borm`" in capsys.readouterr().out
