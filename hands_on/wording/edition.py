"""An edition written out for reading: every rule in words, its source beside it."""

from __future__ import annotations

import math
import re

from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES, When
from hands_on.ruleset.points import ChoicePoint
from hands_on.ruleset.rules import Band, Cap, Combination, Follow, Limit, Range, Ruling, TeethRule, TeethRules
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "Entry",
    "Section",
    "asked_once",
    "cap_title",
    "cap_words",
    "class_words",
    "combination_words",
    "condition_words",
    "follow_title",
    "follow_words",
    "limit_entry",
    "missing_words",
    "range_words",
    "sections",
    "seen_entries",
    "teeth_words",
]


@dataclass(frozen=True)
class Entry:
    """One statement of an edition."""

    text: str
    source: str = ""
    """The keys of its sources; the edition's list of sources tells them in full."""
    note: str = ""


@dataclass(frozen=True)
class Section:
    """Statements of one kind."""

    title: str
    entries: tuple[Entry, ...]


def sections(ruleset: Ruleset) -> tuple[Section, ...]:
    """The whole edition in reading order; sections without entries are left out."""
    edition = ruleset.edition
    head = [Entry(f"{edition.title}  ({edition.id})")]
    issued = " ".join(part for part in (edition.body, edition.number) if part)
    published = f", published {edition.published}" if edition.published else ""
    issued = issued or "no issuing body"
    head.append(Entry(f"{edition.breed}; {issued}, edition {edition.edition}{published}"))
    if edition.note:
        head.append(Entry(edition.note))
    if edition.general_clause:
        clause = edition.general_clause
        text = f"{clause.text} Class: {class_words(ruleset, clause.class_)}."
        head.append(Entry(text, _keys(clause.source)))
    else:
        head.append(Entry("No general clause: a departure that no rule names stays unclassed."))
    found = [
        Section("The edition", tuple(head)),
        Section("Classes, lightest first", tuple(_classes(ruleset))),
        Section("Measured", tuple(limit_entry(ruleset, limit) for limit in edition.limits)),
        Section("Teeth", tuple(_teeth(ruleset))),
        Section("Classes of faults", tuple(_ruling(ruleset, ruling) for ruling in edition.rulings)),
        Section("What follows from the dog alone", tuple(_follow(ruleset, rule) for rule in edition.follows)),
        Section("Counted together", tuple(_combinations(ruleset))),
        Section("Asked for", tuple(_asked(ruleset))),
        Section("What the edition is silent on", tuple(_silent(ruleset))),
        Section("Asked of some dogs only", tuple(_asked_of_some(ruleset))),
        Section("Asked of the dog", tuple(_attributes(ruleset))),
        Section("Off until chosen", tuple(_switches(ruleset))),
        Section("Outcomes, best first", tuple(_outcomes(ruleset))),
        Section("Remarks", tuple(Entry(remark.text, _keys(remark.source)) for remark in edition.remarks)),
        Section("Sources", tuple(Entry(f"{key}: {text}") for key, text in _sources(ruleset).items())),
    ]
    return tuple(section for section in found if section.entries)


def limit_entry(ruleset: Ruleset, limit: Limit) -> Entry:
    """A limit in one statement."""
    derived = next((entry for entry in ruleset.derived.values() if entry.name == limit.name), None)
    point = ruleset.points.get(limit.measure or "")
    what = point.label if point else derived.label if derived else limit.name
    unit = f" {limit.unit}" if limit.unit else ""
    parts = [what + (f" ({condition})" if (condition := condition_words(ruleset, limit.when)) else "")]
    if limit.classifies:
        bands = "; ".join(f"{range_words(band, unit)}: {_sorted(ruleset, band)}" for band in limit.bands)
        parts.append(f"sorts by {limit.classifies}: {bands}")
    elif limit.asked:
        text = asked_once(limit, range_words(limit.asked, unit), " (an ideal, not a limit)")
        parts.append(f"asked{':' if text[0].isupper() else ''} {text}")
        parts += [f"{range_words(band, unit)}: {_band(ruleset, band)}" for band in limit.bands]
    text = f"{parts[0]}: {'; '.join(parts[1:])}"
    if limit.from_age is not None:
        text += f"; from {limit.from_age:g} months"
    if limit.optional:
        text += "; practice beside the standard, never counted"
    return Entry(text + ".", _keys(limit.source), _notes(limit.text, limit.reading, limit.note))


