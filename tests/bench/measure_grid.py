"""Every measurement in every way its number is said: `python -m tests.bench.measure_grid [--errors]`

Crosses the names of each measurement that has wording with the ways numbers are written and called out, each
on its own screen, and prints the share read as meant, by way and by measurement. `--every N` reads one
note in N.
"""

from collections.abc import Iterator

from hands_on.notes import MeasureWords, Reading
from tests.bench.grid import Row, read_grid
from tests.bench.load import shipped_wording

Said = tuple[str, float, str | None]
"""A number as said, its value, and the unit said."""

LENGTHS: dict[str, Said] = {
    "point": ("64.5", 64.5, None),
    "comma": ("64,5", 64.5, None),
    "cm": ("64.5 cm", 64.5, "cm"),
    "cm, comma": ("64,5cm", 64.5, "cm"),
    "centimetres": ("64 centimetres", 64.0, "cm"),
    "mm": ("645 mm", 645.0, "mm"),
    "metre": ("0.64 m", 64.0, "cm"),
    "fraction": ("25 1/2", 25.5, None),
    "fraction sign": ("25½", 25.5, None),
    "hyphen": ('25-1/2"', 25.5, "in"),
    "inch sign": ('25 1/4"', 25.25, "in"),
    "inches": ("25.5 inches", 25.5, "in"),
    "and a half": ("25 and a half inches", 25.5, "in"),
    "inches and a half": ("25 inches and a half", 25.5, "in"),
    "in words": ("sixty four and a half", 64.5, None),
    "in words, cm": ("sixty-four and a half centimetres", 64.5, "cm"),
    "half cm": ("sixty four and a half cm", 64.5, "cm"),
    "point five": ("sixty four point five", 64.5, None),
    "sixty-four five": ("sixty-four five", 64.5, None),
    "half": ("sixty four and half", 64.5, None),
    "quarter": ("twenty four and a quarter inches", 24.25, "in"),
    "three quarters": ("twenty three and three quarter inches", 23.75, "in"),
}
ANGLES: dict[str, Said] = {
    "degrees": ("42 degrees", 42.0, "deg"),
    "deg": ("42deg", 42.0, "deg"),
    "sign": ("42°", 42.0, "deg"),
    "plain": ("42", 42.0, None),
    "in words": ("forty two degrees", 42.0, "deg"),
    "about": ("about 42 degrees", 42.0, "deg"),
}
MASSES: dict[str, Said] = {
    "kg": ("31.5 kg", 31.5, "kg"),
    "kg, comma": ("31,5kg", 31.5, "kg"),
    "kilos": ("thirty one and a half kilos", 31.5, "kg"),
    "kilo": ("31 and a half kilos", 31.5, "kg"),
    "lb": ("68 lb", 68.0, "lb"),
    "lbs": ("68lbs", 68.0, "lb"),
    "pounds": ("sixty eight pounds", 68.0, "lb"),
    "plain": ("31.5", 31.5, None),
    "point five": ("thirty one point five", 31.5, None),
}
FORMS = (
    "{name} {number}",
    "{name}: {number}",
    "{name} = {number}",
    "{name} is {number}",
    "{name} {number}, good",
    "{name} measures {number}",
    "{name} comes to {number}",
    "{name} taped at {number}",
    "{name} reads {number}",
    "{name} about {number}",
    "{name} just {number}",
    "{number} {name}",
    "{number} for {name}",
    "I make the {name} {number}",
    "{name} - {number}",
    "{name}, {number}",
    "got {number} for the {name}",
    "{Name} came out at {number}.",
    "{name} today {number}",
    "{name} (tape) {number}",
)


def notes(words: MeasureWords) -> Iterator[tuple[str, str, Said]]:
    """Each way of saying a measurement: its kind, the note, what is meant."""
    kinds = {"length": LENGTHS, "angle": ANGLES, "mass": MASSES}.get(words.quantity, {})
    for kind, said in kinds.items():
        for form in FORMS:
            for name in words.wording[:4]:
                yield kind, form.format(name=name, Name=name.capitalize(), number=said[0]), said


def rows() -> Iterator[Row]:
    """Every note of the grid."""
    for measure, words in shipped_wording().measures.items():
        if words.unit == "mm":
            continue
        for kind, note, (_, value, unit) in notes(words):
            meant = {(measure, value, unit)}
            yield Row(measure, f"as {kind}", note, words.region, lambda r, meant=meant: found(r) == meant)


def found(reading: Reading) -> set[tuple[str, float, str | None]]:
    """The measurements read."""
    return {(m.id, m.value, m.unit) for m in reading.measures}


if __name__ == "__main__":
    read_grid(__doc__, rows(), found)
