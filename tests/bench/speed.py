"""How quick the program is, in one run on this machine, each figure held against its budget.

    python -m tests.bench.speed [--runs 9] [--records 10000]

Whole commands are told in processor time, the least of the runs, and beside it as a quiet machine of the kind
this was written on would take: there a Python that only imports pydantic takes 100 ms. The first text is held
against an empty Textual app, fifty editions against ten. Exit code 1 where a budget is not met.
"""

from __future__ import annotations

import argparse
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import pexpect

from tests.bench.first_paint import EMPTY, painted_after

ROOT = Path(__file__).parents[2]
BRUMO, FENJA = (str(ROOT / "sessions" / f"2026-09-19-{dog}-m-quill.toml") for dog in ("brumo", "fenja"))

QUIET = 0.100
"""Seconds that a Python which only imports pydantic takes on the quiet machine."""

STAGES = """
import sys, time
marks, clock = [], time.process_time
def done(): marks.append(clock())
done()
from pathlib import Path
from hands_on import cli
from hands_on.arguments import parser_for
given = ['assess', sys.argv[1]]
options = parser_for(given).parse_args(given)
cli._no_plugins()
done()
from hands_on.evaluate import evaluate
from hands_on.report.dossier import dossier
from hands_on.report.text import dossier_lines
from hands_on.store.session_file import read_session
from hands_on.commands.shared import Context
done()
session = read_session(Path(options.file))
done()
ruleset = Context(None, None).library.load(session.ruleset.id)
done()
evaluation = evaluate(ruleset, session, name=options.file)
done()
list(dossier_lines(dossier(ruleset, session, evaluation), 100))
done()
print(*(after - before for before, after in zip([0, *marks], marks)))
"""
PARTS = {
    "python itself": 15,
    "command line": 35,
    "imports": 150,
    "the session": 20,
    "the library": 40,
    "evaluation": 35,
    "wording": 15,
}
"""Milliseconds that each part of `assess` may take; together 350."""


class Told:
    """Prints each figure with its budget, and remembers whether all were met."""

    def __init__(self) -> None:
        self.missed = 0

    def line(self, what: str, value: str, budget: str = "", met: bool = True) -> None:
        """One line; without a budget nothing is held against the figure."""
        self.missed += not met
        mark = ("met" if met else "NOT MET") if budget else ""
        print(f"{what:44s} {value:>26s}  {budget:14s} {mark}", flush=True)

    def ratio(self, what: str, value: float, base: float, most: float) -> None:
        """A figure against another."""
        told = f"{value * 1000:.0f} / {base * 1000:.0f} ms = {value / base:.2f}"
        self.line(what, told, f"at most {most:g}", value <= most * base)


def home_of(home: str) -> dict[str, str]:
    """The environment of a user who lives there; modules are compiled once, as an installation does."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "HOME": home, "XDG_CACHE_HOME": f"{home}/cache", "PYTHONPATH": str(ROOT)}


def processor(arguments: list[str], home: str, runs: int) -> tuple[float, float]:
    """Seconds of processor time of a whole process: the first run, and the least of the others."""
    took = []
    for _ in range(runs + 1):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, *arguments], env=home_of(home), check=True, stdout=subprocess.DEVNULL)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        took.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return took[0], min(took[1:])


def commands(told: Told, home: str, runs: int) -> None:
    """`assess` and `compare` of two as whole commands, and the parts of `assess`."""
    _, bare = processor(["-c", "import pydantic.main, argparse"], home, runs)
    quiet = QUIET / bare
    told.line("python with pydantic", f"{bare * 1000:.0f} ms")
    for what, arguments in (
        ("assess", ["assess", BRUMO]),
        ("compare of two", ["compare", "--plain", BRUMO, FENJA]),
    ):
        processor(["-m", "hands_on", *arguments], home, 1)  # compiles what it imports
        shutil.rmtree(f"{home}/cache", ignore_errors=True)
        cold, warm = processor(["-m", "hands_on", *arguments], home, runs)
        value = f"{warm * 1000:.0f} ms, quiet {warm * quiet * 1000:.0f} ms"
        told.line(f"{what}, whole command", value, "at most 350 ms", warm * quiet <= 0.350)
        told.line(
            "   the first time, nothing kept", f"{cold * 1000:.0f} ms, quiet {cold * quiet * 1000:.0f} ms"
        )
    rows = [
        subprocess.run(
            [sys.executable, "-c", STAGES, BRUMO],
            env=home_of(home),
            check=True,
            capture_output=True,
            text=True,
        ).stdout.split()
        for _ in range(runs)
    ]
    for n, (part, most) in enumerate(PARTS.items()):
        least = min(float(row[n]) for row in rows) * quiet * 1000
        told.line(f"   of assess: {part}", f"quiet {least:.0f} ms", f"at most {most} ms", least <= most)


def first_text(told: Told, runs: int) -> None:
    """The start screen against an empty app, each pair in turn."""
    pairs = [
        (painted_after(["-m", "hands_on"], "New examination"), painted_after(["-c", EMPTY], "AINTED"))
        for _ in range(runs)
    ]
    ratio = statistics.median(ours / empty for ours, empty in pairs)
    least = f"{min(a for a, _ in pairs) * 1000:.0f} / {min(b for _, b in pairs) * 1000:.0f} ms, median"
    told.line("first text, against an empty app", f"{least} {ratio:.2f}", "at most 1.2", ratio <= 1.2)


def at_rest(told: Told, home: str) -> None:
    """Megabytes of the start screen that waits."""
    environment = {**home_of(home), "TERM": "xterm-256color", "HANDS_ON_SESSIONS": home}
    child = pexpect.spawn(
        sys.executable, ["-m", "hands_on"], dimensions=(24, 80), env=environment, timeout=60
    )
    child.expect("New examination")
    child.expect(r"\d+ known")
    status = Path(f"/proc/{child.pid}/status")
    if status.exists():
        rows = dict(line.split(":", 1) for line in status.read_text().splitlines())
        resident = int(rows["VmRSS"].split()[0]) / 1024
        told.line("at rest on the start screen", f"{resident:.0f} MB", "under 100 MB", resident < 100)
    child.terminate(force=True)


def records(told: Told, count: int, home: str) -> None:
    """The newest of so many sessions, and a search among them, from the index."""
    from hands_on.store.records import Records

    folder = Path(home) / "many"
    folder.mkdir()
    small = Path(BRUMO).read_text(encoding="utf-8").split("[[takes]]")[0]
    for n in range(count):
        (folder / f"{n}.toml").write_text(small.replace("Brumo", f"Dog {n}"), encoding="utf-8")
    with Records(folder, Path(home) / "index.sqlite") as kept:
        kept.refresh()
        listing = least(lambda: kept.list(500))
        finding = least(lambda: kept.find(f"Dog {count // 2}"))
    told.line(f"newest of {count} records", f"{listing * 1000:.0f} ms", "at most 50 ms", listing <= 0.050)
    told.line(f"one dog among {count}", f"{finding * 1000:.0f} ms", "at most 50 ms", finding <= 0.050)


def notes(told: Told, home: str) -> None:
    """How long a walk's first note waits, and what a word costs in a note four times as long."""
    from hands_on.notes import read_note
    from hands_on.store.library import Library
    from hands_on.store.places import ruleset_folders
    from hands_on.store.wording import lexicon

    os.environ["XDG_CACHE_HOME"] = f"{home}/cache"
    folders = ruleset_folders(Path("nothing-here"))
    note = (
        "slightly cow hocked, good reach, withers 64.5, a touch steep in shoulder, no light eyes, head long "
    )

    def first() -> None:
        read_note(note, lexicon(Library(folders), "hovawart-fci-190"))

    built, kept = least(first, 1), least(first)
    told.line("a walk's first note", f"{kept * 1000:.0f} ms", "at most 500 ms", kept <= 0.500)
    told.line("   the first time, nothing kept", f"{built * 1000:.0f} ms")
    words = lexicon(Library(folders), "hovawart-fci-190")
    read_note(note, words)
    short, long = (least(lambda text=note * times: read_note(text, words)) / times for times in (5, 20))
    told.ratio("a word, in a note four times as long", long, short, 1.5)


