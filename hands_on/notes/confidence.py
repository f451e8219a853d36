"""How sure a finding is, and whether that is enough to take it without asking.

The weights stand in the language file under [confidence]; they come from a logistic regression on labelled
notes (see tests/bench/calibrate.py).
"""

from math import exp

from hands_on.notes.candidates import Candidate
from hands_on.notes.context import Context, Leaning
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.guesses import says_all
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.tone import may_be_asked

__all__ = ["accepted", "features", "probability"]


def features(context: Context, j: Judged) -> dict[str, float]:
    """The evidence for a finding, by name; each about 0 to 1."""
    parsed, lexicon, region = context.parsed, context.lexicon, context.region
    c = j.candidate
    segment = parsed.segments[c.segment]
    tokens = parsed.tokens
    unknown = 0
    for i in range(segment.start, segment.end):
        word = tokens.text[i]
        if i in c.words or tokens.number[i] or word in lexicon.filler or word in lexicon.drop:
            continue
        if not any(i in item.used for item in segment.items):
            unknown += 1
    content, unexplained = context.unexplained(c.segment)
    unread = len(unexplained.difference(c.words, c.about))
    own_unread = sum(i in unexplained and i not in c.words for i in range(segment.start, segment.end))
    fault_region = lexicon.regions.get(c.faults[0], "")
    strange = context.strange(c.segment)
    around = context.strange_nearby(c.segment)
    known = sum(len(i.used) for i in segment.items)
    clear = c.origin in ("phrase", "pair") and len(c.words) > 1 and c.cost < 0.1
    elsewhere = bool(region and fault_region and fault_region != region)
    near = [n for n in context.topic(c.segment) if abs(n - c.segment) <= 1]
    share = unread / content if content else 0.0
    named = c.origin in ("phrase", "pair") and c.cost < 0.1 and "c" not in c.marks
    own_part = _own_part(c, context) == {fault_region}
    apart = named and not strange and not own_unread  # a clause that says nothing else
    leaning = context.leaning.get(id(c), Leaning())
    behind, whole = min(leaning.behind, 6.0) / 6, says_all(context, c)
    ahead, over = min(leaning.ahead, 6.0) / 6, max(-2.0, min(leaning.over_nothing, 6.0)) / 6
    return {
        "one": 1.0,
        f"origin.{c.origin}": 1.0,
        "cost": c.cost,
        "cost.high": 1.0 if c.cost >= 0.4 else 0.0,
        "ambiguous": 1.0 if c.ambiguous else 0.0,
        "other.region": 1.0 if elsewhere and not clear else 0.0,
        "other.region.clear": 1.0 if elsewhere and clear and not (apart and own_part) else 0.0,
        "other.region.apart": 1.0 if elsewhere and clear and apart and own_part else 0.0,
        "foreign": min(c.foreign, 2) / 2,
        "unknown": min(unknown, 4) / 4,
        "idle.around": min(sum(_idle(c, context, n) for n in near), 4) / 4,
        "neutral": 1.0 if may_be_asked(j, context) else 0.0,
        "neutral.all": 1.0 if context.all_neutral(c.segment) else 0.0,
        "modal": 1.0 if not apart and j.status == "present" and _modal(j, context) else 0.0,
        "modal.apart": 1.0 if apart and j.status == "present" and _modal(j, context) else 0.0,
        "unread": 0.0 if clear else share,
        "unread.clear": share if clear and not apart else 0.0,
        "unread.apart": share if apart else 0.0,
        "praised": 1.0 if j.praised else 0.0,
        "unsure": 1.0 if j.status == "unsure" else 0.0,
        "absent": 1.0 if j.status == "absent" else 0.0,
        "one.word": 1.0 if len(c.words) == 1 else 0.0,
        "one.word.nowhere": 1.0 if len(c.words) == 1 and fault_region != region else 0.0,
        "slip": 1.0 if c.cost >= 0.1 else 0.0,
        "slip.strange": 1.0 if c.cost >= 0.1 and around else 0.0,
        "at.home": 1.0 if region and fault_region == region else 0.0,
        "strange": strange / (strange + known) if strange else 0.0,
        "strange.nowhere": min(strange, 3) / 3 if fault_region != region else 0.0,
        "long.name": min(len(c.words), 4) / 4 if c.origin == "phrase" and c.cost < 0.1 else 0.0,
        "strange.around": 0.0 if apart else min(around, 4) / 4,
        "strange.apart": min(around, 4) / 4 if apart else 0.0,
        "asked": 1.0 if c.marks.strip("c") else 0.0,
        "degree": 1.0 if j.degree else 0.0,
        "stray.not": 1.0 if j.status == "present" and _stray_not(j, context) else 0.0,
        "rivals": 1.0 if len(c.faults) > 1 else 0.0,
        "other.finding": 1.0 if context.other_findings(c.segment) else 0.0,
        "like.first": 1.0 if ahead > 0 else 0.0,
        "like.ahead": ahead,
        "like.behind": 0.0 if whole else behind,
        "like.behind.whole": behind if whole else 0.0,
        "like.over": over,
        "guess.ahead": ahead if c.origin == "like" else 0.0,
        "guess.over": over if c.origin == "like" else 0.0,
        "common": 1.0 if _common_words(c, context) else 0.0,
    }


