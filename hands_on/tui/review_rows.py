"""The review as rows: what each says in short, what is told beside it, and the points it leads to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from hands_on.compare.dogs.changed import all_together
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.exam.answers import amended
from hands_on.exam.left_out import LEFT_OUT
from hands_on.measure.units import format_measured
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.earlier import then_and_now, verdict_text
from hands_on.tui.heard_rows import told_on_record
from hands_on.tui.parts.point_menu import note_words
from hands_on.tui.show import dotted
from hands_on.tui.widgets.findings import by_class, class_label, finding_words
from hands_on.wording.alarms import alarm_text
from hands_on.wording.dogs import chance
from hands_on.wording.findings import finding_reasons, measured_words
from hands_on.wording.growth import growth_caution, growth_sentence, growth_source
from hands_on.wording.labels import label_words
from hands_on.wording.outcome import outcome_reasons
from hands_on.wording.outlook import outlook_lines
from hands_on.wording.own_hand import whose_hand
from hands_on.wording.recheck import VERDICTS
from hands_on.wording.rules import more_takes_words, rule_sentence, until_inside_words
from hands_on.wording.uncertainty import basis_words

SIGNS = {"outside": "!", "undecided": "?"}
"""Before a limit's line, beside its words; others bear none."""


@dataclass(frozen=True)
class ReviewRow:
    """One line of the review."""

    text: str
    heading: bool = False
    detail: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    """Where it leads to; the first that the walk asks."""
    finding: Finding | None = None


def rows_of(sheet: CurrentExamination) -> tuple[ReviewRow, ...]:
    """Everything, in the order in which it matters."""
    parts = (
        ("", tuple(_state(sheet))),
        ("Findings, heaviest first", tuple(_findings(sheet)) or (ReviewRow("  nothing found"),)),
        ("To look at again", tuple(_alarms(sheet)) or (ReviewRow("  nothing"),)),
        ("Then and now", tuple(_then_and_now(sheet))),
        ("No fault here, or ruled out", tuple(_allowed(sheet))),
        ("Measurements", tuple(_measures(sheet))),
        ("What the edition asks in figures", tuple(_rules(sheet))),
        ("Notes", tuple(_notes(sheet))),
        ("Summary", tuple(_summary(sheet))),
        ("Not examined", tuple(_gaps(sheet)) or (ReviewRow("  every point has an answer"),)),
        ("Changes after the signature", tuple(_amendments(sheet))),
    )
    rows: list[ReviewRow] = []
    for title, inside in parts:
        if inside and title:
            rows.append(ReviewRow(title, heading=True))
        rows += inside
    return tuple(rows)


