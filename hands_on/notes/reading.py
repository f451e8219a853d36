"""Reading a note: from free text to defined faults, measurements, and what was not understood."""

from bisect import bisect_left
from dataclasses import dataclass, replace
from typing import Any, Final

from hands_on.notes.affirmed import Affirmations, affirm, affirming_matches
from hands_on.notes.binding import bind
from hands_on.notes.clauses import Parsed, parse
from hands_on.notes.confidence import accepted, probability
from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.guesses import Opinion, guess, heard_as
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import Match
from hands_on.notes.meant import as_meant
from hands_on.notes.measures import (
    FoundMeasure,
    read_measures,
    spans,
    unit_words,
    within_measure,
)
from hands_on.notes.numbers import find_numbers
from hands_on.notes.right_points import FoundAffirmed, implied, without_departed
from hands_on.notes.run_on import PUT_ASIDE
from hands_on.notes.second_look import on_its_own, pieces, praised, says_plainly, untouched
from hands_on.notes.status import judge
from hands_on.notes.stretches import screens, stretches
from hands_on.notes.teeth import named_teeth, names_a_kind
from hands_on.notes.tone import asked_about, beside_praise

__all__ = ["FoundFault", "Reading", "findings_of", "read_note"]


_COUNTED: Final = "mouth.teeth"
"""The point that a count answers: `all 42 teeth`; of `chest 31 deep` only the measure is taken."""


_CHANGED: Final = ("any more", "anymore", "no longer", "at all now", "these days", "outgrown", "this year")
"""In the sentence that rules it out, a fault named before was there once."""


