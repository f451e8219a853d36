"""How a note came to be read as it is, step by step: for whoever mends the wording."""

from collections.abc import Iterable
from dataclasses import dataclass

from hands_on.notes.clauses import parse
from hands_on.notes.confidence import features, probability
from hands_on.notes.context import Context
from hands_on.notes.guesses import Opinion, heard_as
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.meant import as_meant
from hands_on.notes.measures import unit_words
from hands_on.notes.numbers import find_numbers
from hands_on.notes.reading import Reading, findings_of, read_note
from hands_on.notes.stems import stem
from hands_on.notes.stretches import screens, stretches

__all__ = ["Steps", "explain"]

_SAYS: float = 0.05
"""Evidence of less weight is left out."""


@dataclass(frozen=True, slots=True)
class Clause:
    """One clause: what joins it to the one before, its words, and what was recognised in it."""

    join: str
    words: str
    parts: tuple[str, ...]
    qualities: tuple[str, ...]
    named: tuple[str, ...]
    """Faults named outright."""
    talk: tuple[str, ...]
    """Degrees, sides, denials, doubts, praise: `degree slight`."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A finding of one stretch, with how it was come by and what speaks for and against it."""

    fault: str
    words: str
    origin: str
    status: str
    degree: str | None
    side: str | None
    confidence: float
    evidence: tuple[tuple[str, float], ...]
    """Name and weight (log-odds), the heaviest first."""


@dataclass(frozen=True, slots=True)
class Steps:
    """A note's words, its clauses, the findings weighed in them, and what is left of those in the end."""

    heard: tuple[tuple[str, str], ...]
    """Words that were taken for others, slips put right: as typed, and the stems they were heard as."""
    clauses: tuple[Clause, ...]
    weighed: tuple[Weighed, ...]
    """Also those too unlikely to be offered."""
    floor: float
    """Below this confidence nothing is offered."""
    accept: float
    """From this confidence on a finding is taken without asking."""
    reading: Reading


def explain(text: str, lexicon: Lexicon, region: str | None = None) -> Steps:
    """The steps by which `read_note` reads a text with `region` on the screen."""
    tokens = lexicon.tokens(text, region)
    if not len(tokens):
        return Steps((), (), (), 0.0, 0.0, Reading(text))
    as_meant(tokens, lexicon)
    parsed = parse(tokens, lexicon, unit_words(find_numbers(tokens, lexicon)))
    heard = heard_as(parsed, lexicon.drop)
    clauses: list[Clause] = []
    weighed: list[Weighed] = []
    apart = stretches(parsed, lexicon)
    for stretch, screen in zip(apart, screens(apart, lexicon, region), strict=True):
        context = Context(stretch, lexicon, screen)
        found = findings_of(context, Opinion(context, heard))
        for segment in stretch.segments:
            items = segment.items
            clauses.append(
                Clause(
                    segment.sep,
                    " ".join(tokens.text[segment.start : segment.end]),
                    _names(name for i in items for name, _ in (*i.parts, *i.inner_parts)),
                    _names(name for i in items for name, _ in (*i.qualities, *i.inner_qualities)),
                    _names(name.rstrip("!~") for i in items for name, _ in (*i.faults, *i.late_faults)),
                    _names(f"{t.kind} {t.value}" for t in segment.talk),
                )
            )
        for j in found:
            weights = {
                name: lexicon.confidence.get(name, 0.0) * value
                for name, value in features(context, j).items()
            }
            said = sorted(weights.items(), key=lambda pair: -abs(pair[1]))
            weighed.append(
                Weighed(
                    j.candidate.faults[0],
                    " ".join(tokens.text[i] for i in sorted(set(j.words))),
                    j.candidate.origin,
                    j.status,
                    j.degree,
                    j.side,
                    probability(context, j),
                    tuple((name, weight) for name, weight in said if abs(weight) >= _SAYS),
                )
            )
    slips = tuple(
        (tokens.text[i], " ".join(stems))
        for i, stems in sorted(heard.items())
        if stems != (stem(tokens.text[i]),)
    )
    levels = lexicon.confidence
    reading = read_note(text, lexicon, region=region)
    return Steps(
        slips, tuple(clauses), tuple(weighed), levels.get("floor", 0.0), levels.get("accept", 0.9), reading
    )


def _names(found: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(found))
