"""Measurements in a note: numbers, their units, and the measurement they belong to."""

import re
from bisect import bisect_left
from collections.abc import Sequence, Set
from dataclasses import dataclass, replace
from typing import Final

from hands_on.notes.clauses import Parsed
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.measure_names import Fit, Name, dimension_behind, find_names, fit
from hands_on.notes.numbers import Number
from hands_on.notes.own_numbers import of_this_dog, put_right, restated, taken_back
from hands_on.notes.tokens import NONE, STOP, Tokens

__all__ = ["FoundMeasure", "read_measures", "spans", "unit_words", "within_measure"]

_LEAST_HEIGHT: Final = 8.0
"""In any unit: less is a difference."""
_LEAST_WEIGHT: Final = 12.0
"""In kilograms or pounds: less may be what is too much or too little of it."""
_SCORE: Final = re.compile(r"(\d)/\d")
"""`4/9` of a score is four of nine, not a fraction."""
_LEAST_OF_DOG: Final = {"cm": 20.0, "in": 8.0}
"""A length without a name, said of the dog and no part of it, is its height from here on."""
_NO_UNIT_ALONE: Final = frozenset(
    {"in", "ft", "foot", "feet", "m", "g", "'", "’", "′", "hand", "cent", "mil", "mill", "keys"}
)
_AT_THE: Final = frozenset({"at", "the", "its", "his", "her", "in"})
# how many words before and after a number its name may start
_REACH: Final = 16


@dataclass(frozen=True, slots=True)
class FoundMeasure:
    """A measurement read from a note: value in `unit` as written (None: none written); span in the text."""

    id: str
    value: float
    unit: str | None
    span: tuple[int, int]


def unit_words(numbers: Sequence[Number]) -> frozenset[int]:
    """The words that are numbers with a unit: nothing else may be read in them."""
    return frozenset(i for n in numbers if n.unit is not None for i in range(n.start, n.end))


def read_measures(
    parsed: Parsed, numbers: Sequence[Number], lexicon: Lexicon, region: str | None, point: str | None
) -> tuple[list[FoundMeasure], set[int]]:
    """The measurements of a note and the words they take up."""
    tokens = parsed.tokens
    numbers = of_this_dog(parsed, numbers, lexicon)
    if not numbers:
        return [], set()
    names = find_names(parsed, list(numbers), lexicon)
    numbers = [
        n
        for n in numbers
        if n.counts or _of_fault(parsed, n, lexicon, set()) or _by_so_much(tokens, n, names, lexicon)
    ]
    if not numbers:
        return [], set()
    found: list[FoundMeasure] = []
    pairing = _Pairing(parsed, numbers, names, lexicon)
    settled = restated(tokens, numbers, lexicon)
    pairing.join(frozenset(range(len(numbers))) - settled)
    done = put_right(parsed, numbers, pairing.done, names, lexicon)
    if not settled <= done.keys():
        pairing.done = done
        pairing.join(settled - done.keys())
        done = pairing.done
    done = taken_back(parsed, numbers, done, lexicon)
    words, given = pairing.words, pairing.given
    united = sum(number.unit is not None for number in numbers)
    for n, number in enumerate(numbers):
        measure = done.get(n, "") or _of_fault(parsed, number, lexicon, given)
        if not measure and united == 1 and (only := _only_name(tokens, number, names, lexicon, given)):
            measure = only.ids[0]
            words.update(range(only.start, only.end))
        if not measure and (angle := _angle_before(tokens, number, names, lexicon, given)):
            measure = angle
        if not measure:
            measure = _unnamed(parsed, number, lexicon, region, point, given)
            if not measure or (not measure.endswith("girth") and _round(tokens, number, lexicon)):
                continue  # `girth of neck 41 cm`, where nobody measures that
        given.add(measure)
        if measure == "height" and number.value < _LEAST_HEIGHT:
            continue  # `2/3 of the shoulder`
        if measure == "weight" and number.value < _LEAST_WEIGHT and _only_amiss(tokens, number, lexicon):
            continue
        unit = None if measure == "teeth-count" else number.unit
        words.update(range(number.start, number.end))
        if number.unit is not None and dimension_behind(tokens, number, lexicon):
            words.add(number.end)  # the `long` of `coat 3 cm long`, whatever it is the length of
        out_of = _SCORE.fullmatch(tokens.text[number.start]) if measure in lexicon.scales else None
        value = float(out_of[1]) if out_of else number.value
        found.append(
            FoundMeasure(measure, value, unit, (tokens.start[number.start], tokens.end[number.end - 1]))
        )
    return _with_units(found, numbers, tokens, lexicon), words


