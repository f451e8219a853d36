"""Is an answer that the screen showed as given ever lost? The real program, ended at any moment.

    python -m tests.bench.kill --rounds 300

Each round works in a real terminal at one of the places below and is ended by SIGKILL, SIGTERM, SIGHUP or by
closing the terminal, while further keys are on their way. Then the file must be readable, hold everything
the screen had acknowledged, and be free for the next. Exit code 1 if one round lost anything.
"""

from __future__ import annotations

import argparse
import datetime
import random
import re
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pexpect

from hands_on.exam.answers import amended
from hands_on.exam.session import Session
from hands_on.exam.walk import Stop, stops
from hands_on.ruleset.points import GradePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.drafts import DraftFile
from hands_on.store.library import Library
from hands_on.store.open_session import OpenSession
from hands_on.store.places import shipped_rulesets
from hands_on.store.session_file import read_session
from tests.terminal import terminal as terminals
from tests.terminal.terminal import Terminal

WAYS = ("SIGKILL", "SIGTERM", "SIGHUP", "closed")
PLACES = ("walk", "sheet", "recheck", "teeth", "scribe", "note", "signing", "amending")
NOW = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.UTC)
MOST = 6
"""Answers in one round, unless told otherwise."""
ON_SHEET = "What departs here?"


