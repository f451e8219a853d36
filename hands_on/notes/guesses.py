"""Findings that no wording names: where a clause is left without one, the fault it is most like."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from heapq import nlargest
from typing import Final

from hands_on.notes.candidates import Candidate
from hands_on.notes.clauses import Item, Parsed
from hands_on.notes.context import Context, Leaning
from hands_on.notes.likeness import NEITHER, NOTHING, RIGHT
from hands_on.notes.matching import Match
from hands_on.notes.no_fault import is_of_others
from hands_on.notes.slips import Edge
from hands_on.notes.stems import stem

__all__ = ["Opinion", "Rightly", "guess", "heard_as", "says_all"]

_MARGIN: Final = 0.4
"""How much likelier than the next a guess must be (natural logarithm)."""
_DOUBTED: Final = 1.0
"""A finding that trails by so much does not keep its clause from being guessed at."""
_HEARD: Final = 0.45
"""The dearest slip that is still put right before words are compared."""
_LEAST_WORDS: Final = 2
_EXACT: Final = 0.1
_OF_TALK: Final = frozenset({"degree", "side", "unsure_before", "unsure_after", "people", "correct"})


Ranked = list[tuple[str, float]]
"""Faults with their log-likelihoods, likeliest first."""


@dataclass(frozen=True, slots=True)
class Rightly:
    """By how much words are likelier to call a point right than anything else (natural logarithm)."""

    over_fault: float
    over_point: float
    over_nothing: float


class Opinion:
    """What the words of a stretch are most like, clause by clause."""

    def __init__(self, context: Context, heard: Mapping[int, tuple[str, ...]]) -> None:
        self._context = context
        self._parsed = context.parsed
        self._known: dict[tuple[int, ...], dict[str, float]] = {}
        self._every: dict[tuple[int, ...], dict[str, float]] = {}
        self._heard = heard

    def scores(self, words: Sequence[int]) -> dict[str, float]:
        """The log-likelihood of each fault, and of NOTHING, for these words."""
        key = tuple(words)
        if key not in self._known:
            lexicon = self._context.lexicon
            every = lexicon.likeness.scores(self.stems(key), self._context.region)
            self._every[key] = every
            self._known[key] = {f: score for f, score in every.items() if not f.startswith(RIGHT)}
        return self._known[key]

    def of_right(self, point: str, words: Sequence[int]) -> Rightly | None:
        """How much the words are like the point called right; None where none was ever heard called so."""
        faults, every = self.scores(words), self._every[tuple(words)]
        mine = RIGHT + point
        if mine not in every:
            return None
        own = every[mine]
        fault = max((s for f, s in faults.items() if f != NOTHING), default=own)
        points = (s for f, s in every.items() if f.startswith(RIGHT) and f not in (mine, NEITHER))
        return Rightly(own - fault, own - max(points, default=own), own - every.get(NEITHER, own))

    def rank(self, words: Sequence[int]) -> Ranked:
        """The three likeliest; empty when no word was met before."""
        scores = self.scores(words)
        return nlargest(3, scores.items(), key=lambda item: item[1])

    def stems(self, words: Sequence[int]) -> list[str]:
        """The stems of the words, slips put right."""
        return [s for i in words for s in self._heard.get(i, ())]

    def of_findings(self, candidates: Sequence[Candidate]) -> dict[int, Leaning]:
        """How each finding's clause leans, by identity of the candidate, the words of others left out."""
        uses: dict[int, Counter[int]] = {}
        named: dict[int, dict[frozenset[int], set[str]]] = {}
        for c in candidates:
            words = frozenset(c.words)
            for number in {c.segment, *self._segments_of(c)}:
                uses.setdefault(number, Counter()).update(words)
                named.setdefault(number, {}).setdefault(words, set()).add(c.faults[0])
        return {id(c): self._leaning(c, uses[c.segment], named[c.segment]) for c in candidates}

    def _segments_of(self, candidate: Candidate) -> set[int]:
        """The clauses whose words a finding uses."""
        part = candidate.part
        return (
            {self._context.owner[id(part)]} if part is not None and id(part) in self._context.owner else set()
        )

    def _leaning(
        self, candidate: Candidate, uses: Counter[int], named: Mapping[frozenset[int], set[str]]
    ) -> Leaning:
        """`uses` counts the findings that use each word of the clause, `named` what the same words mean."""
        segment = self._parsed.segments[candidate.segment]
        own = frozenset(candidate.words)
        free = {i for i in range(segment.start, segment.end) if not uses[i]}
        scores = self.scores(sorted(free | own | set(candidate.about)))
        fault = candidate.faults[0]
        if fault not in scores:
            return Leaning()
        same = named[own]
        lead = scores[fault] - max((s for f, s in scores.items() if f not in same), default=scores[fault])
        return Leaning(max(lead, 0.0), max(-lead, 0.0), scores[fault] - scores.get(NOTHING, scores[fault]))


