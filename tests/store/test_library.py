"""The rulesets on disk: listed quickly, a broken file hiding no other, no circles in what builds on what."""

from __future__ import annotations

from pathlib import Path

import pytest

from hands_on.ruleset import files
from hands_on.store import edition_heads
from hands_on.store import library as module
from hands_on.store.edition_heads import EditionHead
from hands_on.store.errors import UnknownEdition
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.toml_text.problems import BadText
from tests.store.examples import EDITION, rulesets


def by_id(heads: list[EditionHead]) -> dict[str, EditionHead]:
    return {head.id: head for head in heads}


def test_an_edition_is_listed_and_loaded(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, short_dog="common")])
    (tmp_path / "README.md").write_text("# no edition", "utf-8")
    (head,) = library.heads()
    assert (head.id, head.title) == ("short-dog", "Test dog, short-dog")
    assert (head.breed, head.edition) == ("Test dog", "1")
    assert (head.path, head.problem, head.note) == (tmp_path / "short-dog.toml", None, "")
    loaded = library.load("short-dog")
    assert loaded.id == "short-dog"
    assert list(loaded.points) == ["neck.skin"]
    assert library.load("short-dog") is loaded
    assert library.common() is library.common()


def test_what_an_edition_builds_on_is_read_first(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, new="middle", middle="old", old="common")])
    assert [file.id for file in library._chain("new")] == ["old", "middle", "new"]
    assert library.load("new").id == "new"
    assert "fault" in library.load("new").classes


def test_a_circle_is_told_with_file_line_and_way(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, a="b", b="c", c="b")])
    with pytest.raises(BadText) as caught:
        library.load("a")
    (problem,) = caught.value.problems
    assert problem.file == str(tmp_path / "c.toml")
    assert (problem.line, problem.key) == (4, "builds_on")
    assert "b -> c -> b" in problem.what


def test_building_on_what_is_not_there_is_told_with_the_nearest(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, terrier_2="terier-1", terrier_1="common")])
    with pytest.raises(BadText, match="did you mean terrier-1") as caught:
        library.load("terrier-2")
    assert caught.value.problems[0].line == 4


def test_an_unknown_edition_is_told_with_those_that_look_like_it(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, hovawart_fci_190="common", any_dog="common")])
    with pytest.raises(UnknownEdition) as caught:
        library.load("hovawart-fci")
    assert caught.value.near == ("hovawart-fci-190",)
    assert "Did you mean hovawart-fci-190?" in str(caught.value)
    with pytest.raises(UnknownEdition, match="Known here: any-dog, hovawart-fci-190"):
        library.load("zzz")
    with pytest.raises(UnknownEdition, match="No rulesets were found"):
        Library([tmp_path / "nowhere"]).load("any-dog")


BROKEN = {
    "no text": b'id = "\xff"',
    "empty": b"",
    "no toml": b"id = \n",
    "no title": b'format = 1\nid = "x"\nbuilds_on = "common"\nbreed = "x"\nedition = "1"\n',
    "newer": EDITION.format(id="broken", builds_on="common").replace("format = 1", "format = 2").encode(),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_edition_hides_no_other(name: str, tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, sound="common")])
    (tmp_path / "broken.toml").write_bytes(BROKEN[name])
    heads = library.heads()
    assert len(heads) == 2
    assert by_id(heads)["sound"].problem is None
    (broken,) = [head for head in heads if head.problem]
    assert broken.path.name == "broken.toml"
    assert library.load("sound").id == "sound"
    with pytest.raises(BadText):
        library.load(broken.id)


def test_a_file_that_tells_no_id_does_not_hide_the_edition_of_its_name(tmp_path: Path) -> None:
    shipped = rulesets(tmp_path / "shipped", b="common")
    (shipped / "a.toml").write_text("id = \n", "utf-8")
    (shipped / "z.toml").write_text(EDITION.format(id="a", builds_on="common"), "utf-8")
    own = tmp_path / "own"
    own.mkdir()
    (own / "b.toml").write_text("", "utf-8")
    library = Library([shipped, own])
    assert library.load("a").id == "a"
    assert library.load("b").id == "b"
    broken = [head.path for head in library.heads() if head.problem]
    assert sorted(broken) == [own / "b.toml", shipped / "a.toml"]


def test_trouble_below_the_first_table_is_found_by_load_and_by_whole(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, late="common")])
    with (tmp_path / "late.toml").open("a", encoding="utf-8") as file:
        file.write("[[limits]\n")
    assert library.heads()[0].problem is None
    (head,) = library.heads(whole=True)
    assert head.problem is not None
    assert head.problem.line == 13
    with pytest.raises(BadText, match=r"late\.toml:13"):
        library.load("late")


