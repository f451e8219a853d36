"""In a real terminal: a re-check of the demo's young dog with the earlier answers hidden; two dogs side by
side at 80x24, and stepped through for a room at 160x45."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from hands_on.compare.answer import answer_at
from hands_on.compare.dogs.recheck import plan
from hands_on.compare.dogs.side_by_side import side_by_side
from hands_on.compare.examined import Examined
from hands_on.exam.left_out import left_out
from hands_on.exam.walk import stops
from hands_on.store import places
from hands_on.store.examined import examined_file
from hands_on.store.library import Library
from hands_on.store.session_file import SessionFile, read_session
from hands_on.wording.answers import answer_words
from hands_on.wording.dogs import cell_words
from hands_on.wording.labels import label_words
from tests.terminal.forked import ForkedTerminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

LIBRARY = Library((places.shipped_rulesets(),))


def demo(folder: Path, name: str) -> Path:
    """A copy of a demo session, a year earlier, so that a re-check lies behind it whatever the day is."""
    (path,) = places.shipped_sessions().glob(f"*-{name}.toml")
    folder.mkdir(exist_ok=True)
    copy = folder / path.name.replace("2026-", "2025-")
    copy.write_text(path.read_text().replace("2026-", "2025-"))
    return copy


def one_line(text: str) -> str:
    return " ".join(text.split())


def words_at(one: Examined, point: str) -> str:
    """What an examination says at a point, in words."""
    return answer_words(answer_at(one, one.ruleset.points[point]), one.ruleset)


def test_a_young_dog_comes_back_and_what_was_found_stays_hidden(tmp_path):
    folder = tmp_path / "sessions"
    path = demo(folder, "tovik-m-quill")
    earlier = examined_file(path, LIBRARY)
    height = earlier.measures.by_point["height"].pooled.value
    terminal = ForkedTerminal(["recheck", str(path)], tmp_path, HANDS_ON_SESSIONS=str(folder))
    try:
        text = terminal.wait("To look at first")
        assert "stays hidden" in one_line(text)
        assert f"{height:.1f}" not in text
        terminal.press("1", "Who examines here?")
        terminal.press("1", "Before you touch Tovik")
        terminal.press("q", "9 h ? Help")
        terminal.send("q")
        assert terminal.finish() == 0
    finally:
        terminal.child.close(force=True)

    (later,) = (one for one in folder.glob("*.toml") if one != path)
    # The cautions have a test of their own: have them read, and go on with the file.
    file, session = SessionFile.read(later)
    cautions = [
        {"id": row.id, "answer": "yes" if row.stop else "read"} for row in LIBRARY.cautions().cautions
    ]
    file.write(type(session).model_validate({**session.model_dump(), "cautions": cautions}))
    assert session.examination.baseline == path.name
    first = [one.point for one in plan(earlier).items if one.first and not one.left_open]
    graded = next(one for one in first if earlier.ruleset.points[one].kind == "grade")
    then = words_at(earlier, graded)
    terminal = ForkedTerminal(["examine", str(later)], tmp_path, HANDS_ON_SESSIONS=str(folder))
    asked = [
        stop.point
        for stop in stops(earlier.ruleset, session)
        if not left_out(read_session(later), stop.point)
    ]
    answered = ("height", graded)
    try:
        for point in asked[: 1 + max(asked.index(earlier.ruleset.points[name]) for name in answered)]:
            text = terminal.wait(point.label)
            if point.id == "height":
                assert f"{height:.1f}" not in text
                terminal.wait("Again: look again; too young to judge")
                text = terminal.press("66.5\r", "Take 1: 66.5 cm.")
                assert f"{height:.1f}" not in text, "more takes are still to come"
                both = f"{words_at(earlier, 'height')} at 7 months, 66.2"
                terminal.press("66\r\r", lambda text, both=both: both in one_line(text))
            elif point.id == graded:
                assert then not in one_line(text)
                terminal.press("0", lambda text: f"{then} at 7 months, as asked at" in one_line(text))
            else:
                terminal.send("\r\r")
        terminal.press("7" if "The end of the walk" in terminal.text else "q", "9 h ? Help")
        terminal.send("q")
        assert terminal.finish() == 0
    finally:
        terminal.child.close(force=True)
    kept = read_session(later)
    assert [take.value for take in kept.takes] == [66.5, 66]
    assert {row.point for row in kept.grades} == {graded}
    assert not any(left_out(kept, earlier.ruleset.points[name]) for name in first)


def test_two_dogs_stand_side_by_side_at_80x24(tmp_path):
    folder = tmp_path / "sessions"
    paths = [demo(folder, name) for name in ("brumo-m-quill", "fenja-m-quill")]
    compared = side_by_side([examined_file(path, LIBRARY) for path in paths])
    height = next(row for row in compared.rows if row.id == "height")
    terminal = ForkedTerminal(["compare", *map(str, paths)], tmp_path, columns=80, lines=24)
    try:
        text = terminal.wait("d Differing")
        row = next(line for line in text.split("\n") if line.lstrip().startswith("Height at the"))
        assert all(cell_words(compared, height, place) in row for place in (0, 1))
        terminal.press("d", lambda text: "ONLY WHAT DIFFERS" in text and "the same" not in text)
        text = terminal.press("o", "chain: Fenja")
        assert "line: Brumo" in text
        terminal.press("\x1b", "ONLY WHAT DIFFERS")
        terminal.press("q", "9 h ? Help")
        terminal.send("q")
        assert terminal.finish() == 0
    finally:
        terminal.child.close(force=True)


def test_two_dogs_are_stepped_through_for_a_room_at_160x45(tmp_path):
    folder = tmp_path / "sessions"
    paths = [demo(folder, name) for name in ("brumo-m-quill", "fenja-m-quill")]
    compared = side_by_side([examined_file(path, LIBRARY) for path in paths])
    rows = [row for row in (*compared.rows, *compared.proportions) if row.differs]
    terminal = ForkedTerminal(["compare", *map(str, paths)], tmp_path, columns=160, lines=45)
    try:
        terminal.wait("d Differing")
        terminal.send("d")
        terminal.wait("ONLY WHAT DIFFERS")
        terminal.send("p")
        for n, row in enumerate(rows, 1):
            text = terminal.wait(
                lambda text, n=n: f"{n} of {len(rows)}" in text and "shows the answers" in text
            )
            assert label_words(row.named) in text
            assert "█" in text
            cells = [cell_words(compared, row, place) for place in range(len(row.answers))]
            told = [words for words in cells if len(words) > 9]
            assert not [words for words in told if words in one_line(text)]
            text = terminal.press("\r", lambda text: "shows the answers" not in text)
            assert all(words in one_line(text) for words in told)
            terminal.send(" ")
        terminal.wait("This was the last one")
        terminal.press("\x1b", "d Differing")
    finally:
        terminal.child.close(force=True)
