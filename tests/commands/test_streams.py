"""Commands under odd streams, character sets and paths: one clear sentence, no traceback, no escape codes."""

from __future__ import annotations

import json
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.cli import main
from hands_on.commands.shared import json_text
from hands_on.plain_text import shell_word, visible
from hands_on.store.places import shipped_sessions

posix = pytest.mark.skipif(os.name != "posix", reason="streams and names of POSIX systems")
SESSION = shipped_sessions() / "2026-09-19-fenja-m-quill.toml"
LONG = "x" * 300 + ".toml"
ODD = "a\x1b[31mred\u202e\x9b b.toml"


def run(command: str, tmp_path: Path, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """A command of the shell in which `hands-on` is this program."""
    program = f'hands-on() {{ {shlex.quote(sys.executable)} -m hands_on "$@"; }}\n'
    places = {"HANDS_ON_SESSIONS": str(tmp_path)}
    return subprocess.run(
        ["bash", "-c", program + command],
        env={**os.environ, **places, **environment},
        capture_output=True,
        timeout=60,
        check=False,
        cwd=Path(__file__).parents[2],
    )


@posix
@pytest.mark.parametrize(
    ("command", "code", "said"),
    [
        ("hands-on records >/dev/full", 2, b"the disk is full"),
        ("hands-on --help >/dev/full", 2, b"the disk is full"),
        ("hands-on rulesets any-dog --json >/dev/full", 2, b"the disk is full"),
        ("hands-on records --json >&-", 0, b""),
        ("hands-on read <&-", 0, b""),
        ("hands-on <&-", 2, b"need a terminal"),
        ("hands-on >&-", 2, b"need a terminal"),
        ("hands-on records <&- >&- 2>&-", 0, b""),
        ("hands-on assess nowhere.toml 2>&-", 2, b""),
        ("hands-on rulesets any-dog | head -1 >/dev/null; exit ${PIPESTATUS[0]}", 0, b""),
    ],
)
def test_a_stream_that_is_closed_or_full_is_told_in_a_sentence(
    command: str, code: int, said: bytes, tmp_path: Path
) -> None:
    if "/dev/full" in command and not Path("/dev/full").exists():
        pytest.skip("no /dev/full here")
    done = run(command, tmp_path)
    assert said in done.stderr
    assert b"Traceback" not in done.stderr
    assert b"Exception" not in done.stderr
    assert done.returncode == code


@posix
@pytest.mark.parametrize("charset", ["cp1252", "cp437", "iso-8859-2", "koi8-r", "ascii"])
def test_every_character_set_takes_what_is_printed(charset: str, tmp_path: Path) -> None:
    """What the set lacks is written in plain signs; JSON stays JSON, with the same words in it."""
    name = "Łęg ≥ 64.5 cm 😀"
    named = SESSION.read_text("utf-8").replace('call_name = "Fenja"', f'call_name = "{name}"')
    (tmp_path / "named.toml").write_text(named, "utf-8")
    done = run(f"hands-on assess {SESSION} && hands-on records --json", tmp_path, PYTHONIOENCODING=charset)
    assert done.stderr == b""
    printed = done.stdout.decode(charset)
    rows, document = printed[: printed.index("\n[")], printed[printed.index("\n[") :]
    assert "±" in rows or "+/-" in rows
    assert json.loads(document)[0]["call_name"] == name


@pytest.mark.parametrize(
    "arguments",
    [
        ["assess", LONG],
        ["check", LONG],
        ["examine", LONG],
        ["recheck", "--plan", LONG],
        ["compare", LONG, str(SESSION)],
        ["agree", LONG],
        ["--rulesets", LONG, "rulesets"],
        ["rulesets", "--new", "fell-spaniel", "--out", LONG],
        ["records", "--sessions", LONG],
        ["assess", "~nobody-of-that-name/x.toml"],
        ["check", "~nobody-of-that-name/x.toml"],
        ["assess", ODD],
        ["check", ODD],
        ["recheck", "--plan", ODD],
        ["agree", ODD],
        ["examine", ODD],
        ["rulesets", ODD],
        ["--rulesets", ODD, "rulesets"],
        ["assess", str(SESSION), "--ruleset", ODD],
        ["read", "--region", ODD, "note"],
        [ODD],
        ["records", f"--{ODD}"],
        ["check", "/proc/self/mem"],
        ["check", "/dev/null"],
    ],
    ids=lambda arguments: " ".join(arguments)[:30].encode("ascii", "replace").decode(),
)
def test_odd_paths_and_words_are_told_in_a_sentence(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code = main(arguments)
    except SystemExit as ended:  # argparse
        code = ended.code
    told = capsys.readouterr().err
    assert code == 2
    assert told
    assert visible(told, keep="\n\t") == told


@posix
@pytest.mark.parametrize("command", ["records", "check {folder}", "assess {file}", "recheck --plan {file}"])
def test_escape_codes_in_a_path_are_shown_and_not_obeyed(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / ODD
    shutil.copy(SESSION, file)
    (tmp_path / f"broken-{ODD}").write_text("x = [", "utf-8")
    words = [word.format(folder=tmp_path, file=file) for word in command.split(" ")]
    main(["--sessions", str(tmp_path), *words])
    said = capsys.readouterr()
    assert "red" in said.out or command.startswith(("assess", "recheck"))
    assert visible(said.out, keep="\n\t") == said.out
    assert visible(said.err, keep="\n\t") == said.err


@given(st.text())
def test_json_says_the_same_words_without_a_sign_that_a_terminal_obeys(text: str) -> None:
    written = json_text({"words": text})
    assert json.loads(written) == {"words": text}
    assert written.isprintable()


@posix
@settings(max_examples=60)
@given(st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), min_size=1, max_size=20))
def test_a_word_for_the_shell_is_shown_and_comes_back_as_it_was(text: str) -> None:
    """Bash reads `$'...'` as POSIX.1-2024 (2.2.4) has it."""
    word = shell_word(text)
    assert visible(word) == word
    if shutil.which("bash"):
        done = subprocess.run(["bash", "-c", f"printf %s {word}"], capture_output=True, check=True)
        assert done.stdout.decode() == (f"./{text}" if text.startswith("-") else text)


@posix
def test_a_name_that_is_no_text_comes_back_too() -> None:
    """A file's name may be any bytes; Python holds those that are no UTF-8 as half characters (PEP 383)."""
    name = os.fsdecode(b"a\xff'\\b \x1b[31m")
    done = subprocess.run(["bash", "-c", f"printf %s {shell_word(name)}"], capture_output=True, check=True)
    assert done.stdout == b"a\xff'\\b \x1b[31m"
