"""Is an answer ever lost when several programs write one session, and somebody clears the lock away?

    python -m tests.bench.locks --saves 1000

Four programs open the same session in turn, add an answer and close it, while the file of the lock is removed
at odd moments, as by somebody who tidies the folder. Every answer that was said to be saved must stand in the
file at the end. Exit code 1 if one is missing.
"""

from __future__ import annotations

import argparse
import datetime
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from hands_on.exam.session import Session, Take
from hands_on.store.open_session import OpenSession
from hands_on.store.private import beside
from hands_on.store.session_file import read_session

NOW = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.UTC)


def write(path: Path, first: int, wanted: int) -> None:
    """One program: so many answers of its own; each that is said to be saved is printed."""
    saved = 0
    while saved < wanted:
        with OpenSession.open(path, NOW) as opened:
            if opened.read_only:
                continue
            take = Take(point="height", value=first + saved, unit="mm", at=NOW)
            takes = (*opened.session.takes, take)
            if opened.put(opened.session.model_copy(update={"takes": takes})):
                print(take.value, flush=True)
                saved += 1


def missing(folder: Path, programs: int, saves: int, every: float, seed: int) -> tuple[int, int, int]:
    """Answers said to be saved, those of them that are missing, and how often the lock was removed."""
    with OpenSession.create(folder, Session.model_validate({"ruleset": {"id": "any-dog"}}), NOW) as opened:
        path = opened.path
    command = [sys.executable, "-m", "tests.bench.locks", "--write", str(path)]
    each = saves // programs
    running = [
        subprocess.Popen(
            [*command, "--first", str(100_000 * number), "--saves", str(each)],
            stdout=subprocess.PIPE,
            text=True,
        )
        for number in range(1, programs + 1)
    ]
    chance, removed = random.Random(seed), 0
    while every and any(program.poll() is None for program in running):
        time.sleep(chance.expovariate(1 / every))
        try:
            beside(path, ".lock").unlink()
            removed += 1
        except FileNotFoundError:
            continue
    told = [float(value) for program in running for value in program.communicate()[0].split()]
    assert all(program.returncode == 0 for program in running)
    held = {take.value for take in read_session(path).takes}
    return len(told), sum(value not in held for value in told), removed


def main() -> int:
    """Write, and print what is missing."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--saves", type=int, default=1000)
    parser.add_argument("--programs", type=int, default=4)
    parser.add_argument("--every", type=float, default=0.05, help="seconds between two removals; 0 for none")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--write", type=Path, help=argparse.SUPPRESS)
    parser.add_argument("--first", type=int, default=0, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.write is not None:
        write(options.write, options.first, options.saves)
        return 0
    with tempfile.TemporaryDirectory(prefix="hands-on-locks-") as name:
        told, lost, removed = missing(
            Path(name), options.programs, options.saves, options.every, options.seed
        )
    print(f"{told} answers said to be saved by {options.programs} programs, lock removed {removed} times:")
    print(f"{lost} missing")
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
