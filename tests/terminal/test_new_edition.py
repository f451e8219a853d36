"""From a standard's text to a sound edition, in a real terminal, killed in the middle and gone on with."""

from __future__ import annotations

import signal
import sys
import tomllib
from pathlib import Path

import pytest

from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from tests.terminal.forked import ForkedTerminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

TEXT = Path(__file__).parents[1] / "data" / "standards" / "prairie-fetcher.txt"


def test_an_edition_from_the_text_killed_and_gone_on_with(tmp_path: Path) -> None:
    own = tmp_path / "own"
    own.mkdir()
    file = own / "prairie-fetcher.toml"
    arguments = [
        "--rulesets",
        str(own),
        "--sessions",
        str(tmp_path / "s"),
        "rulesets",
        "--new",
        "prairie-fetcher",
    ]

    terminal = ForkedTerminal(arguments, tmp_path)
    terminal.wait("Which block?")
    terminal.press("2", "from a file")
    terminal.press("1", "The file's name")
    terminal.press(f"{TEXT}\r", "proposals not taken")
    terminal.press("aaaa", "[x] limit: elbow-height-to-height")
    terminal.kill(signal.SIGKILL)
    assert {row["id"] for row in tomllib.loads(file.read_text(encoding="utf-8"))["limits"]} >= {"height-male"}

    terminal = ForkedTerminal(arguments, tmp_path)
    terminal.wait("Which block?")
    terminal.press("2", "from a file")
    terminal.press("1", "The file's name")
    terminal.press(f"{TEXT}\r", "proposals not taken")
    terminal.press(
        "a" * 40, lambda text: "\n0 proposals not taken" in text.replace("  ", " ") or " 0 proposals" in text
    )
    terminal.press("\x1b", "The file is sound.")
    terminal.press("\x1b", lambda text: "Which block?" not in text)
    terminal.kill(signal.SIGTERM)

    rules = Library([shipped_rulesets(), own]).load("prairie-fetcher")
    assert [one.id for one in rules.edition.classes] == ["fault", "serious", "disqualifying"]
    assert {limit.id for limit in rules.edition.limits} >= {"height-male", "weight-female", "croup-slope"}


def test_a_text_pasted_whole_and_keys_pressed_in_bursts(tmp_path: Path) -> None:
    """A bracketed paste, as terminals send it, then keys faster than screens open: the program lives on."""
    own = tmp_path / "own"
    own.mkdir()
    file = own / "moor-pointer.toml"
    text = (TEXT.parent / "moor-pointer.txt").read_text(encoding="utf-8")
    places = ["--rulesets", str(own), "--sessions", str(tmp_path / "s")]
    terminal = ForkedTerminal([*places, "rulesets", "--new", "moor-pointer"], tmp_path)
    terminal.wait("Which block?")
    terminal.press("2", "from a file")
    terminal.press("2", "then press F2")
    terminal.send(f"\x1b[200~{text}\x1b[201~")
    terminal.wait("should be used for breeding.")
    terminal.press("\x1bOQ", "proposals not taken")
    assert "limits" not in tomllib.loads(file.read_text(encoding="utf-8")), "nothing is taken unasked"
    terminal.press("a" * 60, lambda shown: " 0 proposals not taken" in shown)
    terminal.press("\x1b", "The file is sound.")
    for burst in (
        "3\r12\r\r\x1b\x1b3\r",
        "4\x1b5\x1b6\x1b7\x1b8\x1b9\x1b0\x1b",
        "2\x1b\x1b21\x1b\x1b",
        "\x1b[200~55\n60\n\x1b[201~",
        "511\r\r\x1b\x1b\x1b",
        "0101010\x1b\x1b\x1b",
    ):
        terminal.send(burst)
        terminal.wait(lambda shown: bool(shown.strip()))
    terminal.send("\x1b" * 12)
    terminal.wait(lambda shown: "A dog under the hands" in shown and "Which block?" not in shown)
    assert "Traceback" not in terminal.text
    terminal.kill(signal.SIGTERM)

    rules = Library([shipped_rulesets(), own]).load("moor-pointer")
    assert {limit.id for limit in rules.edition.limits} >= {"height-male", "weight-female", "hock-angle"}
