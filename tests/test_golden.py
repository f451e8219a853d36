"""A dozen sessions under several editions give what they gave: no change of judgement goes unseen.

Not a check against the world; those are in tests/evaluate and tests/rulesets. `tests.golden` renews them.
"""

from __future__ import annotations

import json

import pytest

from tests.golden import CASES, FOLDER, file_of, judged


@pytest.mark.parametrize(("session", "edition"), CASES)
def test_a_session_gives_what_it_gave(session: str, edition: str) -> None:
    then, now = json.loads(file_of(session, edition).read_text("utf-8")), judged(session, edition)
    if then["edition"] != now["edition"]:
        pytest.skip(f"{edition} reads otherwise since: python -m tests.golden --renew")
    assert now == then


def test_cases_under_the_edition_of_the_tests_are_never_skipped() -> None:
    own = [case for case in CASES if case[1] == "moor-hound"]
    assert len(own) > 1
    assert all(
        judged(*case)["edition"] == json.loads(file_of(*case).read_text("utf-8"))["edition"] for case in own
    )


def test_nothing_is_kept_that_is_no_case() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {file_of(*case).name for case in CASES}
