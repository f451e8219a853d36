"""All that is known of one point, written out for reading."""

from __future__ import annotations

from hands_on.ruleset.base import DEGREES, Sex
from hands_on.ruleset.points import Ages, ChoicePoint, MeasurePoint, Point, faults_of
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import Entry, Section, limit_entry, range_words, seen_entries
from hands_on.wording.labels import value_words
from hands_on.wording.usual import usually_right

__all__ = ["asked_in_short", "explanation", "fault_class_words", "sources_in_short"]

_KINDS = {"length": "length", "angle": "angle", "mass": "weight", "count": "number", "share": "share"}


def explanation(ruleset: Ruleset, point: Point) -> tuple[Section, ...]:
    """How the point is found, what is asked and why, what its faults cost; sources written out."""
    found = [
        Section("What this edition asks", tuple(_asked(ruleset, point))),
        Section("How to find it", tuple(_finding(point))),
        Section("Caution", _if_any(point.caution, *_region_caution(ruleset, point))),
        Section("Why it matters", _if_any(point.why)),
        Section("Departures, and what they cost the dog", tuple(_faults(ruleset, point))),
        Section("How sure a reading is", tuple(_uncertainty(ruleset, point))),
        Section("Too young to judge", tuple(_ages(ruleset, point))),
        Section("Source of this description", (Entry(ruleset.source_text(point.source)),)),
    ]
    return tuple(section for section in found if section.entries)


def asked_in_short(ruleset: Ruleset, point: Point, sex: Sex | None) -> str:
    """What the edition asks at a point of a dog of this sex, on a line, with the keys of the sources."""
    parts = _said_of(ruleset, point, sex)
    said = [f"{text} [{', '.join(keys)}]" if keys else text for text, keys in parts]
    if any(point.id in silence.points for silence in ruleset.edition.silent):
        said.append("the edition says nothing of this")
    if not said and point.id in ruleset.edition.walk.offer:
        said.append("recorded, never judged")
    if not said:
        usual = usually_right(ruleset, point)
        nothing = point.ideal or "nothing said by this edition"
        said = [f"{usual.text} [{', '.join(usual.keys)}]" if usual else nothing]
    return "; ".join(said)


def sources_in_short(ruleset: Ruleset, point: Point, sex: Sex | None) -> tuple[str, ...]:
    """What the keys of the sources in `asked_in_short` stand for."""
    keys = [key for _, own in _said_of(ruleset, point, sex) for key in own]
    if not keys and (usual := usually_right(ruleset, point)) is not None:
        keys = [*usual.keys]
    return tuple(f"{key}: {ruleset.source_text((key,))}" for key in dict.fromkeys(keys))


def _said_of(ruleset: Ruleset, point: Point, sex: Sex | None) -> list[tuple[str, tuple[str, ...]]]:
    """What the edition itself says, each with the keys of its sources."""
    asked = ruleset.asked_at(point)
    parts = [(asked.text.rstrip("."), asked.source)] if asked else []
    for limit in _limits_at(ruleset, point, sex):
        if limit.asked is None:
            continue
        unit = f" {limit.unit}" if limit.unit else ""
        what = "" if limit.measure == point.id else f"{value_words(ruleset, limit)} "
        about = "about " if limit.about else ""
        parts.append((f"{what}{about}{range_words(limit.asked, unit)}", limit.source))
    if not parts and point.fault_as_asked is not None:
        rulings = (row for row in ruleset.edition.rulings if point.fault_as_asked in row.faults)
        parts += [(row.text.rstrip("."), row.source) for row in rulings if row.text][:1]
    return parts


def _limits_at(ruleset: Ruleset, point: Point, sex: Sex | None) -> list[Limit]:
    """Limits on what is measured here that a dog of this sex has to keep."""
    return [
        limit
        for limit in ruleset.edition.limits
        if point.id in limit.measures
        and limit.asked is not None
        and (limit.when is None or sex is None or limit.when.sex in (None, sex))
    ]


def _if_any(*texts: str) -> tuple[Entry, ...]:
    return tuple(Entry(text) for text in texts if text)


def _region_caution(ruleset: Ruleset, point: Point) -> tuple[str, ...]:
    return tuple(region.caution for region in ruleset.regions if region.id == point.region)


