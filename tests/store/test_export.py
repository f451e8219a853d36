"""Tidy tables: what stands in them, queried in DuckDB and Polars, safe for spreadsheets."""

from __future__ import annotations

import csv
import shutil
from pathlib import Path

import duckdb
import polars
import pytest

from hands_on.compare.cohort.cohort import cohort
from hands_on.compare.cohort.members import member_of
from hands_on.plain_text import spreadsheet_text
from hands_on.store.errors import NotSaved
from hands_on.store.examined import examined_file
from hands_on.store.export import TABLES, Tables, export
from hands_on.store.library import Library
from hands_on.store.places import ruleset_folders, shipped_sessions

FILES = sorted(shipped_sessions().glob("*.toml"))


@pytest.fixture(scope="module")
def library():
    return Library(ruleset_folders(Path("nothing-here")))


@pytest.fixture(scope="module")
def tables(tmp_path_factory, library):
    into = tmp_path_factory.mktemp("export") / "tables"
    found = export(FILES, into, library, "parquet")
    assert (found.sessions, found.left_out) == (len(FILES), [])
    return into


def test_a_cohort_has_the_same_figures_in_duckdb(tables, library):
    found = cohort([member_of(examined_file(path, library)) for path in FILES])
    counted = {one.name.rsplit("/", 1)[-1] for one in found.members}
    rows = duckdb.sql(
        f"SELECT session, fault FROM read_parquet('{tables}/findings/**/*.parquet') "
        "WHERE status = 'present' AND NOT too_young"
    ).fetchall()
    there = {}
    for session, fault in set(rows):
        there[fault] = there.get(fault, 0) + (session in counted)
    own = {one.fault: one.share.count for one in found.frequencies if one.share.count}
    assert own == {fault: count for fault, count in there.items() if count}


def test_a_mean_height_is_the_same_in_polars(tables, library):
    found = cohort([member_of(examined_file(path, library)) for path in FILES])
    counted = {one.name.rsplit("/", 1)[-1] for one in found.members}
    values = polars.read_parquet(f"{tables}/values/**/*.parquet", hive_partitioning=True)
    dogs = polars.read_parquet(f"{tables}/dogs/**/*.parquet", hive_partitioning=True)
    heights = (
        values.filter(polars.col("id") == "height", ~polars.col("too_young"))
        .filter(polars.col("session").is_in(counted))
        .join(dogs.select("session", "sex"), on="session")
        .group_by("sex")
        .agg(polars.col("value").mean())
    )
    own = {one.sex: one.mean for one in found.spreads if one.id == "height"}
    assert dict(heights.iter_rows()) == pytest.approx(own)


def test_the_year_and_the_edition_are_partitions(tables):
    folders = {path.parent.relative_to(tables) for path in tables.rglob("*.parquet")}
    assert folders == {Path(table, "year=2026", "edition=hovawart-fci-190") for table in TABLES}


def test_csv_has_the_same_rows_and_nothing_a_spreadsheet_would_compute(tmp_path, tables, library):
    odd = tmp_path / "odd.toml"
    text = FILES[0].read_text().replace('call_name = "Brumo"', 'call_name = "=HYPERLINK(1)"')
    odd.write_text(text)
    found = export([odd, *FILES[1:]], tmp_path / "csv", library, "csv")
    for table, columns in TABLES.items():
        rows = []
        for path in sorted((tmp_path / "csv" / table).rglob("*.csv")):
            with path.open(newline="", encoding="utf-8") as file:
                reader = csv.DictReader(file)
                assert reader.fieldnames == list(columns)
                rows += reader
        query = f"SELECT count(*) FROM read_parquet('{tables}/{table}/**/*.parquet')"
        assert len(rows) == found.rows[table] == duckdb.sql(query).fetchall()[0][0]
        if table == "dogs":
            assert "'=HYPERLINK(1)" in {row["call_name"] for row in rows}


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "＝1"])
def test_what_begins_a_formula_becomes_text(text):
    # OWASP, CSV Injection: the signs that begin a formula in the common spreadsheets.
    assert spreadsheet_text(text) == f"'{text}"


@pytest.mark.parametrize("text", ["", "Arko", "a=1", "'=1", "3 cm"])
def test_other_text_stays_as_it_is(text):
    assert spreadsheet_text(text) == text


