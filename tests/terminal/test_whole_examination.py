"""A whole examination in a real terminal at 80x24: the walk from a numeric keypad alone, killed half-way,
gone on with, reviewed, signed, and assessed by the plain command."""

from __future__ import annotations

import json
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from hands_on.exam.session import Dog, RulesetRef, Session
from hands_on.exam.signing import as_signed
from hands_on.exam.walk import stops
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, Point, ScalePoint
from hands_on.store import places
from hands_on.store.library import Library
from hands_on.store.session_file import read_session
from tests.terminal.forked import ForkedTerminal
from tests.terminal.terminal import ROOT, Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

LIBRARY = Library((places.shipped_rulesets(),))
EDITION = "any-dog"
KEYPAD = set("0123456789+-*/.\r")

LENGTHS = {"height": "64.5", "body-length": "68", "weight": "30", "chest-depth": "30", "elbow-height": "35"}
"""Readings of an invented dog; points not named here are skipped for want of an instrument."""


def answer(point: Point, departure: bool) -> str:
    """The keys that answer a point and lead to the next, all of them on a numeric keypad."""
    if isinstance(point, MeasurePoint):
        reading = LENGTHS.get(point.id)
        return f"{reading}\r\r" if reading else ".3"
    if isinstance(point, GradePoint):
        return "1200" if departure else "0"
    if isinstance(point, ScalePoint):
        sound = [step for step in point.steps if step.fault is None]
        return f"{sound[len(sound) // 2].value}0"
    if isinstance(point, ChoicePoint):
        number = next(n for n, option in enumerate(point.options, 1) if option.fault is None)
        return str(number) if len(point.options) < 10 else f"{number}\r"
    return "105\r0"


def left(text: str) -> int:
    """How many points are left, as the screen tells."""
    found = re.search(r"(\d+) left", text)
    return int(found[1]) if found else -1


def walk_on(terminal: Terminal, points: list[Point], *, departures: set[str]) -> None:
    """Answer points one after the other; each is awaited by its label and by what is left then."""
    for point in points:
        terminal.wait(point.label)
        before = left(terminal.text)
        keys = answer(point, point.id in departures)
        assert set(keys) <= KEYPAD
        terminal.send(keys)
        terminal.wait(lambda text, before=before: left(text) == before - 1)


def test_new_dog_walk_kill_go_on_review_sign_assess(tmp_path: Path) -> None:
    sessions = tmp_path / "sessions"
    ruleset = LIBRARY.load(EDITION)
    session = Session(dog=Dog(sex="male"), ruleset=RulesetRef(id=EDITION))
    points = [stop.point for stop in stops(ruleset, session)]
    departures = {"hindquarters.hocks"}
    assert departures <= {point.id for point in points}
    half = len(points) // 2

    first = ForkedTerminal(["--sessions", str(sessions), "examine", "--ruleset", EDITION], tmp_path)
    first.wait("Call name")
    first.press("Arko\r", "Arko")
    first.press("m\r", "(●) m dog")
    first.press("14.05.2023\r", "14 May 2023")
    first.press("\r" * 7 + "E. Example", "E. Example")
    assert re.search(r"Evaluator \* +E. Example", first.text)
    first.press("\x1bOQ", "Before you touch Arko")
    for number in range(1, 7):
        first.press("\r", lambda text, number=number: text.count("[read]") == number)
    first.press("1", "[yes]")
    first.press("2", "All is read")
    first.press("\r", f"{len(points)} left")
    walk_on(first, points[:half], departures=departures)
    first.kill(signal.SIGKILL)

    (path,) = sessions.glob("*.toml")
    kept = read_session(path)
    assert kept.signature is None
    assert {row.point for row in (*kept.takes, *kept.grades, *kept.choices, *kept.skips)} | (
        {"mouth.teeth"} if kept.teeth else set()
    ) == {point.id for point in points[:half]}, "every answer given before the kill is on disk"

    second = ForkedTerminal(["--sessions", str(sessions)], tmp_path)
    second.wait("1 unfinished")
    second.press("1", points[half].label)
    assert left(second.text) == len(points) - half
    walk_on(second, points[half:], departures=departures)
    second.wait("This was the last point.")
    second.press("1", "Findings, heaviest first")
    second.wait("Cow hocks")
    second.press("s", "Summary")
    second.press("Sound and honest.\x1bOQ", "Kept.")
    second.wait("Not signed yet")
    second.press("g", "Name of who signs")
    second.press("\r", "Enter once more signs")
    second.press("\r", "Signed by E. Example")
    second.press("q", "Go on with an examination")
    second.send("q")
    assert second.finish() == 0
    assert str(path.name) in second.raw.decode(errors="replace").rsplit("\x1b", 1)[-1], "told on leaving"

    signed = read_session(path)
    assert signed.signature is not None
    assert as_signed(signed) is True
    run = subprocess.run(
        [sys.executable, "-m", "hands_on", "assess", str(path), "--json"],
        capture_output=True, text=True, check=True, cwd=ROOT,
    )  # fmt: skip
    assessed = json.loads(run.stdout)
    (hocks,) = [row for row in assessed["findings"] if row["id"] == "hindquarters.cow-hocks"]
    assert hocks["degree"] == "moderate"
    assert "mouth.teeth-missing" in {row["id"] for row in assessed["findings"]}
    measured = {row["id"]: row["value"] for row in assessed["measures"]}
    assert measured.pop("teeth-count") == 41
    assert measured == {name: float(value) for name, value in LENGTHS.items()}


def test_the_terminal_is_put_back_and_no_colour_means_none(tmp_path: Path) -> None:
    terminal = Terminal(["--sessions", str(tmp_path / "s")], tmp_path, NO_COLOR="1")
    terminal.wait("none unfinished")
    colours = re.findall(rb"\x1b\[[0-9;]*m", terminal.raw)
    codes = {code for found in colours for code in found[2:-1].split(b";")}
    assert not [code for code in codes if re.fullmatch(rb"3[0-7]|4[0-7]|[34]8|9[0-7]|10[0-7]", code)]
    assert re.search(rb"\x1b\[1;4[;m][^\x1b]*1", terminal.raw), "the marked line of the menu is underlined"
    terminal.send("q")
    assert terminal.finish() == 0
    assert terminal.raw.rstrip().endswith(b"\x1b[?1004l") or b"\x1b[?1049l" in terminal.raw
    assert b"\x1b[?25h" in terminal.raw, "the cursor is shown again"


def test_a_linux_console_shows_the_start_screen(tmp_path: Path) -> None:
    terminal = Terminal(["--sessions", str(tmp_path / "s")], tmp_path, TERM="linux")
    terminal.wait("New examination")
    terminal.wait("none unfinished")
    terminal.send("q")
    assert terminal.finish() == 0


def test_a_terminal_that_cannot_place_text_is_told_which_command_serves(tmp_path: Path) -> None:
    terminal = Terminal(["--sessions", str(tmp_path / "s")], tmp_path, TERM="dumb")
    assert terminal.finish() == 2
    assert "hands-on assess" in " ".join(terminal.text.split())


def test_without_a_terminal_the_plain_commands_are_named(tmp_path: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "hands_on", "--sessions", str(tmp_path)],
        capture_output=True, text=True, stdin=subprocess.DEVNULL, cwd=ROOT,
    )  # fmt: skip
    assert run.returncode == 2
    assert "hands-on assess FILE" in run.stderr
    assert run.stdout == ""
