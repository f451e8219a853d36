"""Comparisons in words: what commands print and screens show of `compare`'s results. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.compare.dogs.findings import Findings, Held, looked_for
from hands_on.compare.dogs.side_by_side import MOST, ComparedTrait, Remark, SideBySide, WrongNumber
from hands_on.compare.dogs.together import LEVEL, Table
from hands_on.compare.dogs.verdicts import Difference
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import Finding
from hands_on.exam.left_out import LEFT_OUT
from hands_on.measure.units import format_value
from hands_on.wording.ages import age_words
from hands_on.wording.answers import answer_words
from hands_on.wording.findings import reading_mark, side_words
from hands_on.wording.labels import label_words

__all__ = [
    "MARKS",
    "NOT_SETTLED",
    "SEXES",
    "cell_words",
    "chance",
    "difference_mark",
    "difference_words",
    "finding_sentences",
    "finding_words_in",
    "not_compared_mark",
    "percent",
    "remark_sentences",
    "same_mark",
    "same_sentence",
    "verdict_mark",
    "who",
    "wrong_number",
]

SEXES = {"male": "dog", "female": "bitch"}

ONE_YOUNG = "one too young"
"""Of answers alike today, where one of the dogs cannot be judged yet."""

NOT_SETTLED = "not settled"
"""Of a difference beyond its own error that the whole table does not bear."""

MARKS = {
    "real": "real",
    "different": "different",
    "disagree": "they disagree",
    "not-settled": NOT_SETTLED,
    "within-hand-error": "within hand error",
    "explained-by-growth": "growth",
    "did-not-grow": "no growth",
    "does-not-shrink": "cannot shrink",
    "day-to-day": "from day to day",
    "too-young": "too young",
}
"""Verdicts as they are told."""


def percent(p: float) -> str:
    """A probability in whole per cent; never 0 or 100 where it is neither."""
    if 0 < p < 0.005:
        return "under 1 %"
    if 0.995 <= p < 1:
        return "over 99 %"
    return f"{100 * p:.0f} %"


def chance(p: float) -> str:
    """The probability of something that is not certain, in whole per cent; never 0 or 100."""
    return "under 1 %" if p < 0.005 else "over 99 %" if p >= 0.995 else f"{100 * p:.0f} %"


def who(one: Examined) -> list[str]:
    """Sex, age, evaluator, day and edition; what is not known is said or left out."""
    sex = SEXES.get(one.session.dog.sex or "", "sex not known")
    by = f"examined by {one.evaluator}" if one.evaluator else "evaluator not named"
    return [part for part in (sex, age_words(one.age), by, one.day, one.ruleset.edition.title) if part]


def cell_words(compared: SideBySide, row: ComparedTrait, place: int) -> str:
    """What one session says at a row."""
    answer = row.answers[place]
    if answer.given:
        return answer_words(answer, compared.sessions[place].ruleset)
    if answer.skipped_because in LEFT_OUT:
        return "(not examined)"
    return "(skipped)" if answer.state == "skipped" else "-"


def difference_mark(row: ComparedTrait) -> str:
    """The verdict on the difference that matters most, its size behind it, or why nothing compares.

    Empty where not two of them say anything.
    """
    head = row.headline
    if head is None:
        return not_compared_mark(row) if sum(one.given for one in row.answers) > 1 else ""
    mark = verdict_mark(head) if row.differs else same_mark(row)
    size = difference_words(head, row)
    return f"{mark} ({size})" if size else mark


def not_compared_mark(row: ComparedTrait) -> str:
    """Of answers that cannot be compared."""
    if any(one.ground == "contradictory-takes" for one in row.differences):
        return "takes contradict"
    return "not comparable"


def verdict_mark(difference: Difference) -> str:
    """A verdict as it is told; empty where nothing compares."""
    if difference.alone_only:
        return NOT_SETTLED
    young = f", {ONE_YOUNG}" if difference.verdict == "within-hand-error" and _young(difference) else ""
    return MARKS.get(difference.verdict or "", "") + young


def same_mark(row: ComparedTrait) -> str:
    """That all say the same, and whether one of them is too young for it to stay so."""
    return f"the same, {ONE_YOUNG}" if any(map(_young, row.differences)) else "the same"


def _young(difference: Difference) -> bool:
    return any(caveat.kind in ("too-young", "too-young-then") for caveat in difference.caveats)


def same_sentence(compared: SideBySide) -> str:
    """How many points are answered alike in all and not shown; empty where none is.

    At how many of them one of the dogs is too young is told with its age.
    """
    same = [row for row in compared.rows if row.kind != "measure" and row.same]
    if not same:
        return ""
    told = f"The same in all: {len(same)} point{'s' if len(same) > 1 else ''} not shown here."
    for place, (name, one) in enumerate(zip(compared.dogs, compared.sessions, strict=True)):
        young = sum(row.answers[place].too_young is not None for row in same)
        if young:
            at = f" ({age_words(one.age)})" if one.age is not None else ""
            told += f" At {young} of them {name}{at} is too young to judge: to be alike today says little."
    return told


def difference_words(difference: Difference, row: ComparedTrait) -> str:
    """The size of a measured difference; empty for what is not measured."""
    if difference.difference is None or row.kind not in ("measure", "proportion"):
        return ""
    return format_value(abs(difference.difference), row.unit, 3 if row.unit == "share" else 1)


def remark_sentences(compared: SideBySide) -> Iterator[str]:
    """What must be borne in mind of all that is compared."""
    for remark in compared.remarks:
        yield _remark(remark, compared)
    yield _table_words(compared.table, len(compared.sessions))


def _table_words(table: Table, sessions: int) -> str:
    """How the whole table was judged, and how many false ones are to be expected."""
    over = f"Tukey over the {sessions} sessions, " if sessions > 2 else ""
    rows = "1 row" if table.rows == 1 else f"{table.rows} rows"
    if not table.rows:
        return "No row here has a figure of how often a hand errs, so none is called real."
    told = (
        f"Real holds for the whole table ({over}Benjamini and Hochberg over {rows}, level {percent(LEVEL)}): "
    )
    if table.real:
        return told + f"of {table.real} called real {table.expected_false:.2g} may be false, on average."
    return told + "none is; of dogs alike in everything one comparison of twenty would call any."


def _remark(remark: Remark, compared: SideBySide) -> str:
    if remark == "different-editions":
        titles = "; ".join(dict.fromkeys(one.ruleset.edition.title for one in compared.sessions))
        return (
            f"Judged by different editions ({titles}): takes and grades are compared, classes are not, "
            "and there is no order."
        )
    if remark == "one-hand":
        measured = any(hand.lasting is not None for one in compared.sessions for hand in one.hand.values())
        share = "the share that rounds found" if measured else "half"
        basis = "" if measured else " (a judgement)"
        return (
            f"Measured by one hand: {share} of the variance that its repeats do not reduce is taken to be "
            f"common to all its readings, and cancels in the differences{basis}."
        )
    if remark == "one-dog-twice":
        return "One dog is here more than once; at two ages growth is looked at too."
    return "Some of the dogs are of very different age; a young one is compared as it stands today."


def wrong_number(error: WrongNumber) -> str:
    """How many sessions can be compared."""
    return f"two to {MOST} sessions are compared side by side; here are {error.given}."


def finding_words_in(one: Examined, finding: Finding, *, classed: bool) -> str:
    """Degree, side and what else must be known of a finding, without its name."""
    known = one.ruleset.classes.get(finding.cls or "")
    parts: list[str] = [finding.degree or "", side_words(finding.side, finding.worse)]
    parts += ["unsure"] if finding.status == "unsure" else []
    parts += ["too young to judge"] if finding.too_young else []
    if classed and finding.counts:
        parts.append(known.label if known is not None else finding.cls or "")
        parts.append(reading_mark(finding))
    return ", ".join(filter(None, parts))


def finding_sentences(
    sessions: Sequence[Examined], dogs: Sequence[str], findings: Findings, rows: Sequence[Held]
) -> Iterator[str]:
    """A fault and who has it; in whom nobody looked for it."""
    for row in rows:
        said = []
        for place, finding in row.of:
            more = finding_words_in(sessions[place], finding, classed=findings.one_edition)
            said.append(f"{dogs[place]} ({more})" if more else dogs[place])
        unseen = [
            dogs[place]
            for place, one in enumerate(sessions)
            if place not in row.sessions and not looked_for(one, row)
        ]
        said += [f"not examined: {', '.join(unseen)}"] if unseen else []
        yield f"{label_words(row.named)}: {'; '.join(said)}"
