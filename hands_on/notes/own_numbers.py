"""Which numbers of a note are measures of this dog as it stands here, and which were put right aloud."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from hands_on.notes.clauses import Parsed
from hands_on.notes.elsewhere import another_dog
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.measure_names import Name
from hands_on.notes.numbers import Number
from hands_on.notes.tokens import Tokens

__all__ = ["of_this_dog", "put_right", "restated", "taken_back"]

_FAR: Final = 1.6
"""Nobody corrects a measure by so many times itself."""
_CLOSE: Final = 0.08
"""Takes of one measure lie no further apart."""
_LED: Final = 3
_COUNTS_AFTER: Final = frozenset({"at", "by", "is", "stands", "he", "she", "it", "measures", "weighs"})
_AT_MOST: Final = (["most"], ["least"], ["the"])


def of_this_dog(parsed: Parsed, numbers: Sequence[Number], lexicon: Lexicon) -> list[Number]:
    """The numbers without those of another dog, of another day, and of the standard.

    `his brother was 67 cm`, `at ten months he weighed 24 kilos`, `the standard allows up to 26 inches`.
    """
    others = {m.start for m in parsed.talk if any(kind == "others" for kind, _, _ in m.meanings)}
    then = {m.start for m in parsed.talk if any(kind == "then" for kind, _, _ in m.meanings)}
    return [
        n
        for n in numbers
        if not (
            another_dog(parsed.tokens, lexicon, others, n.start)
            or _once(parsed.tokens, n, then, lexicon)
            or _limit(parsed.tokens, n, lexicon)
        )
    ]


def _once(tokens: Tokens, number: Number, then: set[int], lexicon: Lexicon) -> bool:
    """Whether it was measured another day: the clause says when, and what was, nothing of today."""
    sets = lexicon.sets
    sentence = tokens.sentence(number.start, number.end)
    marks = [i for i in sentence if i in then or tokens.text[i] in sets.other_days]
    if not marks:
        return False
    told = tokens.text[min(marks[0], number.start) : max(marks[-1], number.end)]
    past = not sets.was_measured.isdisjoint(tokens.text[sentence.start : number.start])
    return past and sets.now_measured.isdisjoint(told)


def _limit(tokens: Tokens, number: Number, lexicon: Lexicon) -> bool:
    """Whether the standard says so: `the limit is 65`, `65 max`; but not `over the limit at 66`."""
    limits = lexicon.sets.limits
    start = number.start
    while start > 0 and not tokens.brk[start]:
        start -= 1
    before = tokens.text[start : number.start]
    named = [i for i, word in enumerate(before) if word in limits]
    if named:
        behind = before[named[-1] + 1 :]
        counts = [
            word
            for i, word in enumerate(behind)
            if word in _COUNTS_AFTER and not (word == "at" and behind[i + 1 : i + 2] in _AT_MOST)
        ]
        if not counts or (counts == ["is"] and behind[0] == "is"):
            return True
    after = tokens.text[number.end : number.end + 3] if number.end < len(tokens) else []
    stop = next((k for k in range(len(after)) if tokens.brk[number.end + k]), len(after))
    after = after[:stop]
    return after[:1] in (["max"], ["maximum"], ["min"], ["minimum"]) or (
        after[:1] == ["is"] and any(word in limits for word in after)
    )


def put_right(
    parsed: Parsed,
    numbers: Sequence[Number],
    done: Mapping[int, str],
    names: Sequence[Name],
    lexicon: Lexicon,
) -> dict[int, str]:
    """What each number measures, where one that has no name puts right the one before it.

    `girth 31, hold on, he breathed in, 30.5`: of the numbers that `done` gives a measurement the earlier
    yields to the later.
    """
    out = dict(done)
    last: int | None = None
    for k, number in enumerate(numbers):
        if k in done:
            last = k
            continue
        if last is None or not _same_kind(numbers[last], number):
            continue
        between = range(numbers[last].end, number.end)
        dimensions = {lexicon.dimensions.get(parsed.tokens.text[i], "") for i in between} - {""}
        if dimensions and out[last].rpartition("-")[2] not in dimensions:
            continue
        if any(name.exact and name.start in between and out[last] not in name.ids for name in names):
            continue  # `depth 29, and the width, hold on, 18`
        if _corrected(parsed, between.start, between.stop, lexicon):
            out[k] = out.pop(last)
            if number.unit is None:
                number.unit = numbers[last].unit
            last = k
    return out


def restated(tokens: Tokens, numbers: Sequence[Number], lexicon: Lexicon) -> frozenset[int]:
    """The numbers that settle takes said before them: `62.3, 62.6, mean 62.4`; they need no name."""
    out: set[int] = set()
    for k, number in enumerate(numbers):
        told = tokens.text[max(0, number.start - _LED) : number.end]
        settles = any(word in lexicon.sets.settling for word in told)
        close = any(
            _same_kind(number, one) and abs(one.value - number.value) <= _CLOSE * number.value
            for one in numbers[:k]
        )
        if settles and close:
            out.add(k)
    return frozenset(out)


def taken_back(
    parsed: Parsed, numbers: Sequence[Number], done: Mapping[int, str], lexicon: Lexicon
) -> dict[int, str]:
    """Without what is taken back: `11 for the girth, scrub that, 11 is the depth`."""
    ordered = sorted(done)
    gone = {
        one
        for one, following in pairwise(ordered)
        if done[one] != done[following]
        and numbers[one].value == numbers[following].value
        and _corrected(parsed, numbers[one].end, numbers[following].start, lexicon)
    }
    return {k: measure for k, measure in done.items() if k not in gone}


def _same_kind(one: Number, other: Number) -> bool:
    """Whether a number may be said for another: the same unit, or none, and no quite other size."""
    alike = one.unit == other.unit or None in (one.unit, other.unit)
    return alike and min(one.value, other.value) * _FAR > max(one.value, other.value)


def _corrected(parsed: Parsed, start: int, end: int, lexicon: Lexicon) -> bool:
    """Whether words between two numbers put the first right: `no`, `make it`, `I settle on`."""
    tokens = parsed.tokens
    if any(segment.corrects and start <= segment.start <= end for segment in parsed.segments):
        return True
    for i in range(start, end):
        closed = i + 1 >= end or bool(tokens.brk[i + 1])
        if tokens.text[i] in lexicon.sets.no and (closed or tokens.text[i + 1] in lexicon.sets.no):
            return True
    return any(tokens.text[i] in lexicon.sets.settling for i in range(start, end))
