"""A dog that is all a standard asks for, and has every trait that it leaves free, gets no finding.

Every edition is walked: each point as asked, each choice in its plain answer (natural, none, two), the tooth
chart full, every mark measured as none. Then what the standards leave free one by one, of
tests/data/edition_free.toml, each row with its source.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.exam.walk import stops
from hands_on.ruleset.points import (
    ChoicePoint,
    GradePoint,
    MeasurePoint,
    Point,
    ScalePoint,
    TeethPoint,
    faults_of,
)
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.library import Library
from hands_on.wording.alarms import alarm_text

_ROOT = Path(__file__).parents[2]
_library = Library([_ROOT / "rulesets"])
_EDITIONS = sorted(path.stem for path in (_ROOT / "rulesets").glob("*.toml"))
_FREE = tomllib.loads((_ROOT / "tests" / "data" / "edition_free.toml").read_text(encoding="utf-8"))["free"]

_PLAIN = {
    "croup-tail.tail-state": ("natural",),
    "forefeet.dewclaw-state": ("none", "both", "one"),
    "hindfeet.dewclaw-state": ("none",),
}
"""Answers that name a trait and no defect, whatever the breed; every other choice in the answers that name
nothing."""

_NOTHING = ("white-chest-size", "white-spot-diameter", "overshot-gap")
"""Measurements of what is best not there."""


def _plain(point: ChoicePoint) -> tuple[str, ...]:
    return _PLAIN.get(point.id) or tuple(one.id for one in point.options if one.fault is None)


def _answers(rules: Ruleset, session: Session, which: int) -> dict[str, Any]:
    grades: list[dict[str, Any]] = []
    choices: list[dict[str, Any]] = []
    rows: dict[str, Any] = {"grades": grades, "choices": choices, "takes": []}
    for stop in stops(rules, session):
        point = stop.point
        if isinstance(point, GradePoint):
            grades.append({"point": point.id, "as_asked": True})
        elif isinstance(point, ScalePoint):
            free = [step.value for step in point.steps if step.fault is None]
            grades.append({"point": point.id, "step": free[which % len(free)]})
        elif isinstance(point, ChoicePoint):
            plain = _plain(point)
            choices.append({"point": point.id, "choice": plain[which % len(plain)]})
        elif isinstance(point, TeethPoint):
            rows["teeth"] = {}
        elif isinstance(point, MeasurePoint) and point.id in _NOTHING:
            rows["takes"].append({"point": point.id, "value": 0})
    return rows


def _dogs(rules: Ruleset) -> list[dict[str, Any]]:
    """One of each sex, and of each option of each attribute."""
    attributes = {
        name: list(one.options) for name, one in rules.edition.attributes.items() if not one.derived
    }
    most = max((len(options) for options in attributes.values()), default=1)
    dogs = []
    for place in range(max(2, most)):
        own = {name: options[place % len(options)] for name, options in attributes.items()}
        dogs.append({"sex": ("male", "female")[place % 2], "born": "2020-01-01", "attributes": own})
    return dogs


@pytest.mark.parametrize("edition", _EDITIONS)
def test_a_dog_as_asked_with_plain_answers_has_no_finding(edition: str) -> None:
    rules = _library.load(edition)
    walked = 0
    for dog in _dogs(rules):
        head = {"ruleset": {"id": edition}, "dog": dog, "examination": {"started": "2024-06-01T09:00:00Z"}}
        if evaluate(rules, Session.model_validate(head)).findings:
            continue  # a fault follows from what the dog is: wild boar in a smooth coat
        walked += 1
        for which in range(3):
            rows = _answers(rules, Session.model_validate(head), which)
            result = evaluate(rules, Session.model_validate(head | rows))
            assert result.findings == (), (dog, which)
            assert [
                alarm_text(result, alarm) for alarm in result.alarms if alarm.kind == "contradiction"
            ] == []
            assert "outside" not in {rule.verdict for rule in result.rules}
    assert walked


def _point(rules: Ruleset, fault: str) -> Point | None:
    return next((point for point in rules.walk_points if fault in faults_of(point)), None)


@pytest.mark.parametrize(
    "row", [pytest.param(row, id=f"{row['edition']}: {row['source'][:50]}") for row in _FREE]
)
def test_what_a_standard_leaves_free_is_never_counted(row: dict[str, Any]) -> None:
    """Seen at its point, or noted where the walk does not ask it."""
    rules = _library.load(row["edition"])
    dog = {"born": "2020-01-01", **row.get("dog", {})}
    counted = {}
    for fault in row["faults"]:
        found = {"fault": fault, "degree": row.get("degree", "slight")}
        point = _point(rules, fault)
        seen = isinstance(point, GradePoint | ScalePoint)
        answer: dict[str, Any] = (
            {"grades": [{"point": point.id, **found}]}
            if seen and point is not None
            else {"notes": [{"text": "noted", "findings": [found]}]}
        )
        held = {"ruleset": {"id": rules.id}, "dog": dog, "examination": {"started": "2024-06-01T09:00:00Z"}}
        result = evaluate(rules, Session.model_validate(held | answer))
        counted |= {one.id: (one.cls, one.reasons) for one in result.findings}
        assert any(one.id == fault for one in (*result.findings, *result.allowed)), fault
    assert counted == {}