def test_an_export_never_goes_into_a_folder_with_something_in_it(tmp_path, library):
    (tmp_path / "mine").write_text("kept")
    with pytest.raises(NotSaved, match="something there already"):
        export(FILES, tmp_path, library, "csv")
    with pytest.raises(NotSaved):
        export(FILES, tmp_path / "mine", library, "csv")
    assert (tmp_path / "mine").read_text() == "kept"
    assert [path.name for path in tmp_path.iterdir()] == ["mine"]


def test_a_broken_file_is_named_and_the_others_are_written(tmp_path, library):
    broken = tmp_path / "broken.toml"
    broken.write_text("format = ")
    good = Path(shutil.copy(FILES[0], tmp_path / "good.toml"))
    found = export([broken, good], tmp_path / "out", library, "csv")
    assert (found.sessions, len(found.left_out)) == (1, 1)
    assert "broken.toml" in found.left_out[0]


@pytest.mark.parametrize("form", ["csv", "parquet"])
def test_a_name_that_is_no_utf_8_is_written_with_a_question_mark(tmp_path, form):
    row = dict.fromkeys(TABLES["findings"], "x") | {"day": "2026-05-01", "counts": True, "too_young": None}
    with Tables(tmp_path / "out", form) as tables:
        tables.add("findings", "2026", "e", [row | {"session": "fen\udcffja.toml"}, row])
    (path,) = (tmp_path / "out").rglob(f"part-*.{form}")
    read = polars.read_csv if form == "csv" else polars.read_parquet
    assert read(path)["session"].to_list() == ["fen?ja.toml", "x"]


def test_more_editions_than_files_may_be_open_are_written_whole(tmp_path, monkeypatch):
    monkeypatch.setattr("hands_on.store.export._BATCH", 2)
    row = dict.fromkeys(TABLES["findings"], "x") | {"day": None, "counts": True, "too_young": False}
    with Tables(tmp_path / "many", "csv") as tables:
        for _ in range(2):
            for edition in range(130):
                tables.add("findings", "2026", f"e{edition}", [row] * 2)
    lines = sum(len(path.read_text().splitlines()) - 1 for path in (tmp_path / "many").rglob("part-*.csv"))
    assert lines == 2 * 130 * 2


def test_a_long_table_goes_on_in_another_file(tmp_path, monkeypatch):
    monkeypatch.setattr("hands_on.store.export._BATCH", 2)
    monkeypatch.setattr("hands_on.store.export._LONGEST", 3)
    row = dict.fromkeys(TABLES["findings"], "x") | {"day": None, "counts": True, "too_young": False}
    with Tables(tmp_path / "long", "csv") as tables:
        for n in range(14):
            tables.add("findings", "2026", "e", [row | {"dog": str(n)}])
    files = sorted((tmp_path / "long").rglob("part-*.csv"))
    dogs = [[line["dog"] for line in csv.DictReader(path.read_text().splitlines())] for path in files]
    assert [dog for own in dogs for dog in own] == [str(n) for n in range(14)]
    assert [len(own) for own in dogs] == [6, 6, 2]


def test_what_fills_the_memory_is_written_the_fullest_file_first(tmp_path, monkeypatch):
    monkeypatch.setattr("hands_on.store.export._WHOLE", 5)
    row = dict.fromkeys(TABLES["findings"], "x") | {"day": None, "counts": True, "too_young": False}
    with Tables(tmp_path / "full", "csv") as tables:
        tables.add("findings", "2025", "e", [row] * 3)
        tables.add("findings", "2026", "e", [row] * 2)
        assert [path.parts[-3] for path in (tmp_path / "full").rglob("part-*.csv")] == ["year=2025"]
    assert len(list((tmp_path / "full").rglob("part-*.csv"))) == 2


def test_the_readmes_queries_run(tables):
    text = (Path(__file__).parents[2] / "README.md").read_text()
    sql = text.split("```sql\n")[1].split("```")[0].replace("'book/", f"'{tables}/")
    assert duckdb.sql(sql).fetchall()
    code = text.split("In DuckDB")[1].split("```python\n")[1].split("```")[0].replace('"book/', f'"{tables}/')
    printed = []
    exec(code, {"print": printed.append})
    assert printed[0].height == 1