class _Pairing:
    """Numbers and the names they go with best, each name and each measurement once."""

    def __init__(
        self, parsed: Parsed, numbers: Sequence[Number], names: Sequence[Name], lexicon: Lexicon
    ) -> None:
        self.done: dict[int, str] = {}
        """What each number measures, by its place."""
        self.given: set[str] = set()
        self.words: set[int] = set()
        """Words that name or lead to what was measured."""
        self._numbers, self._names, self._tokens = numbers, names, parsed.tokens
        self._lexicon = lexicon
        self._taken: set[int] = set()
        parts = {i.start for s in parsed.segments for i in s.items if i.parts or i.faults}
        parts -= {name.start for name in names if name.exact}
        starts = [name.start for name in names]
        pairs: list[tuple[float, int, int, Fit]] = []
        for n, number in enumerate(numbers):
            near = range(bisect_left(starts, number.start - _REACH), bisect_left(starts, number.end + _REACH))
            for k in near:
                fitting = fit(parsed.tokens, number, names[k], lexicon)
                if fitting is None:
                    continue
                few = number.unit is None and number.value < 10 and number.value.is_integer()
                few = few and (number.spoken or number.end in parts)
                if not few or lexicon.measures[fitting.measure].quantity == "scale":
                    pairs.append((fitting.score, n, k, fitting))
        self._pairs = sorted(pairs, key=lambda pair: pair[:3])

    def join(self, which: Set[int]) -> None:
        """Give each of these numbers the best of the names that are left."""
        for _, n, k, fitting in self._pairs:
            number, name = self._numbers[n], self._names[k]
            again = not name.exact and bool(dimension_behind(self._tokens, number, self._lexicon))
            free = n in which and n not in self.done and fitting.measure not in self.given
            if not free or (k in self._taken and not again):
                continue
            self.done[n] = fitting.measure
            self.given.add(fitting.measure)
            self._taken.add(k)
            self.words.update(range(name.start, name.end), fitting.words)
            self.words.update(_measuring(self._tokens, name.end, number.start, self._lexicon))


def _with_units(
    found: list[FoundMeasure], numbers: Sequence[Number], tokens: Tokens, lexicon: Lexicon
) -> list[FoundMeasure]:
    """`63 at the withers, cm of course`, `71 long, 65 high, all centimetres`: so all lengths are meant."""
    inside = {i for n in numbers for i in range(n.start, n.end)}
    said = {
        lexicon.units[w]
        for i, w in enumerate(tokens.text)
        if i not in inside and w in lexicon.units and w not in _NO_UNIT_ALONE
    }
    lengths = [unit for unit in said if lexicon.unit_quantity.get(unit) == "length"]
    if len(lengths) != 1:
        return found

    def lacks(m: FoundMeasure) -> bool:
        return m.unit is None and lexicon.measures[m.id].quantity == "length"

    return [replace(m, unit=lengths[0]) if lacks(m) else m for m in found]


def _by_so_much(tokens: Tokens, number: Number, names: Sequence[Name], lexicon: Lexicon) -> bool:
    """Whether what reads as a difference is a measure that is one: `ends 3 cm short of the nose`."""
    return any(
        name.exact
        and not lexicon.gaps.isdisjoint(name.ids)
        and (fitting := fit(tokens, number, name, lexicon)) is not None
        and fitting.measure in lexicon.gaps
        for name in names
    )


