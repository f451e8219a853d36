"""What a call settles is not asked again; what is in doubt, ruled out or half measured is."""

import datetime

from hands_on.exam.answers import Answers, put
from hands_on.exam.heard.called import called
from hands_on.exam.heard.note import hear, put_heard
from hands_on.exam.heard.right import still_open
from hands_on.exam.session import Grade, Note, NoteFinding, RulesetRef, Session
from hands_on.exam.walk import first_open, progress, stops
from hands_on.notes import read_note
from tests.bench.load import shipped_lexicon
from tests.exam.test_heard import RULESET, STAMP

SESSION = Session(ruleset=RulesetRef(id=RULESET.id))
CALL = "well laid back shoulders, neck short, maybe light eyes, no cow hocks, withers 64.5"


def after_call(session: Session = SESSION) -> Session:
    heard = hear(read_note(CALL, shipped_lexicon()), {}, RULESET)
    note = Note(text=CALL, findings=heard.findings(""))
    right = still_open(heard.right, session, RULESET, note)
    return put_heard(session, RULESET, note, heard.takes(), STAMP, right=right)


def test_found_and_right_points_are_settled_and_doubtful_ones_are_not():
    settled = called(after_call(), RULESET)
    assert {"neck.length", "forequarters.shoulder"} <= settled
    assert not {"eyes.colour", "hindquarters.hocks"} & settled
    assert called(SESSION, RULESET) == frozenset()


def test_a_measurement_is_settled_once_it_has_its_takes():
    height = RULESET.points["height"]
    session = after_call()
    assert ("height" in called(session, RULESET)) == (height.takes <= 1)
    for _ in range(height.takes):
        session = after_call(session)
    assert "height" in called(session, RULESET)


def test_an_answer_given_by_hand_is_no_call():
    point = RULESET.points["back.loin"]
    later = STAMP.__class__(STAMP.at + datetime.timedelta(minutes=1), STAMP.by)
    by_hand = put(after_call(), point, Answers(grades=(Grade(point=point.id, as_asked=True),)), later)
    assert point.id not in called(by_hand, RULESET)


def test_the_walk_goes_past_what_is_settled_and_counts_it():
    session = after_call()
    settled = called(session, RULESET)
    walk = stops(RULESET, session)
    at = next(stop.index for stop in walk if stop.point.id == "neck.length")
    assert first_open(walk, session, at - 1) == at
    assert first_open(walk, session, at - 1, settled) != at
    neck = {row.region.id: row for row in progress(walk, session, settled)}["neck"]
    assert neck.answered == 1


def test_an_unsure_finding_keeps_its_point_open():
    doubt = NoteFinding(fault="neck.short", status="unsure")
    session = SESSION.model_copy(update={"notes": (Note(text="x", findings=(doubt,)),)})
    assert called(session, RULESET) == frozenset()
