"""The benches of robustness in small: see tests/bench/kill.py, fuzz.py and disk.py for the long runs."""

from __future__ import annotations

import sys

import pytest

from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from tests.bench import disk, fuzz, kill


def test_whatever_call_of_a_save_fails_nothing_is_lost() -> None:
    assert disk.main() == 0


def test_ten_thousand_odd_inputs_come_to_nothing_but_clean_errors(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", sys.stdin)  # put back afterwards
    assert fuzz.run(cases=10_000, seed=7, commands=3) == []


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
@pytest.mark.parametrize("number", [0, 8, 16, 24, 4, 12, 20])
def test_what_the_screen_acknowledged_is_on_disk_however_the_program_ends(number: int) -> None:
    """Each place once, each way of ending at least once; the bench takes all of both."""
    rules = Library([shipped_rulesets()]).load("any-dog")
    found = kill.one_round(number, 5 + number, rules)
    assert not found.lost, found
