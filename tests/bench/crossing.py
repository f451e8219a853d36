"""Read two hundred plain faults beside fifty praises of other parts: `python -m tests.bench.crossing`

Prints how many notes lose the fault that is read in its words alone, and which.
"""

import sys

from hands_on.notes import read_note
from tests.bench.load import shipped_lexicon
from tests.notes.crossing import crossed, lost


def main() -> None:
    """Read all pairs, the praise before, behind and joined by a comma."""
    lexicon = shipped_lexicon()
    pairs = crossed()
    for joined in (False, True):
        gone = lost(pairs, lambda note, region: read_note(note, lexicon, region=region), joined)
        form = "in one sentence, the praise first" if joined else "in two sentences, before and behind"
        print(f"{len(pairs)} pairs {form}: {len(gone)} notes lose the fault")
        for note in gone:
            print("  " + note)


if __name__ == "__main__":
    sys.exit(main())
