"""The index of records: newest first, found by any word, read again only where changed, never the truth."""

from __future__ import annotations

import os
import sqlite3
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from hands_on.store import records as module
from hands_on.store.records import Records, Refreshed
from tests.store.examples import ARKO

SESSION = """
[ruleset]
id = "hovawart-fci-190"
[dog]
call_name = "{name}"
registered_name = "{name} vom Łęg"
sex = "female"
born = 2024-01-31
chip = "276098100000123"
registration = "VDH/123"
sire = "Öko"
dam = "Fee"
[examination]
evaluator = "José Example"
place = "Musterstadt"
started = {started}
kind = "recheck"
[[takes]]
point = "height"
value = 60
[[grades]]
point = "eyes.colour"
as_asked = true
[teeth]
[signature]
name = "x"
at = 2026-05-02T09:30:00Z
"""


def write(folder: Path, name: str, started: str) -> Path:
    path = folder / f"{name}.toml"
    path.write_text(SESSION.format(name=name, started=started), "utf-8")
    return path


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "sessions").mkdir()
    return tmp_path / "sessions"


@pytest.fixture
def records(folder: Path, tmp_path: Path) -> Iterator[Records]:
    with Records(folder, tmp_path / "cache" / "index.sqlite") as opened:
        yield opened


def names(rows: tuple[module.Row, ...]) -> list[str]:
    return [row.call_name for row in rows]


def test_a_row_tells_what_the_file_tells(records: Records, folder: Path) -> None:
    path = write(folder, "Ärna", "2026-05-02T09:30:00+02:00")
    records.refresh()
    (row,) = records.list()
    assert row.path == path
    assert (row.call_name, row.registered_name, row.sex) == ("Ärna", "Ärna vom Łęg", "female")
    assert str(row.born) == "2024-01-31"
    assert row.started is not None
    assert row.started.isoformat() == "2026-05-02T09:30:00+02:00"
    assert row.finished is None
    assert (row.kind, row.ruleset, row.signed, row.answers) == ("recheck", "hovawart-fci-190", True, 3)
    assert (row.evaluator, row.place, row.problem) == ("José Example", "Musterstadt", None)


def test_the_newest_examination_comes_first_whatever_the_clock_of_the_place(
    records: Records, folder: Path
) -> None:
    write(folder, "second", "2026-05-02T09:30:00+02:00")
    write(folder, "first", "2026-05-02T09:00:00-06:00")
    write(folder, "third", "2026-05-02T09:00:00+02:00")
    write(folder, "day", "2026-05-01")
    write(folder, "old", "2016-05-02T09:30:00")
    records.refresh()
    assert names(records.list()) == ["first", "second", "third", "day", "old"]
    assert names(records.list(limit=2, offset=1)) == ["second", "third"]
    assert records.count() == 5


@pytest.mark.parametrize(
    "text",
    [
        *("arna", "ÄRNA", "vom leg", "jose", "muster stadt", "2026-05-02", "2024-01", "hovawart", "oko"),
        *("fee", "276098100000123", "vdh/123", "Ärna.toml", "  arna   example ", ""),
    ],
)
def test_found_by_any_words_without_case_or_accents(text: str, records: Records, folder: Path) -> None:
    write(folder, "Ärna", "2026-05-02T09:30:00+02:00")
    records.refresh()
    assert names(records.find(text)) == ["Ärna"]


@pytest.mark.parametrize("text", ["arno", "arna 2027", "%", "_", "' OR 1=1 --", "\x00", "\ud83d", "recheckk"])
def test_not_found_by_what_is_not_there(text: str, records: Records, folder: Path) -> None:
    """Signs that mean something to a database mean nothing here."""
    write(folder, "Ärna", "2026-05-02T09:30:00+02:00")
    records.refresh()
    found = records.find(text)
    assert names(found) == ([] if text.strip("\x00") else ["Ärna"])


