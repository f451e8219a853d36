"""The first screen paints before anything of a dog is imported or read."""

from __future__ import annotations

import subprocess
import sys


def loaded_after(code: str) -> set[str]:
    run = subprocess.run(
        [sys.executable, "-c", f"{code}\nimport sys\nprint(*sys.modules, sep='\\n')"],
        capture_output=True,
        text=True,
        check=True,
    )
    return set(run.stdout.split())


def test_the_app_comes_without_pydantic_rulesets_or_the_store():
    loaded = loaded_after("import hands_on.tui.app")
    heavy = ("pydantic", "rapidfuzz", "filelock", "sqlite3", "tree_sitter")
    assert not [name for name in loaded if name.split(".")[0] in heavy]
    assert not [
        name for name in loaded if name.startswith(("hands_on.ruleset", "hands_on.exam", "hands_on.store"))
    ]


def test_nothing_is_read_until_the_first_paint(tmp_path):
    # The worker that looks through the folders starts only after a refresh: until then nothing is imported.
    code = f"""
import asyncio, sys
from pathlib import Path
from hands_on.tui.app import HandsOn
from hands_on.tui.screens.start import StartScreen
seen = []
StartScreen.refresh_lists = lambda self: seen.append("pydantic" in sys.modules)
async def main():
    app = HandsOn(Path({str(tmp_path)!r}), [Path({str(tmp_path)!r})])
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "New examination" in str(app.screen.query_one("#menu").get_option("new").prompt)
asyncio.run(main())
assert seen == [False], seen
"""
    assert "pydantic" not in loaded_after(code)
