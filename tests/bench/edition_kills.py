"""Kills the program in each block of a new edition, in a real terminal, and looks for what was confirmed.

python -m tests.bench.edition_kills
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.terminal.test_wizard_killed import BLOCKS, killed


def main() -> None:
    """Print how many kills nothing was lost by."""
    with tempfile.TemporaryDirectory() as folder:
        killed(Path(folder), tuple(BLOCKS))
    print(f"killed in {len(BLOCKS)} blocks, one after another: nothing confirmed was lost")


if __name__ == "__main__":
    main()
