"""What a number in a note measures: names said outright, parts with a dimension, two points of the body."""

from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Parsed
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import Match, find
from hands_on.notes.numbers import Number
from hands_on.notes.tokens import STOP, Tokens

__all__ = ["Fit", "Name", "dimension_behind", "find_names", "fit"]

_FURTHEST: Final = 8.0
_LINK: Final = 6
"""How many words may stand between the two points of a length."""
_HIGHEST_SCORE: Final = 9
_LED: Final = 4
"""So many words may stand before the name in `that is the girth`."""
_GROUND: Final = "ground"
_OF_IT: Final = frozenset({"of it", "of that", "of them", "of this", "of same"})
_OPENING: Final = frozenset({"and", "the", "its", "his", "her"})
_READS: Final = frozenset({"is", "at", "reads", "measures", "says", "comes", "of"})
_BETWEEN: Final = frozenset({
    "he", "she", "it", "straight", "direct", "directly", "right", "plumb", "vertically", "square", "taken",
})  # fmt: skip
"""Between the two points of a length they say nothing of it."""
_HEADING: Final = frozenset(
    {"the", "a", "his", "her", "now", "then", "next", "first", "and", "right", "so", "my"}
)
_BEFORE: Final = 4
_BEHIND: Final = 3


@dataclass(slots=True)
class Name:
    """Words that may name a measurement; `exact` when they do so outright, not only by a part of the dog."""

    start: int
    end: int
    ids: tuple[str, ...]
    weight: float
    exact: bool


@dataclass(frozen=True, slots=True)
class Fit:
    """A measurement that a name and a number make: lower scores are better; `words` tell the dimension."""

    measure: str
    score: float
    words: tuple[int, ...]


def find_names(parsed: Parsed, numbers: list[Number], lexicon: Lexicon) -> list[Name]:
    """All names in the note, in its order."""
    tokens = parsed.tokens
    skip = [1 if w in lexicon.skip or w == "to" else 0 for w in tokens.text]
    weak = lexicon.sets.weak_names
    out = [
        Name(
            m.start,
            m.end,
            tuple(v for _, v, c in m.meanings if c < m.cost + 0.05),
            0.5 * len(m.used)
            - m.cost
            - (1.5 if tokens.text[m.start] in weak else 0.0)
            - (5.0 if _only_where(tokens, m.start, lexicon) else 0.0),
            True,
        )
        for m in find(lexicon.measure, tokens, parsed.steps, skip, None)
        if m.cost < 0.5
        and not _other_word(tokens, m, lexicon)
        and not _stray_letter(tokens, m)
        and not _of_other_part(parsed, m, lexicon)
    ]
    out += _between(parsed, numbers, lexicon, skip)
    for segment in parsed.segments:
        for item in segment.items:
            ids = tuple(
                i
                for part, cost in item.parts or item.inner_parts
                if cost < (0.5 if tokens.text[item.start] not in lexicon.not_measure_before else 0.1)
                for i in lexicon.part_measures.get(part, ())
            )
            if ids:
                where = 5.0 if _only_where(tokens, item.start, lexicon, on=True) else 0.0
                out.append(Name(item.start, item.end, ids, 0.5 * len(item.used) - 0.2 - where, False))
    out += _carried(parsed, out, lexicon)
    out.sort(key=lambda name: name.start)
    return [name for name in out if not _within_another(name, out, lexicon)]


def _carried(parsed: Parsed, names: list[Name], lexicon: Lexicon) -> list[Name]:
    """The `width` of `thorax: depth 29 cm, width 19 cm`: of the part named before it in its sentence."""
    tokens = parsed.tokens
    taken = {i for name in names for i in range(name.start, name.end)}
    parts = [
        (
            item.start,
            tuple(i for part, cost in item.parts if cost < 0.1 for i in lexicon.part_measures.get(part, ())),
        )
        for segment in parsed.segments
        for item in segment.items
    ]
    out: list[Name] = []
    for at in range(1, len(tokens) - 1):
        dimension = lexicon.dimensions.get(tokens.text[at])
        of_it = " ".join(tokens.text[at + 1 : at + 3]) in _OF_IT
        opens = bool(tokens.brk[at]) or tokens.text[at - 1] in _OPENING or of_it
        if not dimension or not opens or (at in taken and not of_it):
            continue
        if not (of_it or tokens.brk[at + 1] or tokens.number[at + 1] or tokens.text[at + 1] in _READS):
            continue
        start = tokens.sentence(at).start
        led = [ids for begin, ids in parts if start <= begin < at and ids]
        ids = led[-1] if led else ()
        ids += tuple(
            f"{i.rpartition('-')[0]}-{dimension}"
            for name in names
            if name.exact and start <= name.start < at
            for i in name.ids
        )
        found = tuple(i for i in ids if i.rpartition("-")[2] == dimension and i in lexicon.measures)
        if found:
            end = at + 3 if of_it else at + 1
            out.append(Name(at, end, found, 2.0 if of_it else 1.0, True))
    return out


