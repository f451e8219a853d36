"""Measurements in a note: numbers, their units, and the measurement they belong to."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Parsed
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import find
from hands_on.notes.tokens import NONE, STOP, Tokens

# how many words before and after a number its name may start
_REACH: Final = 16
_MARKS: Final = {"½": 0.5, "¼": 0.25, "¾": 0.75}


@dataclass(frozen=True, slots=True)
class FoundMeasure:
    """A measurement read from a note: value in `unit` as written (None: none written); span in the text."""

    id: str
    value: float
    unit: str | None
    span: tuple[int, int]


@dataclass(slots=True)
class Number:
    """A number in the note: words `start` to `end`, unit included; `spoken` when it was spelt out.

    One that is a difference or a count of something else (`counts` false) is no measurement.
    """

    start: int
    end: int
    value: float
    unit: str | None
    spoken: bool
    counts: bool = True


@dataclass(slots=True)
class _Name:
    start: int
    end: int
    ids: tuple[str, ...]
    weight: float
    exact: bool


def unit_words(numbers: Sequence["Number"]) -> frozenset[int]:
    """The words that are numbers with a unit: nothing else may be read in them."""
    return frozenset(i for n in numbers if n.unit is not None for i in range(n.start, n.end))


def read_measures(
    parsed: Parsed, numbers: Sequence["Number"], lexicon: Lexicon, region: str | None, point: str | None
) -> tuple[list[FoundMeasure], set[int]]:
    """The measurements of a note and the words they take up."""
    tokens = parsed.tokens
    numbers = [n for n in numbers if n.counts]
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
        measure = done.get(n, "")
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


def within_measure(tokens: Tokens, words: Sequence[int], measure_words: set[int]) -> bool:
    """Whether the words only name a measurement: the `hock angle` of `hock angle 138 degrees`."""
    near = tokens.text[max(0, min(words) - 1) : max(words) + 1]
    stressed = any(w in ("too", "to", "very", "over", "far") for w in near)
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


def find_numbers(tokens: Tokens, lexicon: Lexicon) -> list[Number]:
    """All numbers that may be measurements; of one put right aloud (`58.5, no, 59.5`) the later counts."""
    return _put_right(tokens, _all_numbers(tokens, lexicon), lexicon)


def _put_right(tokens: Tokens, numbers: list[Number], lexicon: Lexicon) -> list[Number]:
    out: list[Number] = []
    for number in numbers:
        before = out[-1] if out else None
        if before is not None and before.counts and number.counts:
            between = tokens.text[before.end : number.start]
            if (
                between
                and all(w in lexicon.words("correcting") for w in between)
                and any(w in lexicon.words("correcting_strong") for w in between)
            ):
                unit = number.unit or before.unit
                out[-1] = Number(before.start, number.end, number.value, unit, number.spoken)
                continue
        out.append(number)
    return out


def _all_numbers(tokens: Tokens, lexicon: Lexicon) -> list[Number]:
    out: list[Number] = []
    at = 0
    count = len(tokens)
    while at < count:
        read = _number_at(tokens, at, lexicon)
        if read is None:
            at += 1
            continue
        value, end, spoken = read
        unit, end = _unit_at(tokens, end, lexicon)
        if unit == "ft":
            more = _number_at(tokens, end, lexicon) if end < count and tokens.brk[end] != STOP else None
            if more is not None and more[0] < 12:
                second, stop = _unit_at(tokens, more[1], lexicon)
                if second in ("in", None) and (
                    second or more[1] >= count or tokens.text[more[1]] in ("at", "to")
                ):
                    value, unit, end = value * 12 + more[0], "in", stop
        if unit == "ft" and (value > 3.5 or tokens.text[end - 1] in ("feet", "foot")):
            unit = None
            end -= 1
        elif unit in ("in", "cm", "kg", "lb", None) and end < count and not spoken:
            value, end = _half_after(tokens, end, value, lexicon, unit)
        if unit == "m":
            value, unit = value, "m"
        bad = end < count and tokens.brk[end] == 0 and tokens.text[end] in lexicon.not_measure_before
        if unit is None and end < count and tokens.text[end] == "%":
            bad = True
        out_of_place = (
            at > 0
            and not tokens.brk[at]
            and tokens.text[at - 1] in ("by", "ring", "number", "no", "page", "class", "lot", "of", "than")
        )
        if (
            not bad
            and not (out_of_place and unit is not None and tokens.text[at - 1] == "by")
            and not (out_of_place and unit is None)
        ):
            if unit != "m":
                out.append(Number(at, end, value, unit, spoken))
        elif unit is not None:
            out.append(Number(at, end, value, unit, spoken, counts=False))
        at = max(end, at + 1)
    return out


def _half_after(
    tokens: Tokens, end: int, value: float, lexicon: Lexicon, unit: str | None
) -> tuple[float, int]:
    """`25 inches and a half`."""
    if tokens.text[end : end + 3] == ["and", "a", "half"]:
        return value + 0.5, end + 3
    return value, end


def _number_at(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[float, int, bool] | None:
    """A number from word `at`: value, the word after it, whether it was spelt out."""
    if at >= len(tokens):
        return None
    text = tokens.text[at]
    if tokens.number[at]:
        value = _figure(text)
        end = at + 1
        if end < len(tokens) and tokens.text[end] in _MARKS and tokens.brk[end] == 0:
            return value + _MARKS[tokens.text[end]], end + 1, False
        if tokens.text[end : end + 2] == ["point", "five"]:
            return value + 0.5, end + 2, False
        for length in (3, 2, 1):
            words = tokens.text[end : end + length]
            if words[:1] == ["and"] or length == 1:
                name = " ".join(w for w in words if w not in ("and", "a", "an"))
                if name in lexicon.fractions and words:
                    return value + lexicon.fractions[name], end + length, False
        return value, end, False
    if text in _MARKS:
        return _MARKS[text], at + 1, False
    if text not in lexicon.number_words:
        return None
    total = 0.0
    current = 0.0
    end = at
    before = 1000.0
    while end < len(tokens) and (end == at or not tokens.brk[end]):
        word = tokens.text[end]
        if word in lexicon.number_words:
            n = lexicon.number_words[word]
            if n == 100:
                current = max(current, 1) * 100
                before = 100
            elif n < before and not (before < 20) and not (n >= 10 and before < 100):
                current += n
                before = n
            else:
                break
            end += 1
        elif (
            word == "and"
            and end + 1 < len(tokens)
            and before == 100
            and tokens.text[end + 1] in lexicon.number_words
        ):
            end += 1
        else:
            break
    total += current
    if tokens.text[end : end + 1] == ["point"]:
        digits = ""
        stop = end + 1
        while (
            stop < len(tokens)
            and tokens.text[stop] in lexicon.number_words
            and lexicon.number_words[tokens.text[stop]] < 10
        ):
            digits += str(int(lexicon.number_words[tokens.text[stop]]))
            stop += 1
        if digits:
            return total + float("0." + digits), stop, True
    for length in (3, 2):
        words = tokens.text[end : end + length]
        if words[:1] == ["and"]:
            name = " ".join(w for w in words if w not in ("and", "a", "an"))
            if name in lexicon.fractions:
                return total + lexicon.fractions[name], end + length, True
    return total, end, True


def _figure(text: str) -> float:
    tail = 0.0
    if text[-1] in _MARKS:
        tail = _MARKS[text[-1]]
        text = text[:-1]
    if "/" in text:
        whole, _, part = text.replace("-", " ").rpartition(" ")
        top, bottom = part.split("/")
        return (float(whole) if whole else 0.0) + (float(top) / float(bottom) if float(bottom) else 0.0)
    return float(text.replace(",", ".")[:40]) + tail


def _unit_at(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[str | None, int]:
    if at >= len(tokens) or tokens.brk[at] != 0:
        return None, at
    text = tokens.text[at]
    if text in ("'", "’") and tokens.text[at + 1 : at + 2] == [text]:
        return "in", at + 2
    unit = lexicon.units.get(text)
    if unit is None and len(text) > 4:
        for _, symbols, cost in lexicon.slips.readings(text)[:3]:
            if cost < 0.4 and len(symbols) == 1:
                unit = next(
                    (u for w, u in lexicon.units.items() if len(w) > 4 and w.startswith(symbols[0])), None
                )
                if unit:
                    break
    if (
        unit == "in"
        and text == "in"
        and at + 1 < len(tokens)
        and tokens.text[at + 1] in ("the", "front", "rear", "his", "her")
    ):
        return None, at
    return (unit, at + 1) if unit else (None, at)


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
