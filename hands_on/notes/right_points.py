"""Points said to be right: what is found of one, and which stand beside the faults of the note."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from hands_on.notes.lexicon import Lexicon

__all__ = ["FoundAffirmed", "Said", "Words", "implied", "without_departed"]

_COUNTED: Final = 0.97

Words = tuple[int, ...]


@dataclass(slots=True)
class Said:
    """A point that a stretch may call right.

    `way`: by a phrase, by a state beside its part, carried from a part before or from the screen, by praise
    of a part, as the edition asks (`asked`, `may-be`), or an option `seen`.
    """

    point: str
    words: Words
    way: str
    cost: float
    """Of the slips in its words."""
    state: frozenset[int]
    """The words that say it is right, without the part they speak of."""
    option: str | None = None


@dataclass(frozen=True, slots=True)
class FoundAffirmed:
    """A point said to be right. `option` is the answer of a choice; confidence and accepted as of a fault."""

    point: str
    option: str | None
    span: tuple[int, int]
    confidence: float
    accepted: bool


def implied(
    ruled_out: Mapping[str, FoundAffirmed],
    measured: Mapping[str, tuple[float, tuple[int, int]]],
    lexicon: Lexicon,
) -> list[FoundAffirmed]:
    """Points that are right by what was ruled out or counted: `no teeth missing`, `42 teeth`.

    `ruled_out` has each fault that is absent, as an affirmation would have its words; `measured` each value.
    """
    out: list[FoundAffirmed] = []
    for point, words in lexicon.affirms.items():
        if lexicon.points and point not in lexicon.points:
            continue
        out += [replace(ruled_out[fault], point=point) for fault in words.ruled_out if fault in ruled_out]
        out += [
            FoundAffirmed(point, words.option, measured[name][1], _COUNTED, True)
            for name, value in words.counts.items()
            if name in measured and measured[name][0] == value
        ]
    return out


def without_departed(
    affirmed: list[FoundAffirmed],
    departed: set[str],
    ruled_out: Mapping[str, tuple[int, int]],
    lexicon: Lexicon,
) -> tuple[FoundAffirmed, ...]:
    """Those at points where the note finds no departure; `departed` are the faults present or in doubt.

    Words that rule a fault out, with their stretch of the text, affirm nothing besides: `no dewlap`.
    """
    best: dict[str, FoundAffirmed] = {}
    for found in affirmed:
        known, words = lexicon.points.get(found.point), lexicon.affirms.get(found.point)
        forbid = {*(known.departures if known else ()), *(words.against if words else ())}
        if forbid & departed - _own_answer(found, lexicon):
            continue
        if any(
            fault in forbid and start < found.span[1] and found.span[0] < end
            for fault, (start, end) in ruled_out.items()
        ):
            continue
        if found.point not in best or found.confidence > best[found.point].confidence:
            best[found.point] = found
    return tuple(sorted(best.values(), key=lambda f: f.span))


def _own_answer(found: FoundAffirmed, lexicon: Lexicon) -> set[str]:
    """`tail natural` is an answer with a name of its own in the vocabulary, and no departure from itself."""
    known = lexicon.points.get(found.point)
    if found.option is None or known is None:
        return set()
    region = found.point.split(".", 1)[0]
    return {f for f in known.departures if f == f"{region}.{found.option}"}
