"""What a note calls right answers its points, and never what stands or is found there."""

import pytest

from hands_on.exam.answers import Answers, Stamp, answers_at, put
from hands_on.exam.heard.note import hear, put_heard
from hands_on.exam.heard.right import still_open
from hands_on.exam.session import Grade, Note, NoteFinding, RulesetRef, Session
from hands_on.notes import read_note
from tests.bench.load import shipped_lexicon
from tests.exam.test_heard import RULESET, STAMP

SESSION = Session(ruleset=RulesetRef(id=RULESET.id))
SHOULDER = "forequarters.shoulder"


@pytest.fixture(scope="module")
def heard():
    text = "well laid back shoulders, ribs well sprung, scissors bite, full mouth"
    return hear(read_note(text, shipped_lexicon()), {}, RULESET)


def recorded(session: Session, heard, note: Note) -> Session:
    right = still_open(heard.right, session, RULESET, note)
    return put_heard(session, RULESET, note, (), STAMP, right=[r for r in right if not r.asks])


def test_praise_answers_its_points_with_the_words_beside(heard):
    after = recorded(SESSION, heard, Note(text=heard.text))
    (grade,) = answers_at(after, RULESET.points[SHOULDER]).grades
    assert grade.as_asked
    assert "well laid back" in grade.note
    (choice,) = answers_at(after, RULESET.points["mouth.bite"]).choices
    assert choice.choice == ("scissors",)


def test_a_finding_is_never_overwritten(heard):
    fault = Grade(point=SHOULDER, fault="forequarters.shoulder-steep", degree="slight")
    before = put(SESSION, RULESET.points[SHOULDER], Answers(grades=(fault,)), Stamp())
    after = recorded(before, heard, Note(text=heard.text))
    (grade,) = answers_at(after, RULESET.points[SHOULDER]).grades
    assert grade.fault == "forequarters.shoulder-steep"


def test_a_finding_of_the_same_note_keeps_its_point_open(heard):
    found = NoteFinding(fault="forequarters.shoulder-steep", status="present")
    after = recorded(SESSION, heard, Note(text=heard.text, findings=(found,)))
    assert not answers_at(after, RULESET.points[SHOULDER]).given


def test_the_tooth_chart_asks_first(heard):
    right = still_open(heard.right, SESSION, RULESET, Note(text=heard.text))
    assert [one.point.id for one in right if one.asks] == ["mouth.teeth"]
    assert recorded(SESSION, heard, Note(text=heard.text)).teeth is None
    assert put_heard(SESSION, RULESET, Note(text="x"), (), STAMP, right=right).teeth is not None