def _asked(ruleset: Ruleset, point: Point) -> list[Entry]:
    rows: list[Entry] = []
    asked = ruleset.asked_at(point)
    if asked is not None:
        beside = " ".join(part for part in (asked.note, asked.reading) if part)
        rows.append(Entry(asked.text, ruleset.source_text(asked.source), beside))
    elif point.ideal:
        rows.append(Entry(f"{point.ideal} (what nearly every standard asks for; this edition says no more)"))
    elif said := _said_of(ruleset, point, None):
        ruled = isinstance(point, ChoicePoint)
        rows += [Entry(text, ruleset.source_text(keys)) for text, keys in said if ruled]
    elif (usual := usually_right(ruleset, point)) is not None and usual.text != _teeth_text(ruleset):
        rows.append(Entry(usual.text, ruleset.source_text(usual.keys)))
    rows += seen_entries(ruleset, point.id)
    for limit in ruleset.edition.limits:
        if point.id in limit.measures:
            entry = limit_entry(ruleset, limit)
            rows.append(Entry(entry.text, ruleset.source_text(limit.source), entry.note))
    for silence in ruleset.edition.silent:
        if point.id in silence.points:
            text = f"The edition says nothing of this ({silence.about.lower()})."
            rows.append(Entry(text, ruleset.source_text(silence.source), silence.note))
    for remark in ruleset.edition.remarks:
        if point.id in remark.points:
            rows.append(Entry(remark.text, ruleset.source_text(remark.source)))
    teeth = ruleset.edition.teeth
    if (
        point.kind == "teeth"
        and teeth is not None
        and teeth.text
        and (asked is None or asked.text != teeth.text)
    ):
        rows.append(Entry(teeth.text, ruleset.source_text(teeth.source), teeth.reading))
    return rows


def _teeth_text(ruleset: Ruleset) -> str:
    return ruleset.edition.teeth.text.rstrip(".") if ruleset.edition.teeth is not None else ""


def _finding(point: Point) -> list[Entry]:
    rows = [Entry(point.find)]
    if point.stance:
        rows.append(Entry(f"Stance: {point.stance}"))
    if isinstance(point, MeasurePoint):
        tool = f"{point.instrument}, " if point.instrument else ""
        rows.append(
            Entry(
                f"Instrument: {tool}read to {point.resolution:g} {point.unit}; {point.takes} takes are usual."
            )
        )
    return rows


def _faults(ruleset: Ruleset, point: Point) -> list[Entry]:
    rows: list[Entry] = []
    for name in faults_of(point):
        fault = ruleset.faults.get(name)
        if fault is None:
            continue
        word = fault_class_words(ruleset, name)
        vet = f" Veterinarian: {fault.veterinary}" if fault.veterinary else ""
        rows.append(Entry(f"{fault.label} ({word}): {fault.meaning}.", "", f"{fault.function}{vet}"))
    return rows


def fault_class_words(ruleset: Ruleset, fault: str) -> str:
    """How the edition ranks a fault, as far as that can be said before the dog is known."""
    fixed = {
        "none": "no fault in this edition",
        "observation": "recorded, never counted",
        "unclassed": "no class",
    }
    for ruling in ruleset.edition.rulings:
        if fault not in ruling.faults:
            continue
        if ruling.by_degree:
            steps = [degree for degree in DEGREES if degree in ruling.by_degree]
            words = ", ".join(
                f"{ruleset.classes[ruling.by_degree[d]].label} from {d}"
                for d in steps
                if ruling.by_degree[d] in ruleset.classes
            )
        else:
            known = ruleset.classes.get(ruling.class_ or "")
            words = known.label if known else fixed.get(ruling.class_ or "", "no class")
        return f"{words}, on a condition" if ruling.when else words
    clause = ruleset.edition.general_clause
    if clause is None:
        return "no class in this edition"
    known = ruleset.classes.get(clause.class_)
    return known.label if known else clause.class_


def _uncertainty(ruleset: Ruleset, point: Point) -> list[Entry]:
    if not isinstance(point, MeasurePoint):
        return []
    unit = point.unit
    share = f", and {point.u.b * 100:g} % of the reading" if point.u.b else ""
    text = (
        f"One careful take of this {_KINDS[point.quantity]} is good to about ± {point.u.a:g} {unit}{share} "
        f"(standard uncertainty). It rests on: {point.u.basis}."
    )
    low, high = point.plausible
    fence = f"Readings outside {low:g} to {high:g} {unit} are questioned at once."
    return [Entry(text, ruleset.source_text(point.u.source), point.u.note), Entry(fence)]


def _ages(ruleset: Ruleset, point: Point) -> list[Entry]:
    rows: list[Entry] = []
    if isinstance(point, MeasurePoint) and point.too_young is not None:
        rows.append(_age(ruleset, point.label, point.too_young))
    for name in faults_of(point):
        fault = ruleset.faults.get(name)
        if fault is not None and fault.always:
            rows.append(Entry(f"{fault.label}: told at any age. {fault.always}"))
        elif fault is not None and fault.too_young is not None:
            rows.append(_age(ruleset, fault.label, fault.too_young))
    return rows


def _age(ruleset: Ruleset, label: str, ages: Ages) -> Entry:
    size = ruleset.edition.size_class
    if size is not None:
        months = f"from {getattr(ages, size):g} months in a breed of this size"
    else:
        months = (
            f"from {ages.small:g} months in a small breed, {ages.medium:g} in a medium, "
            f"{ages.large:g} in a large, {ages.giant:g} in a giant one"
        )
    return Entry(f"{label}: {months}.", ruleset.source_text(ages.source), ages.note)