def guess(context: Context, candidates: list[Candidate], opinion: Opinion) -> list[Candidate]:
    """A finding for each clause without one that is clearly more like one fault than any other.

    A sentence in which nothing was found is looked at as a whole where no clause of it says enough.
    """
    segments = context.parsed.segments
    busy: set[int] = set()
    said = {c.segment for c in candidates}
    leaning = opinion.of_findings(candidates)
    for c in candidates:
        if says_all(context, c) or leaning[id(c)].behind < _DOUBTED:
            busy.add(c.segment)
            if c.part is not None and id(c.part) in context.owner:
                busy.add(context.owner[id(c.part)])
            busy.update(context.clause_of(i) for i in c.about)
    known = {c.faults[0] for c in candidates}
    told = _Told(context)
    out: list[Candidate] = []
    done: set[int] = set()
    for number in range(len(segments)):
        if number in done:
            continue
        sentence = list(context.sentence(number))
        done.update(sentence)
        free = [n for n in sentence if n not in busy and not (n in said and _denies(context, n))]
        beside = len(free) < len(sentence)
        found = [g for n in free if (g := _of(context, [n], told, opinion, beside)) is not None]
        if not found and free == sentence and len(sentence) > 1:
            whole = _of(context, sentence, told, opinion, False)
            found = [whole] if whole is not None else []
        for g in found:
            if g.faults[0] not in known and not _said_plainly(g, candidates):
                known.add(g.faults[0])
                out.append(g)
    return out


def _said_plainly(guessed: Candidate, candidates: list[Candidate]) -> bool:
    """Whether part and quality say something of these words already: `upper jaw protrudes`."""
    return any(
        c.origin in ("phrase", "pair")
        and c.cost < _EXACT
        and len(c.words) > _LEAST_WORDS
        and set(c.words) <= set(guessed.words)
        for c in candidates
        if c.segment == guessed.segment
    )


class _Told:
    """The words of a stretch that are talk: ruling out, degrees and sides, places, praise."""

    def __init__(self, context: Context) -> None:
        text = context.parsed.tokens.text
        self.ruled: set[int] = set()
        self.talk: set[int] = set()
        self.praise: set[int] = set()
        for t in context.parsed.talk:
            words = range(t.start, t.end)
            if _rules_out(t, text):
                self.ruled.update(words)
            if any(k in _OF_TALK for k, _, _ in t.meanings):
                self.talk.update(words)
            paired = context.lexicon.sets.paired
            if any(k == "side?" for k, _, _ in t.meanings) and not paired.isdisjoint(text[t.end : t.end + 1]):
                self.talk.update(words)  # the `off` of `off stifle`
            if any(k in ("praise", "verdict") and c < 0.1 for k, _, c in t.meanings):
                self.praise.update(words)
        self.talk |= self.ruled
        self.places = {i for t in context.parsed.places for i in range(t.start, t.end)}


def says_all(context: Context, candidate: Candidate) -> bool:
    """Whether a finding's own words, three or more and no slips, are all that its clause says."""
    if candidate.origin not in ("phrase", "pair") or len(candidate.words) < 3 or candidate.cost >= 0.1:
        return False
    text, drop = context.parsed.tokens.text, context.lexicon.drop
    return all(
        i in candidate.words or context.talk_words[i] or text[i] in drop
        for i in _words(context.parsed, candidate.segment)
    )


