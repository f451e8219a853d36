"""The benches of robustness in small: see tests/bench/kill.py, fuzz.py and disk.py for the long runs."""

from __future__ import annotations

import sys

import pytest

from tests.bench import disk, fuzz


def test_whatever_call_of_a_save_fails_nothing_is_lost() -> None:
    assert disk.main() == 0


def test_ten_thousand_odd_inputs_come_to_nothing_but_clean_errors(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", sys.stdin)  # put back afterwards
    assert fuzz.run(cases=10_000, seed=7, commands=3) == []


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_what_the_screen_acknowledged_is_on_disk_however_the_program_ends(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Each place with each way of ending once, three programs beside each other."""
    from tests.bench import kill  # needs a terminal of POSIX

    code = kill.main(["--rounds", "32", "--forked", "--most", "2", "--beside", "3"])
    told = capsys.readouterr().out
    assert code == 0, told
    assert " 32 rounds," in f" {told.splitlines()[-1]}"
