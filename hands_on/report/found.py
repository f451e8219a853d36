"""Findings by class and degree, heaviest first, and what is no fault here."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.evaluate.result import Evaluation, Finding
from hands_on.report.statement import Statement
from hands_on.ruleset.base import DEGREES
from hands_on.wording.findings import (
    finding_reasons,
    measured_words,
    reason_words,
    side_words,
    telling_reasons,
)
from hands_on.wording.labels import label_words
from hands_on.wording.outlook import finding_class_words
from hands_on.wording.rules import class_name

__all__ = ["allowed_statements", "by_weight", "class_label", "finding_groups", "finding_title", "heaviest"]


_MANY = 12
"""Of more findings than these only the class that counts most is told with what each costs at work."""


def by_weight(evaluation: Evaluation) -> list[Finding]:
    """Findings that weigh most first: counted before not counted, by class, then by degree."""
    classes = evaluation.classes

    def key(finding: Finding) -> tuple[bool, bool, int, int]:
        degree = DEGREES.index(finding.degree) if finding.degree is not None else -1
        unsure = finding.status == "unsure"
        return (not finding.counts, unsure, -classes.weight(finding.cls or ""), -degree)

    return sorted(evaluation.findings, key=key)


def heaviest(evaluation: Evaluation) -> Finding | None:
    """The sure finding that counts most."""
    return next((one for one in by_weight(evaluation) if one.counts and one.status == "present"), None)


def class_label(evaluation: Evaluation, cls: str | None) -> str:
    """A class in words."""
    return class_name(evaluation.classes.ruleset, cls or "unclassed")


def finding_title(finding: Finding) -> str:
    """What it is: label, detail, degree, side."""
    return _title(finding, degree=True)


def _title(finding: Finding, *, degree: bool) -> str:
    named = label_words(finding.named)
    label = named[:1].upper() + named[1:]
    rest = (finding.detail, finding.degree if degree else "", side_words(finding.side, finding.worse))
    return ", ".join((label, *filter(None, rest)))


def finding_groups(evaluation: Evaluation, full: bool) -> Iterator[Statement]:
    """Each class with its findings, those that do not count last."""
    groups: dict[str, list[Finding]] = {}
    for finding in by_weight(evaluation):
        groups.setdefault(_group(evaluation, finding), []).append(finding)
    first = heaviest(evaluation)
    many = not full and sum(finding.counts for finding in evaluation.findings) > _MANY
    costs = {first.function} if first is not None else set()  # the five lines told it
    readings: set[str] = set()  # each reading of ours is told once, where the first class rests on it
    clauses: set[str] = set()
    short = False
    for name, findings in groups.items():
        why = _why_of_all(evaluation, findings)
        ours = _reading_of_all(findings) - readings
        readings |= ours
        more = "".join(f"; read so: {one.rstrip('.')}" for one in sorted(ours))
        yield Statement(f"{name}: {len(findings)}{f'; {why}' if why else ''}{more}", heading=True)
        if many and first is not None and findings[0].cls != first.cls:
            short = True
            yield from _by_degree(evaluation, findings, why, readings)
            continue
        for finding in findings:
            told = not full and finding.function in costs
            said = "; ".join((why, *clauses))
            yield _finding(evaluation, finding, full, told=told, why=said, readings=readings)
            costs.add(finding.function)
            readings.add(finding.reading)
            clauses |= _general(evaluation, finding) if full else set()
    if short:
        yield Statement("What these cost at work stands in the report: hands-on report FILE")


def _general(evaluation: Evaluation, finding: Finding) -> set[str]:
    """The general clause a finding rests on: it is the same for all, and told once."""
    ruleset = evaluation.classes.ruleset
    return {reason_words(ruleset, one) for one in finding.reasons if one.kind == "general-clause"}


def _why_of_all(evaluation: Evaluation, findings: list[Finding]) -> str:
    """A reason that several findings of a class have in common is told once."""
    each = [set(telling_reasons(evaluation.classes.ruleset, finding)) for finding in findings]
    common = set.intersection(*each) if len(each) > 1 else set()
    return "; ".join(sorted(common))


def _reading_of_all(findings: list[Finding]) -> set[str]:
    """The reading of the edition that all classes of a group rest on."""
    each = {finding.reading for finding in findings}
    return each - {""} if len(findings) > 1 and len(each) == 1 else set()


def _by_degree(
    evaluation: Evaluation, findings: list[Finding], why: str, readings: set[str]
) -> Iterator[Statement]:
    """Many findings of a class: those of a degree in one line, unless there is more to tell of one.

    The readings that they rest on stand together below.
    """
    plain: dict[str, list[Finding]] = {}
    others: list[Statement] = []
    ours: list[str] = []
    for finding in findings:
        if finding.reading and not finding.too_young and finding.reading not in readings:
            ours.append(f"{_title(finding, degree=False)}: {finding.reading.rstrip('.')}")
            readings.add(finding.reading)
        told = _finding(evaluation, finding, full=False, told=True, why=why, readings=readings)
        if told.more or told.text != finding_title(finding):
            others.append(told)
        else:
            plain.setdefault(finding.degree or "", []).append(finding)
    for degree, same in plain.items():
        titles = "; ".join(_title(one, degree=False) for one in same)
        sources = tuple(dict.fromkeys(key for one in same for key in one.sources))
        yield Statement(f"{degree[:1].upper()}{degree[1:]}: {titles}" if degree else titles, sources)
    yield from others
    if ours:
        yield Statement(f"Read so: {'; '.join(ours)}")


def _group(evaluation: Evaluation, finding: Finding) -> str:
    if finding.decision == "dismiss":
        return "Dismissed by the evaluator"
    if finding.too_young:
        return "Too young to judge, not counted"
    one = evaluation.outlook.of(finding)
    if one is not None and one.chances:
        return "Class not settled, not in the totals" if finding.status == "unsure" else "Class not settled"
    cls = class_label(evaluation, finding.cls)
    cls = cls[:1].upper() + cls[1:]
    return f"{cls}, unsure, not in the totals" if finding.status == "unsure" else cls


def _finding(
    evaluation: Evaluation, finding: Finding, full: bool, *, told: bool, why: str, readings: set[str]
) -> Statement:
    """What it is and why, unless `why` says it of all, and what it costs unless that is `told`.

    The reading that its class rests on is told unless it is among `readings`; in full always.
    """
    title = finding_title(finding)
    if finding.too_young:
        since = f"until {finding.judged_from:g} months; " if finding.judged_from else ""
        unsure = ", unsure" if finding.status == "unsure" else ""
        title += f" ({since}if grown: {class_label(evaluation, finding.cls)}{unsure})"
    elif chances := finding_class_words(evaluation, finding):
        title += f" ({chances})"
    use = f"At work: {finding.function}" if finding.function else ""
    ruleset = evaluation.classes.ruleset
    if not full:
        reasons = tuple(one for one in telling_reasons(ruleset, finding) if one not in why)
        if finding.reading and not finding.too_young and finding.reading not in readings:
            reasons = (*reasons, f"Read so: {finding.reading.rstrip('.')}")
        return Statement(title, finding.sources, (*reasons, use) if finding.counts and not told else reasons)
    more = [measured_words(evaluation, finding)]
    more += [one for one in finding_reasons(ruleset, finding) if one not in why]
    more.append(use)
    more.append(f"Veterinarian: {finding.veterinary}" if finding.veterinary else "")
    more.append(f"How it is read: {finding.reading}" if finding.reading else "")
    return Statement(title, finding.sources, tuple(one[:1].upper() + one[1:] for one in more if one))


def allowed_statements(evaluation: Evaluation, full: bool) -> Iterator[Statement]:
    """What was seen and is no fault here, or was looked for and ruled out; what is said alike of several
    findings is said once.
    """
    words = {"none": "", "observation": "recorded, never counted"}
    ruleset = evaluation.classes.ruleset
    out: list[str] = []
    alike: dict[str, list[Finding]] = {}
    for finding in evaluation.allowed:
        since = f", from {finding.judged_from:g} months" if finding.judged_from else ""
        young = f"; too young to judge{since}" if finding.too_young else ""
        if finding.status == "absent":
            out.append(f"{finding_title(finding)}{young}")
            continue
        reason = next(iter(finding.reasons), None)
        if reason is not None and reason.kind == "off" and not full:
            why = "off until chosen"  # an alarm tells the rest
        else:
            why = reason_words(ruleset, reason).rstrip(".") if reason is not None else ""
        told = "; ".join(filter(None, (words.get(finding.cls or "", ""), why)))
        alike.setdefault(f"{f' ({told})' if told else ''}{young}", []).append(finding)
    for told, findings in alike.items():
        sources = tuple(dict.fromkeys(key for one in findings for key in one.sources))
        yield Statement(f"{'; '.join(map(finding_title, findings))}{told}", sources)
    if out:
        yield Statement(f"Ruled out: {'; '.join(out)}")
