"""Read two hundred plain faults beside fifty praises of other parts: `python -m tests.bench.crossing`

Prints for each way of saying both in one breath how many notes lose the fault that is read in its words
alone, and which. `--faults CORPUS.jsonl` crosses the plain faults of another corpus instead, those of seven
words at most that a note gives alone.
"""

import argparse
import json
import sys
from pathlib import Path

from hands_on.notes import read_note
from tests.bench.load import shipped_lexicon
from tests.notes.crossing import FAULTS, FORMS, crossed, lost

_LONGEST = 7


def _plain(path: Path) -> tuple[tuple[str, str], ...]:
    notes = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line]
    return tuple(
        (note["note"].rstrip("."), note["faults"][0]["id"])
        for note in notes
        if len(note["faults"]) == 1
        and note["faults"][0]["status"] == "present"
        and not note["measures"]
        and len(note["note"].split()) <= _LONGEST
    )


def main() -> None:
    """Read all pairs in each form."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--faults", type=Path)
    options = parser.parse_args()
    lexicon = shipped_lexicon()
    pairs = crossed(_plain(options.faults) if options.faults else FAULTS)
    for form in FORMS:
        gone = lost(pairs, lambda note, region: read_note(note, lexicon, region=region), form)
        print(f"{len(pairs)} pairs as {form!r}: {len(gone)} notes lose the fault")
        for note in gone:
            print("  " + note)


if __name__ == "__main__":
    sys.exit(main())
