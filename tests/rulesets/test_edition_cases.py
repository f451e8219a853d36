"""Each edition gives the class and verdict that its published figures ask for, case by case.

The cases are data, one file an edition in tests/data/edition_cases/, each case with the source that asks
for what is expected. A case is written as a session is:

    [[cases]]
    name = "dog, 66.5 cm"
    source = "FCI 57, 2000: more than 2 cm over 64 disqualifies"
    dog = { sex = "male" }                                  # as in a session
    examination = { switches = ["docking-judged"] }         # as in a session, may be left out
    takes = [{ point = "height", value = 68.5 }]            # takes, grades, choices, teeth, notes
    expect = [{ fault = "general.over-height", class = "disqualifying" }]   # also status, detail, ...
    expect_not = ["general.body-long"]                      # no finding of it that counts
    verdict = { height-male = "outside" }                   # of a limit
    too_narrow = ["height-male"]                            # limits that no hand can tell; no alarm by itself
    bands = { size-male = "Miniature" }                     # the named stretch that a limit sorts into
    disqualified = true                                     # whether anything sure disqualifies
    alarms = ["degree-needed"]                              # kinds of alarm that must be there
    alarms_not = ["contradiction"]                          # kinds of alarm that must not be there
    outcome = "disqualified"                                # the best outcome left open
    told = ["practice beside the standard"]                 # texts that stand among the outcome's reasons
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.result import Evaluation, Finding
from hands_on.exam.session import Session
from hands_on.store.library import Library
from hands_on.wording.outcome import outcome_reasons
from hands_on.wording.rules import rule_sentence

_ROOT = Path(__file__).parents[2]
_CASES = _ROOT / "tests" / "data" / "edition_cases"
_ANSWERS = ("dog", "examination", "takes", "grades", "choices", "teeth", "notes", "decisions")
_EXPECTED = (
    "expect", "expect_not", "verdict", "too_narrow", "bands", "disqualified", "alarms", "alarms_not",
    "outcome", "told",
)  # fmt: skip

_library = Library([_ROOT / "rulesets"])


def _cases() -> list[Any]:
    return [
        pytest.param(path.stem, case, id=f"{path.stem}: {case['name']}")
        for path in sorted(_CASES.glob("*.toml"))
        for case in tomllib.loads(path.read_text(encoding="utf-8"))["cases"]
    ]


@pytest.mark.parametrize(("edition", "case"), _cases())
def test_case(edition: str, case: dict[str, Any]) -> None:
    """The edition gives this dog what the source named beside the case asks for."""
    unknown = set(case) - {"name", "source", *_ANSWERS, *_EXPECTED}
    assert not unknown, f"the case has keys that are never read: {unknown}"
    assert case.get("source"), "a case without a source"
    assert any(key in case for key in _EXPECTED), "a case that expects nothing"
    rules = _library.load(edition)
    session = Session.model_validate(
        {"ruleset": {"id": edition}, **{key: case[key] for key in _ANSWERS if key in case}}
    )

    result = evaluate(rules, session)

    for wanted in case.get("expect", []):
        assert any(_fits(one, wanted) for one in (*result.findings, *result.allowed)), (
            f"wanted {wanted}, found {_shown(result)}"
        )
    for fault in case.get("expect_not", []):
        assert not any(one.id == fault and one.counts for one in result.findings), _shown(result)
    for limit, verdict in case.get("verdict", {}).items():
        given = [rule.verdict for rule in result.rules if rule.id == limit]
        assert given, f"the limit {limit} was not held against this dog"
        assert set(given) == {verdict}, [
            rule_sentence(result, rule) for rule in result.rules if rule.id == limit
        ]
    for limit in case.get("too_narrow", []):
        assert [rule.too_narrow for rule in result.rules if rule.id == limit] == [True]
    for limit, band in case.get("bands", {}).items():
        assert [rule.band for rule in result.rules if rule.id == limit] == [band]
    if "disqualified" in case:
        assert bool(result.disqualifying) == case["disqualified"], _shown(result)
    kinds = {alarm.kind for alarm in result.alarms}
    assert kinds.issuperset(case.get("alarms", [])), result.alarms
    assert kinds.isdisjoint(case.get("alarms_not", [])), result.alarms
    reasons = outcome_reasons(result)
    for text in case.get("told", []):
        assert any(text in reason for reason in reasons), reasons
    if "outcome" in case:
        assert result.outcome_at_most == case["outcome"], reasons


def _fits(finding: Finding, wanted: dict[str, Any]) -> bool:
    given = {
        "fault": finding.id,
        "class": finding.cls,
        "status": finding.status,
        "side": finding.side,
        "detail": finding.detail,
        "origin": finding.origin,
    }
    return all(given[key] == value for key, value in {"status": "present", **wanted}.items())


def _shown(result: Evaluation) -> list[tuple[str, str | None, str]]:
    return [(one.id, one.cls, one.status) for one in (*result.findings, *result.allowed)]
