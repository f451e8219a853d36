"""The report of a pairing: sire and dam, what they share, where one may mend the other."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.compare.dogs.pairing import Pairing
from hands_on.compare.examined import Examined
from hands_on.report.blocks import Part, Report, Rows, Table
from hands_on.report.drawn_dogs import drawn_over
from hands_on.report.statement import Statement
from hands_on.wording.dogs import who
from hands_on.wording.labels import label_words
from hands_on.wording.pairing import (
    CAUTIONS,
    pairing_remarks,
    same_end_words,
    shared_words,
    sided_parts,
    sided_words,
)

__all__ = ["sire_and_dam"]


def sire_and_dam(found: Pairing) -> Report:
    """The cautions first, every time."""
    sire, dam = found.sire, found.dam
    parents = tuple((name, one.dog, ", ".join(who(one))) for name, one in (("Sire", sire), ("Dam", dam)))
    parts = (
        Part("cautions", "To bear in mind", (Rows(tuple(map(Statement, CAUTIONS))),)),
        Part(
            "parents",
            "Sire and dam",
            (
                Table("Who is put together", ("Parent", "Dog", "Examined"), parents),
                Rows(tuple(map(Statement, pairing_remarks(found)))),
            ),
        ),
        Part("shared", "Faults that both have", tuple(_shared(found))),
        Part("one-sided", "Faults that one has", tuple(_sided(found))),
        Part("same-end", "At the same end of what is asked", tuple(_same_end(found))),
        Part("drawn", "Drawn over each other", (drawn_over(sire, dam, _titles(sire, dam)),)),
    )
    titles = dict.fromkeys((sire.ruleset.edition.title, dam.ruleset.edition.title))
    return Report(f"{sire.dog} and {dam.dog}, sire and dam", "; ".join(titles), parts)


def _titles(sire: Examined, dam: Examined) -> tuple[str, str]:
    return f"Sire, {sire.dog}", f"Dam, {dam.dog}"


def _shared(found: Pairing) -> Iterator[Table | Rows]:
    rows = tuple(
        (label_words(one.named), *shared_words(one, found), "adds up" if one.adds_up else "")
        for one in found.shared
    )
    if rows:
        yield Table("Shared faults", ("Fault", "Sire", "Dam", "Adds up"), rows)
    else:
        yield Rows((Statement("None of what was found is in both."),))


def _sided(found: Pairing) -> Iterator[Table]:
    for title, rows in sided_parts(found):
        told = tuple(
            (label_words(one.named), one.parent, *sided_words(one, found, named=False)) for one in rows
        )
        yield Table(title, ("Fault", "In the", "There", "The other parent"), told)


def _same_end(found: Pairing) -> Iterator[Table]:
    rows = tuple((label_words(one.named), one.end, *same_end_words(one, found)) for one in found.same_end)
    yield Table("Values at the same end", ("Measured", "End", "Sire", "Dam"), rows)
