"""One mistake a time in the common files: each is found, in its file, on its line."""

from pathlib import Path

import pytest

from hands_on.ruleset.check import check_common
from tests.broken import assert_said, cases

DATA = Path(__file__).parents[1] / "data"
GOOD = {
    path.name: path.read_text(encoding="utf-8")
    for path in sorted((DATA / "rulesets" / "common").glob("*.toml"))
}


def test_the_sound_files_have_no_problem():
    assert check_common(GOOD) == []


@pytest.mark.parametrize("broken", cases(DATA / "broken_common.toml"), ids=lambda broken: broken.name)
def test_each_mistake_is_named_with_its_file_and_line(broken):
    text = broken.text(GOOD[broken.file])
    assert_said(check_common({**GOOD, broken.file: text}), broken, text, broken.file)


def test_what_a_broken_file_would_hold_is_not_called_unknown():
    found = check_common({**GOOD, "mouth.toml": "format = 1\n[region"})
    assert {problem.file for problem in found} == {"mouth.toml"}