def asked_once(limit: Limit, figure: str, ideal: str, shown: str = "") -> str:
    """What a limit asks and how the edition says it, the figure once: `64 to 70 cm, both ends included`.

    `figure` is what is asked, in the limit's own unit; `shown` stands in its place (in both units); `ideal`
    is said of an ideal. Where the edition's words hold the figure they stand for it, else they follow in
    brackets.
    """
    shown = shown or figure
    words = limit.words.rstrip(".")
    spelled = re.sub(r"deg$", "deg(?:rees)?", re.escape(figure))
    at = re.search(rf"(?<![\d.,]){spelled}(?!\w|[.,]\d)", words)
    if limit.about and (at is None or "about" not in words[: at.start()].casefold()):
        shown = f"about {shown}"
    ideal = ideal if limit.ideal and (at is None or "ideal" not in words.casefold()) else ""
    if at is None:
        return shown + ideal + (f" ({words})" if words else "")
    return words[: at.start()] + shown + words[at.end() :] + ideal


def range_words(stretch: Range, unit: str = "") -> str:
    """A stretch of numbers in words: `63 to 70 cm`, `above 73 cm`, `up to and with 47 cm`."""
    low, high = stretch.low, stretch.high
    if low == -math.inf:
        return f"below {high:g}{unit}" if stretch.high_open else f"up to and with {high:g}{unit}"
    if high == math.inf:
        return f"above {low:g}{unit}" if stretch.low_open else f"{low:g}{unit} and more"
    if low == high:
        return f"{low:g}{unit}"
    start = f"above {low:g}" if stretch.low_open else f"{low:g}"
    end = f"below {high:g}" if stretch.high_open else f"{high:g}"
    return f"{start} to {end}{unit}"


def condition_words(ruleset: Ruleset, when: When | None) -> str:
    """A condition in words, empty when there is none."""
    if when is None:
        return ""
    parts: list[str] = []
    if when.sex:
        parts.append({"male": "dogs", "female": "bitches"}[when.sex])
    if when.age_from is not None:
        parts.append(f"from {when.age_from:g} months")
    if when.age_below is not None:
        parts.append(f"under {when.age_below:g} months")
    for name, values in when.attributes.items():
        attribute = ruleset.edition.attributes.get(name)
        options = attribute.options if attribute else {}
        parts.append(" or ".join(options.get(value, value).lower() for value in values))
    for label, given in (
        ("in", when.country), ("not in", when.country_not),
        ("kept for", when.purpose), ("not kept for", when.purpose_not), ("where", when.detail),
    ):  # fmt: skip
        if given:
            parts.append(f"{label} {' or '.join(given)}")
    if when.switch:
        parts.append(f"only when chosen: {' or '.join(when.switch)}")
    if when.together_with:
        parts.append("together with " + _labels(ruleset, when.together_with))
    if when.without:
        parts.append("without " + _labels(ruleset, when.without))
    return ", ".join(parts)


def _labels(ruleset: Ruleset, faults: tuple[str, ...]) -> str:
    return " and ".join(ruleset.label_within(name) for name in faults)


def class_words(ruleset: Ruleset, name: str | None) -> str:
    """A class by its label; what a ruling may say instead of one in words."""
    if name is None:
        return "by the rulings below"
    fixed = {"none": "no fault", "observation": "recorded, never counted", "unclassed": "unclassed"}
    known = ruleset.classes.get(name)
    return known.label if known else fixed.get(name, name)


def _classes(ruleset: Ruleset) -> list[Entry]:
    rows = []
    for entry in ruleset.edition.classes:
        beside = "" if entry.ladder else " (a word outside the ladder)"
        leads = f" Leads to: {entry.leads_to}" if entry.leads_to else ""
        text = " ".join(part for part in (f"{entry.label}{beside}:", entry.means) if part)
        rows.append(Entry(text.rstrip(":") + leads, _keys(entry.source)))
    return rows


def _band(ruleset: Ruleset, band: Band) -> str:
    words = class_words(ruleset, band.class_)
    if band.fault:
        label = ruleset.label_within(band.fault)
        words = f"{label}, {words}" if band.class_ else label
    if band.degree:
        words += f", {band.degree}"
    if band.tolerated:
        words += ", tolerated"
    tail = _sentences(band.label, f"found as {band.place}" if band.place else "", band.note)
    return f"{words} ({tail})" if tail else words


