"""Settings of all tests: how the real program is started, garbage, how long a property may be tried.

Where tests start the real program it has its modules compiled, as an installed one has. A property that fails
tells the first case found: making it smaller may take five minutes and is asked for by
`--hypothesis-profile=smaller`.
"""

from __future__ import annotations

import gc
import os
from pathlib import Path

import pytest
from hypothesis import Phase, settings

from tests.lexicons import build_once

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
OWN = Path(__file__).parents[1] / ".pytest_cache"
os.environ.setdefault("PYTHONPYCACHEPREFIX", str(OWN / "compiled"))
os.environ["XDG_CACHE_HOME"] = str(OWN / "cache")  # the user's own is neither read nor written

settings.register_profile("smaller", deadline=None)
settings.register_profile(
    "suite",
    deadline=None,
    report_multiple_bugs=False,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
)
settings.load_profile("suite")

gc.set_threshold(100_000, 20, 20)
"""Looked for at every 700th new object, as Python does by itself, garbage takes a third of all time."""


DEAREST_FIRST = ("tests/store/test_robust.py", "tests/terminal/", "tests/tui/", "tests/notes/")
"""Begun last, a file of few and long tests would keep one worker busy when the other has nothing left."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the files that take longest before all others."""

    def rank(item: pytest.Item) -> int:
        return next((n for n, start in enumerate(DEAREST_FIRST) if item.nodeid.startswith(start)), 99)

    items.sort(key=rank)


def pytest_collection_finish() -> None:
    """What was loaded for the tests stays to the end: nothing of it is garbage."""
    gc.freeze()


build_once()
