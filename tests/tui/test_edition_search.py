"""An edition is found by the number of its standard before it is by a year that looks like it."""

from __future__ import annotations

from pathlib import Path

import pytest

from hands_on.store import places
from hands_on.store.edition_heads import EditionHead
from hands_on.store.library import Library
from hands_on.tui.widgets.edition_list import how_well

HEADS = Library((places.shipped_rulesets(),)).heads()


def found(typed, heads=HEADS):
    words = typed.casefold().split()
    ranked = [(how_well(head, words), head.id) for head in heads]
    return [name for far, name in sorted((far, name) for far, name in ranked if far is not None)]


@pytest.mark.parametrize("head", [head for head in HEADS if head.number], ids=lambda head: head.id)
def test_each_number_finds_its_own_standard_first(head):
    assert found(head.number)[0] == head.id


@pytest.mark.parametrize(
    ("typed", "first", "behind"),
    [
        # FCI 10 is the Border Terrier's; the German Shepherd's edition is of 2010
        ("10", "border-terrier-fci-10", "german-shepherd-fci-166"),
        ("fci 10", "border-terrier-fci-10", "german-shepherd-fci-166"),
        # FCI 122 is the Labrador's; two editions are of 2022
        ("122", "labrador-fci-122", None),
        ("1", "border-terrier-fci-10", "weimaraner-american"),
    ],
)
def test_the_number_stands_before_the_year(typed, first, behind):
    rows = found(typed)
    assert rows[0] == first
    assert behind is None or rows.index(behind) > 0


@pytest.mark.parametrize("head", HEADS, ids=lambda head: head.id)
def test_each_edition_is_found_by_breed_year_and_id(head):
    year = [head.edition] if head.edition in head.title else []
    for typed in (head.breed.split()[0], *year, head.id):
        assert head.id in found(typed)


def test_of_two_editions_the_year_tells_where_nothing_else_does():
    def edition(name, number, year):
        title = f"Moor Hound, {year}"
        return EditionHead(name, title, "Moor Hound", "FCI", number, year, Path("nowhere"))

    heads = [edition("moor-2019", "", "2019"), edition("moor-19", "19", "1990")]
    assert found("19", heads) == ["moor-19", "moor-2019"]
    assert found("2019", heads) == ["moor-2019"]


def test_what_is_in_none_finds_none():
    assert found("zebra") == []
