"""What was heard in a note, what is changed of it by hand, and what goes on record."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.evaluate import evaluate
from hands_on.exam.answers import SignedSession, Stamp, amended, place_of
from hands_on.exam.heard.note import (
    as_fault,
    hear,
    next_degree,
    next_side,
    next_status,
    put_heard,
    settled,
    toggled,
    unit_in_use,
)
from hands_on.exam.session import Note, NoteFinding, RulesetRef, Session, Signature, Skip, Take
from hands_on.notes import FoundFault, FoundMeasure, Reading
from hands_on.report.found import finding_title
from hands_on.store import places
from hands_on.store.library import Library
from hands_on.store.session_file import dump_session, parse_session
from hands_on.tui.heard_rows import told_on_record
from hands_on.tui.widgets.findings import finding_words

RULESET = Library((places.shipped_rulesets(),)).load("hovawart-fci-190")
NOW = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.UTC)
STAMP = Stamp(NOW, "E. Example")
COW, STEEP = "hindquarters.cow-hocks", "forequarters.shoulder-steep"


def fault(name: str = COW, accepted: bool = True, **parts: object) -> FoundFault:
    given = {"degree": None, "side": None, "status": "present", "confidence": 0.97, "span": (0, 9)}
    return FoundFault(**{"id": name, "accepted": accepted, **given, **parts})  # type: ignore[arg-type]


def heard(note="cow hocks", faults=(), measures=(), hands=None, unit=None):
    return hear(Reading(note, tuple(faults), tuple(measures)), hands or {}, RULESET, unit)


def measure(name: str, words: str, value: float, unit: str | None = None) -> Reading:
    return Reading(words, measures=(FoundMeasure(name, value, unit, (0, len(words))),))


# --- findings


def test_what_is_accepted_goes_on_record_with_its_confidence_and_nobodys_name():
    (row,) = heard(faults=[fault(degree="slight", side="left", status="absent")]).findings("E. Example")
    assert row == NoteFinding(
        fault=COW, degree="slight", side="left", status="absent", confidence=0.97, taken_by=""
    )


def test_of_both_sides_the_worse_goes_on_record_is_kept_in_the_file_and_told():
    """`left foot more than the right`; a side changed by hand is the only one that counts."""
    read = fault(degree="slight", side="both", worse="left")
    (row,) = heard(faults=[read]).findings("")
    assert (row.side, row.worse) == ("both", "left")
    assert told_on_record(RULESET, row) == "Cow hocks, slight, both, more on the left"
    session = Session(ruleset=RulesetRef(id=RULESET.id), notes=(Note(text="cow hocks", findings=(row,)),))
    again = parse_session(dump_session(session), "a session")
    assert again.notes[0].findings[0].worse == "left"
    evaluation = evaluate(RULESET, again)
    (found,) = evaluation.findings
    assert found.worse == "left"
    assert "slight, both, more on the left" in finding_words(found, evaluation)
    assert finding_title(found).endswith("slight, both, more on the left")
    by_hand = next_side({}, heard(faults=[read]).faults[0])
    (row,) = heard(faults=[read], hands=by_hand).findings("")
    assert (row.side, row.worse) == (None, None)


def test_what_is_not_accepted_stays_words_until_somebody_takes_it():
    before = heard(faults=[fault(accepted=False)])
    assert before.findings("E. Example") == ()
    (row,) = heard(faults=[fault(accepted=False)], hands=toggled({}, before.faults[0])).findings("E. Example")
    assert (row.fault, row.taken_by, row.confidence) == (COW, "E. Example", 0.97)


def test_a_dropped_finding_is_not_on_record_and_can_be_taken_again():
    hands = toggled({}, heard(faults=[fault()]).faults[0])
    dropped = heard(faults=[fault()], hands=hands)
    assert dropped.findings("x") == ()
    again = heard(faults=[fault()], hands=toggled(hands, dropped.faults[0]))
    assert len(again.findings("x")) == 1


def test_degrees_sides_and_status_go_round():
    hands, degrees, sides, states = {}, [], [], []
    for _ in range(5):
        hands = next_degree(hands, heard(faults=[fault()], hands=hands).faults[0])
        degrees.append(hands[COW]["degree"])
    for _ in range(4):
        hands = next_side(hands, heard(faults=[fault()], hands=hands).faults[0])
        sides.append(hands[COW]["side"])
    for _ in range(3):
        hands = next_status(hands, heard(faults=[fault()], hands=hands).faults[0])
        states.append(hands[COW]["status"])
    assert degrees == ["slight", "moderate", "marked", "extreme", None]
    assert sides == ["left", "right", "both", None]
    assert states == ["absent", "unsure", "present"]


def test_a_change_holds_while_the_note_grows_and_takes_what_was_unsure():
    hands = next_degree({}, heard(faults=[fault(accepted=False)]).faults[0])
    grown = heard("cow hocks on the left", faults=[fault(accepted=False, side="left")], hands=hands)
    (row,) = grown.findings("E. Example")
    assert (row.degree, row.side, row.taken_by) == ("slight", "left", "E. Example")


def test_another_fault_or_status_has_no_confidence_of_the_program():
    one = heard(faults=[fault()]).faults[0]
    for hands in (as_fault({}, one, STEEP), next_status({}, one)):
        (row,) = heard(faults=[fault()], hands=hands).findings("E. Example")
        assert row.confidence is None


def test_things_are_told_in_the_order_of_the_words():
    found = heard(
        "cow hocks, withers 64.5, steep shoulder",
        faults=[fault(STEEP, span=(25, 39)), fault()],
        measures=[FoundMeasure("height", 64.5, None, (19, 23))],
    )
    assert [thing.id for thing in found.things] == [COW, "height", STEEP]


# --- readings


def test_a_reading_becomes_a_take_at_its_point_in_the_points_own_unit():
    (take,) = hear(measure("height", "64.5", 64.5), {}, RULESET).takes()
    assert (take.point, take.value, take.unit, take.typed) == ("height", 64.5, "cm", "")


def test_a_reading_keeps_its_words_where_they_say_more_than_the_number():
    (take,) = hear(measure("height", '25 1/2"', 25.5, "in"), {}, RULESET).takes()
    assert (take.value, take.unit, take.typed) == (25.5, "in", '25 1/2"')


def test_lengths_without_a_unit_are_in_the_unit_in_use_and_weights_in_their_own():
    (height,) = hear(measure("height", "25.5", 25.5), {}, RULESET, "in").takes()
    (weight,) = hear(measure("weight", "32", 32), {}, RULESET, "in").takes()
    assert (height.unit, weight.unit) == ("in", "kg")


def test_an_odd_reading_is_no_take_before_it_is_settled():
    odd = hear(measure("height", "645", 645), {}, RULESET)
    assert odd.takes() == ()
    asked = odd.first_odd()
    assert asked is not None
    assert asked.problem is not None
    likely = asked.problem.suggestions[0]
    hands = settled({}, asked, likely)
    settled_one = hear(measure("height", "645", 645), hands, RULESET)
    assert settled_one.first_odd() is None
    assert [(take.value, take.unit) for take in settled_one.takes()] == [(64.5, "cm")]
    other = hear(measure("height", "655", 655), hands, RULESET)
    assert other.first_odd() is not None, "another number is asked about anew"


def test_an_odd_reading_may_stay_in_the_words():
    asked = hear(measure("height", "645", 645), {}, RULESET).first_odd()
    assert asked is not None
    left = hear(measure("height", "645", 645), settled({}, asked, None), RULESET)
    assert (left.first_odd(), left.takes()) == (None, ())


def test_a_measurement_this_edition_does_not_know_stays_in_the_words():
    found = hear(measure("wing-span", "12 cm", 12, "cm"), {}, RULESET)
    assert (found.takes(), found.first_odd()) == ((), None)


@given(value=st.floats(allow_nan=False, allow_infinity=False), unit=st.sampled_from([None, "cm", "in", "kg"]))
def test_any_number_is_a_plausible_take_or_is_asked_about(value, unit):
    found = hear(measure("height", "x", value, unit), {}, RULESET)
    assert bool(found.takes()) != bool(found.first_odd())


# --- on record


def session(**parts: object) -> Session:
    return Session(ruleset=RulesetRef(id="hovawart-fci-190"), **parts)  # type: ignore[arg-type]


def test_takes_are_added_to_those_at_the_point_and_end_its_skip():
    before = session(
        takes=(Take(point="height", value=64.0, unit="cm"),), skips=(Skip(point="weight", reason="no scale"),)
    )
    takes = (Take(point="height", value=64.5, unit="cm"), Take(point="weight", value=32.0, unit="kg"))
    after = put_heard(before, RULESET, Note(text="withers 64.5, 32 kilos"), takes, STAMP)
    assert [take.value for take in after.takes] == [64.0, 64.5, 32.0]
    assert after.skips == ()
    assert [note.text for note in after.notes] == ["withers 64.5, 32 kilos"]
    assert {after.takes[1].by, after.takes[2].by, after.notes[0].by} == {"E. Example"}


def test_a_signed_session_takes_note_and_readings_as_amendments_with_a_reason():
    signed = session(
        takes=(Take(point="height", value=64.0, unit="cm"),), signature=Signature(name="E. Example", at=NOW)
    )
    take = Take(point="height", value=64.5, unit="cm")
    with pytest.raises(SignedSession):
        put_heard(signed, RULESET, Note(text="withers 64.5"), (take,), STAMP)
    after = put_heard(signed, RULESET, Note(text="withers 64.5"), (take,), STAMP, "taken again")
    assert (after.takes, after.notes) == (signed.takes, signed.notes)
    assert {row.reason for row in after.amendments} == {"taken again"}
    now = amended(after)
    assert [row.value for row in now.takes] == [64.0, 64.5]
    assert [note.text for note in now.notes] == ["withers 64.5"]


@pytest.mark.parametrize(
    ("units", "meant"), [([], None), (["in"], None), (["in", "in"], "in"), (["cm", "in", "in", "cm"], None)]
)
def test_inches_are_meant_only_where_most_lengths_are_in_inches(units, meant):
    takes = tuple(Take(point="height", value=25.0, unit=unit) for unit in units)
    assert unit_in_use(session(takes=takes)) == meant


def test_a_finding_belongs_to_its_own_point_wherever_the_note_was_written():
    row = NoteFinding(fault=COW)
    assert place_of(RULESET, Note(text="x", point="head.stop"), row) == "hindquarters.hocks"
    assert place_of(RULESET, Note(text="x", point="hindquarters.hocks"), row) == "hindquarters.hocks"
    assert place_of(RULESET, Note(text="x"), row) == "hindquarters.hocks"