def _other_word(tokens: Tokens, m: Match, lexicon: Lexicon) -> bool:
    """Whether a name is read into a word of time or correction: `last year`, `wait, he moved`."""
    if m.cost < 0.05 or len(m.used) > 1:
        return False
    word = tokens.text[m.start]
    return word in lexicon.not_measure_before or word in lexicon.sets.correcting


def _stray_letter(tokens: Tokens, m: Match) -> bool:
    """Whether a name of one letter has no number of two figures right behind it: `H 62, W 27.5`."""
    if m.end - m.start > 1 or len(tokens.text[m.start]) > 1:
        return False
    at = m.end
    return (
        m.cost > 0
        or at >= len(tokens)
        or not tokens.number[at]
        or bool(tokens.brk[at])
        or not tokens.text[at][:2].isdigit()
    )


def _within_another(name: Name, names: list[Name], lexicon: Lexicon) -> bool:
    """The `length` of `coat length`, the `brisket` of `ground to brisket`: part of a longer name."""
    quantities = {lexicon.measures[i].quantity for i in name.ids if i in lexicon.measures}
    return any(
        other.exact
        and other.start <= name.start
        and name.end <= other.end
        and other.end - other.start > name.end - name.start
        and quantities <= {lexicon.measures[i].quantity for i in other.ids if i in lexicon.measures}
        for other in names
    )


def _of_other_part(parsed: Parsed, m: Match, lexicon: Lexicon) -> bool:
    """The `girth` of `neck girth`, of `girth of neck`: a part that has no measurement so named."""
    text = parsed.tokens.text
    led = m.start and not parsed.tokens.brk[m.start]
    of = text[m.end : m.end + 1] == ["of"]
    after = m.end + (2 if text[m.end + 1 : m.end + 2] and text[m.end + 1] in lexicon.sets.articles else 1)
    if m.end - m.start > 1 or not (led or of):
        return False
    homes = {lexicon.measures[value].region for _, value, _ in m.meanings}
    named = [
        lexicon.part_region[part]
        for segment in parsed.segments
        for item in segment.items
        if (led and item.end == m.start) or (of and item.start == after)
        for part, cost in (*item.parts, *item.inner_parts)
        if cost < 0.1
    ]
    return bool(named) and homes.isdisjoint(named) and "general" not in named


def _only_where(tokens: Tokens, start: int, lexicon: Lexicon, on: bool = False) -> bool:
    """`along the back`: where it was measured, not what. `on`: so does `on the back`."""
    at = start - 1
    while at > 0 and tokens.text[at] in ("the", "his", "her", "its"):
        at -= 1
    if at < 0 or tokens.brk[start]:
        return False
    return tokens.text[at] in lexicon.sets.where or (on and tokens.text[at] == "on")


def _between(parsed: Parsed, numbers: list[Number], lexicon: Lexicon, skip: list[int]) -> list[Name]:
    """`from the point of the hock down to the ground`: two points of the body name the length between."""
    tokens = parsed.tokens
    points: list[Match] = []
    for m in sorted(
        (m for m in find(lexicon.landmarks, tokens, parsed.steps, skip, None) if m.cost < 0.4),
        key=lambda m: (m.start, m.cost > 0.1, -m.end),
    ):
        if not points or m.start >= points[-1].end:
            points.append(m)
    out: list[Name] = []
    inside = {n.start: n for n in numbers}
    for k, first in enumerate(points):
        for second in points[k + 1 : k + 3]:
            within = sum(n.end - n.start for n in numbers if first.end <= n.start < second.start)
            if second.start - first.end - within > _LINK or not _linked(
                tokens, first, second, inside, lexicon
            ):
                continue
            ids = lexicon.between.get(frozenset((first.meanings[0][1], second.meanings[0][1])), ())
            if ids:
                weight = 0.5 * (len(first.used) + len(second.used)) + 1.5 - first.cost - second.cost
                out.append(Name(first.start, second.end, ids, weight, True))
    return out + _upwards(tokens, points, numbers, lexicon)