def least(work: Callable[[], object], runs: int = 5) -> float:
    """Seconds of processor time, the least of some runs."""
    took = []
    for _ in range(runs):
        began = time.process_time()
        work()
        took.append(time.process_time() - began)
    return min(took)


EDITIONS = """
import io, contextlib, sys, time
from pathlib import Path
folder, what = Path(sys.argv[1]), sys.argv[2]
from hands_on.cli import _no_plugins
_no_plugins()
from hands_on.store.library import Library
library = Library((folder,))
if what == 'start':
    library.heads()
elif what == 'choice':
    library.load(library.heads()[0].id)
elif what == 'notes':
    from hands_on.notes import read_note
    from hands_on.store.wording import lexicon
    read_note('slightly cow hocked, good reach', lexicon(library))
else:
    from hands_on.commands.check import run
    with contextlib.redirect_stdout(io.StringIO()):
        run([str(folder)], as_json=False, library=library)
"""


def editions(told: Told, home: str, runs: int) -> None:
    """What is done with fifty editions against ten, as whole processes: first anew, then as kept."""
    from hands_on.store.places import shipped_rulesets

    shipped = sorted(shipped_rulesets().glob("*.toml"))[:10]
    for count in (10, 50):
        folder = Path(home) / f"editions-{count}"
        folder.mkdir()
        shutil.copytree(shipped_rulesets() / "common", folder / "common")
        for n in range(count):
            source = shipped[n % len(shipped)]
            name = source.stem if n < len(shipped) else f"copy-{n}"
            text = source.read_text(encoding="utf-8").replace(f'id = "{source.stem}"', f'id = "{name}"', 1)
            (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    for what in ("start", "choice", "notes", "check"):
        first, kept = [], []
        for count in (10, 50):
            arguments = ["-c", EDITIONS, f"{home}/editions-{count}", what]
            anew = []
            for _ in range(max(2, runs // 3)):
                shutil.rmtree(f"{home}/cache", ignore_errors=True)
                taken, again = processor(arguments, home, 1)
                anew.append((taken, again))
            first.append(min(taken for taken, _ in anew))
            kept.append(min(again for _, again in anew))
        told.ratio(f"fifty editions against ten: {what}", kept[1], kept[0], 2.0)
        told.ratio("   nothing kept yet", first[1], first[0], 2.0)


def main() -> int:
    """Print every figure; 1 where a budget is not met."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--runs", type=int, default=9)
    options.add_argument("--records", type=int, default=10_000)
    given = options.parse_args()
    told = Told()
    with tempfile.TemporaryDirectory() as home:
        commands(told, home, given.runs)
        first_text(told, given.runs)
        at_rest(told, home)
        records(told, given.records, home)
        notes(told, home)
        editions(told, home, given.runs)
    print("every budget is met" if not told.missed else f"{told.missed} budgets are not met")
    return 1 if told.missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
