"""A cohort as a page of HTML."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.compare.cohort.cohort import Cohort
from hands_on.compare.cohort.members import Member
from hands_on.report.pages import page
from hands_on.wording.cohort import (
    about_sentences,
    frequency_cells,
    spread_cells,
    trend_sentences,
    wanted_words,
)

__all__ = ["cohort_html"]


def cohort_html(found: Cohort, labels: Mapping[str, str]) -> str:
    """The page; `labels` names the classes."""
    return page(
        "cohort.html",
        title=f"Many dogs together: {wanted_words(found.wanted)}",
        about=list(about_sentences(found)),
        faults=[
            {"cells": frequency_cells(one, labels), "share": one.share.value} for one in found.frequencies
        ],
        sizes=list(map(spread_cells, found.spreads)),
        trends=list(trend_sentences(found)),
        dogs=list(map(_dog, found.members)),
    )


def _dog(one: Member) -> dict[str, str]:
    signed = "" if one.signed else ", not signed"
    return {
        "name": one.call_name or one.registered_name or one.name,
        "sex": {"male": "dog", "female": "bitch"}.get(one.sex or "", ""),
        "born": one.born.isoformat() if one.born is not None else "",
        "examined": f"{one.day} by {one.evaluator}{signed}",
        "edition": one.edition,
    }
