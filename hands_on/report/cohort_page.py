"""The report of a cohort: how often which fault, how large, what moves over the years, which dogs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hands_on.compare.cohort.cohort import Cohort
from hands_on.compare.cohort.members import Member
from hands_on.report.blocks import Part, Report, Table, Text
from hands_on.wording.cohort import (
    FAULTS_HEAD,
    FAULTS_NOTE,
    SIZES_HEAD,
    SIZES_NOTE,
    about_sentences,
    frequency_cells,
    spread_cells,
    trend_sentences,
    wanted_words,
)
from hands_on.wording.dogs import SEXES

__all__ = ["cohort_report"]

_DOG_HEAD = ("Dog", "Sex", "Born", "Examined", "Edition")


def cohort_report(found: Cohort, labels: Mapping[str, str]) -> Report:
    """The report; `labels` names the classes."""
    faults = [frequency_cells(one, labels) for one in found.frequencies]
    sizes = list(map(spread_cells, found.spreads))
    first, *more = about_sentences(found)
    tables = (
        (
            "faults",
            "How often which fault",
            _table(FAULTS_NOTE, FAULTS_HEAD, faults, "No fault in any of them."),
        ),
        (
            "sizes",
            "Measurements and proportions",
            _table(SIZES_NOTE, SIZES_HEAD, sizes, "Nothing was measured."),
        ),
        ("years", "Over the years", Text(tuple(trend_sentences(found)))),
        ("dogs", "The dogs", _table("One examination a dog.", _DOG_HEAD, map(_dog, found.members), "")),
    )
    parts = (
        Part("about", "To bear in mind", (Text(tuple(more)),)),
        *(Part(name, title, (block,)) for name, title, block in tables),
    )
    return Report(f"Many dogs together: {wanted_words(found.wanted)}", first, parts)


def _table(caption: str, head: tuple[str, ...], rows: Iterable[tuple[str, ...]], none: str) -> Table | Text:
    every = tuple(rows)
    return Table(caption, head, every) if every else Text((none,))


def _dog(one: Member) -> tuple[str, ...]:
    return (
        one.call_name or one.registered_name or one.name,
        SEXES.get(one.sex or "", ""),
        one.born.isoformat() if one.born is not None else "",
        f"{one.day} by {one.evaluator}{'' if one.signed else ', not signed'}",
        one.edition,
    )
