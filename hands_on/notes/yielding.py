"""Where the same words are found amiss and called right: which of the two stands."""

from collections.abc import Sequence
from typing import Final

from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.lexicon import END
from hands_on.notes.right_points import Said
from hands_on.notes.stems import stem
from hands_on.notes.tone import may_yield, too_much_only

__all__ = ["WHOLE", "settled"]

WHOLE: Final = 3
"""So many words that are right say more than a fault named by fewer of them."""
_PLAIN: Final = 2
"""So many words are no more than part and quality."""


def settled(context: Context, said: Sequence[Said], judged: Sequence[Judged]) -> tuple[list[Said], set[int]]:
    """The affirmations that stand, and the findings that yield to them, by identity.

    A mere likeness yields. So does a state without `too` or degree, all its words affirmed, in a sentence
    that praises or affirms something else: `clean throat, tight elbows` finds nothing.
    """
    kept = [s for s in said if not any(_is_part_of(context, s, other) for other in said)]
    yielding: set[int] = set()
    for j in judged:
        if j.status == "absent":
            if _says_again(context, kept, j, judged) or _tells_right(kept, j):
                yielding.add(id(j))
            continue
        words = set(j.words)
        own = [
            s
            for s in kept
            if s.point not in context.lexicon.seen  # what is seen stands whatever it is worth
            and (not words.isdisjoint(s.state) or _covers(context, s, words, j))
        ]
        if not own:
            continue
        covered = any(_covers(context, s, words, j) for s in own)
        sentence = context.sentence(j.candidate.segment)
        others = any(s not in own and _sentence_of(context, s) == sentence.start for s in kept)
        praise = any(
            t.kind in ("praise", "verdict") for n in sentence for t in context.parsed.segments[n].talk
        )
        whole = any(len(s.words) >= WHOLE and words < s.state for s in own)
        plain = covered and (whole or may_yield(j)) and (others or praise or whole or too_much_only(j))
        if j.candidate.origin == "like" or plain:
            yielding.add(id(j))
        else:
            kept = [s for s in kept if s not in own]
    return kept, yielding


def _tells_right(said: Sequence[Said], j: Judged) -> bool:
    """`not a care in the world`: a whole phrase of what is right, whose denial rules out nothing."""
    return any(s.way == "phrase" and len(s.words) > WHOLE and set(j.words) <= set(s.words) for s in said)


def _says_again(context: Context, said: Sequence[Said], j: Judged, judged: Sequence[Judged]) -> bool:
    """`ribs nicely sprung, neither flat nor round`: what is ruled out only tells what is right there.

    So it does where both departures from a point called right are ruled out.
    """
    segment = context.parsed.segments[j.candidate.segment]
    sentence = context.sentence(j.candidate.segment)
    text = context.parsed.tokens.text
    led = text[context.parsed.segments[sentence.start].start : segment.end]
    points = context.lexicon.points
    others = {
        o.candidate.faults[0]
        for o in judged
        if o is not j and o.status == "absent" and o.candidate.segment in sentence
    }
    led_in = "neither" in led or "being" in text[segment.lead : j.candidate.anchor.start]
    return any(
        s.point in points
        and j.candidate.faults[0] in points[s.point].departures
        and (led_in or not others.isdisjoint(points[s.point].departures))
        and _sentence_of(context, s) == sentence.start
        and (set(s.words).isdisjoint(j.words) or set(s.words).issuperset(j.words))
        for s in said
    )


def _covers(context: Context, said: Said, words: set[int], j: Judged) -> bool:
    """Whether the affirmation explains all words of a finding: its state, and the names of parts.

    A state beside its part may be all that is called right: `soft ears, nicely carried`.
    """
    text, known = context.parsed.tokens.text, context.lexicon.main
    asked = len(words) <= _PLAIN and j.candidate.faults[0] in context.lexicon.askable
    return words.issubset(said.words) and (
        asked
        or all(
            any(kind == "P" for kind, _ in known.get(stem(text[i]), {}).get(END, ()))
            for i in words - said.state
        )
    )


def _sentence_of(context: Context, said: Said) -> int:
    return context.sentence(context.clause_of(min(said.words))).start


def _is_part_of(context: Context, said: Said, other: Said) -> bool:
    """A word of what is said right of another point.

    The `powerful` of `powerful drive off the rear`, the `nice` of `nice shape`.
    """
    text, sides = context.parsed.tokens.text, context.lexicon.sets.dimensions
    elsewhere = said.point.split(".")[0] != other.point.split(".")[0]
    of_side = all(text[i] in sides for i in other.state - said.state)
    return (elsewhere or of_side or other.option is not None) and said.state < other.state
