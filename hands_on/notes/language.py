"""How evaluators talk, as data: the model of `rulesets/common/language.toml`.

The file's head explains each table. Unknown tables and keys are errors; `language_check` finds what stands
in the wrong list or is missing.
"""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

__all__ = ["Affirming", "Language", "Seen", "WordSets"]


def _split(value: Any) -> Any:
    return frozenset(value.split()) if isinstance(value, str) else value


WordSet = Annotated[frozenset[str], BeforeValidator(_split)]
"""Single words; in the file one text with blanks between them."""

Phrases = tuple[str, ...]


class Table(BaseModel):
    """Base of all tables: what is not known here is an error, nothing changes once read."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class PartOfDog(Table):
    """What a part is called, and which fault each quality of it is (`"quality ..." = "fault ..."`)."""

    words: Phrases
    region: str
    gives: dict[str, str] = {}
    measures: Phrases = ()


class Screen(Table):
    """What a quality without a part speaks of while a region is on screen."""

    parts: Phrases = ()
    bare: dict[str, str] = {}


class Place(Table):
    """A place on the dog: the parts that stand for it and the regions it points to."""

    words: Phrases
    parts: Phrases = ()
    regions: Phrases = ()


class Degrees(Table):
    """Phrases for each degree."""

    slight: Phrases = ()
    moderate: Phrases = ()
    marked: Phrases = ()
    extreme: Phrases = ()


class Sides(Table):
    """Phrases for the sides, and where a word is none."""

    left: Phrases = ()
    right: Phrases = ()
    both: Phrases = ()
    compact: dict[str, str] = {}
    left_if_part: Phrases = ()
    right_if_part: Phrases = ()
    not_left_before: frozenset[str] = frozenset()
    not_right_before: frozenset[str] = frozenset()
    not_right_after: frozenset[str] = frozenset()


class Statuses(Table):
    """Phrases that rule out, doubt, or only look as if they did."""

    absent_before: Phrases = ()
    absent_after: Phrases = ()
    there_after: Phrases = ()
    unsure_before: Phrases = ()
    unsure_after: Phrases = ()
    neutral: Phrases = ()
    double: Phrases = ()
    double_unsure: Phrases = ()
    except_: Phrases = Field(default=(), alias="except")
    contrast: Phrases = ()
    beyond: Phrases = ()
    absence: frozenset[str] = frozenset()
    """Faults that are themselves the lack of something."""
    not_there: frozenset[str] = frozenset()


class TalkAbout(Table):
    """Praise, people, verdicts, corrections, and words that say nothing."""

    praise: Phrases = ()
    verdict: Phrases = ()
    asked: Phrases = ()
    people: Phrases = ()
    others: Phrases = ()
    then: Phrases = ()
    nods: frozenset[str] = frozenset()
    correct: Phrases = ()
    right: Phrases = ()
    idioms: Phrases = ()
    askable: frozenset[str] = frozenset()
    """Faults that some standard asks for."""
    well_before: frozenset[str] = frozenset()
    not_alone: frozenset[str] = frozenset()
    pictures: frozenset[str] = frozenset()
    """Qualities whose words are ordinary English: one word of theirs says nothing without its part."""
    blocked: frozenset[str] = frozenset()
    filler: WordSet = frozenset()
    setting: WordSet = frozenset()


class SmallWords(Table):
    """Words left out of phrases or passed over inside them."""

    drop: WordSet = frozenset()
    keep_in_after: WordSet = frozenset()
    pass_: WordSet = Field(default=frozenset(), alias="pass")


class Spelling(Table):
    """Contractions, spoken breaks, abbreviations, conjunctions."""

    abbreviations: WordSet = frozenset()
    contractions: dict[str, str] = {}
    spoken_breaks: dict[str, str] = {}
    and_: Phrases = Field(default=(), alias="and")
    or_: Phrases = Field(default=(), alias="or")
    wide_not: frozenset[str] = frozenset()


class NumberWords(Table):
    """Numbers as words."""

    words: dict[str, float] = {}
    fractions: dict[str, float] = {}
    not_before: frozenset[str] = frozenset()


class Units(Table):
    """What each unit is called; `quantities` tells what it measures."""

    cm: Phrases = ()
    mm: Phrases = ()
    in_: Phrases = Field(default=(), alias="in")
    ft: Phrases = ()
    kg: Phrases = ()
    lb: Phrases = ()
    g: Phrases = ()
    deg: Phrases = ()
    m: Phrases = ()
    quantities: dict[str, str] = {}

    def names(self) -> dict[str, Phrases]:
        """The words for each unit, by the unit."""
        return {unit: words for unit, words in self.model_dump(by_alias=True).items() if unit != "quantities"}


class Measuring(Table):
    """Which measurement a number is."""

    default: dict[str, dict[str, str]] = {}
    any: dict[str, str] = {}
    bare: dict[str, str] = {}
    by_fault: dict[str, str] = {}
    gaps: WordSet = frozenset()
    scales: dict[str, Phrases] = {}
    dimensions: dict[str, WordSet] = {}
    landmarks: dict[str, Phrases] = {}
    between: dict[str, str] = {}


class Subordinate(Table):
    """Words that open a comparison or a circumstance."""

    words: frozenset[str] = frozenset()


class Affirming(Table):
    """What people say when a point is as asked.

    Praise of one of `parts` is enough; a state counts beside one of `of`, or of `parts` where that is empty;
    a phrase counts alone. `option` is the answer of a choice; `against` names faults besides the point's own
    that forbid it. The point is right too where a fault of `ruled_out` is, or a measurement has its value of
    `counts`. What `sums_up` others (type, gait, proportions) is heard, and the evaluator is asked.
    `set_phrases` are phrases of the trade that mean nothing else.
    """

    parts: Phrases = ()
    of: Phrases = ()
    states: Phrases = ()
    phrases: Phrases = ()
    option: str | None = None
    against: Phrases = ()
    sums_up: bool = False
    ruled_out: Phrases = ()
    counts: dict[str, float] = {}
    set_phrases: Phrases = ()


class Seen(Table):
    """What people say for each option of a point that only tells what is seen, beside a part of `of`."""

    of: Phrases = ()
    options: dict[str, Phrases] = {}


class WordSets(Table):
    """Small sets of words that one rule of the reader asks for; each is explained where it stands."""

    no_side_before: WordSet = frozenset()
    once: WordSet = frozenset()
    short_of: WordSet = frozenset()
    regret: WordSet = frozenset()
    today: WordSet = frozenset()
    sites: WordSet = frozenset()
    weight_amiss: WordSet = frozenset()
    kin: WordSet = frozenset()
    not_kin_after: WordSet = frozenset()
    kin_was: WordSet = frozenset()
    dog_does: WordSet = frozenset()
    amounts: WordSet = frozenset()
    feeling: WordSet = frozenset()
    far_to: WordSet = frozenset()
    no_verb: WordSet = frozenset()
    before_verb: WordSet = frozenset()
    behind_state: WordSet = frozenset()
    auxiliary: WordSet = frozenset()
    denying: WordSet = frozenset()
    near_stress: WordSet = frozenset()
    very: WordSet = frozenset()
    keeps_trade: WordSet = frozenset()
    small_talk: WordSet = frozenset()
    particles: WordSet = frozenset()
    placing: WordSet = frozenset()
    after_particle: WordSet = frozenset()
    not_after_particle: WordSet = frozenset()
    side_nouns: WordSet = frozenset()
    not_side_after: WordSet = frozenset()
    side_after: WordSet = frozenset()
    looking: WordSet = frozenset()
    only_that: WordSet = frozenset()
    tried: WordSet = frozenset()
    able: WordSet = frozenset()
    rules: WordSet = frozenset()
    ruling: WordSet = frozenset()
    costing: WordSet = frozenset()
    purposes: WordSet = frozenset()
    judging: WordSet = frozenset()
    no_measure_after: WordSet = frozenset()
    no_unit_before: WordSet = frozenset()
    stress_measure: WordSet = frozenset()
    about: WordSet = frozenset()
    by_so_much: WordSet = frozenset()
    weak_names: WordSet = frozenset()
    where: WordSet = frozenset()
    links: WordSet = frozenset()
    measured_from: WordSet = frozenset()
    measured_against: WordSet = frozenset()
    measuring: WordSet = frozenset()
    neutral: WordSet = frozenset()
    whole_dog: WordSet = frozenset()
    ages: WordSet = frozenset()
    furniture: WordSet = frozenset()
    likewise: WordSet = frozenset()
    stress_inside: WordSet = frozenset()
    stress: WordSet = frozenset()
    compared: WordSet = frozenset()
    asking: WordSet = frozenset()
    measured: WordSet = frozenset()
    ought: WordSet = frozenset()
    instead: WordSet = frozenset()
    spoils: WordSet = frozenset()
    dimensions: WordSet = frozenset()
    counted_whole: WordSet = frozenset()
    of_how_much: WordSet = frozenset()
    descriptive: WordSet = frozenset()
    but_for: WordSet = frozenset()
    hedged: WordSet = frozenset()
    hedges: WordSet = frozenset()
    praising: WordSet = frozenset()
    bare: WordSet = frozenset()
    own: WordSet = frozenset()
    paired: WordSet = frozenset()
    taken_off: WordSet = frozenset()
    rest: WordSet = frozenset()
    of_teeth: WordSet = frozenset()
    fore_words: WordSet = frozenset()
    hind_words: WordSet = frozenset()
    modal: WordSet = frozenset()
    hearsay: WordSet = frozenset()
    mine: WordSet = frozenset()
    articles: WordSet = frozenset()
    leading: WordSet = frozenset()
    the_dog: WordSet = frozenset()
    reporting: WordSet = frozenset()
    retract: WordSet = frozenset()
    no: WordSet = frozenset()
    correcting: WordSet = frozenset()
    settling: WordSet = frozenset()
    limits: WordSet = frozenset()
    other_days: WordSet = frozenset()
    was_measured: WordSet = frozenset()
    now_measured: WordSet = frozenset()
    correcting_strong: WordSet = frozenset()


class Language(Table):
    """The whole file; empty, as here without arguments, it knows no word."""

    classes: dict[str, Phrases] = {}
    parts: dict[str, PartOfDog] = {}
    qualities: dict[str, Phrases] = {}
    regions: dict[str, Screen] = {}
    degrees: Degrees = Degrees()
    sides: Sides = Sides()
    subordinate: Subordinate = Subordinate()
    locations: dict[str, Place] = {}
    status: Statuses = Statuses()
    talk: TalkAbout = TalkAbout()
    shorthand: dict[str, str] = {}
    sounds: dict[str, str] = {}
    heard: dict[str, dict[str, str]] = {}
    small: SmallWords = SmallWords()
    words: Spelling = Spelling()
    numbers: NumberWords = NumberWords()
    units: Units = Units()
    measures: Measuring = Measuring()
    sets: WordSets = WordSets()
    affirms: dict[str, Affirming] = {}
    seen: dict[str, Seen] = {}
    moving: dict[str, str] = {}
    confidence: dict[str, float] = {}
    affirming: dict[str, float] = {}
