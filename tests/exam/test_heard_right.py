"""What a note calls right answers its points, and never what stands or is found there."""

import pytest

from hands_on.exam.answers import Answers, Stamp, answers_at, put
from hands_on.exam.heard.hands import Draft
from hands_on.exam.heard.note import hear, put_heard, toggled
from hands_on.exam.heard.right import as_it_stands, still_open
from hands_on.exam.session import Grade, Note, NoteFinding, RulesetRef, Session, Skip
from hands_on.measure.asked_reading import Entry
from hands_on.notes import FoundAffirmed, Reading, read_note
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


# --- in doubt, taken and dropped by hand


def called(point: str, accepted: bool, option: str | None = None, hands=None):
    read = FoundAffirmed(point, option, (0, 10), 0.6, accepted)
    return hear(Reading("words said so", affirmed=(read,)), hands or {}, RULESET)


def open_after(heard, session: Session = SESSION, note: Note | None = None):
    return still_open(heard.right, session, RULESET, note or Note(text=heard.text))


@pytest.mark.parametrize("point", [SHOULDER, "mouth.teeth"])
def test_in_doubt_it_stays_words_until_it_is_taken_and_sure_it_is_recorded_until_it_is_dropped(point):
    doubt, sure = called(point, False), called(point, True)
    assert open_after(doubt) == ()
    assert len(open_after(sure)) == 1
    (taken,) = open_after(called(point, False, hands=toggled({}, doubt.right[0])))
    assert (taken.by_hand, taken.asks) == (True, point == "mouth.teeth")
    dropped = called(point, True, hands=toggled({}, sure.right[0]))
    assert open_after(dropped) == ()
    assert not dropped.right[0].asks, "nothing is asked about what was dropped"


def test_taken_by_hand_it_is_the_answer_with_the_words_beside_and_by_whom():
    heard = called(SHOULDER, False, hands=toggled({}, called(SHOULDER, False).right[0]))
    (grade,) = recorded(SESSION, heard, Note(text=heard.text)).grades
    assert (grade.as_asked, grade.note, grade.by) == (True, "called out: words said", STAMP.by)


def test_what_hinders_it_is_named_and_taking_it_by_hand_overwrites_nothing():
    hands = toggled({}, called(SHOULDER, False).right[0])
    heard = called(SHOULDER, False, hands=hands)
    fault = Grade(point=SHOULDER, fault="forequarters.shoulder-steep", degree="slight")
    answered = SESSION.model_copy(update={"grades": (fault,)})
    skipped = SESSION.model_copy(update={"skips": (Skip(point=SHOULDER, reason="restless"),)})
    found = Note(text="x", findings=(NoteFinding(fault="forequarters.shoulder-steep", status="unsure"),))
    for session, note, why in [
        (answered, None, "answered"),
        (skipped, None, "skipped"),
        (SESSION, found, "found"),
        (SESSION.model_copy(update={"notes": (found,)}), None, "found"),
    ]:
        (one,) = as_it_stands(heard.right, session, RULESET, note or Note(text="y"))
        assert (one.hindered, one.taken) == (why, False)
        assert open_after(heard, session, note) == ()


def test_a_point_this_edition_has_not_and_another_answer_than_asked_stay_heard_and_unanswered():
    (away,) = called("ears.bells", True).right
    assert (away.point, away.taken, away.hindered) == (None, False, "not here")
    other = called("mouth.bite", True, option="undershot")
    (one,) = as_it_stands(other.right, SESSION, RULESET, Note(text="x"))
    assert one.hindered == "own answer"
    assert open_after(other) == ()


def test_what_was_taken_and_dropped_by_hand_comes_back_from_the_text_that_is_kept():
    hands = {
        "right:neck.throat": {"taken": False},
        "neck.short": {"taken": True, "degree": None, "side": "left", "status": "unsure"},
        "height": {"taken": True, "number": 645.0, "entry": Entry(64.5, "cm", 64.5, "cm", "64.5 cm")},
    }
    draft = Draft("some words", hands)
    assert Draft.of(draft.text, draft.kept) == draft
    assert Draft("x").kept == ""
    for broken in ("{", "[]", '{"neck.short": {"degree": "huge"}}'):
        assert Draft.of("x", broken) == Draft("x"), "a file written by hand loses no words"