@dataclass(frozen=True)
class Round:
    """What one round came to."""

    place: str
    way: str
    acknowledged: int
    on_disk: int
    trouble: str = ""

    @property
    def lost(self) -> bool:
        """Was anything lost, or left unusable?"""
        return bool(self.trouble) or self.on_disk < self.acknowledged


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the rounds and print what came of them."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--rounds", type=int, default=30)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--most", type=int, default=MOST, help="answers in one round")
    parser.add_argument("--place", choices=PLACES, help="at this place alone")
    parser.add_argument("--first", type=int, default=0, help="number of the first round, to go on from")
    parser.add_argument("--each", action="store_true", help="print every round as it ends")
    parser.add_argument("--beside", type=int, default=2, help="rounds at a time")
    parser.add_argument(
        "--forked",
        action="store_true",
        help="fork the program with its modules and an edition's wording loaded: quicker",
    )
    parser.add_argument(
        "--patience", type=float, default=terminals.DEADLINE, help="seconds for a busy machine"
    )
    options = parser.parse_args(arguments)
    terminals.DEADLINE = options.patience
    rules = Library([shipped_rulesets()]).load("any-dog")
    kind: type[Terminal] = Terminal
    if options.forked:
        from tests.terminal.forked import ForkedTerminal

        kind = ForkedTerminal

    def run(number: int) -> Round:
        row = one(number)
        if options.each:
            print(number, row, flush=True)
        return row

    def one(number: int) -> Round:
        place, way = options.place or PLACES[number % len(PLACES)], WAYS[number // len(PLACES) % len(WAYS)]
        if options.place:
            way = WAYS[number % len(WAYS)]
        return one_round(place, way, options.seed * 1_000_003 + number, rules, kind, options.most)

    numbers = range(options.first, options.first + options.rounds)
    if options.beside == 1:
        rounds = [run(number) for number in numbers]
    else:
        with ThreadPoolExecutor(options.beside) as pool:
            rounds = list(pool.map(run, numbers))
    for place in PLACES:
        mine = [row for row in rounds if row.place == place]
        print(f"{place:10} {len(mine):4} rounds, {sum(row.acknowledged for row in mine):5} acknowledged")
    print("ended by", dict(Counter(row.way for row in rounds)))
    for row in rounds:
        if row.lost:
            print("LOST", row)
    lost = sum(row.lost for row in rounds)
    print(f"{len(rounds)} rounds, {sum(row.acknowledged for row in rounds)} acknowledged, {lost} lost")
    return 1 if lost else 0


def one_round(
    place: str, way: str, seed: int, rules: Ruleset, kind: type[Terminal] = Terminal, most: int = MOST
) -> Round:
    """Begin, answer, end, and look at the file."""
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory(prefix="hands-on-kill-") as name:
        home = Path(name)
        path = prepared(home / "sessions", place, rules)
        terminal = kind(["examine", str(path)], home)
        acknowledged, trouble = 0, ""
        try:
            acknowledged = WORK[place](terminal, chance.randint(1, most), stops(rules, read_session(path)))
        except AssertionError as error:
            trouble = f"the screen: {str(error)[:300]}"
        time.sleep(chance.random() * 0.05)
        try:
            end(terminal, way)
        except (AssertionError, pexpect.ExceptionPexpect) as error:
            trouble = f"it does not end: {error}"
        try:
            session = read_session(path)
            held = count(place, session, path)
            with OpenSession.open(path, NOW) as again:
                trouble = trouble or (f"still held by {again.holder}" if again.read_only else "")
        except ValueError as error:
            return Round(place, way, acknowledged, 0, str(error))
        return Round(place, way, acknowledged, held, trouble)


def prepared(folder: Path, place: str, rules: Ruleset) -> Path:
    """A session at the place that is to be worked on."""
    cautions = Library([shipped_rulesets()]).cautions().cautions
    parts: dict[str, object] = {
        "dog": {"call_name": "Arko", "sex": "male", "born": datetime.date(2023, 5, 14)},
        "examination": {"evaluator": "E. Example", "started": NOW},
        "ruleset": {"id": rules.id, "digest": rules.digest},
        "cautions": [{"id": row.id, "answer": "yes" if row.stop else "read"} for row in cautions],
    }
    session = Session.model_validate(parts)
    if place == "recheck":
        with OpenSession.create(folder, session, NOW) as earlier:
            baseline = {"kind": "recheck", "baseline": earlier.path.name}
        session = Session.model_validate(parts | {"examination": {**parts["examination"], **baseline}})  # type: ignore[dict-item]
    if place == "teeth":
        others = [stop.point.id for stop in stops(rules, session) if stop.point.kind != "teeth"]
        session = Session.model_validate(parts | {"skips": [{"point": id, "reason": "no"} for id in others]})
    if place == "amending":
        session = Session.model_validate(parts | {"signature": {"name": "E. Example", "at": NOW}})
    with OpenSession.create(folder, session, NOW) as opened:
        return opened.path


def count(place: str, session: Session, path: Path) -> int:
    """What the file holds of what was done at the place."""
    match place:
        case "scribe":
            return len(session.notes)
        case "note":
            return len(session.notes) or bool(DraftFile(path).read().note)
        case "signing":
            return session.signature is not None
        case "amending":
            return len(session.amendments)
        case "teeth":
            return len(session.teeth.missing) if session.teeth else 0
        case _:
            now = amended(session)
            return len({row.point for row in (*now.takes, *now.grades, *now.choices, *now.skips)})


def end(terminal: Terminal, way: str) -> None:
    """End the program as the system, or the user, would."""
    if way == "closed":
        terminal.hang_up()
    else:
        terminal.child.kill(getattr(signal, way))
        terminal.finish()


def walk(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """Points answered, or skipped, as far as the screen shows fewer left."""
    terminal.wait(lambda text: left(text) > 0)
    first = left(terminal.text)
    for n, stop in enumerate(walked[:calls], 1):
        keys = "0" if isinstance(stop.point, GradePoint) else ".4"
        terminal.press(keys, lambda text, n=n: 0 <= left(text) <= first - n)  # type: ignore[misc]
    terminal.send("0.40")
    return first - left(terminal.text)


def sheet(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """Regions given as asked in one stroke, what stays open of them skipped; counted by what is left."""
    terminal.wait(lambda text: left(text) > 0)
    first = left(terminal.text)
    terminal.press("t", ON_SHEET)
    for _ in range(calls):
        before = left(terminal.text)
        keys = "0" if ON_SHEET in terminal.text else ".4"
        terminal.press(keys, lambda text, before=before: 0 <= left(text) < before)  # type: ignore[misc]
    terminal.send("0.40")
    return first - left(terminal.text)


def left(text: str) -> int:
    """How many points are left, as the screen tells."""
    found = re.search(r"(\d+) left", text)
    return int(found[1]) if found else -1


def teeth(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """Teeth marked as missing, as far as the chart told it."""
    terminal.wait(lambda text: left(text) > 0)
    wanted = ("105", "206", "305", "406", "108")[:calls]
    for tooth in wanted:
        terminal.press(f"{tooth}\r", f"{tooth}, ")
    terminal.send("101\r10")
    return len(wanted)


def scribe(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """Calls that stand under the line."""
    terminal.wait(lambda text: left(text) > 0)
    terminal.press("c", "Scribe's line")
    for n in range(1, calls + 1):
        terminal.press(f"call number {n}\r", f"{n}. call number {n}")
    terminal.send("and one mo")
    return calls


def note(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """A note being written for longer than a second."""
    terminal.wait(lambda text: left(text) > 0)
    terminal.press("n", lambda text: "Enter" in text)
    terminal.press("a long note", "a long note")
    time.sleep(1.2)
    return 1


def signing(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """The signature, once the review tells it."""
    terminal.wait(lambda text: left(text) > 0)
    terminal.press("r", "Review")
    terminal.press("g", "Name of who signs")
    if calls > 4:
        terminal.send("\r\r")
        return 0
    terminal.press("\r", "Enter once more signs")
    terminal.press("\r", "Signed by")
    return 1


def amending(terminal: Terminal, calls: int, walked: Sequence[Stop]) -> int:
    """Summaries after the signature, each an amendment."""
    terminal.wait("Review")
    for n in range(calls):
        terminal.press("s", "Summary")
        terminal.press(f"word{n} ", f"word{n}")
        terminal.press("\x1b", "A change after signing")
        terminal.press(f"reason{n}\r", lambda text: "Kept." in text and "Why?" not in text)
    terminal.send("s and mo")
    return calls


WORK = {
    "walk": walk, "sheet": sheet, "recheck": walk, "teeth": teeth, "scribe": scribe, "note": note,
    "signing": signing, "amending": amending,
}  # fmt: skip

if __name__ == "__main__":
    sys.exit(main())
