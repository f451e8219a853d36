"""`read` of a file, by region, of a note step by step, and the list of one's own words."""

import json

import pytest

from hands_on.cli import main
from hands_on.notes import OwnWords
from hands_on.store.own_words_file import OwnWordsFile


def test_a_file_is_read_paragraph_by_paragraph_and_told_by_region(tmp_path, capsys):
    path = tmp_path / "critique.txt"
    path.write_text(
        "Slightly steep croup,\nof good length.\nNeck a little short.\n\nMoves soundly.\n", encoding="utf-8"
    )
    assert main(["read", str(path)]) == 0
    out = capsys.readouterr().out
    assert out.count("> ") == 2
    places = [out.index(word) for word in ("neck.short", "croup-tail.croup-steep", "> Moves soundly.")]
    assert places == sorted(places)
    assert "movement.soundness: as asked" in out


def test_the_steps_name_clauses_parts_and_evidence(capsys):
    assert main(["read", "--explain", "Slightly steep croup, of good length"]) == 0
    out = capsys.readouterr().out
    assert "talk degree slight" in out
    assert "croup-tail.croup-steep, present, slight, by pair" in out
    assert "like.ahead +" in out
    assert "affirmations, where nothing is found\n  croup-tail.croup-size: as asked" in out


def test_the_steps_name_slips_measures_and_the_limits_of_what_is_taken(capsys):
    assert main(["read", "--explain", "Croup a touch steap, dark eye, height 62 cm"]) == 0
    out = capsys.readouterr().out
    heads = ["slips ->", "clauses ->", "status, degree, side ->", "numbers ->", "affirmations"]
    places = [out.index(head) for head in heads]
    assert places == sorted(places)
    assert "  height 62 cm (62 cm)" in out
    assert "offered from 50 %, taken from 8" in out


def test_a_critique_groups_findings_measures_and_what_is_right_by_region(tmp_path, capsys):
    path = tmp_path / "critique.txt"
    path.write_text(
        "Tail set low. Dark eye, stop a little heavy.\nHeight 62 cm. Blorps like a fnord. Clean throat.\n",
        encoding="utf-8",
    )
    assert main(["read", str(path)]) == 0
    assert capsys.readouterr().out.splitlines()[1:] == [
        "  general",
        "    Height at the withers (height): 62 cm",
        "  head",
        "    Stop too deep (head.stop-heavy), slight: taken",
        "  eyes",
        "    eyes.colour: as asked",
        "  neck",
        "    neck.throat: as asked",
        "  croup-tail",
        "    Low tail set (croup-tail.set-low): taken",
        "  not read: Blorps like a fnord",
    ]


def own(monkeypatch, tmp_path, *words):
    monkeypatch.setattr("hands_on.store.places.user_data", lambda: tmp_path / "data")
    file = OwnWordsFile(tmp_path / "data" / "own-words.toml")
    if words:
        file.remember(words)
    return file


PLANK = OwnWords(said="a real plank", means="back.level")
SHELLY = OwnWords(said="shelly", read_as="general.bone-fine", region="general")


def test_own_words_are_used_and_named_as_such(monkeypatch, tmp_path, capsys):
    own(monkeypatch, tmp_path, PLANK)
    assert main(["read", "a real plank"]) == 0
    assert "(back.level): taken, by your own words" in capsys.readouterr().out
    assert main(["read", "--json", "a real plank"]) == 0
    (found,) = json.loads(capsys.readouterr().out)["faults"]
    assert (found["id"], found["own"]) == ("back.level", True)


def test_own_words_are_listed_taken_out_and_carried(monkeypatch, tmp_path, capsys):
    file = own(monkeypatch, tmp_path)
    assert main(["read", "--own"]) == 0
    assert "No words of your own yet" in capsys.readouterr().out
    file.remember([PLANK, SHELLY])
    assert main(["read", "--own"]) == 0
    out = capsys.readouterr().out
    assert "1. “a real plank”: means Topline level (back.level)" in out
    assert "2. “shelly” (at general): does not mean" in out
    assert main(["read", "--own", "--json"]) == 0
    assert [one["said"] for one in json.loads(capsys.readouterr().out)["words"]] == ["a real plank", "shelly"]
    stick = tmp_path / "stick.toml"
    assert main(["read", "--own", "--to", str(stick)]) == 0
    assert main(["read", "--own", "--remove", "1"]) == 0
    assert file.read() == (SHELLY,)
    assert main(["read", "--own", "--from", str(stick)]) == 0
    assert "2 phrases now, 1 of them new" in capsys.readouterr().out
    assert set(file.read()) == {PLANK, SHELLY}


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["--own", "--remove", "3"], "the list has 1 to 1"),
        (["--own", "--remove", "0"], "the list has 1 to 1"),
        (["--remove", "1"], "goes with --own"),
        (["--own", "--remove", "1", "--to", "x"], "can't go together"),
        (["--own", "cow hocks"], "takes no NOTE"),
        (["--own", "--from", "nowhere.toml"], "no such file"),
    ],
)
def test_what_cant_be_done_with_own_words_is_told(arguments, told, monkeypatch, tmp_path, capsys):
    file = own(monkeypatch, tmp_path, PLANK)
    assert main(["read", *arguments]) == 2
    assert told in capsys.readouterr().err
    assert file.read() == (PLANK,)


def test_a_list_that_is_none_is_told_with_its_line_and_nothing_is_brought_in(monkeypatch, tmp_path, capsys):
    file = own(monkeypatch, tmp_path, PLANK)
    bad = tmp_path / "bad.toml"
    bad.write_text('[[words]]\nsaid = 3\nmeans = "eyes.light"\n', encoding="utf-8")
    assert main(["read", "--own", "--from", str(bad)]) == 2
    assert "bad.toml:2" in capsys.readouterr().err
    assert file.read() == (PLANK,)
    file.path.write_text("words = 3\n", encoding="utf-8")
    assert main(["read", "cow hocks"]) == 0
    told = capsys.readouterr()
    assert "own-words.toml:1" in told.err
    assert "hindquarters.cow-hocks" in told.out
    assert main(["read", "--own"]) == 2