def _only_name(
    tokens: Tokens, number: Number, names: Sequence[Name], lexicon: Lexicon, given: Set[str]
) -> Name | None:
    """The name of its sentence that fits a number far behind it, where but one measurement is named.

    `stifle angle, hold on, let me get it from the other side, 118 degrees`.
    """
    start = tokens.sentence(number.start).start
    quantity = lexicon.unit_quantity.get(number.unit or "", "")
    near = [n for n in names if n.exact and start <= n.start and n.end <= number.start]
    fitting = {i for n in near for i in n.ids if lexicon.measures[i].quantity == quantity}
    if len(fitting) != 1 or not fitting.isdisjoint(given) or _round(tokens, number, lexicon):
        return None
    return next(replace(n, ids=tuple(fitting)) for n in near if not fitting.isdisjoint(n.ids))


def _angle_before(
    tokens: Tokens, number: Number, names: Sequence[Name], lexicon: Lexicon, given: Set[str]
) -> str:
    """The angle of the part last named, a sentence before at most: `stifle straight. I read 145 degrees`."""
    if lexicon.unit_quantity.get(number.unit or "") != "angle":
        return ""
    for name in reversed([n for n in names if n.end <= number.start]):
        stops = sum(tokens.brk[i] == STOP for i in range(name.end, number.start + 1))
        angles = [i for i in name.ids if lexicon.measures[i].quantity == "angle"]
        if stops > 1:
            break
        if angles:
            return "" if angles[0] in given else angles[0]
    return ""


def _only_amiss(tokens: Tokens, number: Number, lexicon: Lexicon) -> bool:
    """`weight too much, say 3 kilos`: by so much, no weight of the dog."""
    said = tokens.text[tokens.sentence(number.start).start : number.end + 3]
    return not lexicon.sets.weight_amiss.isdisjoint(said)


def _round(tokens: Tokens, number: Number, lexicon: Lexicon) -> bool:
    """Whether a girth is said right before a number."""
    said = tokens.text[max(tokens.sentence(number.start).start, number.start - 4) : number.start]
    return any(lexicon.dimensions.get(w) == "girth" for w in said)


def _of_fault(parsed: Parsed, number: Number, lexicon: Lexicon, used: set[str]) -> str:
    """What a number right beside a fault measures: `overshot by 3 mm`, `2 mm undershot`."""
    tokens = parsed.tokens
    at = number.start
    while at > 0 and (tokens.text[at - 1] in ("by", "of") or tokens.text[at - 1] in lexicon.sets.about):
        at -= 1
    if tokens.brk[at] == STOP or number.unit is None:
        return ""
    for segment in parsed.segments:
        for item in segment.items:
            ahead = item.start == number.end and not tokens.brk[number.end]
            if not (ahead or item.end == at) or len(item.used) > 1:
                continue
            for fault, _ in (*item.faults, *item.late_faults):
                measure = lexicon.fault_measure.get(fault.rstrip("!~"), "")
                words = lexicon.measures.get(measure)
                if words and measure not in used and words.quantity == lexicon.unit_quantity.get(number.unit):
                    return measure
    return ""


def within_measure(tokens: Tokens, words: Sequence[int], measured: frozenset[int], lexicon: Lexicon) -> bool:
    """Whether the words only name a measurement: the `hock angle` of `hock angle 138 degrees`."""
    if any(i in measured and i - 1 in measured and tokens.text[i] in lexicon.dimensions for i in words):
        return True  # the `long` of `coat 3 cm long on the back`
    near = tokens.text[max(0, min(words) - 1) : max(words) + 1]
    stressed = any(w in lexicon.sets.stress_measure for w in near)
    apart = max(words) + 1 < len(tokens) and tokens.brk[max(words) + 1] != NONE
    return bool(measured) and not stressed and not apart and all(i in measured for i in words)