def _own_part(c: Candidate, context: Context) -> set[str]:
    """The regions of the parts a finding names by more than a side of them: not by `set on` alone."""
    text, lexicon = context.parsed.tokens.text, context.lexicon
    return {
        lexicon.part_region[part]
        for item in (c.anchor, c.part)
        if item is not None
        and any(text[i] not in lexicon.sets.dimensions and text[i] not in lexicon.drop for i in item.used)
        for part, _ in (*item.parts, *item.inner_parts)
    }


def _idle(c: Candidate, context: Context, number: int) -> int:
    """How many words of the trade in a segment no finding uses: a sign that something else was meant."""
    return sum(
        not item.bound
        and item.start not in context.measured
        and not any(i in c.words or i in c.about for i in item.used)
        and any(cost < 0.3 for _, cost in (*item.parts, *item.qualities, *item.late_faults))
        for item in context.parsed.segments[number].items
    )


def _modal(j: Judged, context: Context) -> bool:
    """Whether `could`, `see again` or `before` stands in its topic, outside the finding's own words."""
    text, segments = context.parsed.tokens.text, context.parsed.segments
    modal = context.lexicon.sets.modal
    near = context.topic(j.candidate.segment)
    return any(
        text[i] in modal and i not in j.candidate.words and text[i + 1 : i + 2] != ["like"]
        for i in range(segments[near[0]].start, segments[near[-1]].end)
    )


def _stray_not(j: Judged, context: Context) -> bool:
    """Whether the clause denies something, though not this finding."""
    segment = context.parsed.segments[j.candidate.segment]
    denying = context.lexicon.sets.denying
    text = context.parsed.tokens.text
    return any(text[i] in denying and i not in j.candidate.words for i in range(segment.start, segment.end))


def _common_words(c: Candidate, context: Context) -> bool:
    """Whether everyday words alone carry the finding."""
    text = context.parsed.tokens.text
    return all(context.lexicon.slips.is_ordinary(text[i]) for i in c.words)


def probability(context: Context, j: Judged) -> float:
    """The probability that fault and status are what was meant."""
    weights = context.lexicon.confidence
    total = sum(weights.get(name, 0.0) * value for name, value in features(context, j).items())
    return 1.0 / (1.0 + exp(-max(-30.0, min(30.0, total))))


def accepted(p: float, candidate: Candidate, lexicon: Lexicon) -> bool:
    """Whether to take the finding without asking: sure enough, and no second fault fits."""
    return p >= lexicon.confidence.get("accept", 0.9) and not candidate.ambiguous