@pytest.mark.parametrize(
    "top",
    ['note = """\n[not a table]\n"""\n', "note = '''\n  [x]'''\n", "odd = [\n[1], [2],\n]\n", "# [x]\n"],
)
def test_the_head_ends_at_the_first_table_and_not_at_a_bracket(top: str, tmp_path: Path) -> None:
    text = EDITION.format(id="x", builds_on="common")
    (tmp_path / "x.toml").write_text(top + text, "utf-8")
    (head,) = Library([tmp_path]).heads()
    assert (head.id, head.title, head.problem) == ("x", "Test dog, x", None)


def test_the_users_edition_stands_for_the_shipped_one_and_says_so(tmp_path: Path) -> None:
    shipped = rulesets(tmp_path / "shipped", a="common", b="common")
    own = tmp_path / "own"
    own.mkdir()
    (own / "mine.toml").write_text(EDITION.format(id="a", builds_on="common").replace('"1"', '"2"'), "utf-8")
    library = Library([shipped, own])
    heads = by_id(library.heads())
    assert len(library.heads()) == 2
    assert heads["a"].path == own / "mine.toml"
    assert str(shipped) in heads["a"].note
    assert heads["b"].note == ""
    assert library.load("a").edition.edition == "2"


def test_two_editions_of_one_id_in_a_folder_are_told(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, a="common")])
    (tmp_path / "z.toml").write_text(EDITION.format(id="a", builds_on="common"), "utf-8")
    first, second = sorted(library.heads(), key=lambda head: head.path)
    assert first.problem is None
    assert second.problem is not None
    assert "a.toml" in second.problem.what
    assert library.load("a").id == "a"


def test_all_problems_of_the_common_files_are_told_at_once(tmp_path: Path) -> None:
    library = Library([rulesets(tmp_path, a="common")])
    (tmp_path / "common" / "bad.toml").write_text("format = 1\nnose = 1\n", "utf-8")
    (tmp_path / "common" / "worse.toml").write_text("format = \n", "utf-8")
    with pytest.raises(BadText) as caught:
        library.load("a")
    assert [Path(problem.file).name for problem in caught.value.problems] == ["bad.toml", "worse.toml"]
    assert len(library.heads()) == 1


def test_a_region_without_a_file_and_no_common_at_all_are_told(tmp_path: Path) -> None:
    rulesets(tmp_path / "a")
    (tmp_path / "a" / "common" / "neck.toml").unlink()
    with pytest.raises(BadText, match="neck"):
        Library([tmp_path / "a"]).common()
    with pytest.raises(BadText, match="not there"):
        Library([tmp_path / "b"]).common()


def test_labelled_notes_are_read_and_a_bad_line_is_named(tmp_path: Path) -> None:
    (tmp_path / "common" / "examples").mkdir(parents=True)
    assert Library([tmp_path]).examples() == []
    path = tmp_path / "common" / "examples" / "notes.jsonl"
    path.write_text('{"note": "cow hocks", "faults": []}\n', "utf-8")
    assert Library([tmp_path]).examples() == [{"note": "cow hocks", "faults": []}]
    path.write_text('{"note": "cow hocks", "faults": []}\n[1, 2]\n', "utf-8")
    with pytest.raises(BadText) as caught:
        Library([tmp_path]).examples()
    assert [(Path(p.file).name, p.line) for p in caught.value.problems] == [("notes.jsonl", 2)]


def test_the_language_is_checked_and_may_be_absent(tmp_path: Path) -> None:
    rulesets(tmp_path, a="common")
    assert Library([tmp_path]).language().parts == {}
    file = tmp_path / "common" / "language.toml"
    file.write_text('[degrees]\nslight = ["a touch"]\n', "utf-8")
    library = Library([tmp_path])
    assert library.language().degrees.slight == ("a touch",)
    assert library.load("a").id == "a"
    file.write_text('[degrees]\nslight = ["a touch"]\n\n[sidez]\nleft = ["left"]\n', "utf-8")
    with pytest.raises(BadText) as caught:
        Library([tmp_path]).language()
    assert [(p.line, p.key) for p in caught.value.problems] == [(4, "sidez")]


def test_ordinary_words_stand_in_a_file_of_their_own(tmp_path: Path) -> None:
    (tmp_path / "common").mkdir()
    assert Library([tmp_path]).ordinary_words() == frozenset()
    (tmp_path / "common" / "ordinary-words.txt").write_text("# a remark\nabout above\nbelow\n", "utf-8")
    assert Library([tmp_path]).ordinary_words() == {"about", "above", "below"}


def test_a_second_load_reads_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    library = Library([rulesets(tmp_path, a="common")])
    library.load("a")
    monkeypatch.setattr(module, "read_bytes", None)
    assert library.load("a").id == "a"


def test_the_format_read_in_a_hurry_is_that_of_the_model() -> None:
    """Written a second time in the store only to spare importing the models."""
    assert edition_heads.FORMAT == files.FORMAT


def test_the_shipped_editions_are_listed_without_a_problem() -> None:
    heads = Library([shipped_rulesets()]).heads(whole=True)
    assert heads
    assert [str(head.problem) for head in heads if head.problem] == []