def _unnamed(
    parsed: Parsed,
    number: Number,
    lexicon: Lexicon,
    region: str | None,
    point: str | None,
    used: set[str],
) -> str:
    tokens = parsed.tokens
    if point and point in lexicon.measures and point not in used:
        quantity = lexicon.measures[point].quantity
        if number.unit is None:
            return point if len(tokens) - (number.end - number.start) <= 3 else ""
        if lexicon.unit_quantity.get(number.unit) == quantity:
            return point
    if not lexicon.sets.furniture.isdisjoint(
        tokens.text[tokens.sentence(number.start).start : number.end + 6]
    ):
        return ""  # `table is 75 cm off the floor`
    few = number.unit is None and number.value < 10  # `ears two long`
    if (said := _dimension_near(tokens, number, lexicon)) and not few:
        here = [i for i, words in lexicon.measures.items() if words.region == region]
        sized = [i for i in here if i.rpartition("-")[2] == said and i not in used]
        if len(sized) == 1:
            return sized[0]
    bare = lexicon.bare_measure.get(dimension_behind(tokens, number, lexicon), "")
    if bare and used and bare not in used and region in (None, "general"):
        return bare
    if number.unit is None:
        whole = [w for w in tokens.text[number.end : number.end + 3] if w not in ("of", "out")]
        return "teeth-count" if region == "mouth" and whole[:1] in (["42"], ["forty"]) else ""
    quantity = lexicon.unit_quantity.get(number.unit, "")
    weighed = not {"kg", "lb"}.isdisjoint(lexicon.units.get(w, "") for w in tokens.text)
    # `24 inches, 62 pounds`; `a masculine dog of 67 cm, strong bone`
    least = _LEAST_OF_DOG.get(number.unit)
    alone = least is not None and number.value >= least and not _beside_part(parsed, number, lexicon)
    screen = region or ("general" if weighed or alone else "")
    if alone and _of_dog(tokens, number, lexicon):
        screen = "general"  # whatever is on the screen: `Bitch, four years old, 58 cm`
    default = lexicon.default_measure.get(screen, {}).get(quantity)
    if (
        default
        and quantity == "length"
        and screen == region
        and _of_elsewhere(parsed, number, lexicon, screen)
    ):
        default = ""
    default = default or lexicon.any_measure.get(quantity, "")
    return "" if default in used else default


def _dimension_near(tokens: Tokens, number: Number, lexicon: Lexicon) -> str:
    """The dimension said right behind a number, or at it: `20 cm wide`, `20 cm at the widest`."""
    at = number.end
    while at < len(tokens) and at - number.end < 2 and not tokens.brk[at] and tokens.text[at] in _AT_THE:
        at += 1
    closed = at >= len(tokens) or bool(tokens.brk[at])
    return "" if closed else lexicon.dimensions.get(tokens.text[at], "")


def _of_dog(tokens: Tokens, number: Number, lexicon: Lexicon) -> bool:
    """Does the sentence speak of the dog as a whole before the number?"""
    before = tokens.text[tokens.sentence(number.start).start : number.start]
    return not lexicon.sets.whole_dog.isdisjoint(before)


def _beside_part(parsed: Parsed, number: Number, lexicon: Lexicon) -> bool:
    """Does the clause of the number speak of a part of the dog, or of a fault in one?"""
    return any(
        lexicon.part_region.get(name, name.split(".", 1)[0]) != "general"
        for segment in parsed.segments
        if segment.lead <= number.start < segment.end
        for item in segment.items
        for name, _ in (*item.parts, *item.inner_parts, *item.faults, *item.late_faults)
    )


def _of_elsewhere(parsed: Parsed, number: Number, lexicon: Lexicon, screen: str) -> bool:
    """Whether the clause of a number names parts, and none of this screen's region."""
    homes = {
        lexicon.part_region[name]
        for segment in parsed.segments
        if segment.lead <= number.start < segment.end
        for item in segment.items
        for name, cost in (*item.parts, *item.inner_parts)
        if cost < 0.1 and name in lexicon.part_region
    }
    return bool(homes) and homes.isdisjoint({screen, "general"})


def _measuring(tokens: Tokens, start: int, end: int, lexicon: Lexicon) -> list[int]:
    """The words between name and number where they say no more than `opens to` or `reads`."""
    between = list(range(start, end))
    plain = lexicon.sets.measuring | lexicon.drop
    return between if all(tokens.text[i] in plain and not tokens.brk[i] for i in between) else []


def spans(tokens: Tokens, words: Sequence[int]) -> tuple[int, int]:
    """The stretch of text from the first to the last of the words."""
    return tokens.start[min(words)], max(tokens.end[i] for i in words)
