"""A seminar round in real terminals: host, three participants in folders of their own, gathered, agreed."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import pytest

from hands_on.ruleset.points import Point
from hands_on.store.round_file import read_round
from hands_on.store.session_file import read_session
from tests.terminal.forked import ForkedTerminal
from tests.terminal.test_whole_examination import LIBRARY, answer

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

F2, F4 = "\x1bOQ", "\x1bOS"
DOWN = "\x1b[B"


def host(home: Path) -> Path:
    """The round's file, written on the screen: one dog, two points."""
    terminal = ForkedTerminal(["--sessions", str(home / "sessions")], home)
    terminal.wait("none unfinished")
    terminal.press("s", "begin a new round")
    terminal.press("1", "under which edition")
    terminal.press("any-dog", "any-dog")
    terminal.press("\r", "Title *")
    terminal.press("Spring", "Spring")
    terminal.press(F4, "Only what is marked")
    terminal.press("a", "0 of")
    terminal.press(f"{DOWN} {DOWN} ", "2 of")
    terminal.press("\r", "Title *")
    terminal.press("\r" * 6, "Title *")
    terminal.press("Arko, m, 2023-05-14", "Arko, m")
    terminal.press(F2, "Give this file to everybody")
    terminal.send("q")
    terminal.press("q", "New examination")
    terminal.send("q")
    assert terminal.finish() == 0
    (path,) = (home / "sessions" / "rounds").glob("*.toml")
    return path


def take_part(home: Path, path: Path, who: str, points: list[Point], *, sign: bool) -> None:
    """Examine the dog and, where asked, sign."""
    terminal = ForkedTerminal(["--sessions", str(home / "sessions"), "examine", str(path)], home)
    terminal.wait("Your name")
    terminal.press(f"{who}\r", f"You are {who}")
    terminal.press("1", "Before you touch")
    for number in range(1, 7):
        terminal.press("\r", lambda text, number=number: text.count("[read]") == number)
    terminal.press("1", "[yes]")
    terminal.press("2", "All is read")
    terminal.press("\r", points[0].label)
    for point in points:
        terminal.wait(point.label)
        terminal.send(answer(point, False))
    terminal.wait("This was the last point.")
    if sign:
        terminal.press("1", "Not signed yet")
        terminal.press("g", "Name of who signs")
        terminal.press("\r", "Enter once more signs")
        terminal.press("\r", f"Signed by {who}")
        terminal.press("q", f"You are {who}")
    else:
        terminal.press("7", f"You are {who}")
    terminal.send("q")
    terminal.press("q", "New examination")
    terminal.send("q")
    assert terminal.finish() == 0


def test_a_round_from_the_host_to_the_agreement_of_three(tmp_path: Path) -> None:
    home = tmp_path / "host"
    home.mkdir()
    path = host(home)
    found = read_round(path)
    assert found is not None
    ruleset = LIBRARY.load("any-dog")
    points = [ruleset.points[name] for name in found.round.points]
    assert len(points) == 2
    stick = tmp_path / "stick"
    for who in ("A. Thornby", "J. Sandt", "M. Quill"):
        own = tmp_path / who
        (own / "sessions").mkdir(parents=True)
        file = Path(shutil.copy(path, own))
        take_part(own, file, who, points, sign=who != "J. Sandt")
        shutil.copytree(own / "sessions", stick / who)
    terminal = ForkedTerminal(["--sessions", str(home / "sessions"), "examine", str(path)], home)
    terminal.wait("Your name")
    terminal.press("H. Host\r", "You are H. Host")
    terminal.press("g", "A folder, a stick or a zip file")
    terminal.press(f"{stick}\r", "3 new sessions taken")
    terminal.press("\x1b", "M. Quill: signed 1")
    terminal.wait("J. Sandt: begun 1")
    terminal.press("a", "You have not signed")
    terminal.press("2", "3 evaluators")
    terminal.wait(lambda text: "not signed yet: Arko by J. Sandt" in " ".join(text.split()))
    terminal.press("d", "64.5*")
    terminal.kill(9)
    gathered = path.with_suffix("")
    people = {read_session(one).examination.evaluator for one in gathered.glob("*.toml")}
    assert people == {"A. Thornby", "J. Sandt", "M. Quill"}
