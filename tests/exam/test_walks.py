"""Shorter walks leave out what they do not ask, and what the other sex alone can have counts for no dog."""

from pathlib import Path

import pytest

from hands_on.evaluate import evaluate
from hands_on.exam.left_out import NOT_IN_WALK, left_out, on_walk
from hands_on.exam.session import Dog, Note, NoteFinding, RulesetRef, Session
from hands_on.exam.walk import stops
from hands_on.store.library import Library

LIBRARY = Library([Path("rulesets")])
EDITIONS = sorted(path.stem for path in Path("rulesets").glob("*.toml"))


def session_of(edition, sex):
    return Session(dog=Dog(call_name="Arko", sex=sex), ruleset=RulesetRef(id=edition))


@pytest.mark.parametrize("edition", EDITIONS)
def test_regions_and_points_that_walks_name_are_known(edition):
    ruleset = LIBRARY.load(edition)
    assert {"whole", "structure", "young-dog", "condition"} <= set(ruleset.walks)
    regions = {region.id for region in ruleset.regions}
    for walk in ruleset.walks.values():
        assert set(walk.regions) <= regions
        assert {*walk.points, *walk.leave_out} <= set(ruleset.points)


@pytest.mark.parametrize("edition", EDITIONS)
def test_what_a_walk_leaves_out_is_told_as_not_examined(edition):
    ruleset = LIBRARY.load(edition)
    session = session_of(edition, "male")
    every = stops(ruleset, session)
    short = on_walk(session, ruleset, "structure")
    asked = {stop.region.id for stop in every if not left_out(short, stop.point)}
    assert "forequarters" in asked
    assert not asked & {"head", "mouth", "movement", "colour"}
    told = {gap.point for gap in evaluate(ruleset, short).gaps if gap.reason == NOT_IN_WALK}
    assert told == {stop.point.id for stop in every if left_out(short, stop.point)}
    assert not on_walk(session, ruleset, "whole").skips


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("fault", "sex"),
    [
        ("reproductive.retained-testicle", "female"),
        ("general.doggy-bitch", "male"),
        ("general.bitchy-dog", "female"),
    ],
)
def test_a_fault_of_one_sex_never_counts_for_the_other(edition, fault, sex):
    ruleset = LIBRARY.load(edition)
    note = Note(text="as called out", findings=(NoteFinding(fault=fault, degree="marked"),))
    of_other = session_of(edition, sex).model_copy(update={"notes": (note,)})
    given = evaluate(ruleset, of_other)
    assert fault not in {row.id for row in (*given.findings, *given.allowed)}
    assert not given.disqualifying
    assert any(type(alarm.about).__name__ == "OfOtherSex" for alarm in given.alarms)
    own = of_other.model_copy(update={"dog": Dog(sex="male" if sex == "female" else "female")})
    now = evaluate(ruleset, own)
    assert fault in {row.id for row in (*now.findings, *now.allowed)}
