"""Sentences on two editions held together, and on what a session's verdicts become under another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import TYPE_CHECKING

from hands_on.compare.editions.rows import Comparison, Difference, Row, Section
from hands_on.compare.editions.under_another import Cause, Change

if TYPE_CHECKING:
    from hands_on.evaluate.result import Evaluation
    from hands_on.ruleset.ruleset import Ruleset

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

CAUSES: Mapping[Cause, str] = {
    "limit": "other figures",
    "class": "classed otherwise",
    "silence": "one of them is silent",
    "not-asked": "not asked in one of them",
    "together": "counted otherwise together",
}
"""Why a verdict changes, in a few words."""


def told_once(section: Section) -> Iterator[tuple[str, Row]]:
    """The rows of a section with their titles; rows on which the editions say the same two things are one."""
    for _, group in groupby(section.rows, key=lambda row: (row.a, row.b, row.stretches)):
        rows = list(group)
        titles = [row.label + (f" ({row.when})" if row.when else "") for row in rows]
        yield "; ".join(dict.fromkeys(titles)), rows[0]


def heads_differ(found: Comparison) -> str:
    """That the editions are of two breeds; empty when they are of one."""
    a, b = found.a.edition.breed, found.b.edition.breed
    return "" if a == b else f"These are two breeds: {a} and {b}."


def difference_words(row: Row, a: str, b: str) -> str:
    """What differs, in a few words; `a` and `b` are what the editions are called."""
    words = {**_DIFFERENCES, "only-a": f"only in {a}", "only-b": f"only in {b}"}
    return ", ".join(words[one] for one in row.differs)


def change_title(change: Change) -> str:
    """What changes, and from what to what."""
    named = ", ".join(filter(None, (change.label, change.detail, change.side)))
    verdict = " (measured)" if change.kind == "rule" else ""
    return f"{named}{verdict}: {change.before} -> {change.after}"


def change_sources(change: Change) -> list[str]:
    """The sources of both editions, each once."""
    return list(dict.fromkeys(filter(None, (change.source_before, change.source_after))))


def count_words(ruleset: Ruleset, evaluation: Evaluation) -> str:
    """How many findings count in each class, heaviest first, and the best outcome left open."""
    order = [*reversed(list(ruleset.classes)), "unclassed"]
    names = sorted(evaluation.totals, key=lambda name: order.index(name) if name in order else len(order))
    counts = []
    for name in names:
        count, unsure = evaluation.totals[name], evaluation.unsure.get(name, 0)
        if count or unsure:
            known = ruleset.classes.get(name)
            more = f" (and {unsure} unsure)" if unsure else ""
            counts.append(f"{known.label if known is not None else name}: {count}{more}")
    told = "; ".join(counts) or "nothing counts against the dog"
    labels = {outcome.id: outcome.label for outcome in ruleset.edition.outcomes}
    best = evaluation.outcome_at_most
    return told + (f". Best outcome left open: {labels.get(best, best)}" if best is not None else "")
