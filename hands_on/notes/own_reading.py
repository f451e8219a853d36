"""A reading held against the evaluator's own words.

A phrase is known again by its words in their order; articles, degrees and sides do not count. Said alone in
its clause it is taken as it was meant before. Where a clear phrase was read instead, or more is said beside,
it is offered and never taken unasked, and the clear reading is asked about too: neither goes in silence.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from hands_on.notes.clauses import STATUS_KINDS, Parsed, parse
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.measures import unit_words
from hands_on.notes.numbers import find_numbers
from hands_on.notes.own_words import OwnWords
from hands_on.notes.reading import FoundFault, Reading
from hands_on.notes.right_points import without_departed
from hands_on.notes.stems import stem
from hands_on.notes.tokens import Tokens

__all__ = ["Vocabulary", "vocabulary"]

_SURE = 0.97
"""Of words known again to the letter (judgement)."""
_OFFERED = 0.8
_ASKED = {
    "absent_before": "absent",
    "absent_after": "absent",
    "unsure_before": "unsure",
    "unsure_after": "unsure",
}


@dataclass(frozen=True, slots=True)
class _Run:
    """A phrase met in a note: its piece of the text, and what its clauses say beside it."""

    span: tuple[int, int]
    piece: tuple[int, int]
    """Its clauses in the text."""
    alone: bool
    """They say nothing else."""
    status: str
    """Present, absent, unsure; empty where it can't be told."""
    degree: str | None
    side: str | None


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The evaluator's own words made ready for a lexicon; made by `vocabulary`."""

    lexicon: Lexicon
    stems: Mapping[str, tuple[str, ...]]
    """Of each phrase as said, the words that count."""
    phrases: Mapping[str, tuple[tuple[tuple[str, ...], OwnWords], ...]]
    """By the first stem, the longest first."""

    def hold_against(self, reading: Reading, region: str | None = None) -> Reading:
        """The reading as this evaluator means it, with `region` on the screen."""
        if not self.phrases:
            return reading
        tokens = self.lexicon.tokens(reading.note)
        stems = {stem(word) for word in tokens.text}
        near = [
            (phrase, own)
            for start in stems & self.phrases.keys()
            for phrase, own in self.phrases[start]
            if stems.issuperset(phrase) and (not own.region or not region or own.region == region)
        ]
        if not near:
            return reading
        note = _Note(tokens, self.lexicon)
        done: set[int] = set()
        for phrase, own in sorted(near, key=lambda pair: -len(pair[0])):
            for words in note.runs(phrase):
                if done.isdisjoint(words):
                    done.update(words)
                    reading = _meant(reading, note.run(words), own, self.lexicon)
        return reading


def vocabulary(words: Iterable[OwnWords], lexicon: Lexicon, before: Vocabulary | None = None) -> Vocabulary:
    """Make the evaluator's own words ready for reading with this lexicon; unknown faults are passed over.

    What is ready in the list `before`, of the same lexicon, is not looked at again.
    """
    known = before.stems if before is not None and before.lexicon is lexicon else {}
    ready: dict[str, tuple[str, ...]] = {}
    phrases: dict[str, list[tuple[tuple[str, ...], OwnWords]]] = {}
    for own in words:
        if own.means and own.means not in lexicon.regions:
            continue
        stems = ready[own.said] = known.get(own.said) or _stems(own.said, lexicon)
        if stems:
            phrases.setdefault(stems[0], []).append((stems, own))
    return Vocabulary(
        lexicon,
        ready,
        {first: tuple(sorted(rows, key=lambda row: -len(row[0]))) for first, rows in phrases.items()},
    )


def _stems(said: str, lexicon: Lexicon) -> tuple[str, ...]:
    tokens = lexicon.tokens(said)
    return tuple(s for _, s in _Note(tokens, lexicon).content) or tuple(map(stem, tokens.text))


