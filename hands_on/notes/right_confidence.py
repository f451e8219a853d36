"""How sure it is that a point was called right, and whether that is enough to take it without asking.

The weights stand in the language file under [affirming]; they come from a logistic regression on labelled
notes, as those of findings do (see tests/bench/affirming.py).
"""

from collections.abc import Sequence
from math import exp
from typing import Final

from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.guesses import Opinion
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.parts_said import parts_of
from hands_on.notes.right_points import Said
from hands_on.notes.stems import is_comparative
from hands_on.notes.topics import NO_PART

__all__ = ["right_evidence", "right_probability", "taken"]

_NO_SLIP: Final = 0.05
_LEAD: Final = 3.0
"""A greater lead of the likeness says no more."""


def right_evidence(
    context: Context, said: Said, others: Sequence[Said], judged: Sequence[Judged], opinion: Opinion
) -> dict[str, float]:
    """The evidence for an affirmation, by name; each about 0 to 1. `others` are those of its stretch."""
    parsed, lexicon = context.parsed, context.lexicon
    number = context.clause_of(min(said.state or said.words))
    segment, text = parsed.segments[number], parsed.tokens.text
    home = said.point.split(".")[0]
    named = _regions_named(context, said)
    own = named == {home}
    beside = {
        lexicon.part_region[n]
        for n, used in parts_of(segment)
        if n not in NO_PART and set(used).isdisjoint(said.words)
    }
    content, open_words = context.unexplained(number)
    told = {i for s in others for i in s.words}
    sentence = context.sentence(number)
    words = range(parsed.segments[sentence.start].lead, parsed.segments[sentence.stop - 1].end)
    amiss = [j for j in judged if j.status != "absent"]
    rivals = [s for s in others if s.point != said.point and not set(s.words).isdisjoint(said.words)]
    affirming = lexicon.affirms.get(said.point)
    used = {i for s in others if s.point != said.point for i in s.words}
    used.update(i for j in judged for i in j.words)
    own_words = {i for i in range(segment.start, segment.end) if i not in used}.union(said.words)
    strange = sum(
        context.is_foreign(i, parsed.segments[n])
        for n in sentence
        for i in range(parsed.segments[n].start, parsed.segments[n].end)
        if i not in told
    )
    like = opinion.of_right(said.point, sorted(own_words))
    return {
        "one": 1.0,
        f"way.{said.way}": 1.0,
        "cost": said.cost,
        "hedged": 0.0 if lexicon.sets.hedged.isdisjoint(text[i] for i in said.words) else 1.0,
        "sums.up": 1.0 if affirming is not None and affirming.sums_up else 0.0,
        "names.own": 1.0 if own else 0.0,
        "names.other": 1.0 if named - {home} else 0.0,
        "names.none": 0.0 if named else 1.0,
        "at.home": 1.0 if context.region == home else 0.0,
        "elsewhere": 1.0 if context.region not in (None, home) and not own else 0.0,
        "other.part": 1.0 if beside - {home} else 0.0,
        "contrast": 1.0 if _behind_but(context, number, amiss) else 0.0,
        "unread": len(open_words - told) / content if content else 0.0,
        "strange": min(strange, 4) / 4,
        "set.phrase": 1.0 if _is_set_phrase(context, said) else 0.0,
        "rivals": 1.0 if any(s.point.split(".")[0] == home for s in rivals) else 0.0,
        "rivals.elsewhere": 1.0 if any(s.point.split(".")[0] != home for s in rivals) else 0.0,
        "amiss": 1.0 if any(j.candidate.segment in sentence for j in amiss) else 0.0,
        "amiss.region": 1.0
        if any(lexicon.regions.get(j.candidate.faults[0]) == home for j in amiss)
        else 0.0,
        "modal": 1.0 if any(text[i] in lexicon.sets.modal and i not in said.words for i in words) else 0.0,
        "denies": 1.0 if any(text[i] in lexicon.sets.denying and i not in told for i in words) else 0.0,
        "compares": 1.0 if any(is_comparative(text[i]) and i not in said.words for i in words) else 0.0,
        "one.word": 1.0 if len(said.words) == 1 else 0.0,
        "many.words": 1.0 if len(said.words) > 2 else 0.0,
        "like.known": 1.0 if like else 0.0,
        "like.fault": _bounded(like.over_fault) if like else 0.0,
        "like.point": _bounded(like.over_point) if like else 0.0,
        "like.nothing": _bounded(like.over_nothing) if like else 0.0,
    }


def _is_set_phrase(context: Context, said: Said) -> bool:
    """Whether it was said in a phrase of the trade that means nothing else: `full mouth`."""
    affirming = context.lexicon.affirms.get(said.point)
    words = " ".join(context.parsed.tokens.text[i] for i in sorted(set(said.words)))
    return affirming is not None and said.cost < _NO_SLIP and words in affirming.set_phrases


def _bounded(lead: float) -> float:
    return max(-_LEAD, min(_LEAD, lead)) / _LEAD


def right_probability(evidence: dict[str, float], lexicon: Lexicon) -> float:
    """The probability that the point was called right."""
    total = sum(lexicon.affirming.get(name, 0.0) * value for name, value in evidence.items())
    return 1.0 / (1.0 + exp(-max(-30.0, min(30.0, total))))


def taken(p: float, said: Said, lexicon: Lexicon) -> bool:
    """Whether to take it without asking: sure enough, and no sum of others (type, gait, proportions)."""
    affirming = lexicon.affirms.get(said.point)
    sums_up = affirming is not None and affirming.sums_up
    return p >= lexicon.affirming.get("accept", 0.9) and not sums_up


def _regions_named(context: Context, said: Said) -> set[str]:
    """The regions of the parts that its words name: not only the `set on` of ear and tail."""
    return {
        context.lexicon.part_region[name]
        for segment in context.parsed.segments
        for name, used in parts_of(segment)
        if not set(used).isdisjoint(said.words)
    }


def _behind_but(context: Context, number: int, amiss: Sequence[Judged]) -> bool:
    """Behind a `but` with nothing amiss before it something is: `good stifles, but the hock is straight`."""
    found = {j.candidate.segment for j in amiss}
    return context.parsed.segments[number].sep == "contrast" and number - 1 not in found