def test_only_what_is_new_or_changed_is_read_again(
    records: Records, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(folder, "a", "2026-05-01T09:30:00Z")
    path = write(folder, "b", "2026-05-02T09:30:00Z")
    gone = write(folder, "c", "2026-05-03T09:30:00Z")
    assert records.refresh() == Refreshed(read=3, gone=0, left=0)
    assert records.refresh() == Refreshed(read=0, gone=0, left=0)
    gone.unlink()
    path.write_text(path.read_text("utf-8").replace("Musterstadt", "Neustadt"), "utf-8")
    assert records.refresh() == Refreshed(read=1, gone=1, left=0)
    assert names(records.find("neustadt")) == ["b"]
    monkeypatch.setattr(module, "header_of", None)
    records.refresh()
    assert names(records.list()) == ["b", "a"]


def test_a_long_refresh_can_be_done_in_parts(records: Records, folder: Path) -> None:
    for number in range(5):
        write(folder, f"dog{number}", f"2026-05-0{number + 1}T09:30:00Z")
    parts = [records.refresh(at_most=2) for _ in range(3)]
    assert [(part.read, part.left) for part in parts] == [(2, 3), (2, 1), (1, 0)]
    assert records.count() == 5


def test_the_index_is_kept_from_one_run_to_the_next(folder: Path, tmp_path: Path) -> None:
    write(folder, "a", "2026-05-01T09:30:00Z")
    for expected in (1, 0):
        with Records(folder, tmp_path / "index.sqlite") as opened:
            assert opened.refresh().read == expected
            assert names(opened.list()) == ["a"]


def test_broken_files_are_listed_with_their_problem_beside_the_sound(records: Records, folder: Path) -> None:
    write(folder, "sound", "2026-05-01T09:30:00Z")
    (folder / "cut.toml").write_text(ARKO + "[dog", "utf-8")
    (folder / "empty.toml").write_text("", "utf-8")
    (folder / "latin.toml").write_bytes(b'[dog]\ncall_name = "J\xf6rg"')
    (folder / "newer.toml").write_text("format = 9\n" + ARKO.replace("format = 1", ""), "utf-8")
    (folder / "other.toml").write_text('[tool]\nname = "something else"\n', "utf-8")
    (folder / "odd.toml").write_text('dog = 3\nruleset = ["x"]\nexamination = 1\nteeth = 1\n', "utf-8")
    records.refresh()
    records.close()  # the problem must come out of the index, not only out of the file
    rows = {row.path.name: row for row in records.list()}
    assert len(rows) == 7
    assert rows.pop("sound.toml").problem is None
    told = {name: str(row.problem) for name, row in rows.items()}
    assert "cut.toml:17" in told["cut.toml"]
    assert "empty" in told["empty.toml"]
    assert "latin.toml:2" in told["latin.toml"]
    assert "format 9" in told["newer.toml"]
    assert rows["newer.toml"].call_name == "Arko"
    assert "ruleset" in told["other.toml"]
    assert "ruleset" in told["odd.toml"]
    assert [row.path.name for row in records.find("cut.toml")] == ["cut.toml"]


def test_what_is_no_session_file_is_not_looked_at(records: Records, folder: Path) -> None:
    (folder / "README.md").write_text("x", "utf-8")
    (folder / ".hidden.toml").write_text("x", "utf-8")
    (folder / "folder.toml").mkdir()
    os.symlink(folder / "nowhere", folder / "dangling.toml")
    assert records.refresh() == Refreshed(0, 0, 0)


@pytest.mark.skipif(os.name != "posix", reason="names of files as bytes")
def test_a_file_name_that_is_no_text_is_no_hindrance(records: Records, folder: Path) -> None:
    path = write(folder, "a", "2026-05-01T09:30:00Z")
    odd = Path(os.fsdecode(os.fsencode(folder) + b"/caf\xe9.toml"))
    path.rename(odd)
    records.refresh()
    assert records.list()[0].path == odd
    assert names(records.find("caf")) == ["a"]


def test_a_folder_not_there_yet_is_empty_and_one_gone_is_told(records: Records, folder: Path) -> None:
    folder.rmdir()
    assert records.refresh() == Refreshed(0, 0, 0)
    folder.mkdir()
    write(folder, "a", "2026-05-01T09:30:00Z")
    records.refresh()
    folder.rename(folder.with_name("pocket"))
    assert "is not there" in records.refresh().problem
    assert names(records.list()) == ["a"]


@pytest.mark.parametrize("damage", ["junk", "middle", "half", "another", "empty"])
def test_an_index_that_is_not_sound_is_made_again(damage: str, folder: Path, tmp_path: Path) -> None:
    index = tmp_path / "index.sqlite"
    for number in range(300):
        write(folder, f"dog{number:03}", "2026-05-01T09:30:00Z")
    with Records(folder, index) as opened:
        opened.refresh()
    data = index.read_bytes()
    if damage == "another":
        index.unlink()
        other = sqlite3.connect(index)
        other.execute("CREATE TABLE sessions (x)")
        other.execute(f"PRAGMA user_version = {module._VERSION}")
        other.commit()
        other.close()
    else:
        index.write_bytes(
            {
                "junk": b"no database at all" * 1000,
                "middle": data[:8192] + b"\xff" * (len(data) - 12288) + data[-4096:],
                "half": data[: len(data) // 2],
                "empty": b"",
            }[damage]
        )
    with Records(folder, index) as opened:
        if damage == "empty":
            opened.refresh()
        assert len(opened.list()) == 300
        assert names(opened.find("dog299")) == ["dog299"]
        assert opened.refresh() == Refreshed(0, 0, 0)


def test_without_a_cache_folder_the_index_lives_in_memory(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    write(folder, "a", "2026-05-01T09:30:00Z")
    for index in (tmp_path / "file" / "index.sqlite", tmp_path):
        with Records(folder, index) as opened:
            opened.refresh()
            assert names(opened.list()) == ["a"]


def test_lists_while_another_thread_refreshes(records: Records, folder: Path) -> None:
    for number in range(60):
        write(folder, f"dog{number}", "2026-05-01T09:30:00Z")
    failures: list[BaseException] = []

    def work() -> None:
        try:
            while records.refresh(at_most=5).left:
                pass
        except BaseException as error:
            failures.append(error)

    threads = [threading.Thread(target=work) for _ in range(2)]
    for thread in threads:
        thread.start()
    while any(thread.is_alive() for thread in threads):
        records.find("dog1")
    for thread in threads:
        thread.join()
    assert not failures
    assert len(records.list()) == 60


@pytest.mark.parametrize(
    "name",
    [
        "Arko (conflicted copy 2026-01-01)", "Arko (E. Example's conflicted copy)",
        "Arko.sync-conflict-20260101-101500-ABCDEFG", "Arko (1)", "Arko - Copy", "Arko - Copy (2)",
    ],
)  # fmt: skip
def test_a_conflict_copy_is_named_as_one_and_keeps_its_place_in_the_list(name, records, folder):
    """Names as synchronised folders and file managers make them (common practice)."""
    original = write(folder, "Arko", "2026-05-02T09:30:00Z").rename(folder / "Arko.toml")
    text = original.read_text("utf-8")
    (folder / f"{name}.toml").write_text(text.replace("value = 60", "value = 61"), "utf-8")
    records.refresh()
    assert {row.path.stem: row.copy_of for row in records.list()} == {"Arko": "", name: "Arko.toml"}
    assert {row.copy_of for row in records.find("arko")} == {"", "Arko.toml"}
    records.refresh()
    original.unlink()
    records.refresh()
    assert [row.copy_of for row in records.list()] == [""], "without the other file it is the examination"


@pytest.mark.parametrize(
    ("name", "changed"),
    [
        ("Arko (1)", ("09:30", "10:30")),  # another examination on the same day
        ("Arko (1)", ("José", "Ana")),
        ("Arko (left)", ("", "")),
        ("Brin (1)", ("", "")),
        ("Conflict at Arko", ("", "")),
    ],
)
def test_what_is_only_named_like_one_is_an_examination_of_its_own(name, changed, records, folder):
    text = write(folder, "Arko", "2026-05-02T09:30:00Z").read_text("utf-8")
    (folder / f"{name}.toml").write_text(text.replace(*changed) if changed[0] else text, "utf-8")
    records.refresh()
    assert [row.copy_of for row in records.list()] == ["", ""]
