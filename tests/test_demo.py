"""The demo sessions open, pass the check, and assess without a complaint."""

from pathlib import Path

import pytest

from hands_on.evaluate import evaluate
from hands_on.exam.signing import digest_of
from hands_on.exam.walk import progress, stops
from hands_on.store.library import Library
from hands_on.store.places import ruleset_folders, shipped_sessions
from hands_on.store.session_file import dump_session, read_session

FILES = sorted(shipped_sessions().glob("*.toml"))


@pytest.fixture(scope="module")
def library():
    return Library(ruleset_folders(Path("nothing-here")))


def test_there_are_two_adults_by_two_evaluators_and_a_young_dog():
    sessions = [read_session(path) for path in FILES]
    seen = {(session.dog.call_name, session.examination.evaluator) for session in sessions}
    assert len(seen) == len(FILES) == 5
    assert len({dog for dog, _ in seen}) == 3


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_opens_assesses_and_is_written_back_unchanged(path, library):
    session = read_session(path)
    ruleset = library.load(session.ruleset.id)
    evaluation = evaluate(ruleset, session, name=path.name)
    complaints = [
        alarm for alarm in evaluation.alarms if alarm.kind not in ("near-limit", "too-narrow", "veterinary")
    ]
    assert complaints == []
    assert evaluation.disqualifying == ()
    assert session.ruleset.digest == ruleset.digest
    assert dump_session(session) == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_is_signed_over_what_it_holds_or_unfinished(path, library):
    session = read_session(path)
    walk = stops(library.load(session.ruleset.id), session)
    done = all(region.done for region in progress(walk, session))
    assert done == (session.signature is not None)
    if session.signature:
        assert session.signature.digest == digest_of(session)
