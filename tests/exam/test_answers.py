"""Answers at a point: replaced before the signature, amended after it."""

import datetime

import pytest

from hands_on.exam.answers import (
    Answers,
    SignedSession,
    Stamp,
    add_note,
    amended,
    answers_at,
    put,
    put_summary,
    skip_region,
    unskip_region,
    without_answer,
)
from hands_on.exam.session import Grade, Note, RulesetRef, Session, Signature, Skip, Summary, Take, Teeth
from hands_on.ruleset.points import GradePoint, MeasurePoint, TeethPoint

NOON = datetime.datetime(2026, 5, 2, 12, 0, tzinfo=datetime.UTC)
STAMP = Stamp(NOON, "E. Example")

HEIGHT = MeasurePoint(
    kind="measure", id="height", region="general", label="Height", find="", why="", source="common practice",
    quantity="length",
    unit="cm", resolution=0.5, plausible=(10, 115), u={"a": 0.4, "basis": "", "source": ()},
)  # fmt: skip
HOCKS = GradePoint(
    kind="grade", id="hindquarters.hocks", region="hindquarters", label="Hocks", find="", why="",
    source="common practice", less=("hindquarters.cow-hocks",),
    more=("hindquarters.bowed-hocks",), sides=True,
)  # fmt: skip
TEETH = TeethPoint(
    kind="teeth", id="mouth.teeth", region="mouth", label="Teeth", find="", why="", source="common practice"
)


@pytest.fixture
def session():
    return Session(ruleset=RulesetRef(id="any-dog"))


def signed(session):
    return session.model_copy(update={"signature": Signature(name="E. Example", at=NOON)})


def take(value, **more):
    return Take(point="height", value=value, unit="cm", **more)


def test_a_new_answer_carries_time_and_name_and_leaves_other_points_alone(session):
    session = put(session, HEIGHT, Answers(takes=(take(64.5),)), STAMP)
    grade = Grade(point=HOCKS.id, as_asked=True)
    session = put(session, HOCKS, Answers(grades=(grade,)), STAMP)
    assert [(row.value, row.at, row.by) for row in session.takes] == [(64.5, NOON, "E. Example")]
    assert session.grades[0].as_asked


def test_a_second_answer_stands_where_the_first_stood(session):
    other = Take(point="body-length", value=70, unit="cm")
    session = session.model_copy(update={"takes": (take(64.5), other)})
    session = put(session, HEIGHT, Answers(takes=(take(64.5), take(65))), STAMP)
    assert [(row.point, row.value) for row in session.takes] == [
        ("height", 64.5),
        ("height", 65),
        ("body-length", 70),
    ]


def test_an_older_stamp_is_not_overwritten(session):
    earlier = NOON - datetime.timedelta(hours=1)
    session = put(session, HEIGHT, Answers(takes=(take(64.5, at=earlier, by="Scribe"),)), STAMP)
    assert (session.takes[0].at, session.takes[0].by) == (earlier, "Scribe")


def test_an_answer_ends_a_skip_and_a_skip_is_no_answer(session):
    session = put(session, HEIGHT, Answers(skip=Skip(point="height", reason="no stand")), STAMP)
    assert not answers_at(session, HEIGHT).given
    assert answers_at(session, HEIGHT).skip.reason == "no stand"
    session = put(session, HEIGHT, Answers(takes=(take(64.5),)), STAMP)
    assert session.skips == ()


def test_a_skipped_region_stands_for_points_without_an_answer(session):
    session = skip_region(session, "hindquarters", "no room", STAMP)
    assert answers_at(session, HOCKS).skip.reason == "no room"
    assert answers_at(session, HEIGHT).skip is None
    assert unskip_region(session, "hindquarters").skips == ()


def test_struck_takes_stay_on_record_when_the_answer_is_taken_back():
    answers = Answers(takes=(take(64.5), take(99, struck="dog moved")))
    left = without_answer(answers)
    assert [row.value for row in left.takes] == [99]
    assert not left.given


def test_a_signed_session_is_changed_only_with_a_reason(session):
    session = signed(put(session, HEIGHT, Answers(takes=(take(64.5),)), STAMP))
    with pytest.raises(SignedSession):
        put(session, HEIGHT, Answers(takes=(take(65),)), STAMP)
    with pytest.raises(SignedSession):
        add_note(session, Note(text="later"), STAMP)
    with pytest.raises(SignedSession):
        put_summary(session, Summary(text="later"), STAMP)
    with pytest.raises(SignedSession):
        skip_region(session, "mouth", "", STAMP)


def test_an_amendment_leaves_what_was_signed_and_holds_from_then_on(session):
    session = signed(put(session, HEIGHT, Answers(takes=(take(64.5),)), STAMP))
    session = put(session, HEIGHT, Answers(takes=(take(65),)), STAMP, reason="read from the wrong side")
    assert [row.value for row in session.takes] == [64.5]
    assert session.amendments[0].reason == "read from the wrong side"
    assert [row.value for row in answers_at(session, HEIGHT).takes] == [65]
    assert [row.value for row in amended(session).takes] == [65]
    assert amended(session).amendments == ()


def test_amendments_of_notes_summary_and_teeth_are_put_in_too(session):
    session = signed(put(session, TEETH, Answers(teeth=Teeth(missing=(105,))), STAMP))
    session = add_note(session, Note(text="quiet all along"), STAMP, reason="forgotten")
    session = put_summary(session, Summary(text="A good sort."), STAMP, reason="forgotten")
    session = put(session, TEETH, Answers(teeth=Teeth(missing=(105, 405))), STAMP, reason="looked again")
    now = amended(session)
    assert now.notes[0].text == "quiet all along"
    assert now.summary.text == "A good sort."
    assert now.teeth.missing == (105, 405)
    assert session.teeth.missing == (105,)


def test_what_an_answer_takes_the_place_of_stays_on_record(session):
    point = HOCKS.id
    session = put(session, HOCKS, Answers(grades=(Grade(point=point, as_asked=True),)), STAMP)
    half = Grade(point=point, fault="hindquarters.cow-hocks")
    session = put(session, HOCKS, Answers(grades=(half,)), STAMP)
    assert [(row.point, row.taken_back, row.grades[0].as_asked) for row in session.replaced] == [
        (point, False, True)
    ]
    slight = half.model_copy(update={"degree": "slight"})
    session = put(session, HOCKS, Answers(grades=(slight,)), STAMP)
    assert len(session.replaced) == 1, "a degree said later completes the answer"
    marked = half.model_copy(update={"degree": "marked"})
    session = put(session, HOCKS, Answers(grades=(marked,)), STAMP)
    assert session.replaced[-1].grades[0].degree == "slight"
    session = put(session, HOCKS, without_answer(answers_at(session, HOCKS)), STAMP)
    assert (session.replaced[-1].taken_back, session.replaced[-1].grades[0].degree) == (True, "marked")
    assert session.grades == ()


def test_marks_taken_off_the_tooth_chart_stay_on_record(session):
    session = put(session, TEETH, Answers(teeth=Teeth(missing=(105,))), STAMP)
    session = put(session, TEETH, Answers(teeth=Teeth(missing=(105, 405))), STAMP)
    assert session.replaced == (), "a further mark replaces nothing"
    session = put(session, TEETH, Answers(teeth=Teeth(missing=(405,))), STAMP)
    assert session.replaced[0].teeth.missing == (105, 405)
