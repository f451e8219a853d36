"""The tone of a whole note: what some standard asks for is no fault in a note that only praises."""

from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged


def without_praised(context: Context, judged: list[Judged]) -> list[Judged]:
    """`ears high set, hanging close, lovely`: no fault where the note praises and finds nothing amiss.

    A state counts as asked when its fault is one that some standard asks for, the words say nothing bad of it
    (a neutral quality), and neither `too` nor a degree stresses it. One finding of another kind is enough for
    all to stand.
    """
    said = [j for j in judged if j.candidate.origin != "like"]
    contrast = any(s.sep == "contrast" for s in context.parsed.segments)
    if (
        not said
        or contrast
        or not (_praises(context) or _describes(context, said))
        or not all(may_be_asked(j, context) for j in said)
    ):
        return judged
    return []


def _praises(context: Context) -> bool:
    parsed = context.parsed
    if parsed.rightly or context.asked:
        return True
    text = parsed.tokens.text
    if any(w == "should" and "as" in text[max(0, i - 4) : i] for i, w in enumerate(text)):
        return True  # `hung low, as a hound's should`
    told = ("praise", "verdict", "asked")
    return any(t.kind in told for s in parsed.segments for t in s.talk)


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
    anchor = j.candidate.anchor
    qualities = [q for q, c in (*anchor.qualities, *anchor.inner_qualities) if c < 0.3]
    return any(q in lexicon.sets.neutral for q in qualities)
