"""Each test has its own folders; nothing of the user's is read or written."""

from __future__ import annotations

from pathlib import Path

import pytest

from hands_on.store import checked
from tests.tui.settling import settle_by_queues

KEPT = checked._folder()
"""Editions found sound by one test are taken as they are by all: their bytes are the same."""


@pytest.fixture(autouse=True)
def _own_places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hands_on.store.places.user_cache", lambda: tmp_path / "cache")
    monkeypatch.setattr("hands_on.store.places.user_data", lambda: tmp_path / "data")
    monkeypatch.setattr(checked, "_folder", lambda: KEPT)
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    settle_by_queues(monkeypatch)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Where sessions are kept."""
    return tmp_path / "sessions"
