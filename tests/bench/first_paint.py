"""How long until the first text of the start screen, against an empty Textual app with one input.

    python -m tests.bench.first_paint [RUNS]

Each run is a whole process in a pseudo-terminal of 80 by 24, the two in turn; the medians and their
ratio are printed. The aim is a ratio of 1.5 at most.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time

import pexpect

EMPTY = """
from textual.app import App
from textual.widgets import Input
class Empty(App):
    def compose(self):
        yield Input(placeholder='PAINTED')
Empty().run()
"""


def painted_after(arguments: list[str], text: str) -> float:
    """Seconds from the start of the process to `text` on the terminal."""
    with tempfile.TemporaryDirectory() as folder:
        environment = {
            "PATH": "/usr/bin:/bin", "TERM": "xterm-256color", "HOME": folder, "LANG": "C.UTF-8",
            "HANDS_ON_SESSIONS": folder,
        }  # fmt: skip
        started = time.perf_counter()
        child = pexpect.spawn(sys.executable, arguments, dimensions=(24, 80), env=environment, timeout=30)
        child.expect(text)
        took = time.perf_counter() - started
        child.terminate(force=True)
        child.close()
    return took


def main(runs: int = 15) -> int:
    """Print both medians and the ratio."""
    ours: list[float] = []
    empty: list[float] = []
    for _ in range(runs):
        # Not the first letter: the cursor stands on it and has a style of its own.
        empty.append(painted_after(["-c", EMPTY], "AINTED"))
        ours.append(painted_after(["-m", "hands_on"], "New examination"))
    ratios = [a / b for a, b in zip(ours, empty, strict=True)]
    print(f"start screen  {statistics.median(ours) * 1000:.0f} ms to the first text")
    print(f"empty app     {statistics.median(empty) * 1000:.0f} ms")
    print(f"ratio         {statistics.median(ratios):.2f} (of each pair, median; {runs} pairs)")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(*map(int, sys.argv[1:2])))
