"""Evaluation over random sessions: it never fails, and what it says of itself agrees."""

import datetime
import json
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.result import Evaluation
from hands_on.exam.session import Session
from hands_on.ruleset.dentition import TEETH
from hands_on.ruleset.points import ChoicePoint, MeasurePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.documents.evaluation import evaluation_document
from tests.strategies import sessions

LIBRARY = Library([shipped_rulesets()])
EDITIONS = [head.id for head in LIBRARY.heads() if head.problem is None]

_degrees = st.sampled_from(["slight", "moderate", "marked", "extreme"])
_sides = st.sampled_from(["left", "right", "both"])
_statuses = st.sampled_from(["present", "absent", "unsure"])
_found = {"degree": _degrees, "side": _sides, "status": _statuses}


@cache
def believable(name: str) -> st.SearchStrategy[Session]:
    """Sessions whose answers the edition knows, in every combination; put together once for each edition."""
    ruleset = LIBRARY.load(name)
    points = list(ruleset.points.values())
    faults = st.sampled_from(sorted(ruleset.faults))

    def rows(strategies: list[st.SearchStrategy[dict[str, object]]]) -> st.SearchStrategy[object]:
        return st.lists(st.one_of(strategies), max_size=6)

    def row(required: dict[str, st.SearchStrategy[object]], optional: object = None) -> object:
        return st.fixed_dictionaries(required, optional=optional or _found)

    takes = [
        row({"point": st.just(point.id), "value": st.floats(*point.plausible)}, {"side": _sides})
        for point in points
        if isinstance(point, MeasurePoint)
    ]
    grades = [row({"point": st.sampled_from([point.id for point in points]), "fault": faults})]
    grades += [row({"point": st.sampled_from([point.id for point in points]), "as_asked": st.just(True)}, {})]
    choices = []
    for point in points:
        if isinstance(point, ScalePoint):
            steps = st.sampled_from([step.value for step in point.steps])
            grades.append(row({"point": st.just(point.id), "step": steps}, {}))
        if isinstance(point, ChoicePoint):
            options = st.sampled_from([option.id for option in point.options])
            choices.append(row({"point": st.just(point.id), "choice": options}))
    teeth = st.lists(st.sampled_from(sorted(TEETH)), max_size=4)
    attributes = {
        name: st.sampled_from(list(entry.options)) for name, entry in ruleset.edition.attributes.items()
    }
    tables = st.fixed_dictionaries(
        {
            "ruleset": st.just({"id": ruleset.id}),
            "dog": st.fixed_dictionaries(
                {"sex": st.sampled_from(["male", "female"])},
                optional={
                    "born": st.dates(max_value=datetime.date(2024, 5, 1)),
                    "attributes": st.fixed_dictionaries({}, optional=attributes),
                },
            ),
            "examination": st.just(
                {"started": "2024-06-01T09:00:00Z", "switches": list(ruleset.edition.switches)}
            ),
        },
        optional={
            "takes": rows(takes),
            "grades": rows(grades),
            **({"choices": rows(choices)} if choices else {}),
            "teeth": st.fixed_dictionaries({}, optional={"missing": teeth, "unseen": teeth, "worn": teeth}),
            "notes": st.lists(
                st.fixed_dictionaries(
                    {"text": st.just("x"), "findings": st.lists(row({"fault": faults}), max_size=2)}
                ),
                max_size=2,
            ),
            "decisions": st.lists(
                row({"fault": faults, "decision": st.sampled_from(["uphold", "dismiss"])}, {"side": _sides}),
                max_size=2,
            ),
        },
    )
    return tables.map(Session.model_validate)


def agrees_with_itself(evaluation: Evaluation, ruleset: Ruleset) -> None:
    json.dumps(evaluation_document(evaluation), allow_nan=False)
    counted = [one for one in evaluation.findings if one.counts and one.status == "present"]
    assert sum(evaluation.totals.values()) == len(counted)
    assert not any(one.counts for one in evaluation.allowed)
    assert not any(one.too_young or one.decision == "dismiss" for one in counted)
    heavy = [one.id for one in counted if (cls := ruleset.classes.get(one.cls or "")) and cls.disqualifies]
    assert set(evaluation.disqualifying) == set(heavy)
    for rule in evaluation.rules:
        assert (rule.value is None) == (rule.verdict == "not-measured")
        cls = ruleset.classes.get(rule.cls or "")
        assert not (rule.verdict == "undecided" and cls is not None and cls.disqualifies)
    names = {*ruleset.classes, "unclassed", "none", "observation"}
    assert {one.cls for one in (*evaluation.findings, *evaluation.allowed)} <= names
    assert len(set(evaluation.alarms)) == len(evaluation.alarms)


@pytest.mark.parametrize("name", EDITIONS)
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_answers_in_any_combination(name: str, data: st.DataObject) -> None:
    ruleset = LIBRARY.load(name)
    agrees_with_itself(evaluate(ruleset, data.draw(believable(ruleset.id))), ruleset)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(held=sessions)
def test_any_session_that_can_be_read_at_all(held: Session) -> None:
    for name in EDITIONS[:2]:
        ruleset = LIBRARY.load(name)
        agrees_with_itself(evaluate(ruleset, held), ruleset)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_the_order_of_answers_at_different_points_does_not_matter(data: st.DataObject) -> None:
    ruleset = LIBRARY.load(EDITIONS[0])
    held = data.draw(believable(ruleset.id))
    turned = held.model_copy(update={"grades": held.grades[::-1], "choices": held.choices[::-1]})
    one, other = evaluate(ruleset, held), evaluate(ruleset, turned)
    assert one.totals == other.totals
    assert one.unsure == other.unsure
    assert set(one.disqualifying) == set(other.disqualifying)
