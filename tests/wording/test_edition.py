"""An edition written out: every kind of rule says in words what its file says.

The edition is the invented one of rulesets/kinds-of-rules.md.
"""

from __future__ import annotations

import re

import pytest

from hands_on.ruleset.assemble import assemble, read_edition_file
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.edition import sections

_LIBRARY = Library([shipped_rulesets()])
_GUIDE = (shipped_rulesets() / "kinds-of-rules.md").read_text(encoding="utf-8")
_BLOCKS = re.findall(r"```toml\n(.*?)```", _GUIDE, re.DOTALL)
_RULES = assemble([read_edition_file("\n".join(_BLOCKS[:-1]), "moor-hound.toml")], _LIBRARY.common())
_TEXT = {section.title: [entry.text for entry in section.entries] for section in sections(_RULES)}


@pytest.mark.parametrize(
    ("title", "text"),
    [
        ("Measured", "above 3 cm: white marks, Major fault (found as chest-large)"),
        ("What follows from the dog alone", "Wrong colour, other (long-haired, dapple): Disqualification."),
        ("Asked of some dogs only", "Furnishings: beard, feather, flag: long-haired."),
        ("Teeth", "1 or more missing of M2, and nothing else: Minor fault."),
        ("Teeth", "1 or more missing of M2, and 1 or more others: Major fault."),
        ("Outcomes, best first", "Promising (puppy class) (under 9 months)"),
        ("Outcomes, best first", "Very good (from 9 months)"),
        ("Classes of faults", "Tail altered by surgery (not in AT, not kept for work): Undesirable."),
    ],
)
def test_each_new_kind_of_rule_is_told(title: str, text: str) -> None:
    assert any(text in row for row in _TEXT[title]), _TEXT[title]


def test_label_and_note_of_a_stretch_are_two_sentences() -> None:
    """The American Weimaraner standard of 1971: up to an inch out is allowed, yet to be penalised."""
    shown = {section.title: section.entries for section in sections(_LIBRARY.load("weimaraner-american"))}
    (row,) = [entry.text for entry in shown["Measured"] if "25 to 27 in" in entry.text]
    assert "(up to an inch over; Allowed, but to be penalised; the text names no class.)" in row


@pytest.mark.parametrize("edition", ["hovawart-fci-190", "border-terrier-fci-10"])
def test_outcomes_taken_from_common_stand_with_their_sources(edition: str) -> None:
    shown = {section.title: section.entries for section in sections(_LIBRARY.load(edition))}
    keys = {entry.text.split(":")[0] for entry in shown["Sources"]}
    for entry in shown["Outcomes, best first"]:
        assert entry.source
        assert set(entry.source.split(", ")) <= {*keys, "reading"}


@pytest.mark.parametrize(
    ("edition", "asked"),
    [
        ("hovawart-fci-190", "Height at the withers (dogs): asked 63 to 70 cm; below 63 cm"),
        (
            "bernese-fci-45",
            "Height at the withers (dogs): asked 64 to 70 cm, both ends included; below 64 cm",
        ),
        ("labrador-fci-122", "Height at the withers (dogs): asked: The ideal is 56 to 57 cm; below 56 cm"),
        ("boxer-fci-144", ": asked: The rear pastern stands at 95 to 100 deg to the ground; "),
    ],
)
def test_a_figure_that_the_edition_says_in_words_is_told_once(edition: str, asked: str) -> None:
    told = [entry.text for section in sections(_LIBRARY.load(edition)) for entry in section.entries]
    assert any(asked in text for text in told), [text for text in told if "asked" in text]
