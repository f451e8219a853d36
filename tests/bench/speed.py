"""How quick the program is, as ratios of one run on this machine; the aim stands behind each.

    python -m tests.bench.speed [--runs 7] [--records 10000]

Whole commands are held against a Python that only imports pydantic, the first text against an empty Textual
app, fifty editions against those shipped. Commands are told in processor time, so that a busy machine tells
nearly the same.
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

from tests.bench.first_paint import EMPTY, painted_after

ROOT = Path(__file__).parents[2]
BRUMO, FENJA = (str(ROOT / "sessions" / f"2026-09-19-{dog}-m-quill.toml") for dog in ("brumo", "fenja"))


def processor(arguments: list[str], home: str, runs: int) -> float:
    """Median seconds of processor time of a whole process."""
    environment = {**os.environ, "HOME": home, "XDG_CACHE_HOME": f"{home}/cache", "PYTHONPATH": str(ROOT)}
    took = []
    for _ in range(runs + 1):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, *arguments], env=environment, check=True, stdout=subprocess.DEVNULL)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        took.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return statistics.median(took[1:])


def told(what: str, value: float, base: float, aim: str, *, unit: float = 1000, name: str = "ms") -> None:
    """One line."""
    ratio = f"{value / base:5.2f}" if base else "     "
    print(f"{what:44s} {value * unit:7.0f} {name}  {ratio}  {aim}")


def records(count: int, home: str) -> tuple[float, float]:
    """Seconds to list the newest of so many sessions, warm; megabytes at rest."""
    from hands_on.store.records import Records

    folder = Path(home) / "many"
    folder.mkdir()
    text = Path(BRUMO).read_text(encoding="utf-8")
    small = text.split("[[takes]]")[0]
    for n in range(count):
        (folder / f"{n}.toml").write_text(small.replace("Brumo", f"Dog {n}"), encoding="utf-8")
    with Records(folder, Path(home) / "index.sqlite") as kept:
        kept.refresh()
        began = time.perf_counter()
        rows = kept.list(500)
        took = time.perf_counter() - began
        assert len(rows) == min(500, count)
    return took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def editions(home: str, count: int) -> dict[str, float]:
    """Seconds for what is done with so many editions: their list, the wording of all for notes, `check`."""
    from hands_on.commands.check import run as check
    from hands_on.store.library import Library
    from hands_on.store.places import shipped_rulesets
    from hands_on.store.wording import wording

    folder = Path(home) / f"editions-{count}"
    shutil.copytree(shipped_rulesets(), folder)
    shipped = sorted(folder.glob("*.toml"))
    for n in range(count - len(shipped)):
        source = shipped[n % len(shipped)]
        text = source.read_text(encoding="utf-8")
        (folder / f"copy-{n}.toml").write_text(
            text.replace(f'id = "{source.stem}"', f'id = "copy-{n}"', 1), encoding="utf-8"
        )

    def timed(work: Callable[[], object]) -> float:
        began = time.process_time()
        work()
        return time.process_time() - began

    def quietly() -> None:
        with open(os.devnull, "w") as nowhere:
            out, sys.stdout = sys.stdout, nowhere
            try:
                check([str(folder)], as_json=False, library=Library((folder,)))
            finally:
                sys.stdout = out

    return {
        "list": timed(lambda: Library((folder,)).heads()),
        "wording": timed(lambda: wording(Library((folder,)))),
        "check": timed(quietly),
    }


def main() -> None:
    """Print every ratio."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--runs", type=int, default=7)
    options.add_argument("--records", type=int, default=10_000)
    given = options.parse_args()
    with tempfile.TemporaryDirectory() as home:
        bare = processor(["-c", "import pydantic.main, argparse"], home, given.runs)
        told("python with pydantic", bare, 0, "")
        assess = processor(["-m", "hands_on", "assess", BRUMO], home, given.runs)
        told("assess, whole command", assess, bare, "aim 350 ms")
        compare = processor(["-m", "hands_on", "compare", "--plain", BRUMO, FENJA], home, given.runs)
        told("compare of two, whole command", compare, bare, "aim 350 ms")
        empty = statistics.median(painted_after(["-c", EMPTY], "AINTED") for _ in range(given.runs))
        paint = statistics.median(
            painted_after(["-m", "hands_on"], "New examination") for _ in range(given.runs)
        )
        told("first text, against an empty app", paint, empty, "aim 1.2")
        took, resident = records(given.records, home)
        told(f"newest of {given.records} records", took, 0, "aim 50 ms")
        told("at rest, with the index open", resident, 0, "aim 100 MB", unit=1, name="MB")
        ten, fifty = editions(home, 14), editions(home, 50)
        for what, seconds in fifty.items():
            told(f"fifty editions against as shipped: {what}", seconds, ten[what], "aim 2")


if __name__ == "__main__":
    main()
