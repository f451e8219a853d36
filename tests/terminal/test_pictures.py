"""Pictures in a real terminal: sent to one that says it has Sixel graphics, to no other."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest

from tests.terminal.forked import ForkedTerminal
from tests.terminal.terminal import Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

QUESTION, SIXEL, APC = b"\x1b[c", b"\x1bP0;0;0q", b"\x1b_G"


class Answering(ForkedTerminal):
    """Says what it is when asked, and how large its cells are."""

    PIXELS = (1000, 600)

    def __init__(self, answer: bytes, home: Path, **environment: str) -> None:
        self.answer = answer
        super().__init__(
            ["practise", "--ruleset", "hovawart-fci-190", "--seed", "3"],
            home,
            columns=100,
            lines=30,
            **environment,
        )

    def _feed(self, data: bytes) -> None:
        asked = self.raw.count(QUESTION)
        super()._feed(data)
        for _ in range(self.raw.count(QUESTION) - asked):
            self.child.send(self.answer)


def leave(terminal: Terminal) -> None:
    terminal.send("\x11")
    assert terminal.finish() == 0


def test_a_terminal_with_sixel_graphics_is_sent_pictures(tmp_path):
    terminal = Answering(b"\x1b[?63;1;2;4;6;9;15;22c", tmp_path, HANDS_ON_PICTURES="auto")
    terminal.wait(lambda text: SIXEL in terminal.raw)
    leave(terminal)
    assert terminal.raw.count(QUESTION) == 1


def test_any_other_is_sent_none(tmp_path):
    terminal = Answering(b"\x1b[?64;1;2;6;9;15;18;21;22c", tmp_path, HANDS_ON_PICTURES="auto")
    terminal.wait("⠒")
    leave(terminal)
    assert terminal.raw.count(QUESTION) == 1
    assert SIXEL not in terminal.raw
    assert APC not in terminal.raw


def test_the_extra_is_there_to_be_tried():
    assert importlib.util.find_spec("textual_image") is not None
