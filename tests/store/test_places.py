"""Where things are, the copy of the demo, and how little is imported to know it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

from hands_on.store import demo, places
from tests.store.examples import ARKO, rulesets

ROOT = Path(__file__).parents[2]


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Never the folders of whoever runs the tests."""
    monkeypatch.setattr(places, "user_data", lambda: tmp_path / "data")
    monkeypatch.setattr(places, "user_cache", lambda: tmp_path / "cache")
    monkeypatch.delenv("HANDS_ON_SESSIONS", raising=False)
    monkeypatch.delenv("HANDS_ON_RULESETS", raising=False)


def test_in_a_source_checkout_its_own_folders_are_used() -> None:
    assert places.shipped_rulesets() == ROOT / "rulesets"
    assert places.shipped_sessions() == ROOT / "sessions"


def test_installed_away_from_the_repository_the_packages_own_data_is_used(tmp_path: Path) -> None:
    """The package alone in a folder, as a wheel puts it, without the checkout around it."""
    shutil.copytree(ROOT / "hands_on" / "store", tmp_path / "site" / "hands_on" / "store")
    (tmp_path / "site" / "hands_on" / "__init__.py").write_text("", "utf-8")
    script = "from hands_on.store import places; print(places.shipped_rulesets(), places.shipped_sessions())"
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=tmp_path / "site", capture_output=True, text=True, check=True
    )
    data = (tmp_path / "site" / "hands_on" / "data").resolve()
    assert done.stdout.split() == [str(data / "rulesets"), str(data / "sessions")]


def test_a_folder_given_goes_before_the_variable_and_that_before_the_default(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert places.sessions_folder() == tmp_path / "data" / "sessions"
    assert places.ruleset_folders() == (ROOT / "rulesets", tmp_path / "data" / "rulesets")
    monkeypatch.setenv("HANDS_ON_SESSIONS", str(tmp_path / "s"))
    monkeypatch.setenv("HANDS_ON_RULESETS", str(tmp_path / "r"))
    assert places.sessions_folder() == tmp_path / "s"
    assert places.ruleset_folders() == (ROOT / "rulesets", tmp_path / "r")
    assert places.sessions_folder(tmp_path / "given") == tmp_path / "given"
    assert places.own_rulesets(tmp_path / "given") == tmp_path / "given"
    monkeypatch.setenv("HANDS_ON_SESSIONS", " ")
    assert places.sessions_folder() == tmp_path / "data" / "sessions"


def test_each_folder_has_its_own_index_by_whatever_way_it_is_named(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "a")
    index = places.index_path(tmp_path / "a")
    assert index.parent == tmp_path / "cache"
    assert places.index_path(tmp_path / "link") == index
    assert places.index_path(tmp_path / "b") != index
    assert places.index_path(places.demo_root() / "x").parent == places.demo_root() / "x"


def test_the_demo_is_a_fresh_copy_each_time_and_old_ones_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shipped = tmp_path / "shipped"
    shipped.mkdir()
    (shipped / "arko.toml").write_text(ARKO, "utf-8")
    (shipped / "arko.toml").chmod(0o444)
    (shipped / "README.md").write_text("x", "utf-8")
    monkeypatch.setattr(demo, "shipped_sessions", lambda: shipped)
    first = demo.demo_folder()
    assert os.listdir(first) == ["arko.toml"]
    (first / "arko.toml").write_text("changed", "utf-8")
    second = demo.demo_folder()
    assert (second / "arko.toml").read_text("utf-8") == ARKO
    assert (first / "arko.toml").read_text("utf-8") == "changed"
    assert (shipped / "arko.toml").read_text("utf-8") == ARKO
    third = demo.demo_folder(time.time() + 25 * 3600)
    assert sorted(places.demo_root().iterdir()) == [third]


def test_without_a_cache_folder_the_demo_is_elsewhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "cache").write_text("a file", "utf-8")
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", None)
    assert demo.demo_folder().parent == tmp_path


def test_listing_rulesets_and_records_imports_no_model(tmp_path: Path) -> None:
    """The first screen shows them, and must not wait for pydantic; in a fresh process."""
    rulesets(tmp_path / "rulesets", a="common")
    (tmp_path / "arko.toml").write_text(ARKO, "utf-8")
    script = """
import sys
from pathlib import Path
from hands_on.store import demo, errors, places
from hands_on.store.library import Library
from hands_on.store.records import Records
folder = Path(sys.argv[1])
assert Library([folder / "rulesets"]).heads(whole=True)
with Records(folder, folder / "index.sqlite") as records:
    records.refresh()
    assert records.list() and records.find("arko")
heavy = {"pydantic", "textual", "rapidfuzz", "tree_sitter", "filelock", "tomli_w", "hands_on.cli"}
print(sorted(heavy & sys.modules.keys()))
"""
    done = subprocess.run(
        [sys.executable, "-c", script, tmp_path], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout == "[]\n"


def test_the_store_never_imports_the_terminal() -> None:
    """All its modules, in a fresh process."""
    modules = [f"hands_on.store.{path.stem}" for path in (ROOT / "hands_on" / "store").glob("[a-z]*.py")]
    script = f"""
import sys, importlib
for name in {modules}:
    importlib.import_module(name)
print([name for name in sys.modules if name.split(".")[0] == "textual" or name.startswith("hands_on.tui")])
"""
    command = [sys.executable, "-c", script]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
