"""The language data of a critique: `rulesets/common/critique/`."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import Literal

from pydantic import Field, field_validator

from hands_on.ruleset.base import Degree, Part, Words

__all__ = ["Language", "Merit", "Phrases", "Plan", "RegionWords", "Sexed", "fill"]

_SLOT = re.compile(r"\{([a-z]+)\}")

Sexed = Literal["male", "female", "unknown"]


def fill(template: str, **values: object) -> str:
    """The template with its slots filled; an empty value takes the blank before it along."""
    text = _SLOT.sub(lambda found: str(values.get(found[1], "")), template)
    return re.sub(r" {2,}", " ", text).replace(" ,", ",").strip()


class Plan(Part):
    """What is the same in every language: the order, what a region's clause claims, costs at work."""

    blocks: tuple[tuple[str, ...], ...]
    both_unsaid: Words = ()
    harmless_teeth: tuple[int, ...] = ()
    needs: Mapping[str, tuple[str, ...]] = {}
    costs: Mapping[str, tuple[str, ...]]

    def cost_of(self, fault: str, teeth: Collection[int] = ()) -> str | None:
        """The kind of cost: `none` where there is little or none, None where the plan does not know."""
        if fault == "mouth.teeth-missing" and teeth and set(teeth) <= set(self.harmless_teeth):
            return "none"
        return next((cost for cost, faults in self.costs.items() if fault in faults), None)


class RegionWords(Part):
    """A region as a noun, and as a clause where all that the clause claims is right."""

    noun: str
    clause: str = ""


class Merit(Part):
    """One clause for points that are right together; with `option` for that answer to a choice."""

    points: tuple[str, ...] = Field(min_length=1)
    text: str
    option: str = ""


class Phrases(Part):
    """Sentences and joints; see rulesets/README.md for the slots of each."""

    male: str
    female: str
    unknown: str
    nameless: str
    week: str
    weeks: str
    months: str
    years: str
    years_month: str
    years_months: str
    span_week: str
    span_weeks: str
    span_months: str
    and_: str = Field(alias="and")
    and_last: str
    """Before the last of several words of which one holds an `and`."""
    opening: str
    opening_aged: str
    opening_height: str
    opening_aged_height: str
    but: str
    unsure: str
    unsure_several: str
    cost: str
    cost_again: str
    cost_together: str
    """One cost of several clauses."""
    function: str
    disqualifying: str
    free: str
    young: str
    all_right: str
    apart: str
    right_in: str
    nothing: str
    in_part: str
    unexamined_all: str
    more_one: str
    more: str
    inside: str
    undecided: str
    unexamined: str
    partly: str
    outcome: str
    veterinarian: str
    point: str
    fault: str
    fault_degree: str
    ratio: str


class Language(Part):
    """All that one language needs to say a critique."""

    language: str
    name: str
    decimal: Literal[".", ","]
    lower_labels: bool
    """Do labels begin with a small letter within a sentence?"""
    side_first: bool = False
    """Does the side stand before the degree, and not at the end?"""
    joints: tuple[str, ...] = Field(min_length=1)
    """Ways to put two clauses into one sentence, taken in turn."""
    degrees: Mapping[Degree, str]
    degrees_too: Mapping[Degree, str]
    """The same before `too`."""
    sides: Mapping[Literal["left", "right", "both"], str]
    worse: Mapping[str, str]
    """Both sides, and that the left or the right is the worse."""
    words: Phrases
    subjects: Mapping[str, tuple[str, ...]] = {}
    """By pronoun: what stands for a subject that the clause before began with too."""
    outcomes: Mapping[str, str] = {}
    labels: Mapping[str, str] = {}
    """Measurements by id, where the edition's own labels are in another language."""
    costs: Mapping[str, str]
    pronouns: Mapping[Sexed, tuple[str, str, str]]
    """He, his, him."""
    regions: Mapping[str, RegionWords]
    merits: tuple[Merit, ...]
    details: Mapping[str, str] = {}
    """By fault and detail, with a blank between."""
    bands: Mapping[str, str] = {}
    """Clauses for what only a limit of an edition names, by its label there."""
    dogs: Mapping[str, str] = {}
    """By pronoun the noun for the dog, where the pronoun could stand for a part just named."""
    numbers: tuple[str, ...] = ()
    """In words, from nought on."""
    faults: Mapping[str, str]

    def number(self, count: int) -> str:
        """A number in words as far as the language has them, else in figures."""
        return self.numbers[count] if count < len(self.numbers) else str(count)

    @field_validator("faults")
    @classmethod
    def _one_bar(cls, faults: Mapping[str, str]) -> Mapping[str, str]:
        for fault, clause in faults.items():
            if clause.count("|") > 1:
                raise ValueError(f'{fault} has more than one bar. Right: "clause|clause with {{x}}".')
        return faults
