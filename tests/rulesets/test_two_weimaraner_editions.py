"""The same answers under the two Weimaraner editions: other classes where the standards differ.

FCI-Standard N° 99, English text of 26.05.2015, against the American Kennel Club's standard of 14 December
1971. What each asks stands beside each row. Neither edition borrows a rule of the other.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.result import Evaluation
from hands_on.exam.session import Session
from hands_on.store.library import Library

_library = Library([Path(__file__).parents[2] / "rulesets"])

Answers = dict[str, Any]
Class = str | None
"""The class of the one finding that counts; None where none does."""


def _under(edition: str, answers: Answers) -> Evaluation:
    session = Session.model_validate({"ruleset": {"id": "weimaraner-fci-99"}, **answers})
    return evaluate(_library.load(edition), session)


def _class(result: Evaluation) -> Class:
    counted = [finding.cls for finding in result.findings if finding.counts]
    assert len(counted) <= 1, result.findings
    return counted[0] if counted else None


def _graded(point: str, fault: str, degree: str = "moderate") -> Answers:
    return {"grades": [{"point": point, "fault": fault, "degree": degree}]}


def _chosen(point: str, choice: str) -> Answers:
    return {"choices": [{"point": point, "choice": choice}]}


def _height(sex: str, cm: float) -> Answers:
    return {"dog": {"sex": sex}, "takes": [{"point": "height", "value": cm, "unit": "cm"}]}


_DIFFER: list[tuple[str, Answers, Class, Class]] = [
    # FCI 59 to 70 cm; American 25 to 27 in, disqualified under 24 in (60.96 cm)
    ("dog of 60 cm", _height("male", 60.0), None, "disqualification"),
    ("dog of 62 cm", _height("male", 62.0), None, "penalised"),
    # FCI to 65 cm, two more a fault; American disqualified over 26 in (66.04 cm)
    ("bitch of 67.1 cm", _height("female", 67.1), "fault", "disqualification"),
    # FCI an extremely slight stop; American a moderate one
    ("no stop", _graded("head.stop", "head.stop-lacking"), None, "unclassed"),
    # FCI amber from dark to pale; American light amber, grey, blue-grey
    ("dark eye", _graded("eyes.colour", "eyes.dark"), "fault", "very-serious"),
    # FCI a little low; American low is a major fault
    ("tail set slightly low", _graded("croup-tail.set", "croup-tail.set-low", "slight"), None, "major"),
    # FCI not tucked up, clearly so disqualifies; American a moderate tuck-up
    (
        "clearly tucked up",
        _graded("back.underline", "back.tuck-up-excess", "marked"), "disqualifying", "unclassed",
    ),
    ("no tuck-up", _graded("back.underline", "back.tuck-up-lacking"), None, "unclassed"),
    # FCI a slightly long back is a trait; American too long is a major fault
    ("back slightly long", _graded("back.back-proportion", "back.long", "slight"), None, "major"),
    # FCI small marks on the toes allowed; American any white but a spot on the chest is very serious
    ("white toes", _chosen("colour.white-marks", "toes"), None, "very-serious"),
    # FCI more than two PM1 or M3 disqualify; American more than four of any kind are major
    ("three first premolars missing", {"teeth": {"missing": [105, 205, 305]}}, "disqualifying", "unclassed"),
    ("five premolars missing", {"teeth": {"missing": [106, 107, 206, 207, 306]}}, "fault", "major"),
    # FCI even a slight defect of the lid disqualifies; American in no list
    ("haw", _graded("eyes.lids", "eyes.haw", "slight"), "disqualifying", "unclassed"),
    # FCI general clause; American no general clause
    ("steep shoulder", _graded("forequarters.shoulder", "forequarters.shoulder-steep"), "fault", "unclassed"),
    # FCI definite cow hocks are severe; American cow hocks are major
    ("cow hocks", _graded("hindquarters.hocks", "hindquarters.cow-hocks", "marked"), "severe", "major"),
    # FCI weight about 30 to 40 kg; American none
    ("dog of 45 kg", {"dog": {"sex": "male"}, "takes": [{"point": "weight", "value": 45}]}, "fault", None),
    # FCI a yellow or brown tone disqualifies; American only blue or black
    ("brown tone", _chosen("colour.shade", "brown"), "disqualifying", "unclassed"),
]  # fmt: skip

_AGREE: list[tuple[str, Answers]] = [
    ("dog of 66 cm", _height("male", 66.0)),
    ("bitch of 61 cm", _height("female", 61.0)),
    ("small white mark on the chest", _chosen("colour.white-marks", "chest-small")),
    ("natural tail, nothing chosen", _chosen("croup-tail.tail-state", "natural")),
    ("docked tail, nothing chosen", _chosen("croup-tail.tail-state", "docked")),
    ("front dewclaws, nothing chosen", _chosen("forefeet.dewclaw-state", "both")),
    ("hind dewclaws, nothing chosen", _chosen("hindfeet.dewclaw-state", "both")),
    ("light amber eye", _graded("eyes.colour", "eyes.light")),
    ("all teeth", {"teeth": {}}),
]


@pytest.mark.parametrize(("name", "answers", "fci", "american"), _DIFFER, ids=[row[0] for row in _DIFFER])
def test_classes_differ(name: str, answers: Answers, fci: Class, american: Class) -> None:
    """The same answers, each edition's own class."""
    assert _class(_under("weimaraner-fci-99", answers)) == fci
    assert _class(_under("weimaraner-american", answers)) == american


@pytest.mark.parametrize(("name", "answers"), _AGREE, ids=[row[0] for row in _AGREE])
def test_nothing_counts_under_either(name: str, answers: Answers) -> None:
    """Right in both, or off until chosen in both."""
    assert _class(_under("weimaraner-fci-99", answers)) is None
    assert _class(_under("weimaraner-american", answers)) is None