class _Note:
    """A note with the words that count, degrees and sides apart."""

    def __init__(self, tokens: Tokens, lexicon: Lexicon) -> None:
        self.tokens = tokens
        self.parsed: Parsed = parse(tokens, lexicon, unit_words(find_numbers(tokens, lexicon)))
        aside = {
            i
            for match in self.parsed.talk
            if any(kind in ("degree", "side") for kind, _, _ in match.meanings)
            for i in range(match.start, match.end)
        }
        small = lexicon.drop | lexicon.filler
        self.denying = lexicon.sets.denying
        self.content = [
            (i, stem(word)) for i, word in enumerate(tokens.text) if i not in aside and word not in small
        ]

    def runs(self, phrase: Sequence[str]) -> Iterator[tuple[int, ...]]:
        """Every place where the phrase is said, as the numbers of its words."""
        stems = [s for _, s in self.content]
        for at in range(len(stems) - len(phrase) + 1):
            if stems[at : at + len(phrase)] == list(phrase):
                yield tuple(i for i, _ in self.content[at : at + len(phrase)])

    def run(self, words: tuple[int, ...]) -> _Run:
        """What stands around a place where a phrase is said."""
        around = [s for s in self.parsed.segments if s.lead <= words[-1] and words[0] < s.end]
        inside = {i for s in around for i in range(s.lead, s.end)} | set(words)
        said: dict[str, str] = {}
        told: set[int] = set()
        for match in self.parsed.talk:
            spoken = set(range(match.start, match.end))
            if spoken <= inside and spoken.isdisjoint(words):
                for kind, value, _ in match.meanings:
                    said.setdefault(kind, value if isinstance(value, str) else "")
                    told |= spoken if kind in _ASKED else set()
        denied = {i for i in inside - set(words) if self.tokens.text[i] in self.denying}
        status = next((_ASKED.get(kind, "") for kind in said if kind in STATUS_KINDS), "present")
        if denied and status == "present":
            status = "absent"
        counted = {i for i, _ in self.content}
        piece = sorted(i for i in inside if i < len(self.tokens))
        return _Run(
            (self.tokens.start[words[0]], self.tokens.end[words[-1]]),
            (self.tokens.start[piece[0]], self.tokens.end[piece[-1]]),
            not (counted & inside) - set(words) - told - denied,
            status,
            said.get("degree"),
            said.get("side"),
        )


def _meant(reading: Reading, run: _Run, own: OwnWords, lexicon: Lexicon) -> Reading:
    here = [f for f in reading.faults if f.span[0] < run.span[1] and run.span[0] < f.span[1]]
    if not own.means:
        return replace(reading, faults=tuple(_dropped(reading.faults, here, run, own)))
    same = next((f for f in here if f.id == own.means), None)
    others = [f for f in here if f.id != own.means]
    clear = [f for f in others if f.accepted]
    vague = [f for f in others if not f.accepted]
    sure = run.alone and bool(run.status) and not clear
    status = run.status or "unsure"
    if same is not None:
        status = same.status
    meant = FoundFault(
        id=own.means,
        degree=same.degree if same is not None else run.degree,
        side=same.side if same is not None else run.side,
        status=status,
        confidence=max(same.confidence if same is not None else 0.0, _SURE if sure else _OFFERED),
        span=same.span if same is not None else run.span,
        accepted=sure or (same is not None and same.accepted),
        alternatives=tuple(f.id for f in vague),
        own=True,
    )
    kept: list[FoundFault] = []
    for f in reading.faults:
        if f.id == own.means or f in vague:
            continue
        kept.append(replace(f, accepted=False) if f in clear and f.id == own.read_as else f)
    faults = tuple(sorted([*kept, meant], key=lambda f: f.span))
    read = run.piece if run.alone else run.span
    departed = {meant.id} if meant.status != "absent" else set()
    return replace(
        reading,
        faults=faults,
        affirmed=without_departed(
            list(reading.affirmed),
            departed,
            {f.id: f.span for f in faults if f.status == "absent"},
            lexicon,
        ),
        unread=tuple(u for u in reading.unread if u[1] <= read[0] or read[1] <= u[0]),
    )


def _dropped(
    faults: Iterable[FoundFault], here: Sequence[FoundFault], run: _Run, own: OwnWords
) -> Iterator[FoundFault]:
    """The findings without what these words were wrongly read as; a clear one is asked about instead."""
    for f in faults:
        if f in here and f.id == own.read_as:
            if f.accepted:
                yield replace(f, accepted=False, own=True)
            elif not run.alone:
                yield f
        else:
            yield f
