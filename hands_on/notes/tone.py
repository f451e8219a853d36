"""The tone of what is said of a part: what some standard asks for is no fault where it is only praised.

Praise reaches as far as its topic (topics.py): what is said of another part it never silences.
"""

from hands_on.notes.clauses import Segment
from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged, has_praise

__all__ = [
    "asked_about",
    "beside_praise",
    "may_be_asked",
    "may_yield",
    "neutral",
    "only_side_praised",
    "too_much_only",
    "without_praised",
]


def without_praised(context: Context, judged: list[Judged]) -> list[Judged]:
    """`ears high set, hanging close, lovely`: no fault where a topic is praised and nothing in it is amiss.

    A state counts as asked when its fault is one that some standard asks for, the words say nothing bad of it
    (a neutral quality), and neither `too` nor a degree stresses it. One finding of another kind is enough for
    all of the topic to stand.
    """
    by_topic: dict[int, list[Judged]] = {}
    for j in judged:
        if j.candidate.origin != "like":
            by_topic.setdefault(context.topic(j.candidate.segment).start, []).append(j)
    everything = [j for said in by_topic.values() for j in said]
    only_neutral = all(may_be_asked(j, context) for j in everything)
    described = only_neutral and _describes(context, everything)
    gone: set[int] = set()
    for start, said in by_topic.items():
        topic = context.topic(start)
        contrast = any(context.parsed.segments[n].sep == "contrast" for n in topic)
        neutral = all(may_be_asked(j, context) for j in said)
        if neutral and not contrast and (described or _praises(context, topic)):
            told = [context.parsed.segments[n] for n in topic if has_praise(context.parsed.segments[n])]
            gone.update(id(j) for j in said if not any(only_side_praised(j, s, context) for s in told))
    return [j for j in judged if id(j) not in gone]


def _praises(context: Context, topic: range) -> bool:
    parsed = context.parsed
    segments = [parsed.segments[n] for n in topic]
    if topic.start in context.asked or any(t.kind in _TOLD for s in segments for t in s.talk):
        return True
    text = parsed.tokens.text
    span = range(segments[0].lead, segments[-1].end)
    right = any(s.right for s in segments) and not any(parsed.tokens.number[i] for i in span)
    # `hung low, as a hound's should`
    return right or any(text[i] == "should" and "as" in text[max(0, i - 4) : i] for i in span)


_TOLD = ("praise", "verdict", "asked")


def _describes(context: Context, judged: list[Judged]) -> bool:
    """`small, set high, carried erect`: three states or more, one of them at least no fault of any part."""
    items = [i for s in context.parsed.segments for i in s.items if i.qualities or i.inner_qualities]
    found = {id(j.candidate.anchor) for j in judged}
    idle = [i for i in items if id(i) not in found and all(c < 0.1 for _, c in i.qualities)]
    return (
        len(items) >= 3
        and bool(idle)
        and not any(t.kind == "degree" for s in context.parsed.segments for t in s.talk)
    )


def may_be_asked(j: Judged, context: Context) -> bool:
    """Whether some standard asks for the state, and the words say nothing bad of it."""
    lexicon = context.lexicon
    if j.stressed or j.status != "present" or j.candidate.faults[0] not in lexicon.askable:
        return False
    return neutral(j, context)


def beside_praise(j: Judged, context: Context) -> bool:
    """Whether a state that may be asked stands in a sentence of praise: it is for the evaluator to say."""
    if not may_be_asked(j, context):
        return False
    segments = context.parsed.segments
    return any(
        t.kind in _TOLD for n in context.sentence(j.candidate.segment) for t in segments[n].talk
    ) or any(segments[n].right for n in context.sentence(j.candidate.segment))


def asked_about(j: Judged, context: Context) -> bool:
    """Whether a question leaves a finding in doubt: what is meant by it only the evaluator can say."""
    segments, query = context.parsed.segments, context.parsed.tokens.query_after
    sentence = context.sentence(j.candidate.segment)
    return j.status == "unsure" and any(
        query[segments[sentence.start].lead : segments[sentence.stop - 1].end]
    )


def only_side_praised(j: Judged, praised: Segment, context: Context) -> bool:
    """`ears of good length, set high`: the length is praised, and nothing said of where they are set."""
    sets, text = context.lexicon.sets, context.parsed.tokens.text
    said = {q for q, c in j.candidate.anchor.qualities if c < 0.1}
    return not said.isdisjoint(sets.sites) and not sets.dimensions.isdisjoint(
        text[praised.start : praised.end]
    )


def neutral(j: Judged, context: Context) -> bool:
    """Whether the words of a finding say nothing bad in themselves: `long`, `level`, `slightly arched`.

    What compares or wishes is not: `exceeds the length wanted`, `a shorter back would be better`.
    """
    anchor, lexicon = j.candidate.anchor, context.lexicon
    text = context.parsed.tokens.text
    if any(text[i] in lexicon.sets.spoils for i in anchor.used):
        return False
    qualities = [q for q, c in (*anchor.qualities, *anchor.inner_qualities) if c < 0.3]
    parts = [p for i in (anchor, j.candidate.part) if i is not None for p, _ in (*i.parts, *i.inner_parts)]
    fault = j.candidate.faults[0]
    meant = [
        q for q in qualities if any((g := lexicon.gives.get((p, q))) and fault in g.faults for p in parts)
    ]
    return any(q in lexicon.sets.neutral for q in meant or qualities)


def may_yield(j: Judged) -> bool:
    """Whether a finding says nothing that is bad in itself and is stressed by nothing."""
    return j.candidate.origin == "like" or (j.degree is None and not j.stressed and j.status == "present")


def too_much_only(j: Judged) -> bool:
    """Whether what is found is a fault only where it is too much: `stop well marked`."""
    return bool(set("!~") & set(j.candidate.marks)) and not j.stressed
