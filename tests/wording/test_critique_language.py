"""The data of the language of critiques: words for all there is, nothing left open in them."""

import re

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.ruleset.base import DEGREES
from hands_on.store.critiques import critique_language, critique_languages
from hands_on.wording.critique.check import lacking_in_language, lacking_in_plan
from hands_on.wording.critique.clauses import fault_clause
from hands_on.wording.critique.source import Source
from tests.wording.critiques import (
    EDITIONS,
    ENGLISH,
    GERMAN,
    LIBRARY,
    PLAN,
    held,
    seen,
)


def known():
    rules = [LIBRARY.common(), *(LIBRARY.load(name) for name in EDITIONS)]
    points = {name: point for one in rules for name, point in one.points.items()}
    faults = {name: fault for one in rules for name, fault in one.faults.items()}
    return [region.id for region in LIBRARY.common().regions], points, faults


@pytest.mark.parametrize("name", critique_languages(LIBRARY))
def test_every_language_has_words_for_every_region_point_fault_and_cost(name):
    assert list(lacking_in_language(critique_language(LIBRARY, name), PLAN, *known())) == []


def test_a_lack_is_told():
    faults = {name: clause for name, clause in GERMAN.faults.items() if name != "neck.short"}
    wrong = GERMAN.model_copy(update={"faults": faults | {"neck.longer": "der Hals {y}"}})
    told = [lack.what for lack in lacking_in_language(wrong, PLAN, *known())]
    assert told == [
        "the fault neck.short has no words.",
        "there is no fault neck.longer.",
        "nothing fills {y} in “der Hals {y}”.",
    ]


@pytest.mark.parametrize("language", [ENGLISH, GERMAN], ids=["en", "de"])
def test_what_only_limits_name_has_words(language):
    named = {
        band.label
        for name in EDITIONS
        for limit in LIBRARY.load(name).edition.limits
        for band in limit.bands
        if band.class_ not in (None, "none") and not band.fault and limit.classifies is None
    }
    assert named - set(language.bands) == set()


def test_the_plan_speaks_of_every_region_and_knows_the_cost_of_every_fault():
    assert list(lacking_in_plan(PLAN, *known())) == []


def test_german_has_a_label_for_every_measurement():
    _, points, _ = known()
    assert {name for name, point in points.items() if point.kind == "measure"} <= set(GERMAN.labels)


def test_every_fault_reads_well_at_every_degree_and_side():
    """As a clause: no slot left, the words of its degree and side in it; a fault of every point at a time."""
    rules = LIBRARY.load("hovawart-fci-190")
    points = [point for point in rules.points.values() if point.kind == "grade"]
    tried = 0
    for turn in range(max(len(point.departures) for point in points)):
        for degree in DEGREES:
            faults = [(point.id, point.departures[turn : turn + 1]) for point in points]
            given = ((name, fault) for name, found in faults for fault in found)
            rows = [seen(name, fault, degree=degree, side="left") for name, fault in given]
            session = held(sex=("female", "male")[turn % 2], grades=rows)
            evaluation = evaluate(rules, session)
            for language in (ENGLISH, GERMAN):
                source = Source(session, evaluation, language, PLAN)
                for finding in source.faults:
                    text = fault_clause(source, finding).text
                    words = (language.degrees[degree], language.degrees_too[degree])
                    if re.search(r"\{[dt]\}", language.faults[finding.id]):
                        assert any(word in text for word in words), text
                    assert language.sides["left"] in text
                    assert not re.search(r"[{}|]|  ", text), text
                    tried += 1
    assert tried > 2 * 4 * 180
