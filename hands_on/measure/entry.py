"""From the text typed for one reading to a value with its unit, or to a question.

Nothing is guessed: a text that can be read two ways, a unit of the wrong kind or a number that
cannot be right is an `EntryProblem`, with the likely meanings as suggestions to choose from.

Ways of writing that are understood (spaces are free, capital letters too)::

    64.5   64,5   64½   64.5 cm   645 mm   0.645 m
    25 3/8 in   25+3/8 in   25-3/8"   25"   2 ft 1 in   2' 1 1/2"   5'
    31.2 kg   1250 g   68 lb   1 lb 4 oz
    45   45°   45 deg      42   42 teeth      0.45   45 %

Feet with inches become inches, pounds with ounces become pounds, metres become centimetres; the
text as typed stays with the entry.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace
from fractions import Fraction

from hands_on.frozen import dataclass
from hands_on.measure import units
from hands_on.measure.asked_reading import AskedReading, Entry, Number

__all__ = ["EntryProblem", "parse_entry"]

LONGEST = 60
"""No reading needs more characters than this."""


class EntryProblem(Exception):
    """A text that is not taken as a reading.

    ``kind`` is one of ``empty``, ``unreadable``, ``two-numbers``, ``two-units``, ``wrong-unit``,
    ``thousands``, ``fraction``, ``not-whole``, ``negative``, ``implausible``; ``message`` says in
    plain words what is odd; ``suggestions`` are the likely meanings, likeliest first.
    """

    def __init__(self, kind: str, message: str, suggestions: tuple[Entry, ...] = ()) -> None:
        super().__init__(message)
        self.kind = kind
        self.message = message
        self.suggestions = suggestions


# spelling -> (unit, how many of that unit)
_SPELLINGS: dict[str, tuple[str, Fraction]] = {
    spelling: (unit, Fraction(factor))
    for unit, factor, spellings in (
        ("cm", 1, "cm cms centimetre centimetres centimeter centimeters"),
        ("mm", 1, "mm millimetre millimetres millimeter millimeters"),
        ("cm", 100, "m metre metres meter meters"),
        ("in", 1, 'in ins inch inches "'),
        ("ft", 1, "ft foot feet '"),
        ("kg", 1, "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
        ("g", 1, "g gr gram grams gramme grammes"),
        ("lb", 1, "lb lbs pound pounds"),
        ("deg", 1, "deg degs degree degrees °"),
        ("teeth", 1, "teeth tooth"),
        ("%", 1, "% percent"),
    )
    for spelling in spellings.split()
}
_SPELLINGS.update({word: ("lb", Fraction(1, 16)) for word in ("oz", "ounce", "ounces")})

_REPLACED = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—−﹣－", "-"),
        **dict.fromkeys("'‘’‚‛′ʹʼˈ´`＇", "'"),
        **dict.fromkeys('"“”„‟″ʺˮ＂〃', '"'),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("º˚°", "°"),
        **dict.fromkeys("٫", "."),
    }
)

_TOKEN = re.compile(
    r"(?P<frac>[0-9]+\s*/\s*[0-9]+)"
    r"|(?P<num>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)"
    r"|(?P<word>[a-z]+\.?|['\"°%])"
    r"|(?P<op>[+-])"
)


@dataclass(frozen=True)
class _Token:
    kind: str
    text: str
    start: int
    end: int


def parse_entry(
    text: str,
    *,
    quantity: str,
    default_unit: str,
    plausible: tuple[float | None, float | None] | None = None,
) -> Entry:
    """Read one typed value.

    ``quantity`` is ``length``, ``mass``, ``angle``, ``count`` or ``share``; ``default_unit`` the
    unit meant when none is typed; ``plausible`` the lowest and highest possible value in the
    canonical unit (cm, kg, degrees, a number, a share). Without a lower end nothing below zero is
    taken.

    Raises `EntryProblem` for any text that is not plainly one possible reading, and ValueError
    only for arguments other than the text that make no sense.
    """
    if units.quantity_of(default_unit) != quantity:
        raise ValueError(f"{default_unit} is no unit of {quantity}")
    low, high = plausible if plausible is not None else (None, None)
    if low is not None and high is not None and not low <= high:
        raise ValueError("the plausible range is empty")
    asked = AskedReading(text, quantity, default_unit, low, high)
    tokens = _tokens(text)
    negative = False
    if tokens and tokens[0].kind == "op":
        negative = tokens[0].text == "-"
        tokens = tokens[1:]
    number, rest = _number(tokens, asked)
    unit, factor, rest = _unit(rest)
    if rest:
        number, unit = _compound(number, unit, rest, tokens, asked)
        factor = Fraction(1)
    if negative:
        number = replace(number, value=-number.value, text=f"-{number.text}")
    number = replace(number, value=number.value * factor, unit_typed=unit is not None)
    return _settled(number, unit or default_unit, asked)


def _settled(number: Number, unit: str, asked: AskedReading) -> Entry:
    """The entry, once number and unit are read, or the problem with it."""
    value = number.value
    if units.quantity_of(unit) != asked.quantity:
        right = ", ".join(units.units_of(asked.quantity))
        raise EntryProblem(
            "wrong-unit",
            f"{unit} is a unit of {units.quantity_of(unit)}; here it is {asked.quantity}: {right}.",
            asked.fitting((number.value, asked.default_unit)),
        )
    thousands = re.fullmatch(r"-?([1-9][0-9]{0,2})([.,])([0-9]{3})", number.text)
    if thousands:
        readings = asked.fitting((value, unit), (value * 1000, unit))
        if thousands[2] == "," or len(readings) == 2:
            raise EntryProblem(
                "thousands",
                f"{number.text} can be read two ways; write thousands without a mark, "
                "and the decimal sign as a point.",
                readings,
            )
    entry = asked.entry(value, unit)
    if asked.possible(entry):
        return entry
    shown = units.format_value(entry.value, unit)
    if asked.quantity == "count" and not entry.canonical.is_integer():
        raise EntryProblem("not-whole", f"{shown}: a count is a whole number.", asked.slips(number, unit))
    if value < 0 and (asked.low is None or asked.low >= 0):
        raise EntryProblem(
            "negative", f"{shown}: nothing below zero can be right here.", asked.fitting((-value, unit))
        )
    raise EntryProblem(
        "implausible",
        f"{shown} cannot be right here: {asked.range_text(unit)} is possible.",
        asked.slips(number, unit),
    )


def _tokens(text: str) -> list[_Token]:
    if len(text) > LONGEST:
        raise EntryProblem("unreadable", "This is too long for one reading.")
    plain = _plain(text)
    if not plain:
        raise EntryProblem("empty", "Nothing was typed.")
    tokens: list[_Token] = []
    place = 0
    while place < len(plain):
        if plain[place].isspace():
            place += 1
            continue
        match = _TOKEN.match(plain, place)
        if match is None:
            raise EntryProblem("unreadable", f"“{_shown(plain[place])}” does not belong in a reading.")
        kind = str(match.lastgroup)
        tokens.append(_Token(kind, match[0], place, match.end()))
        place = match.end()
    return tokens


def _plain(text: str) -> str:
    """The text with one way of writing digits, fractions, primes, dashes and spaces."""
    pieces: list[str] = []
    for char in text:
        kind = unicodedata.category(char)
        if kind == "No":
            # 64² or a circled digit would turn into other numbers if taken as plain digits
            if not unicodedata.decomposition(char).startswith("<fraction>"):
                raise EntryProblem("unreadable", f"“{char}” is not a digit that can be read here.")
            pieces.append(" " + unicodedata.normalize("NFKC", char))
        elif kind == "Nd":
            pieces.append(str(unicodedata.decimal(char)))
        else:
            pieces.append(char.translate(_REPLACED))
    plain = unicodedata.normalize("NFKC", "".join(pieces)).translate(_REPLACED)
    return plain.replace("''", '"').casefold().strip()


def _number(tokens: list[_Token], asked: AskedReading) -> tuple[Number, list[_Token]]:
    """The number at the front (decimal, fraction, or whole number with a fraction) and what follows."""
    if not tokens or tokens[0].kind not in ("num", "frac"):
        if tokens and tokens[0].kind == "word":
            raise EntryProblem(
                "unreadable", f"“{tokens[0].text}” is not a number: give the number first, then its unit."
            )
        raise EntryProblem("unreadable", "There is no number in this.")
    first = tokens[0]
    if first.kind == "frac":
        return Number(_proper(first, None, asked), first.text, plain=False), tokens[1:]
    after = 2 if len(tokens) > 2 and tokens[1].kind == "op" else 1
    if len(tokens) > after and tokens[after].kind == "frac":
        if not first.text.isdigit():
            raise EntryProblem("fraction", "A fraction goes with a whole number only: 25 3/8.")
        value = int(first.text) + _proper(tokens[after], first.text, asked)
        return Number(value, f"{first.text} {tokens[after].text}", plain=False), tokens[after + 1 :]
    return Number(_decimal(first.text), first.text, plain=True), tokens[1:]


def _decimal(text: str) -> Fraction:
    return Fraction(text.replace(",", ".").rstrip(".") or "0")


def _proper(token: _Token, whole: str | None, asked: AskedReading) -> Fraction:
    above, below = (int(part) for part in token.text.split("/"))
    if below == 0:
        raise EntryProblem("fraction", "A fraction cannot have nought below the line.")
    if above >= below:
        readings = [(_decimal(f"{above}.{below}"), asked.default_unit)] if whole is None else []
        raise EntryProblem(
            "fraction",
            f"{above}/{below} is not a fraction below one; write 25 3/8 with a space, a plus or a minus.",
            asked.fitting(*readings),
        )
    return Fraction(above, below)


def _unit(tokens: list[_Token]) -> tuple[str | None, Fraction, list[_Token]]:
    """The unit at the front, how many of it one such unit is, and what follows."""
    if not tokens or tokens[0].kind != "word":
        return None, Fraction(1), tokens
    word = tokens[0].text.rstrip(".")
    if word not in _SPELLINGS:
        raise EntryProblem("unreadable", f"“{_shown(word)}” is not a unit that is known here.")
    unit, factor = _SPELLINGS[word]
    return unit, factor, tokens[1:]


_PAIRS = {"ft": ("in", 12, "feet", "inches"), "lb": ("oz", 16, "pounds", "ounces")}


def _compound(
    first: Number, unit: str | None, rest: list[_Token], tokens: list[_Token], asked: AskedReading
) -> tuple[Number, str]:
    """Feet with inches, pounds with ounces; anything else that follows a reading is a problem."""
    if rest[0].kind == "word":
        raise EntryProblem("two-units", "Two units are given; one reading has one.")
    if rest[0].kind == "op":
        raise EntryProblem("two-numbers", "One reading at a time: this looks like a sum.")
    if unit is None:
        _two_numbers(tokens, asked)
    second, after = _number(rest, asked)
    small, factor, after = _unit(after)
    pair = _PAIRS.get(unit or "")
    word = rest[-1].text.rstrip(".")
    fits = pair is not None and (
        (pair[0] == "in" and (small == "in" or (small is None and tokens[1].text == "'")))
        or (pair[0] == "oz" and small == "lb" and factor == Fraction(1, 16))
    )
    if pair is None or not fits or after:
        if small is not None and not after:
            raise EntryProblem(
                "two-units", f"Two units are given ({unit}, {_shown(word)}); one reading has one."
            )
        raise EntryProblem("two-numbers", "One reading at a time: here are two numbers.")
    _, per, many, few = pair
    if not first.text.isdigit():
        raise EntryProblem("fraction", f"With {few}, the {many} must be a whole number.")
    into = "in" if unit == "ft" else "lb"
    total = first.value * per + second.value
    if unit == "lb":
        total = total / 16
    if small is None and len(second.text) == 3:
        raise EntryProblem("thousands", "Thousands are written without a mark.")
    if second.value >= per:
        raise EntryProblem(
            "unreadable",
            f"{second.text} {few} beside {first.text} {many} is odd: there are {per} to one.",
            asked.fitting((total, into)) if units.quantity_of(into) == asked.quantity else (),
        )
    return Number(total, "", plain=False), into


def _two_numbers(tokens: list[_Token], asked: AskedReading) -> None:
    """Raise the problem for two numbers with no unit between: 64 5, 1 000, 1.000,5."""
    first, second = tokens[0], tokens[1]
    joined = first.text.isdigit() and second.text.isdigit()
    readings = [(_decimal(f"{first.text}.{second.text}"), asked.default_unit)] if joined else []
    if first.end == second.start or (joined and len(second.text) == 3):
        raise EntryProblem(
            "thousands",
            "Thousands are written without a mark, and a number has one decimal sign.",
            asked.fitting(*readings),
        )
    raise EntryProblem(
        "two-numbers", "One reading at a time: here are two numbers.", asked.fitting(*readings)
    )


def _shown(text: str) -> str:
    """Text of the user inside a message: printable, and not longer than a word."""
    clean = "".join(char if char.isprintable() else "\N{REPLACEMENT CHARACTER}" for char in text)
    return clean if len(clean) <= 20 else clean[:19] + "…"
