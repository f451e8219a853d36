"""Measurements in a note: numbers, their units, and the measurement they belong to."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Parsed
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import find
from hands_on.notes.numbers import Number
from hands_on.notes.tokens import NONE, STOP, Tokens

# how many words before and after a number its name may start
_REACH: Final = 16


@dataclass(frozen=True, slots=True)
class FoundMeasure:
    """A measurement read from a note: value in `unit` as written (None: none written); span in the text."""

    id: str
    value: float
    unit: str | None
    span: tuple[int, int]


@dataclass(slots=True)
class _Name:
    start: int
    end: int
    ids: tuple[str, ...]
    weight: float
    exact: bool


def unit_words(numbers: Sequence[Number]) -> frozenset[int]:
    """The words that are numbers with a unit: nothing else may be read in them."""
    return frozenset(i for n in numbers if n.unit is not None for i in range(n.start, n.end))


def read_measures(
    parsed: Parsed, numbers: Sequence[Number], lexicon: Lexicon, region: str | None, point: str | None
) -> tuple[list[FoundMeasure], set[int]]:
    """The measurements of a note and the words they take up."""
    tokens = parsed.tokens
    numbers = [n for n in numbers if n.counts or _of_fault(parsed, n, lexicon, set())]
    if not numbers:
        return [], set()
    names = _names(parsed, lexicon)
    part_words = {i.start for s in parsed.segments for i in s.items if i.parts or i.faults}
    part_words -= {name.start for name in names if name.exact}
    found: list[FoundMeasure] = []
    words: set[int] = set()
    taken: set[int] = set()
    pairs: list[tuple[float, int, int, str]] = []
    names.sort(key=lambda name: name.start)
    starts = [name.start for name in names]
    for n, number in enumerate(numbers):
        near = range(bisect_left(starts, number.start - _REACH), bisect_left(starts, number.end + _REACH))
        for k in near:
            name = names[k]
            gap = _gap(tokens, number, name)
            if gap is None:
                continue
            dimension = _dimension(tokens, number, lexicon)
            fit = _fitting(name, number, lexicon, dimension)
            if fit is None or (number.unit is None and (not name.exact or gap > 4)):
                continue
            if number.unit is None and (number.value < 10 and (number.spoken or number.end in part_words)):
                continue
            score = gap - name.weight + (0.4 if name.start > number.end - 1 else 0.0)
            score += 1.5 if dimension and not fit.endswith(dimension) else 0.0
            pairs.append((score, n, k, fit))
    pairs.sort()
    done: dict[int, str] = {}
    given: set[str] = set()
    for _, n, k, measure in pairs:
        again = not names[k].exact and bool(_dimension(tokens, numbers[n], lexicon))
        if n in done or (k in taken and not again) or measure in given:
            continue
        done[n] = measure
        given.add(measure)
        taken.add(k)
        words.update(range(names[k].start, names[k].end))
    for n, number in enumerate(numbers):
        measure = done.get(n, "") or _of_fault(parsed, number, lexicon, given)
        if not measure:
            measure = _unnamed(tokens, number, lexicon, region, point, given)
            if not measure:
                continue
            given.add(measure)
        unit = None if measure == "teeth-count" else number.unit
        words.update(range(number.start, number.end))
        found.append(
            FoundMeasure(
                measure, number.value, unit, (tokens.start[number.start], tokens.end[number.end - 1])
            )
        )
    return found, words


def _of_fault(parsed: Parsed, number: Number, lexicon: Lexicon, used: set[str]) -> str:
    """What a number right behind a fault measures: `overshot by 3 mm`."""
    tokens = parsed.tokens
    at = number.start
    while at > 0 and (tokens.text[at - 1] == "by" or tokens.text[at - 1] in lexicon.words("about")):
        at -= 1
    if at == 0 or tokens.brk[at] == STOP or number.unit is None:
        return ""
    for segment in parsed.segments:
        for item in segment.items:
            if item.end != at or len(item.used) > 1:
                continue
            for fault, _ in (*item.faults, *item.late_faults):
                measure = lexicon.fault_measure.get(fault.rstrip("!~"), "")
                words = lexicon.measures.get(measure)
                if words and measure not in used and words.quantity == lexicon.unit_quantity.get(number.unit):
                    return measure
    return ""


def within_measure(tokens: Tokens, words: Sequence[int], measure_words: set[int], lexicon: Lexicon) -> bool:
    """Whether the words only name a measurement: the `hock angle` of `hock angle 138 degrees`."""
    near = tokens.text[max(0, min(words) - 1) : max(words) + 1]
    stressed = any(w in lexicon.words("stress_measure") for w in near)
    apart = max(words) + 1 < len(tokens) and tokens.brk[max(words) + 1] != NONE
    return bool(measure_words) and not stressed and not apart and all(i in measure_words for i in words)


def _unnamed(
    tokens: Tokens,
    number: Number,
    lexicon: Lexicon,
    region: str | None,
    point: str | None,
    used: set[str],
) -> str:
    if point and point in lexicon.measures and point not in used:
        quantity = lexicon.measures[point].quantity
        if number.unit is None:
            return point if len(tokens) - (number.end - number.start) <= 3 else ""
        if lexicon.unit_quantity.get(number.unit) == quantity:
            return point
    if number.unit is None:
        return ""
    quantity = lexicon.unit_quantity.get(number.unit, "")
    default = lexicon.default_measure.get(region or "", {}).get(quantity) or lexicon.any_measure.get(
        quantity, ""
    )
    return "" if default in used else default


def _names(parsed: Parsed, lexicon: Lexicon) -> list[_Name]:
    tokens = parsed.tokens
    skip = [1 if (w in lexicon.skip and w != "to") or w in ("to",) else 0 for w in tokens.text]
    out = [
        _Name(
            m.start,
            m.end,
            tuple(v for _, v, c in m.meanings if c < m.cost + 0.05),
            0.5 * len(m.used)
            - m.cost
            - (1.5 if tokens.text[m.start] in lexicon.words("weak_names") else 0.0),
            True,
        )
        for m in find(lexicon.measure, tokens, parsed.steps, skip, None)
        if m.cost < 0.5
    ]
    for segment in parsed.segments:
        for item in segment.items:
            ids = tuple(
                i
                for part, cost in item.parts or item.inner_parts
                if cost < 0.5
                for i in lexicon.part_measures.get(part, ())
            )
            if ids:
                out.append(_Name(item.start, item.end, ids, 0.5 * len(item.used) - 0.2, False))
    return out


def _gap(tokens: Tokens, number: Number, name: _Name) -> float | None:
    """Words between the number and the name; None when a break that names cannot cross lies between."""
    if name.start < number.end and number.start < name.end:
        return None
    lo, hi = (number.end, name.start) if name.start >= number.end else (name.end, number.start)
    gap = float(hi - lo)
    for i in range(lo, hi + 1):
        if i < len(tokens) and tokens.brk[i]:
            if tokens.brk[i] == STOP:
                return None
            gap += 2.0
    return gap if gap <= 8 else None


def _dimension(tokens: Tokens, number: Number, lexicon: Lexicon) -> str:
    """The `width` of `12 cm wide`; empty when the number says no dimension."""
    if number.end >= len(tokens) or tokens.brk[number.end]:
        return ""
    return lexicon.dimensions.get(tokens.text[number.end], "")


def _fitting(name: _Name, number: Number, lexicon: Lexicon, dimension: str) -> str | None:
    """Which of the measurements of a name the number's unit, and the dimension behind it, allow."""
    quantity = lexicon.unit_quantity.get(number.unit or "", "")
    ids = sorted(name.ids, key=lambda i: not i.endswith(dimension)) if dimension else name.ids
    for measure in ids:
        words = lexicon.measures.get(measure)
        if words is None:
            continue
        if number.unit is None:
            if words.quantity in ("length", "angle", "mass") or (
                words.quantity == "count" and number.value >= 10
            ):
                return measure
        elif words.quantity == quantity:
            return measure
    return None


def spans(tokens: Tokens, words: Sequence[int]) -> tuple[int, int]:
    """The stretch of text from the first to the last of the words."""
    return tokens.start[min(words)], max(tokens.end[i] for i in words)