def _of(
    context: Context, numbers: list[int], told: _Told, opinion: Opinion, beside: bool
) -> Candidate | None:
    """A guess at the segments; `beside` a finding they must tell more than a place or side."""
    parsed, lexicon = context.parsed, context.lexicon
    text = parsed.tokens.text
    span = [i for n in numbers for i in range(parsed.segments[n].start, parsed.segments[n].end)]
    parts = [item for n in numbers for item in parsed.segments[n].items if item.parts]
    if any(i in context.measured for i in span) or any(is_of_others(parsed, part, lexicon) for part in parts):
        return None
    words = [i for i in span if i not in told.talk]
    ranked = opinion.rank(words)
    if not _clear(ranked) and words != span:
        # a word of talk may be what it is about: `the stop is not marked`
        words = [i for i in span if i not in told.ruled]
        ranked = opinion.rank(words)
    if not _clear(ranked):
        return None
    fault = ranked[0][0]
    plain = [i for i in words if text[i] not in lexicon.sets.denying]
    if len(plain) < len(words):
        without = opinion.rank(plain)
        same = _clear(without) and without[0][0] == fault
        if same and (_lead(without) >= _lead(ranked) or _denies_quality(context, numbers)):
            words = plain  # it is this fault with and without `not`: the `not` rules it out
    known = [
        i
        for i in words
        if text[i] not in lexicon.drop and any(s in lexicon.likeness.rarity for s in opinion.stems([i]))
    ]
    if len(plain) == len(words) and any(i in told.praise for i in known):
        return None  # `a very typical head`
    telling = [
        i for i in known if i not in told.places and i not in told.talk and text[i] not in lexicon.filler
    ]
    if len(known) < _LEAST_WORDS or len(telling) < (_LEAST_WORDS if beside else 1):
        return None
    home = max(numbers, key=lambda n: sum(i in known for i in _words(parsed, n)))
    denied = max((i for i in span if i not in words and i not in told.talk), default=-1)
    start = min((i for i in known if i > denied), default=min(known))
    end = min((i for i in told.ruled if start < i <= span[-1]), default=max(known) + 1)
    anchor = Item(start, min(end, max(known) + 1), tuple(known))
    return Candidate((fault,), home, anchor, tuple(known), "like", 0.0)


def _rules_out(talk: Match, text: list[str]) -> bool:
    """`ruled out`, `no longer seen`; but not a mere `is not`, which may be part of what is meant."""
    kinds = {kind for kind, _, _ in talk.meanings}
    said = bool(kinds & {"absent_before", "absent_after"})
    return said and len(talk.used) > 1 and text[talk.end - 1] != "not"


def _denies(context: Context, number: int) -> bool:
    text, denying = context.parsed.tokens.text, context.lexicon.sets.denying
    return any(text[i] in denying for i in _words(context.parsed, number))


def _denies_quality(context: Context, numbers: list[int]) -> bool:
    """`cheeks not prominent`: a quality is denied, in so many words."""
    denying = context.lexicon.sets.denying
    text = context.parsed.tokens.text
    return any(
        item.qualities and not denying.isdisjoint(text[max(0, item.start - 1) : item.start + 1])
        for n in numbers
        for item in context.parsed.segments[n].items
    )


def _clear(ranked: Ranked) -> bool:
    return len(ranked) > 1 and ranked[0][0] != NOTHING and _lead(ranked) >= _MARGIN


def _lead(ranked: Ranked) -> float:
    return ranked[0][1] - ranked[1][1]


def _words(parsed: Parsed, number: int) -> range:
    return range(parsed.segments[number].start, parsed.segments[number].end)


def heard_as(parsed: Parsed, drop: frozenset[str]) -> dict[int, tuple[str, ...]]:
    """The stems each word is heard as: its own, or those of the likeliest slip; small words have none."""
    tokens = parsed.tokens
    out: dict[int, tuple[str, ...]] = {}
    at = 0
    while at < len(tokens):
        if tokens.number[at] or tokens.text[at] in drop:
            at += 1
            continue
        choice: Edge = (1, (stem(tokens.text[at]),), _HEARD)
        for edge in parsed.steps[at]:
            if edge[2] < choice[2]:
                choice = edge
        out[at] = choice[1]
        at += choice[0]
    return out
