"""Figures in a sentence: ends, units, tolerances, shares and ratios, however a standard writes them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from hands_on.ruleset.base import UnitName
from hands_on.standard_text.bound_words import BEFORE

__all__ = ["Figure", "figures", "plain_numbers"]

_ONES: Final = {
    word: n
    for n, word in enumerate(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ]
    )
}
_TENS: Final = {
    word: 10 * n
    for n, word in enumerate(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], start=2
    )
}
_FRACTIONS: Final = {
    "half": (1, 2),
    "third": (1, 3),
    "thirds": (1, 3),
    "quarter": (1, 4),
    "quarters": (1, 4),
    "fourth": (1, 4),
    "fourths": (1, 4),
    "fifth": (1, 5),
    "fifths": (1, 5),
    "sixth": (1, 6),
    "sixths": (1, 6),
    "seventh": (1, 7),
    "sevenths": (1, 7),
    "ninth": (1, 9),
    "eighth": (1, 8),
    "eighths": (1, 8),
    "ninths": (1, 9),
    "tenth": (1, 10),
    "tenths": (1, 10),
}

UNITS: Final[dict[str, UnitName]] = {
    "cm": "cm",
    "mm": "mm",
    "in": "in",
    "ft": "ft",
    "kg": "kg",
    "g": "g",
    "lb": "lb",
    "deg": "deg",
    "%": "%",
}
_UNIT: Final = (
    r"(?P<{0}>cms?\b\.?|centi?met(?:re|er)s?|mm\b|millimet(?:re|er)s?|inch(?:es)?|ins?\b\.?(?!\s+(?:the|"
    r"a|an|front|proportion|length|relation|height|all|both|each|profile|good|hard|adult|"
    r"mature|show|any|number|total|bitch|dog|male|female)\b)"
    r"|\"|''|kgs?\b\.?|kilos?\b|kilogram(?:me)?s?|lbs?\b\.?|pounds?|\u00b0|degrees?|deg\b\.?|"
    r"per ?cent|%|feet\b|ft\b)"
)
_NUMBER: Final = r"\d+/\d+|\d+(?:[.,]\d+)?(?:[ -]+\d+/\d+)?"


@dataclass(frozen=True, slots=True)
class Figure:
    """A stretch of numbers in a sentence, at `start` to `end` of its plain form.

    `low`, `high` are its ends, None where it has none; an end that is `open` does not belong. `word` is
    `asked` or what a word beside it makes of it: `ideal`, `about`, `tolerance`, `over`, `under`.
    """

    low: float | None
    high: float | None
    unit: UnitName | None
    start: int
    end: int
    low_open: bool = False
    high_open: bool = False
    about: bool = False
    ideal: bool = False

    @property
    def single(self) -> float | None:
        """The one number, where it is one."""
        return self.low if self.low == self.high else None


def plain_numbers(text: str) -> str:
    """Small letters, number words as figures, fractions as `1/2`, conversions in brackets left out."""
    low = text.lower().replace("\u00d7", "x")
    low = re.sub(
        r"\b(over|under)-?,? (or|and|/) (over|under)-?(siz\w+|shot|weight|height)", r"\1\4 \2 \3\4", low
    )
    low = low.replace("want of ", "lack of ").replace("wanting in ", "lacking in ")
    low = re.sub(r"(\d) is to (\d)", r"\1 to \2", low)
    low = re.sub(r"\(\s*((?:\u00b1|\+\s*/?\s*-|plus (?:or|and) minus)[^)]*)\)", r"\1", low)
    low = re.sub(r"\b(\d{2,3})/(\d{2,3})(?=\s*(?:cm|kg|mm|lb|in\b))", _range_of, low)
    low = re.sub(r"\b(over|under)-, (over|under)-?shot", r"\1shot, \2shot", low)
    low = re.sub(r"(\d)\s*(?:centi?met(?:re|er)s?)", r"\1 cm", low)
    low = re.sub(r"(\d)\s*-?\s*(\d/\d)(?!\d)", r"\1 \2", low)
    low = re.sub(r"(?<=\d),(?=\d{1,2}\b(?!,))", ".", low)
    low = _number_words(low)
    return _without_conversions(low)


def _range_of(found: re.Match[str]) -> str:
    """`58/62 cm` is 58 to 62; a fraction stays."""
    low, high = int(found.group(1)), int(found.group(2))
    return f"{low}-{high}" if low < high <= 2 * low else found.group()


def _number_words(low: str) -> str:
    def tens(found: re.Match[str]) -> str:
        return str(_TENS[found.group(1)] + (_ONES[found.group(2)] if found.group(2) else 0))

    low = re.sub(rf"\b({'|'.join(_TENS)})(?:[- ]({'|'.join(list(_ONES)[1:10])}))?\b", tens, low)
    ones = "|".join(_ONES)
    parts = "|".join(sorted(_FRACTIONS, key=len, reverse=True))

    def share(found: re.Match[str]) -> str:
        many = found.group(1)
        top, bottom = _FRACTIONS[found.group(2)]
        count = 1 if many in (None, "a", "an") else _ONES[many] if many in _ONES else int(many)
        return f"{count * top}/{bottom}"

    low = re.sub(
        rf"\b(?:(\d+|{ones}) and )(?:a|one)[- ](half|quarter|third)\b",
        lambda m: (
            f"{m.group(1) if m.group(1).isdigit() else _ONES[m.group(1)]} 1/{_FRACTIONS[m.group(2)][1]}"
        ),
        low,
    )
    low = re.sub(
        rf"(?<![\d/])\b(?:({ones}|a|an|[1-9])[- ])?({parts})\b(?! (?:prick|erect|moon|way\b))", share, low
    )
    low = re.sub(r"(\d/\d) (?:an?|of an?) (inch|cm)", r"\1 \2", low)
    low = re.sub(
        rf"\b({ones}|an?|\d+) parts? in ({ones}|\d+)\b",
        lambda m: f"{1 if m.group(1) in ('a', 'an') else _plain(m.group(1))}/{_plain(m.group(2))}",
        low,
    )
    low = re.sub(
        rf"\b({ones}|\d+)(?: (to|and) ({ones}|\d+))? hundredths?\b",
        lambda m: f"{_plain(m.group(1))}{f' to {_plain(m.group(3))}' if m.group(3) else ''} %",
        low,
    )
    low = re.sub(
        rf"\b(\d+|{ones}) (?:is )?(to|:) ({ones})\b",
        lambda m: f"{_plain(m.group(1))} {m.group(2)} {_plain(m.group(3))}",
        low,
    )
    return re.sub(
        (
            rf"\b({ones})\b(?=[ -](?:cm|mm|inch|in\b|inches|kg|lb|pound|degree|per ?cent|%|to|or|"
            rf"teeth|incisor|premolar|molar|tooth|and|times|more))"
        ),
        lambda m: str(_ONES[m.group(1)]),
        low,
    )


def _plain(word: str) -> str:
    return word if word.isdigit() else str(_ONES[word])


def _without_conversions(low: str) -> str:
    """Brackets and second figures that only give the same in another unit."""
    unit = _UNIT.format("u").replace("(?P<u>", "(?:")
    low = re.sub(r"\s*\((\d+(?:\.\d+)?(?:\s*(?:-|to)\s*\d+(?:\.\d+)?)?\s*(?:%|per ?cent))\)", r", \1,", low)
    inner = (
        rf"(?:about |approx\.? |approximately |ca\.? )?(?:{_NUMBER})(?:\s*{unit})?(?:\s*(?:-|"
        rf"to|and|/)\s*(?:{_NUMBER}))?\s*{unit}"
    )
    low = re.sub(rf"(?<=[\d%\w.\"'])\s*[(\[]\s*{inner}(?:\s*[;,/]\s*{inner})*\s*[)\]]", " ", low)
    return re.sub(
        rf"({unit})\s*(?:/|=|,? ?or)\s*(?:{_NUMBER})(?:\s*(?:-|to)\s*(?:{_NUMBER}))?\s*({unit})",
        lambda m: m.group(1) if _unit(m.group(1)) != _unit(m.group(2)) else m.group(0),
        low,
    )


def _unit(word: str | None) -> UnitName | None:
    if not word:
        return None
    word = word.strip(" .")
    for start, unit in (
        ("cm", "cm"),
        ("cent", "cm"),
        ("mm", "mm"),
        ("mill", "mm"),
        ("in", "in"),
        ('"', "in"),
        ("''", "in"),
        ("kg", "kg"),
        ("kilo", "kg"),
        ("lb", "lb"),
        ("pound", "lb"),
        ("\u00b0", "deg"),
        ("deg", "deg"),
        ("per", "%"),
        ("%", "%"),
        ("f", "ft"),
    ):
        if word.startswith(start):
            return UNITS[unit]
    return None


def number(text: str) -> float:
    """`24 1/2` is 24.5."""
    total = 0.0
    for part in re.findall(r"\d+/\d+|\d+(?:[.,]\d+)?", text):
        if "/" in part:
            top, bottom = part.split("/")
            total += int(top) / max(1, int(bottom))
        else:
            total += float(part.replace(",", "."))
    return total


_ABOUT: Final = re.compile(
    r"(?:about|approx(?:\.|imately)?|around|roughly|nearly|almost|circa|ca\.?|c\.|abt\.?|"
    r"some|practically|~)\s*(?:an? |the |at )?(?:angle of )?$"
)
_IDEAL: Final = re.compile(
    r"\b(?:ideal(?:ly)?|desir(?:ed|able)|wished(?:[- ]for)?|prefer(?:red|ably|able)|optim(?:al|um)|best)\b"
)
_AFTER_LEAST: Final = re.compile(
    r"^\s*(?:or (?:more|over|above|greater|up)|and (?:over|above|up|more|upwards)|upwards?|"
    r"minimum|min\b|at (?:the )?least|\+)"
)
_AFTER_MOST: Final = re.compile(
    r"^\s*(?:or (?:less|under|below|smaller)|and (?:under|below|less)|maximum|max\b|at (?:the )?most)"
)
_LED: Final = re.compile(r"\s*(?:the )?(min|max)(?:imum|\.)? (?:size|height|weight|length)\b")
"""`Minimum height: dogs 58 cm, bitches 54 cm`: both are least."""
_MARGIN: Final = re.compile(
    rf"\s*(?:,\s*)?(?:\u00b1|\+\s*/?\s*-|plus (?:or|and) minus|plus/minus)\s*({_NUMBER})"
    rf"(?:\s*{_UNIT.format('um')})?"
)
_FIGURE: Final = re.compile(
    rf"(?P<a>{_NUMBER})(?:\s*-?\s*{_UNIT.format('ua')})?"
    rf"(?P<tail>\s*(?:-+|to|up to|and|/|,?\s*(?:but\s+)?(?:not (?:over|more than|exceeding|"
    rf"above)|up to and including|through))\s*"
    rf"(?:about |approx(?:\.|imately) |a maximum of |at most |not (?:over|more than|exceeding|"
    rf"above) |max\.? |including |incl\. )?"
    rf"(?P<b>{_NUMBER})(?:\s*-?\s*{_UNIT.format('ub')})?)?"
)


def figures(low: str) -> list[Figure]:
    """The figures of a plain sentence (see `plain_numbers`), ratios such as `9:10` left out."""
    out: list[Figure] = []
    at = 0
    while True:
        found = _FIGURE.search(low, at)
        if found is None:
            return _with_units(out)
        at = found.end()
        start = found.start()
        if start and (
            low[start - 1].isalpha()
            or low[start - 1] in ":/"
            or (
                low[max(0, start - 2) : start] == ": "
                and low[max(0, start - 4) : start - 2].strip().isdigit()
            )
        ):
            continue
        if re.match(r"\s*:\s*\d", low[found.end("a") :]):
            second = re.match(r"\s*:\s*[\d.]+", low[found.end("a") :])
            at = found.end("a") + (second.end() if second else 1)
            continue
        figure, at = _figure(low, found)
        if figure is not None:
            out.append(figure)


def _figure(low: str, found: re.Match[str]) -> tuple[Figure | None, int]:
    first, ua = number(found.group("a")), _unit(found.group("ua"))
    end = found.end("ua") if found.group("ua") else found.end("a")
    second: float | None = None
    unit = ua
    before = low[max(0, found.start() - 42) : found.start()]
    if found.group("b") is not None:
        ub = _unit(found.group("ub"))
        joins = found.group("tail").lstrip()
        between = re.search(r"\b(?:between|from)\b[^\d]*$", before)
        ranged = not joins.startswith("and") or bool(between)
        if joins.startswith("/") and not ub:
            ranged = False
        if ranged and (ub is None or ua is None or ub == ua) and number(found.group("b")) >= first:
            second, unit = number(found.group("b")), ub or ua
            end = found.end("ub") if found.group("ub") else found.end("b")
    margin = _MARGIN.match(low[end:])
    if second is None and margin and not re.search(r"toleran", low[max(0, found.start() - 60) : end + 60]):
        width = number(margin.group(1))
        unit = unit or _unit(margin.group("um"))
        if width < 0.25 * first:
            first, second, end = round(first - width, 3), round(first + width, 3), end + margin.end()
    after = low[end : end + 40]
    about = bool(_ABOUT.search(before))
    ideal = bool(_IDEAL.search(_same_clause(low, found.start()))) or bool(
        re.match(r"\s*(?:is |being |are )?(?:the )?(?:ideal|prefer|desir)", after)
    )
    if second is not None:
        opened = bool(re.search(r"\b(?:over|more than|above)\s*$", before))
        return Figure(first, second, unit, found.start(), end, opened, False, about, ideal), end
    for named, words in BEFORE:
        if re.search(rf"(?:{words})\s*(?:by\s+)?(?:about |approx(?:\.|imately) |an? |the |is )?$", before):
            kind = named
            break
    else:
        kind = (
            "at_least_closed"
            if _AFTER_LEAST.match(after)
            else "at_most_closed"
            if _AFTER_MOST.match(after)
            else ""
        )
    led = _LED.match(low)
    if not kind and led and not (re.search(r"\bmin", low) and re.search(r"\bmax", low)):
        kind = "at_least_closed" if led.group(1) == "min" else "at_most_closed"
    if kind in ("at_least_closed", "above_open"):
        return Figure(first, None, unit, found.start(), end, kind == "above_open", False, about, ideal), end
    if kind in ("at_most_closed", "below_open"):
        return Figure(None, first, unit, found.start(), end, False, kind == "below_open", about, ideal), end
    return Figure(first, first, unit, found.start(), end, False, False, about, ideal), end


def _same_clause(low: str, at: int) -> str:
    """What stands before `at` since the last clause, and never across another figure."""
    piece = re.split(r"[;.(]|\d[^a-z]*,", low[:at])[-1]
    return re.split(r"\d", piece)[-1][-60:]


def _with_units(found: list[Figure]) -> list[Figure]:
    """A figure without a unit has that of the next, or else of the one before."""
    out: list[Figure] = []
    for n, figure in enumerate(found):
        unit = figure.unit
        share = figure.single is not None and figure.single < 1
        if unit is None and not share:  # `10 to 12 cm, the upper third falling forward`
            later = next((one.unit for one in found[n + 1 :] if one.unit), None)
            earlier = next((one.unit for one in reversed(out) if one.unit), None)
            unit = later if n + 1 < len(found) and found[n + 1].start - figure.end < 60 else None
            unit = unit or earlier
        out.append(
            Figure(
                figure.low,
                figure.high,
                unit,
                figure.start,
                figure.end,
                figure.low_open,
                figure.high_open,
                figure.about,
                figure.ideal,
            )
        )
    return out
