"""Faults that follow from what is known of the dog alone."""

from __future__ import annotations

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.departure import Called, Departure
from hands_on.ruleset.ruleset import Ruleset


def followed(ruleset: Ruleset, circumstances: Circumstances) -> list[Departure]:
    """A departure for each rule whose condition holds; what was lacking for one is remembered."""
    found: list[Departure] = []
    for rule in ruleset.edition.follows:
        points = ruleset.points_of_fault.get(rule.fault, ())[:1]
        if not circumstances.holds(rule.when, points=points):
            continue
        called = None
        if rule.class_ is not None:
            switch = next(iter(rule.when.switch or ()), "")
            called = Called(rule.class_, rule.source, rule.reading, (), switch)
        told = (rule.text or "follows from what was entered of the dog", rule.note)
        found.append(
            Departure(
                rule.fault, "dog", points, rule.degree, detail=rule.detail, called=called,
                reasons=tuple(text for text in told if text),
            )
        )  # fmt: skip
    return found
