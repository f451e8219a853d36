"""How long the store takes: `python tests/bench/store.py [FOLDER]`. Prints figures, judges nothing.

A save is timed apart from the disk's own flush (fsync) and with it, on the disk of FOLDER (default: the
temporary folder). Lists and searches are timed with 1,000 and 10,000 sessions in the index; the ratio
should not exceed that of their numbers, 10.
"""

from __future__ import annotations

import datetime
import random
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from hands_on.exam.session import Session
from hands_on.store import atomic
from hands_on.store.library import Library
from hands_on.store.open_session import OpenSession
from hands_on.store.own_hand import hands_of
from hands_on.store.places import shipped_rulesets
from hands_on.store.records import Records
from hands_on.store.session_file import dump_session, parse_session

NOW = datetime.datetime(2026, 5, 2, 9, 30)
NAMES = ["Arko", "Bela", "Csilla", "Donja", "Eika", "Fjodor", "Gisela", "Hasso", "Ilka", "Jörg", "Łucja"]
PLACES = ["Musterstadt", "Neudorf", "Altheim", "Kőszeg"]


def whole_session(number: int = 0) -> Session:
    """A whole examination: some 110 answers, a name and day of its own by `number`."""
    chosen = random.Random(number)
    day = datetime.date(2010, 1, 1) + datetime.timedelta(days=number % 6000)
    head = f"""
[ruleset]
id = "hovawart-fci-190"
[dog]
call_name = "{chosen.choice(NAMES)}"
registered_name = "{chosen.choice(NAMES)} vom Zwinger {number}"
sex = "female"
chip = "{276_098_100_000_000 + number}"
[examination]
evaluator = "E. Example {number % 7}"
place = "{chosen.choice(PLACES)}"
started = {day}T09:30:00+02:00
"""
    at = f"at = {day}T09:31:00+02:00\nby = 'E. Example'\n"
    takes = [f"[[takes]]\npoint = 'height'\nvalue = {60 + n / 10}\nunit = 'cm'\n{at}" for n in range(40)]
    grades = [f"[[grades]]\npoint = 'region.point-{n}'\nas_asked = true\n{at}" for n in range(70)]
    return parse_session("".join([head, *takes, *grades]), "bench")


def percentiles(times: list[float]) -> str:
    """Median, 90th, 99th percentile and the longest, in ms."""
    cut = statistics.quantiles(times, n=100)
    return "  ".join(
        f"{name} {value * 1000:7.2f} ms"
        for name, value in (("p50", cut[49]), ("p90", cut[89]), ("p99", cut[98]), ("max", max(times)))
    )


def best(work: Callable[[], object], times: int = 7) -> float:
    """The shortest of several runs, in seconds."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def saving(folder: Path, times: int = 300) -> None:
    """An answer put into a whole session."""
    flushing = [0.0]
    fsync = atomic.os.fsync

    def timed(handle: int) -> None:
        start = time.perf_counter()
        fsync(handle)
        flushing[-1] += time.perf_counter() - start

    atomic.os.fsync = timed
    try:
        with OpenSession.create(folder, whole_session(), NOW) as opened:
            whole = []
            for number in range(times):
                take = opened.session.takes[0].model_copy(update={"value": 60 + number / 1000})
                session = opened.session.model_copy(update={"takes": (take, *opened.session.takes[1:])})
                flushing.append(0.0)
                start = time.perf_counter()
                opened.put(session)
                whole.append(time.perf_counter() - start)
    finally:
        atomic.os.fsync = fsync
    own = [total - flush for total, flush in zip(whole, flushing[1:], strict=True)]
    print(f"save, apart from the flush   {percentiles(own)}")
    print(f"save, with the flush         {percentiles(whole)}")


def keeping(folder: Path, count: int) -> tuple[float, float]:
    """List and search times with `count` sessions, in seconds."""
    folder.mkdir()
    for number in range(count):
        # The head of a session is what the index keeps; short files make the bench's own work short.
        whole = whole_session(number)
        # Ten takes each, signed: what an evaluator's own hand is worked out from.
        signed = whole.examination.model_copy(update={"finished": whole.examination.started})
        takes = tuple(take.model_copy(update={"by": ""}) for take in whole.takes[:10])
        short = whole.model_copy(update={"takes": takes, "grades": (), "examination": signed})
        (folder / f"session-{number}.toml").write_text(dump_session(short), "utf-8")
    with Records(folder, folder.parent / f"index-{count}.sqlite") as records:
        first = best(records.refresh, 1)
        again = best(records.refresh)
        listed = best(lambda: records.list())
        page = best(lambda: records.list(limit=50))
        searches = {
            "a word many have": "zwinger",
            "two words": "lucja neudorf",
            "one dog's number": f"zwinger {count - 1}",
            "what nobody has": "nobody",
        }
        found = {name: best(lambda text=text: records.find(text)) for name, text in searches.items()}
        index = records.index
    rules = Library([shipped_rulesets()]).load("hovawart-fci-190")
    own = best(lambda: hands_of(folder, index, rules, "E. Example 3", folder / "session-3.toml"))
    assert hands_of(folder, index, rules, "E. Example 3", folder / "x.toml")["height"].n_repeats > 1000
    print(f"\n{count} sessions")
    print(f"  index made           {first * 1000:9.1f} ms ({first / count * 1e3:.2f} ms a file)")
    print(f"  nothing changed      {again * 1000:9.1f} ms")
    print(f"  all listed           {listed * 1000:9.1f} ms")
    print(f"  50 listed            {page * 1000:9.1f} ms")
    print(f"  own hand, all told   {own * 1000:9.1f} ms")
    for name, taken in found.items():
        print(f"  search: {name:17}{taken * 1000:6.1f} ms")
    return again + listed, max(found.values())


def main() -> None:
    """Run all and print."""
    place = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    with tempfile.TemporaryDirectory(dir=place) as name:
        folder = Path(name)
        text = dump_session(whole_session())
        print(f"session of 110 answers: {len(text)} bytes")
        session = whole_session()
        print(f"  written as text      {best(lambda: dump_session(session)) * 1000:9.1f} ms")
        print(f"  read                 {best(lambda: parse_session(text, 'x')) * 1000:9.1f} ms")
        saving(folder / "desk")
        small = keeping(folder / "thousand", 1000)
        large = keeping(folder / "ten-thousand", 10_000)
        listing, search = large[0] / small[0], large[1] / small[1]
        print(f"\n10 times the sessions: list x {listing:.1f}, search x {search:.1f}")
    rulesets = Library([shipped_rulesets()])
    print(f"\nheads of the shipped editions  {best(rulesets.heads) * 1000:6.1f} ms")
    common = best(lambda: Library([shipped_rulesets()]).common())
    print(f"common parts read and checked  {common * 1000:6.1f} ms")


if __name__ == "__main__":
    main()
