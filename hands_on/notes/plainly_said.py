"""Whether words that call something right stand plainly: not denied, doubted, wished, compared or hedged."""

from collections.abc import Set
from typing import Final

from hands_on.notes.clauses import Segment
from hands_on.notes.context import Context
from hands_on.notes.elsewhere import of_another_dog
from hands_on.notes.matching import Match
from hands_on.notes.parts_said import parts_of

__all__ = ["hedged", "plainly_said"]

_OWN_WORDS: Final = frozenset({
    "over", "than", "should", "without", "no", "not", "too", "nor", "neither", "ought", "want",
})  # fmt: skip
"""Inside what is right itself they spoil nothing: `set where it should be`, `without loose skin`."""
_SHOULD: Final = frozenset({"should", "could", "would", "ought", "meant", "supposed"})
_INSTEAD: Final = frozenset({"should", "ought", "meant", "supposed"})
_AS_IT: Final = frozenset({"as", "like", "where", "way"})
"""Before a `should` they make it wish nothing: `harsh as it ought to be`, `where it's meant to be`."""
_ONE: Final = frozenset({"a", "an", "one", "some"})
_PAST: Final = frozenset({"past", "beyond", "off", "below", "above", "under"})
_ASKED: Final = frozenset({"what", "where", "anything", "whatever"})
_TODAY: Final = frozenset({"now", "today", "still"})
_TOLD: Final = frozenset({"praise", "verdict", "asked"})
_DENYING: Final = frozenset({
    "absent_before", "absent_after", "unsure_before", "unsure_after", "double", "double_unsure", "neutral",
})  # fmt: skip


def plainly_said(context: Context, number: int, said: range, denies: bool, own: Set[int]) -> bool:
    """Whether a clause says `said` without denial, doubt, wish or comparison.

    `denies`: the words themselves deny, `without loose skin`. `own` are those of them that count.
    """
    parsed = context.parsed
    segment, text = parsed.segments[number], parsed.tokens.text
    then = any(segment.lead <= i < segment.end for i in context.then)
    if of_another_dog(context, said.start) or (then and _TODAY.isdisjoint(text)):
        return False
    for t in segment.talk:
        inside = t.start >= said.start and t.end <= said.stop
        if t.start >= said.stop and text[t.start] == "without":
            continue  # `well bent without overdoing it`
        if t.kind in _DENYING and not (inside and (denies or t.kind == "neutral")):
            return False
        if t.kind == "people" and t.start <= said.start:
            return False
    if _wished_for(context, number):
        return False
    return not any(_spoils(context, segment, i, said, denies, own) for i in range(segment.lead, segment.end))


def _spoils(context: Context, segment: Segment, i: int, said: range, denies: bool, own: Set[int]) -> bool:
    """Whether the word at `i` keeps what a clause says from being affirmed."""
    tokens, sets = context.parsed.tokens, context.lexicon.sets
    word, following = tokens.text[i], tokens.text[i + 1 : i + 2]
    as_it = word in _SHOULD and _as_it(tokens.text, i)
    if tokens.query_after[i] or tokens.query_before[i] or (word in sets.hearsay and not as_it):
        return True
    if i in said and denies:
        return False
    if word in _INSTEAD and tokens.text[i - 1] == "there":
        return True  # `feathering where there should be none`
    if word in _PAST and i not in own and not _ASKED.isdisjoint(following):
        return True  # `deep past what is asked`
    if word == "want" and not _ONE.isdisjoint(following):
        return True  # `where I want a round one`
    if word == "want" and following[:1] in (["it"], ["them"]):
        wished = tokens.text[i + 2 : i + 3]
        if not sets.no_verb.isdisjoint(wished) and not tokens.brk[i + 2]:
            return True  # `round where I want it flat`
    if word in sets.regret and i < said.start:
        return True  # `a pity that he carries it so`
    if (word == "too" and i + 1 == segment.end) or (word == "without" and i >= said.stop):
        return False  # `the ribs are well sprung too`
    told = any(t.kind in _TOLD and t.start <= i < t.end for t in segment.talk)
    if as_it:
        return False
    inside = word in _OWN_WORDS and (i in own or (i in said and word == "no"))
    return word in sets.spoils and not told and not inside


def _wished_for(context: Context, number: int) -> bool:
    """Whether the clause beside it tells what should be: `it should be short and strong`.

    Or the next one opens with it: `double-coated, should be single`.
    """
    segments, text = context.parsed.segments, context.parsed.tokens.text
    sentence = context.sentence(number)
    if number + 1 < sentence.stop and text[segments[number + 1].start] in _INSTEAD:
        return True
    if segments[number].sep != "and" or number == sentence.start or list(parts_of(segments[number])):
        return False
    before = range(segments[number - 1].lead, segments[number - 1].end)
    return any(text[i] in _INSTEAD and not _as_it(text, i) for i in before)


def _as_it(text: list[str], at: int) -> bool:
    return not _AS_IT.isdisjoint(text[max(0, at - 4) : at]) and text[at - 1] != "there"


def hedged(context: Context, match: Match) -> bool:
    """A degree beside a state: `loin somewhat short`, `a touch harsh`; not beside praise, `rather nice`.

    `slightly arched` and its like, where that is asked, are states with words of their own.
    """
    tokens, sets = context.parsed.tokens, context.lexicon.sets
    text, first = tokens.text, match.start
    segments = context.parsed.segments
    sentence = context.sentence(context.clause_of(match.start))
    verdicts = (t for n in sentence for t in segments[n].talk if t.kind == "verdict")
    if text[match.used[0]] in sets.praising or any(t.start >= match.end for t in verdicts):
        return False
    for i in range(max(0, first - 1), match.end - 1):
        next_to = i >= first or not tokens.brk[first]
        if next_to and i not in match.used and text[i] in sets.hedges and text[i + 1] not in sets.praising:
            return True
    ends = match.end + 1 >= len(tokens) or bool(tokens.brk[match.end + 1])
    behind = match.end < len(tokens) and not tokens.brk[match.end] and text[match.end] in sets.hedges
    return behind and ends
