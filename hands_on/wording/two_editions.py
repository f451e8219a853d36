"""Two editions compared, in words. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby

from hands_on.compare.editions.limits import meanings, unit_of_limit
from hands_on.compare.editions.rule_pair import (
    Comparison,
    Difference,
    FaultClasses,
    Kind,
    Lack,
    Ladder,
    RulePair,
    Said,
    SectionKey,
    Text,
    Walked,
)
from hands_on.frozen import dataclass
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.rules import (
    Asked,
    Attribute,
    Cap,
    Combination,
    Follow,
    GeneralClause,
    Limit,
    Outcome,
    Silence,
    Switch,
    TeethRule,
    TeethRules,
)
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import (
    cap_title,
    cap_words,
    class_words,
    combination_words,
    condition_words,
    follow_title,
    follow_words,
    missing_words,
    teeth_words,
)
from hands_on.wording.labels import value_words
from hands_on.wording.limit_pairs import (
    fault_classes_words,
    lies_words,
    limit_words,
    shown_unit,
    stretch_words,
)

__all__ = [
    "NOTHING",
    "ToldComparison",
    "ToldRule",
    "ToldSection",
    "ToldStretch",
    "difference_words",
    "heads_differ",
    "lack_words",
    "told",
    "told_once",
]

NOTHING = "nothing"
"""Said of an edition that has no such rule."""

_DIFFERENCES: Mapping[Difference, str] = {
    "figures": "other figures",
    "ends": "the ends belong elsewhere",
    "unit": "another unit",
    "class": "another class",
    "fault": "another fault",
    "condition": "another condition",
    "words": "other words",
}

_TITLES: Mapping[SectionKey, str] = {
    "editions": "The editions",
    "classes": "Classes",
    "unnamed": "What no list names",
    "limits": "Measured",
    "teeth": "Teeth",
    "rulings": "Classes of faults",
    "combinations": "Counted together",
    "follows": "What follows from the dog alone",
    "asked": "Asked for",
    "silences": "What one of them is silent on",
    "measured": "What is measured",
    "attributes": "Asked of the dog",
    "switches": "Off until chosen",
    "outcomes": "Outcomes",
}

_LABELS: Mapping[tuple[Kind, str], str] = {
    ("edition", "breed"): "Breed",
    ("edition", "body"): "Issued by",
    ("edition", "number"): "Number",
    ("edition", "edition"): "Edition",
    ("edition", "published"): "Published",
    ("edition", "unit"): "Lengths first asked in",
    ("edition", "size_class"): "Size class",
    ("edition", "confidence"): "How sure a verdict must be",
    ("class", "ladder"): "Classes, lightest first",
    ("class", "beside"): "Beside them",
    ("general-clause", "general-clause"): "A departure that no ruling names",
    ("teeth", "teeth"): "Asked for",
}


@dataclass(frozen=True)
class ToldStretch:
    """A stretch of values on which two editions do not say the same; the keys of the JSON document."""

    low: float | None
    high: float | None
    low_open: bool
    high_open: bool
    unit: str
    """Empty for a share."""
    text: str
    """The stretch, in both units where they differ."""
    a: str
    b: str


@dataclass(frozen=True)
class ToldRule:
    """One rule in both editions, in words; an empty side says nothing. The keys of the JSON document."""

    kind: Kind
    id: str
    label: str
    when: str
    """The condition or the detail under which it holds; empty: always."""
    a: str
    b: str
    differs: tuple[Difference, ...]
    source_a: str
    source_b: str
    stretches: tuple[ToldStretch, ...]


@dataclass(frozen=True)
class ToldSection:
    """Rules of one kind; `same` of them say the same in both editions."""

    key: SectionKey
    title: str
    rows: tuple[ToldRule, ...]
    same: int


@dataclass(frozen=True)
class ToldComparison:
    """Two editions rule by rule, in words."""

    a: Ruleset
    b: Ruleset
    sections: tuple[ToldSection, ...]

    def row(self, kind: Kind, name: str, when: str = "") -> ToldRule | None:
        """The rule of this kind, id and condition; None where the editions do not differ in it."""
        rows = (row for section in self.sections for row in section.rows)
        return next((row for row in rows if (row.kind, row.id, row.when) == (kind, name, when)), None)


def told(found: Comparison) -> ToldComparison:
    """A comparison in words."""
    return ToldComparison(
        found.a,
        found.b,
        tuple(
            ToldSection(
                section.key,
                _TITLES[section.key],
                tuple(_told(found, pair) for pair in section.pairs),
                section.same,
            )
            for section in found.sections
        ),
    )


def _told(found: Comparison, pair: RulePair) -> ToldRule:
    label = _label(found, pair)
    home = found.b if pair.only_b else found.a
    return ToldRule(
        pair.kind,
        _id(found, pair),
        label,
        pair.detail or condition_words(home, pair.when),
        _said(found.a, pair, pair.a, pair.b, found.b),
        _said(found.b, pair, pair.b, pair.a, found.a),
        pair.differs,
        ", ".join(pair.source_a),
        ", ".join(pair.source_b),
        tuple(
            ToldStretch(
                one.low,
                one.high,
                one.low_open,
                one.high_open,
                shown_unit(one.unit),
                stretch_words(one),
                lies_words(found.a, one.a),
                lies_words(found.b, one.b),
            )
            for one in pair.stretches
        ),
    )


def _id(found: Comparison, pair: RulePair) -> str:
    """What names the rule: what it is of, or where nothing else does its own words."""
    ruleset, rule = (found.b, pair.b) if pair.only_b else (found.a, pair.a)
    if isinstance(rule, Follow):
        return follow_words(ruleset, rule)
    if isinstance(rule, Cap):
        return cap_words(ruleset, rule)
    return pair.id or _label(found, pair)


def _label(found: Comparison, pair: RulePair) -> str:
    ruleset, rule = (found.b, pair.b) if pair.only_b else (found.a, pair.a)
    fixed = _LABELS.get((pair.kind, pair.id))
    if fixed is not None:
        return fixed
    if isinstance(rule, Limit):
        return value_words(ruleset, rule)
    if isinstance(rule, Combination):
        return combination_words(ruleset, rule)
    if isinstance(rule, TeethRule):
        return missing_words(rule)
    if isinstance(rule, Follow):
        return follow_title(ruleset, rule)
    if isinstance(rule, Cap):
        return cap_title(ruleset, rule)
    if pair.kind == "ruling":
        return (found.a if pair.id in found.a.faults else found.b).label(pair.id)
    if pair.kind in ("asked", "silence", "measured"):
        return _point(found, pair.id)
    return pair.id


def _point(found: Comparison, point: str) -> str:
    known = found.a.points.get(point) or found.b.points.get(point)
    if known is None:
        return point
    return known.label + (", measured" if isinstance(known, MeasurePoint) else "")


def _said(ruleset: Ruleset, pair: RulePair, said: Said | None, beside: Said | None, other: Ruleset) -> str:
    """What one edition says, beside what the other does."""
    match said:
        case None:
            return "no general clause: unclassed" if pair.kind == "general-clause" else ""
        case Lack():
            return lack_words(said)
        case Text():
            return said.text
        case Walked():
            return "recorded, never judged" if said.how == "recorded" else said.how
        case Ladder():
            labels = (one.label + (" (disqualifies)" if one.disqualifies else "") for one in said.classes)
            return (" < " if said.ordered else ", ").join(labels)
        case FaultClasses():
            return fault_classes_words(ruleset, said)
        case Limit():
            unit = unit_of_limit(other, beside) if isinstance(beside, Limit) else ""
            return limit_words(ruleset, said, meanings(ruleset, said), unit)
        case GeneralClause():
            return f"{class_words(ruleset, said.class_)}. {said.text}"
        case Combination() | TeethRule():
            return class_words(ruleset, said.class_)
        case TeethRules():
            return teeth_words(said)
        case Follow():
            return follow_words(ruleset, said)
        case Cap():
            return cap_words(ruleset, said)
        case Asked():
            return f"asked: {said.text}" if pair.kind == "silence" else said.text
        case Silence():
            return said.note or "silent"
        case Attribute():
            return f"{said.label}: {', '.join(said.options.values())}"
        case Switch():
            return f"{said.label}. {said.caution}"
        case Outcome():
            when = condition_words(ruleset, said.when)
            return f"{said.label} ({when})" if when else said.label


def lack_words(lack: Lack) -> str:
    """Why an edition has no rule."""
    words = {"nothing-of-its-own": "nothing of its own", "not-asked": "not asked", "no-limit": "no limit"}
    return f"silent: {lack.about}" if lack.kind == "silent" else words[lack.kind]


def told_once(section: ToldSection) -> Iterator[tuple[str, ToldRule]]:
    """The rows of a section with their titles; rows on which the editions say the same two things are one."""
    for _, group in groupby(section.rows, key=lambda row: (row.a, row.b, row.stretches)):
        rows = list(group)
        titles = [row.label + (f" ({row.when})" if row.when else "") for row in rows]
        yield "; ".join(dict.fromkeys(titles)), rows[0]


def heads_differ(found: Comparison | ToldComparison) -> str:
    """That the editions are of two breeds; empty when they are of one."""
    a, b = found.a.edition.breed, found.b.edition.breed
    return "" if a == b else f"These are two breeds: {a} and {b}."


def difference_words(row: ToldRule, a: str, b: str) -> str:
    """What differs, in a few words; `a` and `b` are what the editions are called."""
    words = {**_DIFFERENCES, "only-a": f"only in {a}", "only-b": f"only in {b}"}
    return ", ".join(words[one] for one in row.differs)
