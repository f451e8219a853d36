"""Rules that the law of some places forbids to apply are off until chosen, and that is never passed over.

Every ruling and limit of every edition shipped that hangs on a switch is touched by a dog: with it off
it must be said what was not judged and what it would be; chosen, its caution must stand beside the class.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from hands_on.evaluate.alarms.judged import SwitchChosen, SwitchOff
from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.result import Evaluation
from hands_on.exam.session import Session
from hands_on.ruleset.base import When
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.library import Library
from hands_on.wording.alarms import alarm_text

RULESETS = Path(__file__).parents[2] / "rulesets"
EDITIONS = {path.stem: Library([RULESETS]).load(path.stem) for path in sorted(RULESETS.glob("*.toml"))}


@dataclass(frozen=True)
class Touched:
    """A dog that a switched rule speaks of."""

    edition: Ruleset
    switch: str
    when: When
    fault: str = ""
    takes: tuple[tuple[str, float, str], ...] = ()

    def judged(self, *, chosen: bool) -> Evaluation:
        when = self.when
        dog = {"sex": when.sex or "male", "born": "2019-01-01"} | {
            name: words[0] for name, words in when.attributes.items()
        }
        examination = {
            "started": "2024-06-01T09:00:00Z",
            "switches": [self.switch] if chosen else [],
            "purpose": "showing" if when.purpose_not else "",
        }
        found = [name for name in (self.fault, *(when.together_with or ())) if name]
        findings = [{"fault": name, "degree": "marked"} for name in found]
        takes = [{"point": point, "value": value, "unit": unit} for point, value, unit in self.takes]
        session = {
            "ruleset": {"id": self.edition.id},
            "dog": dog,
            "examination": examination,
            "notes": [{"text": "as typed", "findings": findings}],
            "takes": takes,
        }
        return evaluate(self.edition, Session.model_validate(session))


def touched() -> Iterator[object]:
    for rules in EDITIONS.values():
        for ruling in rules.edition.rulings:
            for switch in (ruling.when.switch or ()) if ruling.when else ():
                for fault in ruling.faults:
                    yield pytest.param(
                        Touched(rules, switch, ruling.when, fault), id=f"{rules.id} {switch} {fault}"
                    )
        for limit in rules.edition.limits:
            for switch in (limit.when.switch or ()) if limit.when and not limit.optional else ():
                assert limit.measure is not None
                beyond = 2.0 * limit.asked.high
                takes = ((limit.measure, beyond, limit.unit),)
                yield pytest.param(
                    Touched(rules, switch, limit.when, takes=takes), id=f"{rules.id} {switch} {limit.id}"
                )


CASES = list(touched())


def test_every_switch_of_law_is_touched() -> None:
    """What is switched otherwise is practice beside the standard, shown apart and never counted."""
    told = {(case.values[0].edition.id, case.values[0].switch) for case in CASES}
    every = {(rules.id, name) for rules in EDITIONS.values() for name in rules.edition.switches}
    practice = {
        (rules.id, name)
        for rules in EDITIONS.values()
        for limit in rules.edition.limits
        if limit.optional and limit.when
        for name in limit.when.switch or ()
    }
    assert every - told == practice
    assert len(told) >= 8


@pytest.mark.parametrize("dog", CASES)
def test_what_is_off_is_told_with_what_it_would_be(dog: Touched) -> None:
    evaluation = dog.judged(chosen=False)
    told = [alarm for alarm in evaluation.alarms if isinstance(alarm.about, SwitchOff)]
    assert [alarm.about.switch for alarm in told] == [dog.switch]
    assert evaluation.classes.weight(told[0].about.would_be) > 0
    text = alarm_text(evaluation, told[0])
    assert "was not chosen" in text
    assert dog.edition.edition.switches[dog.switch].caution in text
    assert not any(one.counts and one.status == "present" for one in evaluation.findings)


@pytest.mark.parametrize("dog", CASES)
def test_what_is_chosen_stands_with_its_caution(dog: Touched) -> None:
    evaluation = dog.judged(chosen=True)
    told = [alarm for alarm in evaluation.alarms if isinstance(alarm.about, SwitchChosen)]
    assert [alarm.about.switch for alarm in told] == [dog.switch]
    assert dog.edition.edition.switches[dog.switch].caution in alarm_text(evaluation, told[0])
    assert any(one.counts and one.status == "present" for one in evaluation.findings)


@pytest.mark.parametrize("dog", CASES)
def test_each_caution_speaks_of_the_law(dog: Touched) -> None:
    caution = dog.edition.edition.switches[dog.switch].caution
    assert "law" in caution or "forbidden" in caution
