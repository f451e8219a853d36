"""Findings by class and degree, heaviest first, and what is no fault here."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.evaluate.result import Evaluation, Finding
from hands_on.report.statement import Statement
from hands_on.ruleset.base import DEGREES
from hands_on.wording.findings import finding_reasons, measured_words, telling_reasons
from hands_on.wording.outlook import finding_class_words
from hands_on.wording.rules import class_name

__all__ = ["allowed_statements", "by_weight", "class_label", "finding_groups", "finding_title", "heaviest"]


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
    return ", ".join((finding.label, *filter(None, (finding.detail, finding.degree, finding.side))))


def finding_groups(evaluation: Evaluation, full: bool) -> Iterator[Statement]:
    """Each class with its findings, those that do not count last."""
    groups: dict[str, list[Finding]] = {}
    for finding in by_weight(evaluation):
        groups.setdefault(_group(evaluation, finding), []).append(finding)
    first = heaviest(evaluation)
    for name, findings in groups.items():
        yield Statement(f"{name}: {len(findings)}", heading=True)
        for finding in findings:
            yield _finding(evaluation, finding, full, again=finding is first)


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


def _finding(evaluation: Evaluation, finding: Finding, full: bool, *, again: bool) -> Statement:
    """What it is and why; of what the five lines told `again` not what it costs."""
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
        told = telling_reasons(ruleset, finding)
        return Statement(title, finding.sources, (*told, use) if finding.counts and not again else told)
    more = [measured_words(evaluation, finding), *finding_reasons(ruleset, finding), use]
    more.append(f"Veterinarian: {finding.veterinary}" if finding.veterinary else "")
    more.append(f"How it is read: {finding.reading}" if finding.reading else "")
    return Statement(title, finding.sources, tuple(filter(None, more)))


def allowed_statements(evaluation: Evaluation) -> Iterator[Statement]:
    """What was seen and is no fault here, or was looked for and ruled out."""
    words = {"none": "no fault here", "observation": "recorded, never counted"}
    out: list[str] = []
    for finding in evaluation.allowed:
        since = f", from {finding.judged_from:g} months" if finding.judged_from else ""
        young = f"; too young to judge{since}" if finding.too_young else ""
        if finding.status == "absent":
            out.append(f"{finding_title(finding)}{young}")
            continue
        reasons = finding_reasons(evaluation.classes.ruleset, finding)
        why = f" ({reasons[0]})" if reasons else ""
        yield Statement(
            f"{finding_title(finding)}: {words.get(finding.cls or '', '')}{why}{young}", finding.sources
        )
    if out:
        yield Statement(f"Ruled out: {'; '.join(out)}")
