"""A session's file: what is written is what is read; text that is no session is told, with its line."""

from __future__ import annotations

import os
import re
import tomllib
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hands_on.exam.session import Session
from hands_on.store.session_file import dump_session, parse_session, read_session
from hands_on.toml_text.problems import BadText
from tests.store.examples import ARKO, arko
from tests.strategies import AWKWARD, sessions

ROOT = Path(__file__).parents[2]


@given(sessions)
@settings(deadline=None, max_examples=150)
def test_a_session_read_back_is_the_session_written(session: Session) -> None:
    """Unknown keys, control characters and all; the parser is the standard library's, not the writer's."""
    text = dump_session(session)
    again = Session.model_validate(tomllib.loads(text))
    assert again.model_dump() == session.model_dump()
    assert dump_session(again) == text


@pytest.mark.parametrize("text", AWKWARD)
def test_awkward_text_stays_as_typed_everywhere(text: str) -> None:
    written = dump_session(arko(call_name=text, **{text or "empty": text}))
    again = parse_session(written, "a.toml")
    assert again.dog.call_name == text
    assert (again.dog.model_extra or {})[text] == text


def test_half_characters_from_a_terminal_do_not_stop_a_save() -> None:
    written = dump_session(arko(call_name="half \ud83d dog"))
    assert parse_session(written, "a.toml").dog.call_name == "half ? dog"


def test_the_smallest_session_of_the_format_guide_is_read() -> None:
    guide = (ROOT / "sessions" / "README.md").read_text("utf-8")
    block = re.search(r"```toml\n(.*?)```", guide, re.DOTALL)
    assert block is not None
    session = parse_session(block[1], "README.md")
    assert session.ruleset.id
    assert parse_session(dump_session(session), "again") == session


def test_the_file_reads_as_people_write_it() -> None:
    text = """
later = "top"
[[notes]]
text = "first line\\nsecond line"
findings = [{ fault = "eyes.light", degree = "slight" }]
[teeth]
missing = [105, 405]
[[takes]]
at = 2026-05-02T09:31:00+02:00
point = "height"
value = 64.5
mine = { deep = { deeper = 1 } }
[ruleset]
id = "any-dog"
[dog]
call_name = "Arko"
"""
    written = dump_session(parse_session(text, "a.toml"))
    heads = [row for row in written.splitlines() if row.startswith(("[", "format", "later"))]
    assert heads == [
        "format = 1",
        'later = "top"',
        "[dog]",
        "[ruleset]",
        "[[takes]]",
        "[takes.mine.deep]",
        "[teeth]",
        "[[notes]]",
    ]
    assert "missing = [105, 405]\n" in written
    assert 'text = """\nfirst line\nsecond line"""\n' in written
    assert written.index("value = 64.5") < written.index("at = 2026-05-02")
    assert "scribe" not in written
    assert "struck" not in written


@pytest.mark.parametrize(
    ("entered", "written"),
    [("64.5", "value = 64.5\n"), ("65", "value = 65.0\n"), ('"25 3/8 in"', 'value = "25 3/8 in"\n')],
)
def test_a_reading_stays_as_entered(entered: str, written: str) -> None:
    text = f'[ruleset]\nid = "any-dog"\n[[takes]]\npoint = "height"\nvalue = {entered}\n'
    assert written in dump_session(parse_session(text, "a.toml"))


def test_an_empty_tooth_chart_is_kept() -> None:
    """`[teeth]` with nothing in it says that all 42 are there; without it they were not looked at."""
    session = parse_session('[teeth]\n[ruleset]\nid = "any-dog"\n', "a.toml")
    assert parse_session(dump_session(session), "a.toml").teeth is not None


BROKEN = {
    "empty": (b"", None, "empty"),
    "blank": (b" \n\n", None, "empty"),
    "zeros": (b"\0" * 300, None, "zero bytes"),
    "latin-1": ('[dog]\ncall_name = "J\u00f6rg"\n'.encode("latin-1"), 2, "UTF-8"),
    "utf-16": (ARKO.encode("utf-16"), 1, "UTF-8"),
    "no toml": (b"[dog]\ncall name = 1\n", 2, "not valid TOML"),
    "cut off": (ARKO.split("Example")[0].encode(), 10, "cut off|newline|not valid"),
    "newer": (b'\n\nformat = 2\n[ruleset]\nid = "any-dog"\n', 3, "format 2"),
    "no ruleset": (b'[dog]\ncall_name = "Arko"\n', None, "ruleset"),
    "sex": (ARKO.replace('"male"', '"mail"').encode(), 7, '"mail"'),
    "twice": ((ARKO + "[dog]\n").encode(), 17, "not valid TOML"),
    "endless brackets": (b"x = " + b"[" * 100_000, 1, "nested"),
    "endless digits": (b"x = " + b"9" * 100_000, 1, "100,000 characters"),
    "no such day": (ARKO.replace("2023-05-14", "2023-02-30").encode(), 8, "not valid TOML"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_file_is_told_with_its_line_and_left_as_it_is(name: str, tmp_path: Path) -> None:
    data, line, words = BROKEN[name]
    path = tmp_path / "session.toml"
    path.write_bytes(data)
    with pytest.raises(BadText) as caught:
        read_session(path)
    problem = caught.value.problems[0]
    assert problem.file == str(path)
    assert problem.line == line
    assert re.search(words, problem.what)
    assert problem.right
    assert path.read_bytes() == data


def test_what_is_no_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(BadText, match="no such file"):
        read_session(tmp_path / "gone.toml")
    with pytest.raises(BadText, match="a folder"):
        read_session(tmp_path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names on this system")
def test_a_pipe_nobody_writes_to_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    with pytest.raises(BadText, match="ordinary file"):
        read_session(tmp_path / "pipe.toml")


@pytest.mark.parametrize("data", [b"\xef\xbb\xbf" + ARKO.encode(), ARKO.replace("\n", "\r\n").encode()])
def test_what_editors_of_other_systems_add_is_no_error(data: bytes, tmp_path: Path) -> None:
    path = tmp_path / "session.toml"
    path.write_bytes(data)
    assert read_session(path) == parse_session(ARKO, "a.toml")


@given(cut=st.integers(0, len(ARKO)), junk=st.binary(max_size=12))
@example(cut=len(ARKO) // 2, junk=b"[" * 5000)
@settings(deadline=None)
def test_damage_anywhere_gives_a_session_or_a_problem(cut: int, junk: bytes, tmp_path_factory) -> None:
    """Bytes overwritten or the rest missing: never another exception."""
    path = tmp_path_factory.mktemp("damaged") / "session.toml"
    for data in (ARKO.encode()[:cut] + junk, ARKO.encode()[:cut] + junk + ARKO.encode()[cut + len(junk) :]):
        path.write_bytes(data)
        with suppress(BadText):
            assert isinstance(read_session(path), Session)
