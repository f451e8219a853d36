"""A dozen sessions under several editions give what they gave: no change of judgement goes unseen.

Not a check against the world; those are in tests/evaluate and tests/rulesets. `tests.golden` renews them.
"""

from __future__ import annotations

import json

import pytest

from tests.golden import CASES, FOLDER, file_of, judged


@pytest.mark.parametrize(("session", "edition"), CASES)
def test_a_session_gives_what_it_gave(session: str, edition: str) -> None:
    assert judged(session, edition) == json.loads(file_of(session, edition).read_text("utf-8"))


def test_nothing_is_kept_that_is_no_case() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {file_of(*case).name for case in CASES}
