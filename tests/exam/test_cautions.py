"""Cautions: which are to be read, and when the examination may begin."""

from __future__ import annotations

from hands_on.exam.cautions import cautions_for, unread
from hands_on.exam.session import CautionAnswer, Examination, RulesetRef, Session
from hands_on.ruleset.rules import Switch
from hands_on.store import places
from hands_on.store.library import Library

LIBRARY = Library((places.shipped_rulesets(),))
FILE = LIBRARY.cautions()


def session(*answers: tuple[str, str], switches: tuple[str, ...] = ()) -> Session:
    return Session(
        ruleset=RulesetRef(id="any-dog"),
        examination=Examination(switches=switches),
        cautions=tuple(CautionAnswer(id=name, answer=answer) for name, answer in answers),
    )


def test_the_shipped_cautions_say_what_can_hurt_and_whom_to_ask():
    # What must be told before a dog is handled: common practice.
    told = " ".join(f"{row.label} {row.text}" for row in FILE.cautions).lower()
    for word in (
        "veterinar",
        "never force a joint",
        "table",
        "slip",
        "bite",
        "stiffens",
        "handler",
        "pain",
        "lameness",
    ):
        assert word in told, word
    assert [row.id for row in FILE.cautions if row.question] == ["owner-consent", "known-pain"]


def test_all_are_unread_at_first_and_none_once_answered():
    rows = cautions_for(FILE, LIBRARY.load("any-dog"), session())
    assert unread(rows, session()) == rows
    answered = session(*((row.id, "yes") for row in rows))
    assert unread(rows, answered) == ()


def test_the_answer_that_stops_an_examination_keeps_it_from_beginning():
    rows = cautions_for(FILE, LIBRARY.load("any-dog"), session())
    refused = session(*((row.id, "no") for row in rows))
    assert [row.id for row in unread(rows, refused)] == ["owner-consent"]


def test_a_chosen_switch_brings_its_caution_and_one_not_chosen_none():
    ruleset = LIBRARY.load("any-dog")
    switch = Switch(label="Judge docking", caution="Forbidden by law in many places.")
    edition = ruleset.edition.model_copy(update={"switches": {"docking-judged": switch}})
    from dataclasses import replace

    ruleset = replace(ruleset, edition=edition)
    assert len(cautions_for(FILE, ruleset, session())) == len(FILE.cautions)
    own = cautions_for(FILE, ruleset, session(switches=("docking-judged",)))[-1]
    assert (own.label, own.text) == (switch.label, switch.caution)


def test_a_switch_that_the_edition_does_not_know_brings_none():
    rows = cautions_for(FILE, LIBRARY.load("any-dog"), session(switches=("gone",)))
    assert len(rows) == len(FILE.cautions)
