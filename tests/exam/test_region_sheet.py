"""A region's sheet: one key gives the rest as asked, each point as an answer of its own, and nothing else."""

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from hands_on.evaluate import evaluate
from hands_on.exam.answers import Answers, SignedSession, Stamp, answers_at, put
from hands_on.exam.dialogue.region import RegionDialogue
from hands_on.exam.left_out import on_walk
from hands_on.exam.region_sheet import at_the_end, region_sheet, rest_as_asked, sheets, without_rest
from hands_on.exam.region_sheet import sheet_of as sheet_with
from hands_on.exam.session import Dog, Grade, Note, NoteFinding, RulesetRef, Session, Signature, Skip
from hands_on.exam.walk import measures_of, progress, state_of, stops, where_stopped
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint
from hands_on.store.library import Library
from hands_on.store.session_file import dump_session, parse_session

LIBRARY = Library([Path("rulesets")])
EDITIONS = sorted(path.stem for path in Path("rulesets").glob("*.toml"))
AT = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.UTC)
STAMP = Stamp(AT, "E. Example")


def session_of(edition="hovawart-fci-190", sex="male", **parts):
    return Session(dog=Dog(call_name="Arko", sex=sex), ruleset=RulesetRef(id=edition), **parts)


def sheet_of(session, region, ruleset):
    return region_sheet(ruleset, session, stops(ruleset, session), region)


@pytest.mark.parametrize("sex", ["male", "female"])
@pytest.mark.parametrize("edition", EDITIONS)
def test_the_rest_is_what_nought_says_at_each_point_and_finds_no_fault(edition, sex):
    ruleset = LIBRARY.load(edition)
    session = session_of(edition, sex)
    walk = stops(ruleset, session)
    for region in sheets(walk, session):
        sheet = region_sheet(ruleset, session, walk, region)
        session = rest_as_asked(session, ruleset, sheet, STAMP)
    for stop in walk:
        point, own = stop.point, answers_at(session, stop.point)
        plain = isinstance(point, GradePoint) or (isinstance(point, ChoicePoint) and bool(point.as_asked))
        assert own.given == plain, point.id
        rows = (*own.grades, *own.choices)
        assert all(row.by_region and row.at == AT and row.by == "E. Example" and row.note for row in rows)
        assert len(rows) == plain
    given = evaluate(ruleset, session)
    assert not given.findings
    assert not given.disqualifying


def test_what_departs_was_skipped_or_noted_is_left_as_it_is():
    ruleset = LIBRARY.load("hovawart-fci-190")
    loin, croup = "back.loin", "back.topline"
    departs = Answers(grades=(Grade(point=loin, fault="back.loin-long", degree="slight"),))
    noted = next(
        stop.point.id
        for stop in stops(ruleset, session_of())
        if stop.region.id == "back"
        and isinstance(stop.point, GradePoint)
        and stop.point.id not in (loin, croup)
    )
    fault = ruleset.points[noted].departures[0]
    session = put(session_of(), ruleset.points[loin], departs, STAMP)
    skip = Answers(skip=Skip(point=croup, reason="the dog would not allow it"))
    session = put(session, ruleset.points[croup], skip, STAMP)
    note = Note(text="as called", findings=(NoteFinding(fault=fault),))
    session = session.model_copy(update={"notes": (note,)})
    sheet = sheet_of(session, "back", ruleset)
    assert {row.stop.point.id for row in sheet.rest}.isdisjoint({loin, croup, noted})
    assert noted in {row.stop.point.id for row in sheet.stays_open}
    after = rest_as_asked(session, ruleset, sheet, STAMP)
    assert answers_at(after, ruleset.points[loin]) == answers_at(session, ruleset.points[loin])
    assert state_of(after, ruleset.points[croup]) == "skipped"
    assert state_of(after, ruleset.points[noted]) == "open"


def test_taking_back_leaves_what_was_given_by_itself_and_keeps_the_rest_on_record():
    ruleset = LIBRARY.load("hovawart-fci-190")
    sheet = sheet_of(session_of(), "hindquarters", ruleset)
    session = rest_as_asked(session_of(), ruleset, sheet, STAMP)
    cow = Grade(point="hindquarters.hocks", fault="hindquarters.cow-hocks", degree="slight")
    session = put(session, ruleset.points[cow.point], Answers(grades=(cow,)), STAMP)
    back = without_rest(session, sheet_of(session, "hindquarters", ruleset), STAMP)
    assert [row.fault for row in back.grades] == ["hindquarters.cow-hocks"]
    assert not back.choices
    gone = [row.point for row in back.replaced]
    assert sorted(gone) == sorted(row.stop.point.id for row in sheet.rest), "the replaced one among them"


def test_by_region_stands_in_the_file_and_survives_it():
    ruleset = LIBRARY.load("any-dog")
    session = rest_as_asked(
        session_of("any-dog"), ruleset, sheet_of(session_of("any-dog"), "forequarters", ruleset), STAMP
    )
    text = dump_session(session)
    assert text.count("by_region = true") == len(session.grades)
    assert parse_session(text, "arko.toml").grades == session.grades