def _state(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    signature = sheet.session.signature
    if signature is not None:
        yield ReviewRow(f"Signed by {signature.name}, {signature.at:%Y-%m-%d %H:%M}")
    else:
        yield ReviewRow("Not signed yet: g signs")
    evaluation = sheet.evaluation
    if evaluation.disqualifying:
        names = ", ".join(sheet.ruleset.label(name) for name in evaluation.disqualifying)
        yield ReviewRow(f"DISQUALIFYING under this edition: {names}")
    counts = [
        f"{class_label(sheet.ruleset, name)} {count}"
        for name, count in reversed(list(evaluation.totals.items()))
        if count
    ]
    unsure = sum(evaluation.unsure.values())
    yield ReviewRow(
        dotted(
            "Counted: " + (", ".join(counts) or "none"), f"unsure, not counted: {unsure}" if unsure else ""
        )
    )
    yield from _left_open(sheet)


def _left_open(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    """What is left open at best and at worst, with what leaves it open beside it."""
    lines = outlook_lines(sheet.evaluation)
    if lines:
        points = tuple(name for one in sheet.evaluation.outlook.open for name in one.points)
        yield ReviewRow(lines[0], detail=lines[1:], points=points)


def _findings(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    for label, findings in by_class(sheet.ruleset, sheet.evaluation):
        for finding in findings:
            yield _finding(sheet, finding, label)


def _finding(sheet: CurrentExamination, finding: Finding, label: str) -> ReviewRow:
    not_counted = "" if finding.counts else ", not counted"
    decisions = [
        row for row in sheet.session.decisions if (row.fault, row.side) == (finding.id, finding.side)
    ]
    decided = [
        f"You decided: {row.decision}"
        + (f", as {class_label(sheet.ruleset, row.class_)}" if row.class_ else "")
        + (f", because {row.reason}" if row.reason else "")
        for row in decisions
    ]
    where = ", ".join(
        sheet.ruleset.points[name].label for name in finding.points if name in sheet.ruleset.points
    )
    detail = (
        f"What it costs the dog: {finding.function}" if finding.function else "",
        f"Measured: {measured_words(sheet.evaluation, finding)}" if finding.rules else "",
        f"Found at: {where}" if where else "",
        *finding_reasons(sheet.ruleset, finding),
        f"Veterinarian: {finding.veterinary}" if finding.veterinary else "",
        f"Source: {finding.source}" if finding.source else "",
        finding.reading,
        *decided,
    )
    return ReviewRow(
        f"  {label}: {finding_words(finding, sheet.evaluation)}{not_counted}{_other_word(sheet, finding)}",
        detail=tuple(part for part in detail if part),
        points=finding.points,
        finding=finding,
    )


def _other_word(sheet: CurrentExamination, finding: Finding) -> str:
    """That the same fault is found here and ruled out there, wherever one of the two stands."""
    found = {row.id for row in sheet.evaluation.findings if row.status != "absent"}
    denied = {row.id for row in sheet.evaluation.allowed if row.status == "absent"}
    if finding.id not in found & denied:
        return ""
    return " · BUT FOUND, see above" if finding.status == "absent" else " · BUT RULED OUT as well, see below"


def _alarms(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    for alarm in sheet.evaluation.alarms:
        yield ReviewRow(f"  ! {alarm_text(sheet.evaluation, alarm)}", points=alarm.points)


def _then_and_now(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    """In a re-check: the points answered anew, what changed first; the others stay hidden."""
    if sheet.earlier is None:
        if sheet.earlier_problem:
            yield ReviewRow(f"  ! {sheet.earlier_problem}")
        return
    found = [both for stop in sheet.stops if (both := then_and_now(sheet, stop.point)) is not None]
    order = [*VERDICTS, None]
    for both in sorted(all_together(found), key=lambda both: order.index(both.verdict)):
        yield ReviewRow(f"  {verdict_text(both)}", points=(both.point.id,))


def _allowed(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    for finding in sheet.evaluation.allowed:
        yield _finding(
            sheet,
            finding,
            "ruled out" if finding.status == "absent" else class_label(sheet.ruleset, finding.cls),
        )


def _measures(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    hand = whose_hand(sheet.session.examination.evaluator, sheet.evaluation.measures)
    if hand:
        yield ReviewRow(f"  {hand}")
    for result in sheet.evaluation.measures:
        point = sheet.ruleset.points.get(result.id)
        label = point.label if point else result.id
        side = f", {result.side}" if result.side else ""
        takes = f" ({result.takes} take{'' if result.takes == 1 else 's'})" if result.takes else ""
        young = "; too young to judge" if result.too_young else ""
        value = format_measured(result.value, result.u, result.unit)
        basis = f"± is the standard uncertainty: {basis_words(result.basis)}"
        yield ReviewRow(f"  {label}{side}: {value}{takes}{young}", detail=(basis,), points=(result.id,))
    for derived in sheet.evaluation.derived:
        value = format_measured(derived.value, derived.u, derived.unit)
        yield ReviewRow(f"  {label_words(derived.named) or derived.id}: {value}")
    for grown in sheet.evaluation.growth:
        point = sheet.ruleset.points.get(grown.id)
        source = f"Source: {growth_source(grown)}" if grown.source else ""
        text = f"  {point.label if point else grown.id} {growth_sentence(grown)}"
        yield ReviewRow(text, detail=(growth_caution(grown), source), points=(grown.id,))


def _rules(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    limits = {limit.id: limit for limit in sheet.ruleset.edition.limits}
    for rule in sheet.evaluation.rules:
        limit = limits.get(rule.id)
        detail = (
            f"Chance of being inside: {chance(rule.p_inside)}" if rule.p_inside is not None else "",
            more_takes_words(rule.more_takes, None, rule.more_takes_p),
            until_inside_words(rule),
            f"Source: {rule.source}" if rule.source else "",
            f"Read so: {rule.reading}" if rule.reading else "",
            "Practice beside the standard, never counted." if rule.optional else "",
        )
        yield ReviewRow(
            _rule_text(sheet, rule),
            detail=tuple(filter(None, detail)),
            points=limit.measures if limit else (),
        )


def _rule_text(sheet: CurrentExamination, rule: RuleResult) -> str:
    label = label_words(rule.named) or rule.id
    if rule.verdict == "not-measured":
        missing = ", ".join(
            sheet.ruleset.points[name].label if name in sheet.ruleset.points else name
            for name in rule.missing
        )
        return f"  {label}: not measured ({missing})" if missing else f"  {label}: not measured"
    return f"{SIGNS.get(rule.verdict, ' ')} {label}: {rule_sentence(sheet.evaluation, rule)}"


def _notes(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    regions = {region.id: region.label for region in sheet.ruleset.regions}
    for note in amended(sheet.session).notes:
        named = [told_on_record(sheet.ruleset, row) for row in note.findings]
        text = note.text or "; ".join(named) or note_words(note)
        yield ReviewRow(
            f"  {regions.get(note.region, note.region or 'The dog')}: {text}",
            points=(note.point,) if note.point else (),
        )


def _summary(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    now = amended(sheet.session)
    outcomes = {row.id: row.label for row in sheet.ruleset.edition.outcomes}
    if outcomes:
        given = outcomes.get(now.summary.outcome, now.summary.outcome) or "not given yet (o)"
        best = sheet.evaluation.outcome_at_most
        yield ReviewRow(
            dotted(f"  Outcome: {given}", f"at most {outcomes.get(best, best)}" if best else ""),
            detail=outcome_reasons(sheet.evaluation),
        )
        for row in _left_open(sheet):
            yield replace(row, text=f"  {row.text}")
    yield ReviewRow("  " + (now.summary.text or "nothing written yet (s)"))


def _gaps(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    left: dict[str, int] = {}
    for gap in sheet.evaluation.gaps:
        if gap.skipped and gap.reason in LEFT_OUT:
            left[gap.reason] = left.get(gap.reason, 0) + 1
            continue
        point = sheet.ruleset.points.get(gap.point)
        reason = f"skipped: {gap.reason or 'no reason given'}" if gap.skipped else "open"
        yield ReviewRow(f"  {point.label if point else gap.point}: {reason}", points=(gap.point,))
    for reason, count in left.items():
        yield ReviewRow(f"  {count} points: {reason}")


def _amendments(sheet: CurrentExamination) -> Iterator[ReviewRow]:
    for row in sheet.session.amendments:
        point = sheet.ruleset.points.get(row.point)
        what = point.label if point else "note" if row.notes else "summary" if row.summary else row.point
        at = f"{row.at:%Y-%m-%d %H:%M}" if row.at else ""
        yield ReviewRow(
            f"  {dotted(at, what, row.by)}: {row.reason}", points=(row.point,) if row.point else ()
        )
