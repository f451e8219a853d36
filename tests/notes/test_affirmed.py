"""What a note says is right: affirmed points, and praise that never silences a plain fault of another part.

The notes and their labels are invented; what counts as right at a point is common practice.
"""

import random

import pytest

from hands_on.notes import read_note
from tests.notes.crossing import FAULTS, FORMS, PRAISES, crossed, lost


def points(reading) -> set[tuple[str, str | None]]:
    return {(a.point, a.option) for a in reading.affirmed if a.accepted}


def test_a_run_of_praise_affirms_each_point(read):
    reading = read("clean throat, well laid back shoulders, ribs well sprung, scissors bite, full mouth")
    assert points(reading) == {
        ("neck.throat", None),
        ("forequarters.shoulder", None),
        ("chest.spring", None),
        ("mouth.bite", "scissors"),
        ("mouth.teeth", None),
    }
    assert reading.faults == ()


@pytest.mark.parametrize(
    ("note", "point"),
    [
        ("throat not clean", "neck.throat"),
        ("shoulder could be better laid back", "forequarters.shoulder"),
        ("is the throat clean?", "neck.throat"),
        ("full mouth, but P1 missing", "mouth.teeth"),
        ("elbows close, the left one loose", "forequarters.elbows"),
        ("correct length of croup, croup steep", "croup-tail.croup"),
    ],
)
def test_denial_doubt_wish_and_findings_affirm_nothing(read, note, point):
    assert point not in {a.point for a in read(note).affirmed}


def test_tight_elbows_in_praise_are_no_fault(read):
    reading = read("clean throat, tight elbows, good reach")
    assert reading.faults == ()
    assert ("forequarters.elbows", None) in points(reading)


def test_what_is_ruled_out_is_recorded_as_ruled_out_and_affirms_nothing(read):
    for note in ("no throatiness", "neck neither too short nor too long"):
        reading = read(note, region="neck")
        assert {f.status for f in reading.faults} == {"absent"}
        assert reading.affirmed == ()


def test_the_json_names_point_option_and_span(read):
    reading = read("scissors bite")
    (found,) = reading.as_json()["affirmed"]
    assert (found["point"], found["option"], found["accepted"]) == ("mouth.bite", "scissors", True)
    assert reading.note[slice(*found["span"])] in ("scissors", "scissors bite")


@pytest.mark.parametrize("form", FORMS)
def test_a_plain_fault_is_never_lost_beside_praise_of_another_part(lexicon, form):
    """A sample of the nine thousand pairs; tests/bench/crossing.py reads them all."""
    pairs = random.Random(f"14{form}").sample(crossed(), 100)
    assert lost(pairs, lambda note, region: read_note(note, lexicon, region=region), form) == []


@pytest.mark.parametrize(
    "form", [form for form in FORMS if form.startswith("{Praise}") and "but" not in form]
)
def test_a_fault_that_only_the_screen_places_is_not_taken_by_the_part_praised_before(lexicon, form):
    """`on the small side` names no part: read without a region it is lost, or another fault."""

    def read(note, region):
        return read_note(note, lexicon, region=region)

    placed = {said for said, fault in FAULTS if fault not in {f.id for f in read(said, None).faults}}
    assert {"ears do not hang", "on the small side"} <= placed
    assert lost([pair for pair in crossed() if pair[0] in placed], read, form) == []


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("Straight front and the rear is narrower than desired.", "hindquarters", "hindquarters.narrow"),
        ("Straight front and rear too narrow.", "hindquarters", "hindquarters.narrow"),
        ("Pasterns firm, slightly sloping and tail insertion high.", "croup-tail", "croup-tail.set-high"),
        ("rear movement wide, strong, short loin.", "movement", "movement.wide-behind"),
        ("Well angulated behind. Pigeon toed.", "forefeet", "forefeet.toe-in"),
        ("Lovely head. way too small.", "general", "general.under-height"),
    ],
)
def test_where_one_remark_ends_and_the_next_begins(read, note, region, fault):
    assert fault in {f.id for f in read(note, region=region).faults if f.status == "present"}


def test_a_remark_the_part_before_may_claim_is_asked_about(read):
    (found,) = read("Shape of eye correct. on the small side.", region="general").faults
    assert (found.id, found.accepted, found.alternatives) == (
        "general.under-height",
        False,
        ("eyes.deep-set",),
    )
    (found,) = read("Shape of eye correct. on the small side.", region="eyes").faults
    assert (found.id, found.accepted) == ("eyes.deep-set", True)


def test_praise_said_twice_is_one_affirmation_and_no_word_of_it_is_unread(read):
    reading = read("Clean throat. A clean throat and tight lips.")
    assert [a.point for a in reading.affirmed].count("neck.throat") == 1
    assert reading.unread == ()


def test_there_are_two_hundred_faults_and_fifty_praises():
    assert (len(FAULTS), len(PRAISES)) == (200, 50)
