"""The language file is guarded: what is renamed, put twice or into the wrong list is told with its line."""

import tomllib
from pathlib import Path

import pytest

from hands_on.notes.language import Language
from hands_on.notes.language_check import check_language, read_language
from hands_on.toml_text.problems import BadText
from tests.bench.load import RULESETS

FILE = RULESETS / "common" / "language.toml"
TEXT = FILE.read_text(encoding="utf-8")


def problems(text: str) -> list[tuple[int | None, str, str]]:
    try:
        language = read_language(tomllib.loads(text), text, "language.toml")
    except BadText as bad:
        found = bad.problems
    else:
        found = check_language(language, text, "language.toml", None)
    return [(p.line, p.key, p.what) for p in found]


def line_of(text: str, words: str) -> int:
    return text[: text.index(words)].count("\n") + 1


def changed(old: str, new: str) -> tuple[str, int]:
    """The shipped text with one place changed, and the line of that place."""
    assert TEXT.count(old) == 1, old
    text = TEXT.replace(old, new)
    return text, TEXT[: TEXT.index(old)].count("\n") + 1


def test_the_shipped_file_is_sound():
    assert problems(TEXT) == []


def test_a_renamed_table_is_told_at_its_line():
    text, line = changed("\n[sides]\n", "\n[side]\n")
    assert problems(text)[0][:2] == (line + 1, "side")


def test_a_table_taken_out_is_missed():
    start, end = TEXT.index("\n[numbers]\n"), TEXT.index("\n[units]\n")
    found = problems(TEXT[:start] + TEXT[end:])
    assert ("numbers", "the table `numbers` is missing.") in [(key, what) for _, key, what in found]


def test_a_word_set_taken_out_is_missed():
    start = TEXT.index("\nfurniture = ")
    end = TEXT.index("\n", start + 1)
    assert [key for _, key, _ in problems(TEXT[:start] + TEXT[end:])] == ["sets.furniture"]


def test_a_phrase_twice_in_a_list_is_told():
    text, line = changed('slight = [\n    "slight",', 'slight = [\n    "slight", "slight",')
    assert problems(text) == [(line + 1, "degrees.slight[2]", '"slight" stands here twice.')]


@pytest.mark.parametrize("phrase", ["without heaviness", "a touch", "strong without coarseness"])
def test_what_is_no_side_may_not_stand_among_the_sides(phrase):
    """A phrase under `right` would make a right side of every dog it is said of."""
    text, line = changed('right = ["right", "offside"', f'right = ["{phrase}", "right", "offside"')
    found = problems(text)
    assert found
    assert all("sides.right" in key or "sides.right" in what for _, key, what in found)
    assert line in [at for at, _, _ in found]


def test_a_phrase_in_two_degrees_is_told_at_the_second():
    text, _ = changed('marked = [\n    "very",', 'marked = [\n    "very", "a touch",')
    assert [what for _, _, what in problems(text)] == ['"a touch" stands under degrees.slight too.']


def test_an_unknown_quality_part_class_or_landmark_is_told():
    for old, new, name in (
        ('"big high excess above" = ', '"bigg high excess above" = ', "bigg"),
        ('parts = ["neck", "throat"]', 'parts = ["neckk", "throat"]', "neckk"),
        ('"withers ground" = "height"', '"wither ground" = "height"', "wither"),
    ):
        text, _ = changed(old, new)
        assert [f"`{name}`" in what for _, _, what in problems(text)] == [True]


def test_an_unknown_fault_is_told_where_the_vocabulary_is_known():
    language = Language.model_validate(
        {
            "parts": {"ear": {"words": ["ear"], "region": "ears", "gives": {"long": "ears.longg"}}},
            "qualities": {"long": ["long"]},
        }
    )
    text = '[parts.ear]\nwords = ["ear"]\nregion = "ears"\ngives = { long = "ears.longg" }\n'
    found = check_language(language, text, "f", {"ears.long": None})
    assert [(p.line, p.right) for p in found if "ears.longg" in p.what] == [(4, "`ears.long`?")]


def test_the_command_reports_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    from hands_on.cli import main

    folder = tmp_path / "common"
    folder.mkdir()
    text, line = changed("\n[sides]\n", "\n[sidez]\n")
    (folder / "language.toml").write_text(text, "utf-8")
    assert main(["check", str(folder)]) == 1
    assert f"language.toml:{line + 1}: sidez: there is no key `sidez` here." in capsys.readouterr().out
