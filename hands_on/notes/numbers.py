"""Numbers in a note: figures, spelt out, with fractions and units."""

from dataclasses import dataclass
from typing import Final

from hands_on.notes.lexicon import END, Lexicon
from hands_on.notes.stems import stem
from hands_on.notes.tokens import NONE, STOP, Tokens

__all__ = ["Number", "find_numbers"]

_POUNDS_A_STONE: Final = 14
_LEAST_STONES: Final = 3
_BEHIND_FEET: Final = frozenset({"exactly", "dead", "at", "tall", "high", "and", "to", "long", "for", "in"})
_ORDINAL_ENDS: Final = frozenset({"th", "st", "nd", "rd"})
_ONE_PART: Final = frozenset({"a", "an", "one"})
_MARKS: Final = {"½": 0.5, "¼": 0.25, "¾": 0.75}


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
                and all(w in lexicon.sets.correcting for w in between)
                and any(w in lexicon.sets.correcting_strong for w in between)
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
        read = _number_at(tokens, at, lexicon) or _a_foot(tokens, at)
        read = read or _one_off(tokens, at, lexicon) or _one_and(tokens, at, lexicon)
        if read is None:
            at += 1
            continue
        if (clock := _clock(tokens, read[1], read[0], lexicon)) is not None:
            at = clock
            continue
        value, end, spoken = read
        if (stones := _stones(tokens, value, end, lexicon)) is not None:
            out.append(Number(at, stones[1], stones[0], "lb", spoken))
            at = stones[1]
            continue
        unit, end = _unit_at(tokens, end, lexicon)
        if unit == "in" and tokens.text[at:end] == ["one", "in"] and end < count and not tokens.brk[end]:
            unit, end = None, end - 1  # `the one in the next crate`
        if unit == "ft":
            joined = end + 1 if tokens.text[end : end + 1] == ["and"] else end
            more = _number_at(tokens, joined, lexicon) if end < count and tokens.brk[end] != STOP else None
            if more is not None and more[0] < 12:
                second, stop = _unit_at(tokens, more[1], lexicon)
                ends = more[1] >= count or bool(tokens.brk[more[1]]) or tokens.text[more[1]] in _BEHIND_FEET
                if second in ("in", None) and (second or ends):
                    value, unit, end = value * 12 + more[0], "in", stop
        sized = end < count and tokens.text[end] in lexicon.dimensions and not tokens.brk[end]
        if unit == "ft" and _feet_tall(tokens, value, end):
            value, unit = value * 12, "in"
        if unit == "ft" and (value > 3.5 or (tokens.text[end - 1] in ("feet", "foot") and not sized)):
            unit = None
            end -= 1
        elif unit in ("in", "cm", "kg", "lb", None) and end < count and (unit or not spoken):
            value, end = _half_after(tokens, end, value, lexicon)
            if unit is None:
                unit, end = _unit_at(tokens, end, lexicon)
        if unit == "cm" and (more := _number_at(tokens, end, lexicon)) is not None and not tokens.brk[end]:
            second, stop = _unit_at(tokens, more[1], lexicon)
            if second == "mm" and more[0] < 10:
                value, end = value + more[0] / 10, stop  # `64 cm 5 mm`
        if unit == "kg" and (grams := _grams(tokens, end, lexicon)) is not None:
            value, end = value + grams[0] / 1000, grams[1]
        if (off := _off_by(tokens, value, unit, end, lexicon)) is not None:
            value, unit, end = off
        if unit == "m":
            value, unit = round(value * 100, 6), "cm"  # `0.64 m`: nothing of a dog is written in metres
        bad = end < count and tokens.brk[end] == 0 and tokens.text[end] in lexicon.not_measure_before
        if bad and any(w in lexicon.sets.measured_against for w in tokens.text[end + 1 : end + 3]):
            bad = False  # `17 cm above the ground`
        if bad and unit is not None and tokens.text[end] in _ORDINAL_ENDS:
            bad = False  # `20cm nd well laid back`
        behind = end + 1 if tokens.text[end : end + 1] == ["out"] else end
        of = bad and tokens.text[behind : behind + 1] == ["of"]
        if of and _number_at(tokens, behind + 1, lexicon) is not None:
            bad = False  # `40 of 42`, `4 out of 9`
        if of and unit is not None and tokens.text[behind + 1 : behind + 2] in (["that"], ["it"], ["which"]):
            bad = False  # `11 cm of that is muzzle`
        if of and unit is not None and _opens_name(tokens, behind + 1, lexicon):
            bad = False  # `nineteen inches of tail`
        if unit is None and end < count and tokens.text[end] == "%":
            bad = True
        if tokens.text[end : end + 2] == ["from", "the"] and unit in ("in", "cm", "mm"):
            bad = bad or tokens.text[end + 2 : end + 3] in (["tip"], ["end"])  # a place, no length
        led = at
        while led > 0 and tokens.text[led - 1] in lexicon.sets.about:
            led -= 1
        if 0 < led < at and tokens.text[led - 1] in lexicon.sets.by_so_much:
            bad = True
        if led > 0 and not tokens.brk[led] and tokens.text[led - 1] in lexicon.sets.taken_off and unit:
            bad = True  # `take off five pounds`
        out_of_place = at > 0 and not tokens.brk[at] and tokens.text[at - 1] in lexicon.sets.no_measure_after
        if out_of_place and unit is None and at > 1 and tokens.text[at - 2] in lexicon.sets.counted_whole:
            out_of_place = False  # `full mouth of 42`
        if out_of_place and tokens.text[at - 1] == "of" and tokens.text[at - 2 : at - 1] != []:
            out_of_place = tokens.text[at - 2] not in lexicon.sets.of_how_much  # `a girth of 74`
        if (
            not bad
            and not (out_of_place and unit is not None and tokens.text[at - 1] == "by")
            and not (out_of_place and unit is None)
        ):
            out.append(Number(at, end, value, unit, spoken))
        elif unit is not None:
            out.append(Number(at, end, value, unit, spoken, counts=False))
        at = max(end, at + 1)
    return out


