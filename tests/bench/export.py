"""Many sessions as tables: time and memory of the export, and queries held against a cohort.

    python -m tests.bench.export [--sessions 1000000] [--distinct 300]

`--distinct` invented sessions are evaluated once; their rows are written again and again as other dogs of
other years, through the same writer as `records --export`, until there are so many sessions. DuckDB and
Polars then count a fault and average a height by sex; both are held against `compare/cohort`.
"""

from __future__ import annotations

import argparse
import resource
import shutil
import tempfile
import time
from pathlib import Path

import duckdb
import polars

from hands_on.compare.cohort.cohort import cohort
from hands_on.compare.cohort.members import member_of
from hands_on.compare.examined import examined
from hands_on.store.export import Tables, rows_of
from hands_on.store.library import Library
from hands_on.store.places import ruleset_folders, shipped_sessions
from hands_on.store.session_file import read_session


def main() -> None:
    """Print times, memory and figures."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--sessions", type=int, default=1_000_000)
    options.add_argument("--distinct", type=int, default=300)
    given = options.parse_args()
    library = Library(ruleset_folders(Path("nothing-here")))
    known = [read_session(path) for path in sorted(shipped_sessions().glob("*.toml"))]
    begun = time.perf_counter()
    rows, members = [], []
    for n in range(given.distinct):
        session = known[n % len(known)]
        shift = (n * 37 % 41 - 20) / 10
        takes = tuple(
            take.model_copy(update={"value": round(take.value + shift, 2)})
            if take.point == "height" and isinstance(take.value, float | int)
            else take
            for take in session.takes
        )
        dog = session.dog.model_copy(update={"chip": f"{n:015d}"})
        held = examined(
            library.load(session.ruleset.id),
            session.model_copy(update={"takes": takes, "dog": dog}),
            name=f"{n}.toml",
        )
        rows.append(rows_of(held))
        members.append(member_of(held))
    each = (time.perf_counter() - begun) / given.distinct
    into = Path(tempfile.mkdtemp()) / "tables"
    begun = time.perf_counter()
    with Tables(into, "parquet") as tables:
        for n in range(given.sessions):
            year = str(1990 + n // max(1, given.sessions // 36))
            for table, own in rows[n % given.distinct].items():
                named = [{**row, "session": f"{n}.toml", "dog": str(n)} for row in own]
                tables.add(table, year, "hovawart-fci-190", named)
    written = time.perf_counter() - begun
    size = sum(path.stat().st_size for path in into.rglob("*.parquet"))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"evaluating a session {1000 * each:.1f} ms; writing {given.sessions} sessions {written:.0f} s")
    print(f"{size / 2**20:.0f} MB on disk, {peak:.0f} MB of memory at most")
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
        .group_by("sex").agg(polars.col("value").mean())
        .collect()
    )  # fmt: skip
    print(f"Polars averages the heights in {time.perf_counter() - begun:.2f} s")
    whole, rest = divmod(given.sessions, given.distinct)
    own = cohort(members)
    part = cohort(members[:rest]) if rest else None
    counts = {one.fault: whole * one.share.count for one in own.frequencies}
    for one in part.frequencies if part is not None else ():
        counts[one.fault] = counts.get(one.fault, 0) + one.share.count
    same = {fault: count for fault, count in counts.items() if count} == dict(counted)
    print(f"faults as the cohort counts them: {'the same' if same else 'NOT THE SAME'}")
    if not rest:
        means = {one.sex: one.mean for one in own.spreads if one.id == "height"}
        near = all(abs(mean - means[sex]) < 1e-9 for sex, mean in heights.iter_rows())
        print(f"heights as the cohort averages them: {'the same' if near else 'NOT THE SAME'}")
    shutil.rmtree(into.parent)


if __name__ == "__main__":
    main()