def _linked(tokens: Tokens, first: Match, second: Match, inside: dict[int, Number], lexicon: Lexicon) -> bool:
    """Whether `to`, `and`, `down to` ... join two points; `34 cm above` between them is the number itself.

    So does a colon or stroke without blanks: `nose:occiput`, `elbow/wrist`.
    """
    links = lexicon.sets.links
    at = first.end
    if at == second.start and tokens.brk[at] != STOP:
        return bool(tokens.brk[at]) and tokens.start[at] - tokens.end[at - 1] == 1
    linked = False
    while at < second.start:
        if tokens.brk[at]:
            return False
        number = inside.get(at)
        if number is not None:
            after = tokens.text[number.end : number.end + 1]
            if not after or after[0] not in lexicon.sets.measured_from:
                return False
            at, linked = number.end + 1, True
            continue
        word = tokens.text[at]
        if word in links:
            linked = True
        elif word not in lexicon.skip and word not in lexicon.sets.measuring and word not in _BETWEEN:
            return False
        at += 1
    return linked and not tokens.brk[second.start]


def _upwards(tokens: Tokens, points: list[Match], numbers: list[Number], lexicon: Lexicon) -> list[Name]:
    """`point of hip 58 cm up`: so high above the ground."""
    out: list[Name] = []
    for number in numbers:
        up = tokens.text[number.end : number.end + 1] == ["up"] and not tokens.brk[number.end]
        ends = number.end + 1 >= len(tokens) or bool(tokens.brk[number.end + 1])
        led = [m for m in points if m.end <= number.start and number.start - m.end <= 2]
        if up and ends and led and not any(tokens.brk[led[-1].end : number.start + 1]):
            ids = lexicon.between.get(frozenset((led[-1].meanings[0][1], _GROUND)), ())
            if ids:
                out.append(Name(led[-1].start, led[-1].end, ids, 2.5, True))
    return out


def fit(tokens: Tokens, number: Number, name: Name, lexicon: Lexicon) -> Fit | None:
    """Whether the number may be of that name, and how well they go together."""
    gap = _gap(tokens, number, name, lexicon.sets.measuring)
    if gap is None:
        return None
    behind = dimension_behind(tokens, number, lexicon)
    named = _named_behind(tokens, number, name, lexicon)
    said = _dimensions(tokens, number, name, lexicon) if not behind else {behind: number.end}
    if named:
        said = {}
    measure = _fitting(name, number, lexicon, frozenset(said))
    if measure and number.unit is None and lexicon.measures[measure].quantity == "length":
        measure = measure if not _among_angles(tokens, number, lexicon) else None
    if measure is None:
        return None
    dimension = next((d for d in said if measure.endswith("-" + d) or measure == d), "")
    if "girth" in said and not dimension and (not name.exact or _round_it(tokens, name, lexicon)):
        return None  # `neck girth 41`, where nobody measures that
    sized = dimension and said[dimension] == number.end  # `19 wide`
    if number.unit is None and ((not name.exact and not dimension) or gap > (_FURTHEST if sized else 4)):
        return None
    score = gap - name.weight + (0.4 if name.start > number.end - 1 else 0.0)
    if named:
        score -= _FURTHEST
    if said and not dimension and lexicon.measures[measure].quantity != "mass":
        score += 1.5
    if dimension and not name.exact:
        score -= 1.2
    return Fit(measure, score, (said[dimension],) if dimension else ())


def _named_behind(tokens: Tokens, number: Number, name: Name, lexicon: Lexicon) -> bool:
    """`four inches of loin`, `68 for height and 74 for the length`: a number that is told what it is of."""
    at = number.end + 1
    if tokens.text[number.end : at] not in (["of"], ["for"]):
        return False
    return name.start == at or (name.start == at + 1 and tokens.text[at] in lexicon.sets.articles)