def _sentences(*parts: str) -> str:
    """Texts one after another, each ended as it ends, or with a semicolon."""
    told = [part.strip() for part in parts if part.strip()]
    ended = [part if part[-1] in ".;:!?" else f"{part};" for part in told[:-1]]
    return " ".join([*ended, *told[-1:]])


def _sorted(ruleset: Ruleset, band: Band) -> str:
    """What a stretch of a sorting limit says: its value, its label, or the fault that lies there."""
    return band.value or band.label or _band(ruleset, band)


def _ruling(ruleset: Ruleset, ruling: Ruling) -> Entry:
    names = ", ".join(ruleset.label(fault) for fault in ruling.faults)
    condition = condition_words(ruleset, ruling.when)
    where = f" ({condition})" if condition else ""
    if ruling.by_degree:
        steps = [(degree, ruling.by_degree[degree]) for degree in DEGREES if degree in ruling.by_degree]
        text = "; ".join(f"from {degree}: {class_words(ruleset, name)}" for degree, name in steps)
    else:
        text = class_words(ruleset, ruling.class_)
    beside = " Practice beside the standard." if ruling.optional else ""
    note = _notes(ruling.text, ruling.reading, ruling.note)
    return Entry(f"{names}{where}: {text}.{beside}", _keys(ruling.source), note)


def _follow(ruleset: Ruleset, rule: Follow) -> Entry:
    return Entry(follow_words(ruleset, rule), _keys(rule.source), _notes(rule.text, rule.reading, rule.note))


def follow_words(ruleset: Ruleset, rule: Follow) -> str:
    """What follows from what: `Long coat (long-haired): Disqualification.`"""
    condition = condition_words(ruleset, rule.when)
    return f"{follow_title(ruleset, rule)} ({condition}): {class_words(ruleset, rule.class_)}."


def follow_title(ruleset: Ruleset, rule: Follow) -> str:
    """The fault that follows: `Long coat, marked`."""
    return ", ".join([ruleset.label(rule.fault), *filter(None, (rule.detail, rule.degree))])


def combination_words(ruleset: Ruleset, rule: Combination) -> str:
    """The faults that are counted together."""
    return " and ".join(
        ruleset.label(part.fault) + (f" (from {part.from_degree})" if part.from_degree else "")
        for part in rule.all
    )


def _combinations(ruleset: Ruleset) -> list[Entry]:
    rows = []
    for entry in ruleset.edition.combinations:
        names = combination_words(ruleset, entry)
        note = _notes(entry.text, entry.reading, entry.note)
        rows.append(Entry(f"{names}: {class_words(ruleset, entry.class_)}.", _keys(entry.source), note))
    return rows


def _teeth(ruleset: Ruleset) -> list[Entry]:
    teeth = ruleset.edition.teeth
    if teeth is None:
        return []
    rows = [Entry(teeth_words(teeth), _keys(teeth.source), _notes("", teeth.reading, ""))]
    for rule in teeth.rules:
        note = _notes(rule.text, rule.reading, rule.note)
        text = f"{missing_words(rule)}: {class_words(ruleset, rule.class_)}."
        rows.append(Entry(text, _keys(rule.source), note))
    return rows


def teeth_words(rules: TeethRules) -> str:
    """What is asked of the teeth, and how they are counted."""
    exempt = f" Never counted: {', '.join(rules.exempt)}." if rules.exempt else ""
    unseen = " A tooth that cannot be seen counts as missing." if rules.unseen_is_missing else ""
    return f"{rules.text}{exempt}{unseen}"


def missing_words(rule: TeethRule) -> str:
    """How many of which teeth a rule speaks of: `1 to 2 missing of P1, M3`."""
    count = f"{rule.at_least} or more" if rule.at_most is None else f"{rule.at_least} to {rule.at_most}"
    if rule.at_least == rule.at_most:
        count = str(rule.at_least)
    which = f" of {', '.join(rule.of)}" if rule.of else ""
    which += f" other than {', '.join(rule.not_of)}" if rule.not_of else ""
    others = f", and {rule.others_at_least} or more others" if rule.others_at_least else ""
    if rule.others_at_most is not None:
        least = f"{rule.others_at_least} to " if rule.others_at_least else "at most "
        others = f", and {least}{rule.others_at_most} others" if rule.others_at_most else ", and nothing else"
    return f"{count} missing{which}{others}"


