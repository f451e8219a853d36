"""`hands-on rulesets --new`: the start it writes is sound, and nothing that is there is ever overwritten."""

import json
import os
import re
from pathlib import Path

import pytest

from hands_on.cli import main
from hands_on.store.library import Library
from hands_on.store.places import RULESETS_VARIABLE, shipped_rulesets

SHIPPED = sorted(head.id for head in Library([shipped_rulesets()]).heads())


@pytest.fixture
def own(tmp_path, monkeypatch):
    """The user's own rulesets' folder, not made yet."""
    folder = tmp_path / "data" / "rulesets"
    monkeypatch.setenv(RULESETS_VARIABLE, str(folder))
    return folder


def switched_on(text):
    """The template with every rule that is switched off switched on."""
    return re.sub(r"(?m)^#(?! \S)(?=.)", "", text)


def test_a_start_is_sound_and_listed_and_says_what_comes_next(own, capsys):
    assert main(["rulesets", "--new", "moor-hound"]) == 0
    said = capsys.readouterr().out
    path = own / "moor-hound.toml"
    for told in (path, f"hands-on check {path}", "hands-on examine --ruleset moor-hound"):
        assert str(told) in said
    assert main(["check", str(path)]) == 0
    assert capsys.readouterr().out == "1 file checked: sound.\n"
    assert main(["rulesets", "--json"]) == 0
    known = {head["id"]: head for head in json.loads(capsys.readouterr().out)}
    assert known["moor-hound"]["problem"] is None
    assert known.keys() == {*SHIPPED, "moor-hound"}  # the template itself is no edition


def test_every_rule_that_is_switched_off_in_the_start_is_sound_when_switched_on(own, capsys):
    assert main(["rulesets", "--new", "moor-hound"]) == 0
    path = own / "moor-hound.toml"
    text = switched_on(path.read_text(encoding="utf-8"))
    assert text.count("[[rulings]]") >= 4
    path.write_text(text, encoding="utf-8")
    capsys.readouterr()
    assert main(["check", str(path)]) == 0
    assert capsys.readouterr().out == "1 file checked: sound.\n"
    rules = Library([shipped_rulesets(), own]).load("moor-hound").edition
    filled = {name for name in type(rules).model_fields if getattr(rules, name)}
    shown = {
        "limits",
        "rulings",
        "combinations",
        "teeth",
        "caps",
        "attributes",
        "switches",
        "silent",
        "asked",
    }
    assert shown <= filled


@pytest.mark.parametrize("origin", SHIPPED)
def test_a_copy_says_where_it_comes_from_and_differs_in_id_and_title_only(origin, own, capsys):
    assert main(["rulesets", "--new", "my-own", "--from", origin, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    path = Path(document["path"])
    assert (document["id"], document["from"]) == ("my-own", origin)
    assert path == own / "my-own.toml"
    assert origin in path.read_text(encoding="utf-8").splitlines()[0]
    assert main(["check", str(path)]) == 0
    library = Library([shipped_rulesets(), own])
    copy, first = library.load("my-own").edition, library.load(origin).edition
    assert copy.id == "my-own"
    assert first.title in copy.title != first.title
    assert copy.model_copy(update={"id": first.id, "title": first.title}) == first


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--new", "My Hound"], "my-hound"),  # and what would be right
        (["--new", "moor.hound"], "moor-hound"),
        (["--new", "../moor"], "small letters"),
        (["--new", "-"], "small letters"),
        (["--new", "m\x1b[2Jx"], "small letters"),
        (["--new", ""], "small letters"),
        (["--new", "moor--hound"], "single hyphens"),
        (["--new", "common"], "word of the format"),
        (["--new", "hovawart-fci-190"], "taken"),
        (["--new", "moor-hound", "--from", "hovavart-fci-190"], "hovawart-fci-190"),
        (["--new", "moor-hound", "--out", "elsewhere.toml"], "moor-hound.toml"),
        (["hovawart-fci-190", "--new", "moor-hound"], "--new"),
        (["--from", "hovawart-fci-190"], "--new"),
        (["--out", "x.toml"], "--new"),
        (["--against", "hovawart-fci-190"], "two editions"),
    ],
)
def test_what_cannot_be_begun_is_said_with_exit_code_2_and_nothing_is_written(arguments, said, own, capsys):
    assert main(["rulesets", *arguments]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert said in captured.err
    assert "\x1b" not in captured.err
    assert not own.exists()


def test_an_id_is_taken_by_the_own_file_of_a_broken_edition_too(own, capsys):
    own.mkdir(parents=True)
    path = own / "moor-hound.toml"
    path.write_text("half a li", encoding="utf-8")
    assert main(["rulesets", "--new", "moor-hound"]) == 2
    assert str(path) in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "half a li"
    assert main(["rulesets", "--new", "other", "--from", "moor-hound"]) == 2
    assert "mended" in capsys.readouterr().err


def test_out_names_a_folder_or_a_file_and_never_one_that_is_there(own, tmp_path, capsys):
    folder = tmp_path / "a folder"
    folder.mkdir()
    assert main(["rulesets", "--new", "moor-hound", "--out", str(folder)]) == 0
    path = folder / "moor-hound.toml"
    assert f"--rulesets '{folder}'" in capsys.readouterr().out  # it is found only when told
    path.write_text("kept", encoding="utf-8")
    for out in (folder, path):
        assert main(["rulesets", "--new", "moor-hound", "--out", str(out)]) == 2
        assert "left as it is" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "kept"
    target = tmp_path / "new" / "moor-hound.toml"
    assert main(["rulesets", "--new", "moor-hound", "--out", str(target)]) == 0
    assert target.is_file()


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="needs a folder that refuses")
def test_a_folder_that_refuses_is_told(own, capsys):
    own.mkdir(parents=True)
    own.chmod(0o500)
    assert main(["rulesets", "--new", "moor-hound"]) == 2
    assert "may not write" in capsys.readouterr().err


def test_a_file_where_the_folder_should_be_is_told(own, capsys):
    own.parent.mkdir(parents=True)
    own.write_text("", encoding="utf-8")
    assert main(["rulesets", "--new", "moor-hound"]) == 2
    assert "Traceback" not in capsys.readouterr().err