def _opens_name(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """Whether what is measured stands at word `at`, by its name: `tail`, `the coat`."""
    at += tokens.text[at : at + 1] != [] and tokens.text[at] in lexicon.sets.articles
    return at < len(tokens) and END in lexicon.measure.get(stem(tokens.text[at]), {})


_UNDER: Final = frozenset({"under", "below", "short", "shy", "off", "less"})
_OVER: Final = frozenset({"over", "above"})
_LITTLE: Final = 3.0
"""So much, in cm or inches, and no more is told as a difference from a whole number."""


def _off_by(
    tokens: Tokens, value: float, unit: str | None, end: int, lexicon: Lexicon
) -> tuple[float, str | None, int] | None:
    """`half an inch under 25`, `a centimetre over 60`: value, unit, and the word behind the number."""
    if unit not in ("in", "cm") or value > _LITTLE or end >= len(tokens) or tokens.brk[end]:
        return None
    way = -1 if tokens.text[end] in _UNDER else 1 if tokens.text[end] in _OVER else 0
    at = end + (2 if tokens.text[end + 1 : end + 2] in (["of"], ["than"]) else 1)
    whole = _number_at(tokens, at, lexicon) if way and at < len(tokens) and not tokens.brk[at] else None
    if whole is None or whole[0] < 4 * _LITTLE:
        return None
    second, stop = _unit_at(tokens, whole[1], lexicon)
    return (whole[0] + way * value, unit, stop) if second in (unit, None) else None


def _stones(tokens: Tokens, value: float, end: int, lexicon: Lexicon) -> tuple[float, int] | None:
    """`five stone two`, `4 stone`: pounds, and the word behind them; `two stones` are testicles."""
    if tokens.text[end : end + 1] != ["stone"] or tokens.brk[end]:
        return None
    joined = end + 2 if tokens.text[end + 1 : end + 2] == ["and"] else end + 1
    more = _number_at(tokens, joined, lexicon) if end + 1 < len(tokens) and not tokens.brk[end + 1] else None
    if more is None or more[0] >= _POUNDS_A_STONE:
        return (value * _POUNDS_A_STONE, end + 1) if value >= _LEAST_STONES else None
    unit, stop = _unit_at(tokens, more[1], lexicon)
    return (value * _POUNDS_A_STONE + more[0], stop) if unit in ("lb", None) else None


def _grams(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[float, int] | None:
    """The `400` of `31 kilos 400`, of `thirty-one kilos four hundred grams`, and the word behind it."""
    if at >= len(tokens) or tokens.brk[at]:
        return None
    at += tokens.text[at] == "and"
    read = _number_at(tokens, at, lexicon)
    if read is None or not 100 <= read[0] < 1000 or (tokens.number[at] and len(tokens.text[at]) != 3):
        return None
    unit, end = _unit_at(tokens, read[1], lexicon)
    return (read[0], end) if unit in (None, "g") else None


def _feet_tall(tokens: Tokens, value: float, end: int) -> bool:
    """`two foot exactly`, `two foot and half an inch`, `two feet high`; not `one foot turned out`."""
    if value < 2 or tokens.text[end - 1] not in ("foot", "feet"):
        return False
    if tokens.text[end - 1] == "feet":
        return tokens.text[end : end + 1] in (["to"], ["at"], ["tall"], ["high"])
    return end >= len(tokens) or bool(tokens.brk[end]) or tokens.text[end] in _BEHIND_FEET


def _a_foot(tokens: Tokens, at: int) -> tuple[float, int, bool] | None:
    """`a foot and two inches`, `about a foot long`."""
    return (1.0, at + 1, True) if tokens.text[at : at + 2] == ["a", "foot"] else None


def _one_and(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[float, int, bool] | None:
    """The `an` of `an inch and three quarters`."""
    if tokens.text[at] not in _ONE_PART or at + 2 >= len(tokens) or any(tokens.brk[at + 1 : at + 3]):
        return None
    unit = lexicon.units.get(tokens.text[at + 1])
    more = unit in ("cm", "in") and tokens.text[at + 2] == "and" and _fraction(tokens, at + 3, lexicon)
    return (1.0, at + 1, True) if more else None


def _one_off(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[float, int, bool] | None:
    """The `a` of `a centimetre over 60`."""
    if tokens.text[at] not in ("a", "an") or at + 2 >= len(tokens):
        return None
    unit = lexicon.units.get(tokens.text[at + 1])
    off = unit in ("cm", "in") and _off_by(tokens, 1.0, unit, at + 2, lexicon) is not None
    return (1.0, at + 1, True) if off else None


def _clock(tokens: Tokens, end: int, value: float, lexicon: Lexicon) -> int | None:
    """The word behind `ten to two`: how feet stand, by the hands of a clock, and no measure."""
    if value > 12 or tokens.text[end : end + 1] != ["to"] or tokens.brk[end]:
        return None
    hour = _number_at(tokens, end + 1, lexicon)
    if hour is None or hour[0] > 12 or _unit_at(tokens, hour[1], lexicon)[0] is not None:
        return None
    return hour[1]


def _half_after(tokens: Tokens, end: int, value: float, lexicon: Lexicon) -> tuple[float, int]:
    """`25 inches and a half`, `24 & three quarters`, `ten inches and one eighth`."""
    joined = tokens.text[end : end + 1] in (["and"], ["&"]) and not tokens.brk[end]
    part = _fraction(tokens, end + 1, lexicon) if joined else None
    return (value + part[0], part[1]) if part else (value, end)


def _fraction(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[float, int] | None:
    """The `three quarters` or `a half` from word `at`, and the word behind it."""
    for length in (2, 1):
        words = tokens.text[at : at + length]
        if len(words) == length and not any(tokens.brk[at + 1 : at + length]):
            name = " ".join(words if words[0] not in _ONE_PART else words[1:])
            if name in lexicon.fractions:
                return lexicon.fractions[name], at + length
    return None


def _number_at(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[float, int, bool] | None:
    """A number from word `at`: value, the word after it, whether it was spelt out."""
    if at >= len(tokens):
        return None
    text = tokens.text[at]
    if tokens.number[at]:
        value = _figure(text)
        end = at + 1
        if tokens.text[end : end + 1] in (["and"], ["&"]) and tokens.number[end + 1 : end + 2] == [True]:
            part = tokens.text[end + 1]
            if "/" in part and 0 < _figure(part) < 1 and not tokens.brk[end]:
                return value + _figure(part), end + 2, False  # `24 and 1/2`
        if end < len(tokens) and tokens.text[end] in _MARKS and tokens.brk[end] == 0:
            return value + _MARKS[tokens.text[end]], end + 1, False
        if tokens.text[end : end + 1] == ["point"]:
            if tokens.number[end + 1 : end + 2] == [True] and tokens.text[end + 1].isdigit():
                return float(f"{value:.0f}.{tokens.text[end + 1][:9]}"), end + 2, False
            digits, stop = _digits(tokens, end + 1, lexicon)
            if digits:
                return value + float("0." + digits), stop, False
        joined = end + 1 if tokens.text[end : end + 1] == ["and"] else end
        more = _fraction(tokens, joined, lexicon) if joined < len(tokens) and not tokens.brk[end] else None
        if more is not None and (joined > end or more[1] == end + 1):
            return value + more[0], more[1], False
        return value, end, False
    if text in _MARKS:
        return _MARKS[text], at + 1, False
    if text in lexicon.fractions:
        behind = at + 2 if tokens.text[at + 1 : at + 2] == ["of"] else at + 1
        behind += tokens.text[behind : behind + 1] in (["a"], ["an"])
        if _unit_at(tokens, behind, lexicon)[0] in ("in", "cm", "mm"):
            return lexicon.fractions[text], behind, True  # `a quarter inch`, `an eighth of an inch`
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
    spelt, stop = _digits(tokens, at, lexicon)
    if len(spelt) == 2 and tokens.text[stop : stop + 1] == ["point"]:  # `six four point five`
        total, end = float(spelt), stop
    if (
        total in (1.0, 2.0)
        and tokens.text[end : end + 1]
        and lexicon.number_words.get(tokens.text[end], 0) >= 10
    ):
        rest = _number_at(tokens, end, lexicon) if not tokens.brk[end] else None
        if rest is not None and rest[0] < 100 and _unit_at(tokens, rest[1], lexicon)[0] == "deg":
            return total * 100 + rest[0], rest[1], True  # `one twenty five degrees`
    if tokens.text[end : end + 1] == ["point"]:
        digits, stop = _digits(tokens, end + 1, lexicon)
        if digits:
            return total + float("0." + digits), stop, True
    if 20 < total < 100 and total % 10:
        digits, stop = _digits(tokens, end, lexicon)
        closed = stop >= len(tokens) or tokens.brk[stop] != NONE
        closed = closed or tokens.text[stop] in lexicon.filler or tokens.text[stop] in lexicon.drop
        if len(digits) == 1 and not tokens.brk[end] and closed:
            return total + int(digits) / 10, stop, True  # `sixty-four five`
    if tokens.text[end : end + 1] == ["and"] and not tokens.brk[end]:
        more = _fraction(tokens, end + 1, lexicon)
        if more is not None:
            return total + more[0], more[1], True
    return total, end, True


def _digits(tokens: Tokens, at: int, lexicon: Lexicon) -> tuple[str, int]:
    """Digits said one by one from word `at`, and the word after them."""
    said = ""
    while (
        at < len(tokens)
        and lexicon.number_words.get(tokens.text[at], 10) < 10
        and not (said and tokens.brk[at])
    ):
        said += str(int(lexicon.number_words[tokens.text[at]]))
        at += 1
    return said, at


def _figure(text: str) -> float:
    tail = 0.0
    if text[-1] in _MARKS:
        tail = _MARKS[text[-1]]
        text = text[:-1]
    if "/" in text:
        whole, _, part = text.replace("-", " ").rpartition(" ")
        top, bottom = part.split("/")
        return (float(whole) if whole else 0.0) + (float(top) / float(bottom) if float(bottom) else 0.0)
    return float(text.replace(",", ".").replace("·", ".")[:40]) + tail


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
        and tokens.text[at + 1] in lexicon.sets.no_unit_before
    ):
        return None, at
    return (unit, at + 1) if unit else (None, at)
