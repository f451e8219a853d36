"""Does anything but a clean error come of whatever is put in?

    python -m tests.bench.fuzz --cases 1000000

Sessions, rulesets, rounds, language data, drafts, headers, notes, readings, dates, command lines and keys at
every kind of point: mutated examples and soups of what matters to each reader. What is no clean error of the
reader is printed with its case; exit code 1 if there is any. Keys and pastes on the screens: `--screens N`.
"""

from __future__ import annotations

import argparse
import contextlib
import datetime
import io
import os
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from hands_on.cli import main as command
from hands_on.exam.answers import Answers
from hands_on.exam.check import check_session
from hands_on.exam.dates import DateProblem, read_birth
from hands_on.exam.dialogue import dialogue_for
from hands_on.exam.round import check_round
from hands_on.measure.entry import EntryProblem, parse_entry
from hands_on.notes import read_note
from hands_on.plain_text import shell_word, visible
from hands_on.ruleset.assemble import read_common_file, read_edition_file
from hands_on.store.headers import header_of
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets, shipped_sessions
from hands_on.store.session_file import dump_session, parse_session
from hands_on.store.wording import lexicon
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables
from tests.bench import random_keys

LIBRARY = Library([shipped_rulesets()])
TODAY = datetime.date(2026, 5, 2)
SOUP = [
    "[", "]", "[[", "]]", "{", "}", "=", ".", ",", "\n", '"', "'", '"""', "'''", "#", "\\", "\\u0000",
    "\\ud800", "a", "format", "dog", "takes", "ruleset", "id", "1", "0x", "1e999", "nan", "-inf",
    "9" * 30, "1979-05-27",
    "07:32:00", "T", "Z", "true", "[]", "{}", "\0", "\x1b", "²", "٣", "\u202e", "\ud800", "é", "😀", "k.k.k",
]  # fmt: skip
NUMBERS = [
    *"0123456789.,/'\" ½¼²٣-+e",
    "cm",
    "in",
    "kg",
    "mm",
    "deg",
    "ft",
    "%",
    "inf",
    "nan",
    "\x1b",
    "9" * 400,
]
WORDS = [
    "steep", "shoulder", "no", "cow", "hocks", "withers", "64.5", "cm", "slight", "touch", "left",
    "and", "but",
    ",", ";", ".", "not", "teeth", "105", "missing", "a", "bit", "\n", "\x1b[2J", "[red]", "²", "9" * 40,
    "\ud800", "😀",
]  # fmt: skip
DATES = [*"0123456789./- ", "²", "٣", "y", "m", "months", "May", "9" * 20]
HEAD = 'format = 1\n[ruleset]\nid = "any-dog"\n'
KEYS = [*"0123456789.,-+*/²٣x?", "enter", "backspace", "escape", "up", "down", "left", "right"]


def soup(chance: random.Random, parts: list[str], most: int) -> str:
    """Pieces thrown together."""
    return "".join(chance.choices(parts, k=chance.randint(0, most)))


def mutated(chance: random.Random, text: str) -> str:
    """A text with pieces cut, doubled, moved and put in."""
    for _ in range(chance.randint(1, 4)):
        at, to = sorted(chance.randrange(len(text) + 1) for _ in range(2))
        to = min(to, at + 80)
        piece = chance.choice(("", text[at:to] * 2, soup(chance, SOUP, 4), text[to : to + 40]))
        text = text[:at] + piece + text[to:]
    return text


