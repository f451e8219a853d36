"""Letters compared as people type them."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given

from hands_on.store.letters import folded
from tests.strategies import texts


@pytest.mark.parametrize(
    ("written", "typed"),
    [
        ("Łucja Ångström", "lucja angstrom"),
        ("STRASSE", "straße"),
        ("Đorđe", "dorde"),
        ("Ærø", "aero"),
        ("Ž\u0301", "z"),
        ("ﬁnn", "finn"),
        ("İstanbul", "istanbul"),
        ("Βίλλυ", "βιλλυ"),
    ],
)
def test_accents_and_cases_do_not_count(written: str, typed: str) -> None:
    """Case folding and decomposition after Unicode (UAX #15, UAX #44), here by hand for single names."""
    assert folded(written) == folded(typed)


@given(texts)
def test_composed_and_decomposed_texts_are_one(text: str) -> None:
    """Some systems store names of files decomposed; the forms are the standard library's."""
    assert folded(unicodedata.normalize("NFC", text)) == folded(unicodedata.normalize("NFD", text))