@dataclass(frozen=True, slots=True)
class FoundFault:
    """A fault read from a note.

    `degree` and `side` are None when not said; `status` is present, absent (looked for and ruled out) or
    unsure. `confidence`, 0 to 1, is the probability that fault and status are what was meant. `accepted`: so
    sure that it may be taken without asking. `alternatives` are other faults the words may mean, likeliest
    first. `own`: the evaluator's own words decided (`own_reading`).
    """

    id: str
    degree: str | None
    side: str | None
    status: str
    confidence: float
    span: tuple[int, int]
    accepted: bool
    alternatives: tuple[str, ...] = ()
    teeth: tuple[int, ...] = ()
    """The teeth it is said of, by modified Triadan number."""
    own: bool = False
    worse: str | None = None
    """Of both sides the worse, where the note compares them: `left more than right`."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a note says. `unread` are the stretches (start, end) that were not understood."""

    note: str
    faults: tuple[FoundFault, ...] = ()
    measures: tuple[FoundMeasure, ...] = ()
    affirmed: tuple[FoundAffirmed, ...] = ()
    unread: tuple[tuple[int, int], ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The reading as plain data, as the command `read` prints it."""
        return {
            "note": self.note,
            "faults": [
                {
                    "id": f.id,
                    "degree": f.degree,
                    "side": f.side,
                    "status": f.status,
                    "confidence": round(f.confidence, 3),
                    "span": list(f.span),
                    "accepted": f.accepted,
                    "alternatives": list(f.alternatives),
                    "teeth": list(f.teeth),
                    "own": f.own,
                    "worse": f.worse,
                }
                for f in self.faults
            ],
            "measures": [
                {"id": m.id, "value": m.value, "unit": m.unit, "span": list(m.span)} for m in self.measures
            ],
            "affirmed": [
                {
                    "point": a.point,
                    "option": a.option,
                    "span": list(a.span),
                    "confidence": round(a.confidence, 3),
                    "accepted": a.accepted,
                }
                for a in self.affirmed
            ],
            "unread": [list(u) for u in self.unread],
        }


def read_note(text: str, lexicon: Lexicon, *, region: str | None = None, point: str | None = None) -> Reading:
    """Read one note. `region` and `point` are on screen; a bare number under a measurement is its value.

    Never raises for any text; words beyond the first 2,000 are not looked at.
    """
    tokens = lexicon.tokens(text, region)
    if not len(tokens):
        return Reading(text)
    as_meant(tokens, lexicon)
    numbers = find_numbers(tokens, lexicon)
    parsed = parse(tokens, lexicon, unit_words(numbers), region)
    measures, measure_words = read_measures(parsed, numbers, lexicon, region, point)
    heard = heard_as(parsed, lexicon.drop)
    judged: list[Judged] = []
    silenced: set[int] = set()
    faults: list[FoundFault] = []
    affirmed: list[tuple[FoundAffirmed, tuple[int, ...]]] = []
    matches = affirming_matches(tokens, parsed.steps, lexicon)
    apart = stretches(parsed, lexicon)
    for stretch, screen in zip(apart, screens(apart, lexicon, region), strict=True):
        again = [
            Context(piece, lexicon, screen, frozenset(measure_words))
            for piece in pieces(untouched(stretch), lexicon)
        ]
        context = Context(stretch, lexicon, screen, frozenset(measure_words))
        opinion = Opinion(context, heard)
        here = [j for j in findings_of(context, opinion) if _offered(context, j)]
        span = stretch.span
        low, high = (bisect_left(matches, at, key=_start) for at in (span.start, span.stop))
        right = affirm(context, here, matches[low:high], opinion)
        silenced.update(i for j in here if id(j) in right.yielding for i in j.words)
        here = [j for j in here if id(j) not in right.yielding]
        alone = [
            (piece, j)
            for piece in again
            for j in findings_of(piece, Opinion(piece, heard))
            if _offered(piece, j) and context.elsewhere.isdisjoint(j.words)
        ]
        rivals: list[str] = []
        for piece, j in alone:
            if on_its_own(j, piece):
                carried = [other for other in here if _carried_off(other, j, piece)]
                rivals += [other.candidate.faults[0] for other in carried]
                here = [other for other in here if other not in carried]
                right = right.without(set(j.words), piece.parsed.span)
        affirmed += [(a, w) for a, w in right.found if a.point == _COUNTED or measure_words.isdisjoint(w)]
        judged += here
        praised_points = {a.point for a, _ in right.found}
        faults += [_less_sure(_fault(context, j), praised_points, lexicon) for j in here]
        explained = {i for j in here for i in j.words}
        for piece, j in alone:
            if _kept(piece, j, stretch, explained, right):
                judged.append(j)
                others = tuple(rivals) if on_its_own(j, piece) else ()
                found = _fault(piece, j)
                faults.append(replace(found, accepted=False, alternatives=found.alternatives + others))
    merged = _merged(faults, text)
    departed = {f.id for f in merged if f.status != "absent"}
    ruled_out = {f.id: f.span for f in merged if f.status == "absent"}
    stands = without_departed([a for a, _ in affirmed], departed, ruled_out, lexicon)
    absent = {
        f.id: FoundAffirmed("", None, f.span, f.confidence, f.accepted)
        for f in merged
        if f.status == "absent" and not names_a_kind(text[slice(*f.span)])
    }
    counted = {m.id: (m.value, m.span) for m in measures}
    more = [a for a in implied(absent, counted, lexicon) if a.point not in {s.point for s in stands}]
    stands += without_departed(more, departed, {}, lexicon)
    right_at = {a.point for a in stands}  # said twice it is one affirmation, and both are read
    read = measure_words.union(silenced, *(words for a, words in affirmed if a.point in right_at))
    return Reading(text, merged, tuple(measures), stands, _unread(parsed, text, judged, read, lexicon))


def _kept(alone: Context, j: Judged, stretch: Parsed, explained: set[int], right: Affirmations) -> bool:
    """Whether what a piece says by itself stands beside what its whole stretch says."""
    fault, points = j.candidate.faults[0], alone.lexicon.points
    home = alone.lexicon.regions.get(fault)
    others = [
        (words, points[a.point].region)
        for a, words in right.found
        if set(j.words) <= set(words)
        or not (fault in points[a.point].departures or set(words) < set(j.words))
    ]
    elsewhere = [range(min(words), max(words) + 1) for words, region in others if region != home]
    good = len(elsewhere) < len(others) or praised(stretch, alone.parsed.span, elsewhere, alone.lexicon)
    return says_plainly(j, alone, explained, {i for words, _ in others for i in words}, good)


def _carried_off(other: Judged, j: Judged, piece: Context) -> bool:
    """Whether a finding takes the words of a whole remark for a part named before, of another region."""
    regions, fault = piece.lexicon.regions, other.candidate.faults[0]
    same_words = not set(other.candidate.anchor.used).isdisjoint(j.words)
    return same_words and other.candidate.origin == "carry" and regions.get(fault) != piece.region


def _start(match: Match) -> int:
    return match.start


def findings_of(context: Context, opinion: Opinion) -> list[Judged]:
    """What one stretch of a note says, before the unlikely is left out."""
    parsed, lexicon, measured = context.parsed, context.lexicon, context.measured
    candidates = [
        c
        for c in bind(context)
        if c.faults[0] in lexicon.fault_measure
        or not within_measure(parsed.tokens, c.words, measured, lexicon)
    ]
    candidates += guess(context, candidates, opinion)
    candidates.sort(key=lambda c: (c.segment, c.anchor.start))
    context.leaning = opinion.of_findings(candidates)
    return judge(context, candidates)


def _fault(context: Context, j: Judged) -> FoundFault:
    candidate = j.candidate
    p = probability(context, j)
    teeth: tuple[int, ...] = ()
    if candidate.faults[0] in context.lexicon.sets.of_teeth:
        teeth, words = named_teeth(context.parsed.tokens, min(j.words), max(j.words) + 1)
        j.words.extend(words)
    return FoundFault(
        id=candidate.faults[0],
        degree=j.degree,
        side=j.side,
        status=j.status,
        confidence=p,
        span=spans(context.parsed.tokens, j.words),
        accepted=accepted(p, candidate, context.lexicon)
        and not beside_praise(j, context)
        and not asked_about(j, context),
        alternatives=candidate.faults[1:] if candidate.ambiguous else (),
        teeth=teeth,
        worse=j.worse,
    )


def _less_sure(found: FoundFault, right: set[str], lexicon: Lexicon) -> FoundFault:
    """`no dip, the topline is right`: what is ruled out may only tell what is right there."""
    said_again = any(found.id in lexicon.points[p].departures for p in right if p in lexicon.points)
    return replace(found, accepted=False) if found.status == "absent" and said_again else found


def _offered(context: Context, j: Judged) -> bool:
    """Whether a finding is likely enough to be offered; a guess must be likelier."""
    weights = context.lexicon.confidence
    floor = weights.get("floor", 0.0)
    if j.candidate.origin == "like":
        floor = weights.get("floor.guess", floor)
    return probability(context, j) >= floor


def _gone_now(found: FoundFault, text: str) -> bool:
    """Whether the sentence that rules a fault out speaks of a change: `not cow-hocked any more`."""
    start = max(text.rfind(mark, 0, found.span[0]) for mark in ".;!?")
    ends = [at for mark in ".;!?" if (at := text.find(mark, found.span[1])) >= 0]
    said = text[start + 1 : min(ends, default=len(text))].lower()
    return found.status == "absent" and any(words in said for words in _CHANGED)


def _merged(faults: list[FoundFault], text: str) -> tuple[FoundFault, ...]:
    """A fault said twice in a note is one finding; left and right together are both."""
    out: dict[str, FoundFault] = {}
    for f in faults:
        before = out.get(f.id)
        if before is None:
            out[f.id] = f
            continue
        if before.status != f.status:
            weaker = before.status == "unsure" and f.confidence < 0.75 * before.confidence
            keep = f if before.status != "present" and f.status == "present" and not weaker else before
            keep = f if _gone_now(f, text) else keep
            out[f.id] = keep
            continue
        side = before.side or f.side
        if before.side and f.side and before.side != f.side:
            side = "both"
        out[f.id] = FoundFault(
            id=f.id,
            degree=before.degree or f.degree,
            side=side,
            status=f.status,
            confidence=max(before.confidence, f.confidence),
            span=(min(before.span[0], f.span[0]), max(before.span[1], f.span[1])),
            accepted=before.accepted or f.accepted,
            alternatives=before.alternatives,
            teeth=tuple(dict.fromkeys((*before.teeth, *f.teeth))),
            worse=before.worse or f.worse,
        )
    return tuple(out.values())


def _unread(
    parsed: Parsed, note: str, judged: list[Judged], measure_words: set[int], lexicon: Lexicon
) -> tuple[tuple[int, int], ...]:
    tokens = parsed.tokens
    read = set(measure_words)
    for j in judged:
        read.update(j.words)
        read.update(j.candidate.anchor.used)
    for segment in parsed.segments:
        for talk in segment.talk:
            read.update(range(talk.start, talk.end))
    out: list[tuple[int, int]] = []
    says: list[bool] = []
    glue = False
    for i in range(len(tokens)):
        if i in read:
            glue = False
            continue
        if tokens.text[i] in lexicon.drop:
            continue
        start, end = tokens.start[i], tokens.end[i]
        small = tokens.text[i] in lexicon.filler or tokens.text[i] == "&"
        small = small and not (tokens.text[i] == PUT_ASIDE and note[start:end].lower() != PUT_ASIDE)
        if out and (glue or out[-1][1] >= start) and not tokens.brk[i]:
            out[-1] = (out[-1][0], max(end, out[-1][1]))
            says[-1] = says[-1] or not small
        else:
            out.append((start, end))
            says.append(not small)
        glue = True
    return tuple(piece for piece, heard in zip(out, says, strict=True) if heard)