def _asked(ruleset: Ruleset) -> list[Entry]:
    rows = []
    for name in [point for point in ruleset.points if point in ruleset.edition.asked]:
        asked = ruleset.edition.asked[name]
        text = f"{ruleset.points[name].label}: {asked.text}"
        rows.append(Entry(text, _keys(asked.source), _notes("", asked.reading, asked.note)))
    for name in ruleset.edition.seen:
        rows += seen_entries(ruleset, name)
    return rows


def seen_entries(ruleset: Ruleset, name: str) -> list[Entry]:
    """What the edition makes of each option of a point that only says what is seen."""
    seen, point = ruleset.edition.seen.get(name), ruleset.points.get(name)
    if seen is None or not isinstance(point, ChoicePoint):
        return []
    right = ", ".join(option.label for option in point.options if option.id in seen.right)
    rows = [
        Entry(f"{point.label}: right are {right}", _keys(seen.source), _notes("", seen.reading, seen.note))
    ]
    for option in point.options:
        if option.fault is not None:
            how = f", {option.degree}" if option.degree else ""
            rows.append(Entry(f"{point.label}: {option.label} is {ruleset.label(option.fault)}{how}"))
    return rows


def _silent(ruleset: Ruleset) -> list[Entry]:
    return [
        Entry(entry.about + (f": {entry.note}" if entry.note else ""), _keys(entry.source))
        for entry in ruleset.edition.silent
    ]


def _asked_of_some(ruleset: Ruleset) -> list[Entry]:
    when = ruleset.edition.walk.when
    rows = [(ruleset.points[name].label, when[name]) for name in ruleset.points if name in when]
    return [Entry(f"{label}: {condition_words(ruleset, condition)}.") for label, condition in rows]


def _attributes(ruleset: Ruleset) -> list[Entry]:
    rows = []
    for name, entry in ruleset.edition.attributes.items():
        options = ", ".join(f"{label} ({word})" for word, label in entry.options.items())
        found = " Found by measuring." if entry.derived else ""
        rows.append(Entry(f"{entry.label} ({name}): {options}.{found}", _keys(entry.source), entry.note))
    return rows


def _switches(ruleset: Ruleset) -> list[Entry]:
    return [
        Entry(f"{switch.label} ({name}). {switch.caution}")
        for name, switch in ruleset.edition.switches.items()
    ]


def _outcomes(ruleset: Ruleset) -> list[Entry]:
    edition = ruleset.edition
    rows = []
    for entry in edition.outcomes:
        condition = condition_words(ruleset, entry.when)
        where = f" ({condition})" if condition else ""
        rows.append(Entry(f"{entry.label}{where}: {entry.means}", _keys(entry.source)))
    return rows + [Entry(cap_words(ruleset, cap), _keys(cap.source), cap.note) for cap in edition.caps]


def cap_words(ruleset: Ruleset, cap: Cap) -> str:
    """What rules out every outcome above which: `a finding of class Fault (from moderate): at most Good.`"""
    labels = {entry.id: entry.label for entry in ruleset.edition.outcomes}
    beside = " Practice beside the standard." if cap.optional else ""
    return f"{cap_title(ruleset, cap)}: at most {labels.get(cap.at_most, cap.at_most)}.{beside}"


def cap_title(ruleset: Ruleset, cap: Cap) -> str:
    """What rules outcomes out: `a finding of class Fault (from moderate)`."""
    what = [ruleset.label(fault) for fault in cap.faults]
    what += [f"a finding of class {class_words(ruleset, cap.class_)}"] if cap.class_ else []
    what += [f"outside {cap.limit}"] if cap.limit else []
    degree = f" (from {cap.from_degree})" if cap.from_degree else ""
    condition = condition_words(ruleset, cap.when)
    where = f" ({condition})" if condition else ""
    return f"{', '.join(what)}{degree}{where}"


def _sources(ruleset: Ruleset) -> dict[str, str]:
    """The edition's sources, and those of outcomes that it takes from common."""
    shared = {key for entry in ruleset.edition.outcomes for key in entry.source}
    return {**ruleset.edition.sources, **{key: t for key, t in ruleset.sources.items() if key in shared}}


def _keys(source: tuple[str, ...]) -> str:
    return ", ".join(source)


def _notes(text: str, reading: str, note: str) -> str:
    parts = (text, f"Read so: {reading}" if reading else "", note)
    return " ".join(part for part in parts if part)
