"""Many sessions as tables: time and memory of the export, and queries held against a cohort.

    python -m tests.bench.export [--sessions 1000000] [--distinct 300]

`--distinct` invented sessions are evaluated once; their rows are written again and again as other dogs of
other years, through the same writer as `records --export`, until there are so many sessions. DuckDB and
Polars then count every fault and average the heights by sex; both are held against the cohort of all of them.
"""

from __future__ import annotations

import argparse
import resource
import shutil
import tempfile
import time
from dataclasses import replace
from pathlib import Path

import duckdb
import polars

from hands_on.compare.cohort.cohort import cohort
from hands_on.compare.cohort.members import member_of
from hands_on.compare.examined import Examined, examined
from hands_on.exam.session import Session
from hands_on.store.export import Tables, rows_of
from hands_on.store.library import Library
from hands_on.store.places import ruleset_folders, shipped_sessions
from hands_on.store.session_file import read_session


def _invented(session: Session, n: int, library: Library) -> Examined:
    """A dog like the one in `session`, a little taller or smaller, with a chip of its own."""
    shift = (n * 37 % 41 - 20) / 10
    takes = tuple(
        take.model_copy(update={"value": round(take.value + shift, 2)})
        if take.point == "height" and isinstance(take.value, float | int)
        else take
        for take in session.takes
    )
    dog = session.dog.model_copy(update={"chip": f"{n:015d}"})
    own = session.model_copy(update={"takes": takes, "dog": dog})
    return examined(library.load(session.ruleset.id), own, name=f"{n}.toml")


def _memory() -> float:
    """Megabytes at most so far."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def _told(what: str, same: bool) -> None:
    print(f"{what}: {'as the cohort has it' if same else 'NOT AS THE COHORT HAS IT'}")


def main() -> None:
    """Print times, memory and figures."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--sessions", type=int, default=1_000_000)
    options.add_argument("--distinct", type=int, default=300)
    given = options.parse_args()
    library = Library(ruleset_folders(Path("nothing-here")))
    known = [read_session(path) for path in sorted(shipped_sessions().glob("*.toml"))]
    begun = time.perf_counter()
    held = [_invented(known[n % len(known)], n, library) for n in range(given.distinct)]
    rows, members = [rows_of(one) for one in held], [member_of(one) for one in held]
    each = (time.perf_counter() - begun) / given.distinct
    into = Path(tempfile.mkdtemp()) / "tables"
    begun = time.perf_counter()
    early = 0.0
    with Tables(into, "parquet") as tables:
        for n in range(given.sessions):
            if n == given.sessions // 10:
                early = _memory()
            year = str(1990 + n // max(1, given.sessions // 36))
            for table, own in rows[n % len(rows)].items():
                named = [{**row, "session": f"{n}.toml", "dog": str(n)} for row in own]
                tables.add(table, year, members[n % len(rows)].edition, named)
    written = time.perf_counter() - begun
    size = sum(path.stat().st_size for path in into.rglob("*.parquet"))
    print(f"evaluating a session {1000 * each:.1f} ms; writing {given.sessions} sessions {written:.0f} s")
    print(f"memory at most {early:.0f} MB after a tenth of them, {_memory():.0f} MB after all", end="; ")
    print(f"{size / 2**20:.0f} MB on disk in {sum(1 for _ in into.rglob('*.parquet'))} files")
    begun = time.perf_counter()
    counted = duckdb.sql(
        "SELECT fault, count(DISTINCT dog) FROM "
        f"read_parquet('{into}/findings/**/*.parquet') WHERE status = 'present' AND NOT too_young "
        "GROUP BY fault"
    ).fetchall()
    print(f"DuckDB counts every fault in {time.perf_counter() - begun:.2f} s")
    begun = time.perf_counter()
    heights = (
        polars.scan_parquet(f"{into}/values/**/*.parquet", hive_partitioning=True)
        .filter(polars.col("id") == "height", ~polars.col("too_young"))
        .join(polars.scan_parquet(f"{into}/dogs/**/*.parquet").select("session", "sex"), on="session")
        .group_by("sex")
        .agg(polars.len(), polars.col("value").mean(), polars.col("value").std().alias("sd"))
        .collect()
    )
    print(f"Polars averages the heights in {time.perf_counter() - begun:.2f} s")
    begun = time.perf_counter()
    own = cohort([replace(members[n % len(members)], name=str(n), dog=str(n)) for n in range(given.sessions)])
    print(f"the cohort of all of them in {time.perf_counter() - begun:.0f} s, {len(own.members)} dogs")
    counts = {one.fault: one.share.count for one in own.frequencies if one.share.count}
    _told(f"how often which of {len(counts)} faults", counts == dict(counted))
    means = {one.sex: (one.n, one.mean, one.sd) for one in own.spreads if one.id == "height"}
    near = all(
        n == means[sex][0] and abs(mean - means[sex][1]) < 1e-6 and abs(sd - (means[sex][2] or 0)) < 1e-6
        for sex, n, mean, sd in heights.iter_rows()
    )
    _told("number, mean and spread of heights by sex", near and len(means) == heights.height)
    shutil.rmtree(into.parent)


if __name__ == "__main__":
    main()