def _among_angles(tokens: Tokens, number: Number, lexicon: Lexicon) -> bool:
    """Whether degrees are the one unit of a number's sentence: `blade 47 degrees, upper arm 52`."""
    units = {
        lexicon.units[tokens.text[i]]
        for i in tokens.sentence(number.start, number.end)[1:]
        if tokens.text[i] in lexicon.units and (tokens.number[i - 1] or _spelt(tokens, i - 1, lexicon))
    }
    return units == {"deg"}


def _spelt(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    return tokens.text[at] in lexicon.number_words or tokens.text[at] in lexicon.fractions


def _round_it(tokens: Tokens, name: Name, lexicon: Lexicon) -> bool:
    """Whether it is the girth of what is named: `neck girth`, `girth of the neck`."""
    before = [w for w in tokens.text[max(0, name.start - 3) : name.start] if w not in lexicon.sets.articles]
    beside = [*tokens.text[name.end : name.end + 1], *(before[-2:-1] if before[-1:] == ["of"] else [])]
    return any(lexicon.dimensions.get(w) == "girth" for w in beside)


def dimension_behind(tokens: Tokens, number: Number, lexicon: Lexicon) -> str:
    """The `width` of `12 cm wide`; empty when the word behind the number says no dimension."""
    if number.end >= len(tokens) or tokens.brk[number.end]:
        return ""
    return lexicon.dimensions.get(tokens.text[number.end], "")


def _gap(tokens: Tokens, number: Number, name: Name, measuring: frozenset[str]) -> float | None:
    """Words between the number and the name; None when a break that names cannot cross lies between."""
    if name.start <= number.start and number.end <= name.end and name.end - name.start > 2:
        return 0.0
    if name.start < number.end and number.start < name.end:
        return None
    lo, hi = (number.end, name.start) if name.start >= number.end else (name.end, number.start)
    gap = float(sum(tokens.text[i] not in measuring for i in range(lo, hi)))
    for i in range(lo, hi + 1):
        if i < len(tokens) and tokens.brk[i]:
            if tokens.brk[i] == STOP and not _heads(tokens, number, name, i, measuring):
                return None
            gap += 2.0
    return gap if gap <= _FURTHEST else None


def _heads(tokens: Tokens, number: Number, name: Name, stop: int, measuring: frozenset[str]) -> bool:
    """Whether a name is a sentence of its own beside the number: `Height. 64.`, `64. That's the girth.`"""
    if not name.exact:
        return False
    if name.end <= number.start:
        beside = [*range(tokens.sentence(name.start).start, name.start), *range(name.end, stop)]
        return all(tokens.text[i] in measuring or tokens.text[i] in _HEADING for i in beside)
    return number.end == stop and tokens.text[stop] in ("that", "this") and name.start - stop <= _LED


def _dimensions(tokens: Tokens, number: Number, name: Name, lexicon: Lexicon) -> dict[str, int]:
    """The dimensions that words around number and name tell of: `width across the ribs 21 cm`.

    Not across a break or another number; the nearest word to the number first.
    """
    lo, hi = min(number.start, name.start), max(number.end, name.end)
    start, stop = lo, hi
    while start > max(0, lo - _BEFORE) and not tokens.brk[start] and not tokens.number[start - 1]:
        start -= 1
    while stop < min(len(tokens), hi + _BEHIND) and not tokens.brk[stop] and not tokens.number[stop]:
        stop += 1
    found: dict[str, int] = {}
    for i in sorted(range(start, stop), key=lambda i: abs(i - number.end)):
        dimension = lexicon.dimensions.get(tokens.text[i])
        if dimension and dimension not in found and not number.start <= i < number.end:
            found[dimension] = i
    return found


def _fitting(name: Name, number: Number, lexicon: Lexicon, said: frozenset[str]) -> str | None:
    """Which of the measurements of a name the number's unit, and a dimension said, allow."""
    quantity = lexicon.unit_quantity.get(number.unit or "", "")
    ids = sorted(name.ids, key=lambda i: i.rpartition("-")[2] not in said) if said else name.ids
    for measure in ids:
        words = lexicon.measures.get(measure)
        if words is None:
            continue
        if number.unit is None:
            if (
                (words.quantity in ("length", "angle", "mass") and number.value >= 1)
                or (words.quantity == "count" and number.value >= 10)
                or (words.quantity == "scale" and number.value <= _HIGHEST_SCORE)
            ):
                return measure
        elif words.quantity == quantity:
            return measure
    return None