class Readers:
    """Each reader with cases for it; all raise nothing but what they say they raise."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.sessions = [path.read_text("utf-8") for path in sorted(shipped_sessions().glob("*.toml"))]
        self.small = HEAD + '[dog]\ncall_name = "Arko"\n[[takes]]\npoint = "height"\nvalue = 64.5\n'
        self.rules = LIBRARY.load("any-dog")
        self.points = list(self.rules.points.values())
        self.lexicon = lexicon(LIBRARY, "any-dog")
        self.edition = (shipped_rulesets() / "any-dog.toml").read_text("utf-8")
        self.common = LIBRARY.common_paths()[0].read_text("utf-8")
        self.round = (
            'format = 1\n[round]\nid = "r"\n[ruleset]\nid = "any-dog"\n[[dogs]]\nnumber = 1\nsex = "male"\n'
        )
        self.weights: dict[Callable[[random.Random], None], int] = {
            self.toml: 330, self.reading: 300, self.shown: 150, self.date: 80, self.keys: 40,
            self.session: 12, self.round_file: 10, self.header: 10, self.note: 3,
            self.whole_session: 1, self.ruleset: 1,
        }  # fmt: skip

    def toml(self, chance: random.Random) -> None:
        with contextlib.suppress(BadText):
            parse_tables(soup(chance, SOUP, 12), "a.toml")

    def reading(self, chance: random.Random) -> None:
        with contextlib.suppress(EntryProblem):
            quantity, unit = chance.choice(
                (("length", "cm"), ("mass", "kg"), ("angle", "deg"), ("count", "count"))
            )
            parse_entry(soup(chance, NUMBERS, 7), quantity=quantity, default_unit=unit, plausible=(0, 200))

    def shown(self, chance: random.Random) -> None:
        text = soup(chance, SOUP, 8)
        assert visible(visible(text)) == visible(text)
        with contextlib.suppress(UnicodeEncodeError):
            os.fsencode(text)
            assert visible(shell_word(text)) == shell_word(text)

    def date(self, chance: random.Random) -> None:
        with contextlib.suppress(DateProblem):
            read_birth(
                soup(chance, [*"0123456789./- ", "²", "٣", "y", "m", "months", "May", "9" * 20], 8), TODAY
            )

    def keys(self, chance: random.Random) -> None:
        dialogue = dialogue_for(chance.choice(self.points), self.rules, Answers(), None, "male")
        for key in chance.choices(KEYS, k=6):
            dialogue.press(key)
        dialogue.prompt()

    def session(self, chance: random.Random) -> None:
        self._session(mutated(chance, self.small))

    def whole_session(self, chance: random.Random) -> None:
        self._session(mutated(chance, chance.choice(self.sessions)))

    def _session(self, text: str) -> None:
        check_session(text, "a.toml", self.rules, ["any-dog"])
        with contextlib.suppress(BadText):
            # A file holds no half of a surrogate pair: what is written back has "?" in its place.
            read = parse_session(text.encode("utf-8", "replace").decode("utf-8"), "a.toml")
            assert parse_session(dump_session(read), "b.toml") == read or "nan" in text

    def round_file(self, chance: random.Random) -> None:
        check_round(mutated(chance, self.round), "a.toml", self.rules, ["any-dog"])

    def header(self, chance: random.Random) -> None:
        path = self.folder / "a.toml"
        path.write_bytes(mutated(chance, self.small).encode("utf-8", "surrogatepass"))
        header_of(path)

    def note(self, chance: random.Random) -> None:
        read_note(" ".join(chance.choices(WORDS, k=chance.randint(0, 8))), self.lexicon)

    def ruleset(self, chance: random.Random) -> None:
        with contextlib.suppress(BadText):
            read_edition_file(mutated(chance, self.edition), "a.toml")
        with contextlib.suppress(BadText):
            read_common_file(mutated(chance, self.common), "a.toml")

    def command_line(self, chance: random.Random) -> None:
        """One command line, in this process, without a terminal."""
        words = [
            "assess",
            "check",
            "records",
            "rulesets",
            "read",
            "agree",
            "compare",
            "recheck",
            "examine",
            "--json",
            "--plan",
            "--plain",
        ]
        words += ["--find", "--ruleset", "any-dog", "--region", str(self.folder), "~nobody", "x" * 300]
        words += [str(self.folder / "a.toml"), "\x1b[2J", "²", "--", "-", ""]
        arguments = ["--sessions", str(self.folder), *chance.choices(words, k=chance.randint(1, 4))]
        out, told = io.StringIO(), io.StringIO()
        with (
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(told),
            contextlib.suppress(SystemExit),
        ):
            command(arguments)
        assert "\x1b" not in out.getvalue() + told.getvalue()


def run(cases: int, seed: int, commands: int) -> list[str]:
    """The cases that ended in something else than a clean error."""
    bad: list[str] = []
    done: Counter[str] = Counter()
    sys.stdin = io.TextIOWrapper(io.BytesIO())
    with tempfile.TemporaryDirectory() as name:
        readers = Readers(Path(name))
        names = list(readers.weights)
        chance = random.Random(seed)
        for reader in chance.choices(names, list(readers.weights.values()), k=cases):
            _try(reader, chance.getrandbits(60), bad, done)
        for _ in range(commands):
            _try(readers.command_line, chance.getrandbits(60), bad, done)
    for reader_name, count in done.most_common():
        print(f"{reader_name:15}{count:9}")
    return bad


def _try(reader: Callable[[random.Random], None], seed: int, bad: list[str], done: Counter[str]) -> None:
    name = reader.__name__
    done[name] += 1
    try:
        reader(random.Random(seed))
    except Exception:
        bad.append(f"{name} seed {seed}: {traceback.format_exc(limit=-4)}")


def main() -> int:
    """Run, and print what is no clean error."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--cases", type=int, default=10_000)
    parser.add_argument("--commands", type=int, default=50)
    parser.add_argument("--screens", type=int, default=0, metavar="KEYS")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    began = time.monotonic()
    bad = run(options.cases, options.seed, options.commands)
    if options.screens:
        for watch in random_keys.run(options.screens, options.seed):
            print(f"keys on {watch.name:20}{watch.pressed:7}", flush=True)
            bad += watch.bad
    for told in bad[:20]:
        print("BAD", told)
    print(f"{options.cases} cases, {options.screens} keys on each screen, {time.monotonic() - began:.0f} s:")
    print(f"{len(bad)} with anything but a clean error")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
