"""What the walk shows of a point, as texts: head, progress, what the takes give, what stood there before."""

from __future__ import annotations

from collections.abc import Collection

from textual.content import Content

from hands_on.exam.answers import amended, place_of
from hands_on.exam.dialogue import Dialogue
from hands_on.exam.dialogue.departures import Graded
from hands_on.exam.walk import Stop
from hands_on.measure.units import format_measured
from hands_on.plain_text import one_line
from hands_on.ruleset.points import MeasurePoint
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.show import dotted, line, plain
from hands_on.wording.alarms import alarm_text
from hands_on.wording.findings import side_words
from hands_on.wording.labels import label_words
from hands_on.wording.point import asked_in_short, fault_class_words, sources_in_short
from hands_on.wording.rules import rule_sentence

SEXES = {"male": "dog", "female": "bitch"}


def place_words(sheet: CurrentExamination, stop: Stop) -> str:
    """The region, and which of its points this is."""
    inside = [other.index for other in sheet.stops if other.region.id == stop.region.id]
    return f"{stop.region.label}, point {inside.index(stop.index) + 1} of {len(inside)}"


def guidance(sheet: CurrentExamination, stop: Stop) -> list[tuple[str, str]]:
    """All that is told at the point before it is answered, most needed first."""
    point, ruleset = stop.point, sheet.ruleset
    sex = sheet.session.dog.sex
    return [
        ("Again", sheet.again.get(point.id, "")),
        ("Asked", asked_in_short(ruleset, point, sex)),
        ("Caution", point.caution),
        ("Find", point.find),
        ("Stance", point.stance),
        ("Why", point.why),
        *(("Source", text) for text in sources_in_short(ruleset, point, sex)),
    ]


def who_words(sheet: CurrentExamination) -> str:
    """The dog and its edition."""
    dog = sheet.session.dog
    name = dog.call_name or dog.registered_name or "no name"
    return dotted(name, SEXES.get(dog.sex or "", ""), sheet.age_words(), sheet.ruleset.edition.title)


def progress_words(sheet: CurrentExamination) -> str:
    """How far the examination is."""
    answered, skipped, left = sheet.counts()
    signed = "SIGNED: changes become amendments" if sheet.signed else ""
    return dotted(f"{answered} answered", f"{skipped} skipped" if skipped else "", f"{left} left", signed)


def result_rows(sheet: CurrentExamination, stop: Stop, dialogue: Dialogue, before: str) -> list[Content]:
    """What a fault costs while its degree is asked; a skip, or what the takes give and what each limit says
    to it; what notes have recorded here; `before` tells of the earlier answer.
    """
    answers = dialogue.answers
    skip = answers.skip
    rows: list[Content] = [plain(text) for text in _cost(sheet, dialogue)]
    if skip is not None and not answers.given:
        what = "" if skip.point else "the whole region "
        rows.append(line(f"Skipped: {what}{skip.reason or 'no reason given'} (u takes it back)", "bold"))
    if isinstance(stop.point, MeasurePoint):
        rows += [plain(text) for text in _measured(sheet, stop.point)]
    elif answers.given:
        rows += [plain(text) for text in _contradicted(sheet, stop)]
    rows += [plain(text) for text in (before, sheet.earlier_problem, *_noted(sheet, stop)) if text]
    return rows


def _contradicted(sheet: CurrentExamination, stop: Stop) -> list[str]:
    """What stands against an answer here: another that says the opposite, one that seldom goes with it."""
    return list(contradictions(sheet, stop.point.id))


def contradictions(sheet: CurrentExamination, point: str = "") -> tuple[str, ...]:
    """Answers that say the opposite, or seldom stand together; with `point` those there."""
    return tuple(
        f"! {alarm_text(sheet.evaluation, row)}"
        for row in sheet.evaluation.alarms
        if row.kind in ("contradiction", "together") and (not point or point in row.points)
    )


def raised(sheet: CurrentExamination, before: Collection[str]) -> str:
    """The contradictions that were not there `before`, each on a line of its own."""
    return "\n".join(one for one in contradictions(sheet) if one not in before)


def _cost(sheet: CurrentExamination, dialogue: Dialogue) -> list[str]:
    """Class and cost of the departure whose degree or side is being asked."""
    fault = dialogue.pending_fault if isinstance(dialogue, Graded) else None
    known = sheet.ruleset.faults.get(fault or "")
    if fault is None or known is None:
        return []
    return [f"Class: {fault_class_words(sheet.ruleset, fault)}", f"In use: {known.function}"]


def _noted(sheet: CurrentExamination, stop: Stop) -> list[str]:
    """What notes and calls have recorded at this point, and the words of those written here."""
    rows = []
    for note in amended(sheet.session).notes:
        if note.point == stop.point.id and note.text:
            rows.append(f"Noted here: “{one_line(note.text)}”")
        for row in note.findings:
            if place_of(sheet.ruleset, note, row) == stop.point.id:
                status = "" if row.status == "present" else row.status
                parts = (sheet.ruleset.label(row.fault), row.degree, side_words(row.side, row.worse), status)
                rows.append("From a note: " + ", ".join(part for part in parts if part))
    return rows


def _measured(sheet: CurrentExamination, point: MeasurePoint) -> list[str]:
    evaluation = sheet.evaluation
    rows = []
    for result in evaluation.measures:
        if result.id == point.id:
            value = format_measured(result.value, result.u, result.unit)
            takes = f"{result.takes} take{'' if result.takes == 1 else 's'}"
            young = "; too young to judge" if result.too_young else ""
            side = f" {result.side}" if result.side else ""
            rows.append(f"= {value}{side} ({takes}){young}")
    if not rows:
        return []
    touching = {limit.id for limit in sheet.ruleset.edition.limits if point.id in limit.measures}
    for rule in evaluation.rules:
        if rule.id in touching and rule.verdict != "not-measured":
            label = f"{label_words(rule.named)}: " if rule.named else ""
            rows.append(f"  {label}{rule_sentence(evaluation, rule)}")
    alarms = (alarm for alarm in evaluation.alarms if point.id in alarm.points)
    rows += [f"! {alarm_text(evaluation, alarm)}" for alarm in alarms]
    return rows
