"""Comparisons in words: what commands print and screens show of `compare`'s results. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.compare.dogs.differ import Difference
from hands_on.compare.dogs.findings import Findings, Held
from hands_on.compare.dogs.pairing import OneSided, Pairing
from hands_on.compare.dogs.side_by_side import ComparedTrait
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import Finding
from hands_on.measure.units import format_value

__all__ = [
    "MARKS",
    "SEXES",
    "VERDICTS",
    "answer_words",
    "difference_mark",
    "difference_words",
    "finding_sentences",
    "finding_words_in",
    "percent",
    "sided_parts",
    "sided_words",
    "who",
]

SEXES = {"male": "dog", "female": "bitch"}

MARKS = {
    "real": "real",
    "within-hand-error": "within hand error",
    "explained-by-growth": "growth",
    "too-young": "too young",
}
"""Verdicts as they are told."""


VERDICTS = {
    "real": "Changed",
    "too-young": "Too young to judge then",
    "explained-by-growth": "As growth would have it",
    "within-hand-error": "No change shown",
}
"""Verdicts on one dog then and now, what matters most first."""


def percent(p: float) -> str:
    """A probability in whole per cent; never 0 or 100 where it is neither."""
    if 0 < p < 0.005:
        return "under 1 %"
    if 0.995 <= p < 1:
        return "over 99 %"
    return f"{100 * p:.0f} %"


def who(one: Examined) -> list[str]:
    """Sex, age, evaluator, day and edition; what is not known is said or left out."""
    sex = SEXES.get(one.session.dog.sex or "", "sex not known")
    by = f"examined by {one.evaluator}" if one.evaluator else "evaluator not named"
    return [part for part in (sex, one.age_words, by, one.day, one.ruleset.edition.title) if part]


def answer_words(row: ComparedTrait, place: int) -> str:
    """What one session says at a row."""
    answer = row.answers[place]
    if answer.given:
        return answer.words
    return "(skipped)" if answer.state == "skipped" else "-"


def difference_mark(row: ComparedTrait) -> str:
    """The verdict on the difference that matters most, its size behind it; empty where nothing compares."""
    head = row.headline
    if head is None:
        return ""
    mark = MARKS.get(head.verdict or "", "") if row.differs else "the same"
    size = difference_words(head, row)
    return f"{mark} ({size})" if size else mark


def difference_words(difference: Difference, row: ComparedTrait) -> str:
    """The size of a measured difference; empty for what is not measured."""
    if difference.difference is None or row.kind not in ("measure", "proportion"):
        return ""
    return format_value(abs(difference.difference), row.unit, 3 if row.unit == "share" else 1)


def finding_words_in(one: Examined, finding: Finding, *, classed: bool) -> str:
    """Degree, side and what else must be known of a finding, without its name."""
    known = one.ruleset.classes.get(finding.cls or "")
    parts: list[str] = [finding.degree or "", finding.side or ""]
    parts += ["unsure"] if finding.status == "unsure" else []
    parts += ["too young to judge"] if finding.too_young else []
    if classed and finding.counts:
        parts.append(known.label if known is not None else finding.cls or "")
    return ", ".join(filter(None, parts))


def finding_sentences(
    sessions: Sequence[Examined], dogs: Sequence[str], findings: Findings, rows: Sequence[Held]
) -> Iterator[str]:
    """A fault and who has it."""
    for row in rows:
        said = []
        for place, finding in row.of:
            more = finding_words_in(sessions[place], finding, classed=findings.one_edition)
            said.append(f"{dogs[place]} ({more})" if more else dogs[place])
        yield f"{row.label}: {'; '.join(said)}"


def sided_words(one: OneSided) -> str:
    """A fault in one parent and what the other is there."""
    other = "dam" if one.parent == "sire" else "sire"
    return f"{one.words} in the {one.parent}; {other}: {one.other}"


def sided_parts(found: Pairing) -> tuple[tuple[str, tuple[OneSided, ...]], ...]:
    """The faults that one parent has, by what the other is there, each with its title."""
    return (
        ("One mends the other", found.mended),
        ("Opposite extremes", found.opposite),
        ("Not known of the other", found.open),
    )
