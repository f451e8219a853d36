"""Every departure said of its parts in every form: `python -m tests.bench.wording_grid [--errors]`

Crosses what people call a part with what they call a quality, words of degree and forms of a sentence, for
each pair of part and quality that means a departure, on its own region's screen. Prints for each departure
how many are read as meant, with the degree said, and the shares by form. `--every N` reads one note in N.
"""

import argparse
import sys
from collections import defaultdict
from collections.abc import Iterator

from hands_on.notes import read_note
from tests.bench.load import shipped_lexicon, shipped_wording

FORMS: tuple[tuple[str, str | None], ...] = (
    ("{part} too {quality}", None),
    ("too {quality} {part}", None),
    ("{part} slightly too {quality}", "slight"),
    ("{part} a touch too {quality}", "slight"),
    ("{part} a shade too {quality} for me", "slight"),
    ("a bit too {quality} in {part}", "slight"),
    ("{part} much too {quality}", "marked"),
    ("{part} is far too {quality} today", "marked"),
    ("I find the {part} too {quality}", None),
    ("{part}: too {quality}", None),
    ("{Part} rather too {quality}, otherwise sound.", "moderate"),
)
"""How a quality is said of a part, and the degree meant."""
MARKS = "!~?"


def pairs() -> Iterator[tuple[str, str, str, str]]:
    """Departure, region on the screen, word of the part, word of the quality."""
    source = shipped_wording()
    language = source.language
    for part in language.parts.values():
        for names, meant in part.gives.items():
            fault = meant.split()[0]
            if fault.endswith("?") or fault.rstrip(MARKS) not in source.faults:
                continue
            fault = fault.rstrip(MARKS)
            for name in names.split():
                said = [w for w in language.qualities[name] if "{" not in w and " " not in w][:3]
                for word in part.words[:3]:
                    for quality in said:
                        yield fault, source.faults[fault].region, word, quality


def main() -> None:
    """Read the grid."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--every", type=int, default=1, help="read each n-th note only")
    options = parser.parse_args()
    lexicon = shipped_lexicon()
    right: dict[str, list[int]] = defaultdict(lambda: [0, 0])
    wrong: list[str] = []
    at = 0
    for fault, region, part, quality in pairs():
        for form, degree in FORMS:
            at += 1
            if at % options.every:
                continue
            note = form.format(part=part, quality=quality, Part=part.capitalize())
            reading = read_note(note, lexicon, region=region)
            found = {(f.id, f.degree) for f in reading.faults if f.status == "present"}
            ok = (fault, degree) in found
            for key in ("all", form, fault):
                right[key][0] += ok
                right[key][1] += 1
            if not ok:
                wrong.append(f"{fault}: {note!r} read as {sorted(map(str, found))}")
    for key, (hits, count) in sorted(right.items(), key=lambda item: item[1][0] / item[1][1]):
        print(f"{key:44} {hits:6} of {count:6}  {hits / count:.3f}")
    if options.errors:
        print("\n".join(wrong))


if __name__ == "__main__":
    sys.exit(main())