def test_after_the_signature_each_point_becomes_an_amendment_with_its_reason():
    ruleset = LIBRARY.load("any-dog")
    session = session_of("any-dog", signature=Signature(name="E", at=AT))
    sheet = sheet_of(session, "forequarters", ruleset)
    with pytest.raises(SignedSession):
        rest_as_asked(session, ruleset, sheet, STAMP)
    after = rest_as_asked(session, ruleset, sheet, STAMP, "looked again")
    assert [row.point for row in after.amendments] == [row.stop.point.id for row in sheet.rest]
    assert {row.reason for row in after.amendments} == {"looked again"}
    assert not sheet_of(after, "forequarters", ruleset).rest


def test_nought_gives_the_rest_then_asks_what_stands_alone_then_goes_on():
    ruleset = LIBRARY.load("hovawart-fci-190")
    session = session_of()
    dialogue = RegionDialogue(sheet_of(session, "general", ruleset))
    assert dialogue.press("0").follow == "rest"
    session = rest_as_asked(session, ruleset, dialogue.sheet, STAMP)
    dialogue = RegionDialogue(sheet_of(session, "general", ruleset))
    step = dialogue.press("0")
    alone = stops(ruleset, session)[step.stop].point
    assert step.follow == "in turn"
    assert not isinstance(alone, GradePoint)
    assert dialogue.press("enter").follow == "stay"
    assert alone.label in dialogue.prompt().message
    assert dialogue.press("enter").follow == "next"
    full = rest_as_asked(session, ruleset, sheet_of(session, "temperament", ruleset), STAMP)
    assert RegionDialogue(sheet_of(full, "temperament", ruleset)).press("0").follow == "next"


def test_a_shorter_walk_shows_only_what_it_asks():
    ruleset = LIBRARY.load("hovawart-fci-190")
    session = on_walk(session_of(), ruleset, "structure")
    sheet = sheet_of(session, "general", ruleset)
    assert [row.stop.point.id for row in sheet.rows] == ["general.balance"]


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_measure_that_is_defined_can_be_taken_in_its_region(edition):
    ruleset = LIBRARY.load(edition)
    session = session_of(edition, "female")
    listed = {point.id for region in ruleset.regions for point in measures_of(ruleset, session, region.id)}
    defined = {
        point.id
        for point in ruleset.points.values()
        if isinstance(point, MeasurePoint) and point.only_sex in (None, "female")
    }
    assert listed == defined
    walk = [stop.point.id for stop in stops(ruleset, session)]
    beside = sorted(defined - set(walk))[:3]
    longer = [stop.point.id for stop in stops(ruleset, session, beside)]
    assert [name for name in longer if name not in beside] == walk, "the others keep their order"
    assert set(beside) <= set(longer)


def test_a_measure_taken_beside_the_walk_is_part_of_it_from_then_on():
    ruleset = LIBRARY.load("any-dog")
    session = session_of("any-dog")
    asked = {stop.point.id for stop in stops(ruleset, session)}
    point = next(
        point
        for point in ruleset.points.values()
        if isinstance(point, MeasurePoint) and point.id not in asked
    )
    from hands_on.exam.session import Take

    taken = put(session, point, Answers(takes=(Take(point=point.id, value=10),)), STAMP)
    assert point.id in {stop.point.id for stop in stops(ruleset, taken)}
    struck = replace(answers_at(taken, point), takes=(Take(point=point.id, value=10, struck="slipped"),))
    assert point.id not in {stop.point.id for stop in stops(ruleset, put(taken, point, struck, STAMP))}


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_dog_is_met_first_and_steadiness_is_said_when_all_is_done(edition):
    ruleset = LIBRARY.load(edition)
    session = session_of(edition)
    walk = stops(ruleset, session)
    order = sheets(walk, session)
    assert order[0] == walk[0].region.id == "temperament"
    assert set(order) == {stop.region.id for stop in walk}
    assert list(order[1:]) == [region.id for region in ruleset.regions if region.id in order[1:]]
    late = at_the_end(walk, session)
    assert late[-1].point.id == "temperament.steadiness"
    sheet = region_sheet(ruleset, session, walk, "temperament")
    assert {row.stop for row in sheet.rows if row.late} == set(late)
    assert not {row.stop for row in (*sheet.rest, *sheet.open)} & set(late)
    last = region_sheet(ruleset, session, walk, order[-1])
    assert {row.stop for row in last.rest if row.stop.region.id == "temperament"} == set(late)
    assert {sheet_with(walk, session, stop) for stop in late} == {order[-1]}
    assert all(sheet_with(walk, session, stop) == stop.region.id for stop in walk if stop not in late)


def test_one_goes_on_where_a_region_was_given_at_once_with_what_is_entered_by_itself_there():
    ruleset = LIBRARY.load("hovawart-fci-190")
    session = session_of()
    walk = stops(ruleset, session)
    sheet = region_sheet(ruleset, session, walk, "general")
    given = rest_as_asked(session, ruleset, sheet, STAMP)
    alone = [row.stop.index for row in sheet.stays_open]
    assert walk[where_stopped(walk, given)].point.id == walk[min(alone)].point.id == "height"


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_jump_to_temperament_leads_to_the_meeting_and_not_to_the_end_of_the_walk(edition):
    ruleset = LIBRARY.load(edition)
    session = session_of(edition)
    walk = stops(ruleset, session)
    first = {row.region.id: walk[row.first].point.id for row in progress(walk, session)}
    assert first["temperament"] == "temperament.approach"
