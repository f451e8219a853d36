"""What no finding explains is read again by itself: praise beside it must not silence a plain fault.

A sentence is cut where a clause names a part of its own. Each piece is then read as if nothing else had been
said; a finding whose words nothing explains yet is kept.
"""

from collections.abc import Iterator, Sequence, Set
from dataclasses import replace
from itertools import pairwise
from typing import Final

from hands_on.notes.clauses import STATUS_KINDS, Parsed, Segment
from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.tone import neutral
from hands_on.notes.topics import names_part

__all__ = ["on_its_own", "pieces", "praised", "says_plainly", "untouched"]

_WHOLE: Final = 3
"""So many words say something by themselves: `on the small side`."""
_PLAIN: Final = 2
_VERDICT: Final = frozenset({"wrong", "wrong-shade"})
"""`white sock, not permitted` says no more than the white sock."""
_SURE: Final = 0.3
_PRAISE: Final = frozenset({"praise", "verdict", "asked"})


_TURNS: Final = STATUS_KINDS - {"contrast", "neutral"}
"""What rules out or doubts may reach over several clauses."""


def untouched(parsed: Parsed) -> Parsed:
    """A stretch as it was parsed, with clauses of its own: reading writes into them."""
    segments = [
        replace(
            s,
            items=[replace(i) for i in s.items],
            talk=list(s.talk),
            words=set(s.words),
            right=list(s.right),
        )
        for s in parsed.segments
    ]
    return replace(parsed, segments=segments)


def pieces(parsed: Parsed, lexicon: Lexicon) -> Iterator[Parsed]:
    """The pieces of a stretch; none where it takes something back, nor any that a denial may reach."""
    segments = parsed.segments
    text, hearsay = parsed.tokens.text, lexicon.sets.hearsay
    span = parsed.span
    if any(s.corrects for s in segments) or not hearsay.isdisjoint(text[span.start : span.stop]):
        return
    turns = [m.start for m in parsed.talk if any(kind in _TURNS for kind, _, _ in m.meanings)]
    cuts = [n for n, s in enumerate(segments) if n and _opens(s)]
    for start, end in pairwise([0, *cuts, len(segments)]) if cuts else ():
        piece = _part(parsed, start, end)
        if all(at in piece.span for at in turns):
            yield piece


def _opens(segment: Segment) -> bool:
    return segment.sep != "or"


def _part(parsed: Parsed, start: int, end: int) -> Parsed:
    segments = parsed.segments[start:end]
    span = range(segments[0].lead, segments[-1].end)
    return replace(
        parsed,
        segments=segments,
        talk=[m for m in parsed.talk if m.start in span],
        places=[p for p in parsed.places if p.start in span],
    )


def says_plainly(j: Judged, context: Context, explained: Set[int], right: Set[int], good: bool) -> bool:
    """Whether a finding of one piece is to be kept: its own words, none explained yet, call it a fault.

    `explained` are the words of other findings, `right` those that affirm another point.
    A state that is no fault in itself (`set high`) counts where its part is named with it and nothing calls
    it `good`; a likeness counts where a part is named.
    """
    candidate = j.candidate
    if not explained.isdisjoint(j.words) or not right.isdisjoint(j.words) or j.status == "absent":
        return False
    if candidate.origin == "bare":
        return _says_all(j, context)
    named = any(_has_part(segment) for segment in context.parsed.segments)
    if good and not j.stressed and j.degree is None and _is_short(j, context):
        return False
    if neutral(j, context) and not j.stressed:
        return named and candidate.origin in ("phrase", "pair")
    return named or candidate.origin in ("phrase", "pair")


def on_its_own(j: Judged, context: Context) -> bool:
    """`lovely head. on the small side`: a remark that says a fault of the region on screen by itself.

    Where it could as well be said of a part of another region named before, the screen decides, and the
    evaluator is asked.
    """
    candidate = j.candidate
    if j.status != "present" or candidate.origin != "bare" or context.region is None:
        return False
    if context.lexicon.regions[candidate.faults[0]] != context.region:
        return False
    if _refers(context):
        return False
    length = candidate.anchor.end - candidate.anchor.start
    stressed = j.stressed or j.degree is not None
    sentence = context.parsed.segments[0].sep == "stop" and length >= _PLAIN
    return length >= _WHOLE or ((stressed or sentence) and _says_all(j, context))


_REFERS: Final = frozenset({"they", "it", "too"})


def _refers(context: Context) -> bool:
    """`eyes well set but they're too light`, `but too light`: it goes on with what was named."""
    first = context.parsed.segments[0]
    return context.parsed.tokens.text[first.start] in _REFERS


def _says_all(j: Judged, context: Context) -> bool:
    """Whether a quality without a part calls something a fault by itself."""
    anchor = j.candidate.anchor
    if all(q in _VERDICT for q, _ in anchor.qualities):
        return False
    whole = anchor.end - anchor.start >= _WHOLE
    return whole or j.stressed or j.degree is not None or not neutral(j, context)


def praised(parsed: Parsed, piece: range, elsewhere: Sequence[range], lexicon: Lexicon) -> bool:
    """Whether praise speaks of a piece: within it, or behind it before another part is named and praised.

    So does a list of states without praise: `broad skull, stop moderate, muzzle strong`. `elsewhere` are the
    words that affirm a point of another region.
    """
    told = [m.start for m in parsed.talk if any(k in _PRAISE for k, _, _ in m.meanings)]
    segments = parsed.segments
    settled = False
    for number, segment in enumerate(segments):
        own = piece.start <= segment.start < piece.stop
        good = bool(segment.right) or any(segment.lead <= at < segment.end for at in told)
        other = any(segment.start <= r.start < segment.end for r in elsewhere)
        if good and (own or (segment.end > piece.start and not settled)):
            settled = True
            if own or not (other or names_part(segments[number + _leads_on(segments, number)])):
                return True
        words = parsed.tokens.text[segment.start : segment.end]
        states = any(i.qualities or i.inner_qualities for i in segment.items)
        states = states and lexicon.sets.spoils.isdisjoint(words)
        if states and _part_apart(segment) and not (own or good or other or _leads_on(segments, number)):
            return True
    return False


def _is_short(j: Judged, context: Context) -> bool:
    """`soft ears`: no more than part and quality, with no word that wishes or compares."""
    text, used = context.parsed.tokens.text, j.candidate.anchor.used
    return len(used) <= _PLAIN and not any(text[i] in context.lexicon.sets.spoils for i in used)


def _has_part(segment: Segment) -> bool:
    return any(cost < _SURE for item in segment.items for _, cost in (*item.parts, *item.inner_parts))


def _part_apart(segment: Segment) -> bool:
    """Whether a part is named beside its state: not by `sloping` alone."""
    return any(
        item.inner_parts or (any(c < _SURE for _, c in item.parts) and not item.qualities)
        for item in segment.items
    )


def _leads_on(segments: list[Segment], number: int) -> bool:
    """The `beautiful` of `hocks never open, beautiful, typical head`: it praises what comes."""
    following = segments[number + 1 : number + 2]
    plain = not any(i.parts or i.faults for i in segments[number].items)
    return plain and any(s.sep == "comma" and names_part(s) for s in following)
