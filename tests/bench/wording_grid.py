"""Every departure said of its parts in every form: `python -m tests.bench.wording_grid [--errors]`

Crosses what people call a part with what they call a quality, words of degree and forms of a sentence, for
each pair of part and quality that means a departure, on its own region's screen. Prints for each departure
how many are read as meant, with the degree said, and the shares by form. `--every N` reads one note in N.
"""

from collections.abc import Iterator

from hands_on.notes import Reading
from tests.bench.grid import Row, read_grid
from tests.bench.load import shipped_wording

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


def rows() -> Iterator[Row]:
    """Every note of the grid."""
    for fault, region, part, quality in pairs():
        for form, degree in FORMS:
            note = form.format(part=part, quality=quality, Part=part.capitalize())
            meant = (fault, degree)
            yield Row(fault, form, note, region, lambda r, meant=meant: meant in found(r))


def found(reading: Reading) -> set[tuple[str, str | None]]:
    """The departures read, with their degrees."""
    return {(f.id, f.degree) for f in reading.faults if f.status == "present"}


if __name__ == "__main__":
    read_grid(__doc__, rows(), found)
