"""What stands beside words of praise: a side and no praise, a wish, a list of parts, one side of a part."""

from collections.abc import Sequence
from typing import Final

from hands_on.notes.clauses import Segment
from hands_on.notes.context import Context
from hands_on.notes.matching import Match
from hands_on.notes.parts_said import parts_of
from hands_on.notes.right_points import Said, Words

__all__ = ["GOES_ON", "asks", "mere_description", "names_a_side", "only_parts", "tells_a_side"]

_OUGHT: Final = frozenset({"should", "ought", "must"})
_RIGHT_TO: Final = frozenset(
    {
        "to",
        "at",
        "up",
        "down",
        "behind",
        "along",
        "across",
        "through",
        "into",
        "under",
        "onto",
        "beside",
        "past",
    }
)
_OF_IT: Final = frozenset({"the", "his", "her", "its"})
GOES_ON: Final = frozenset(
    {"and", "but", "for", "in", "now", "too", "enough", "as", "where", "there", "on", "with"}
)
"""Behind praise they open what comes next."""
_TOLD: Final = frozenset({"praise", "verdict"})
_AS_IT: Final = frozenset({"as", "like", "where", "what", "way", "so", "just"})


def tells_a_side(context: Context, match: Match) -> bool:
    """A side, and no praise: `right elbow`, `elbow right goes out`; nor is `right to the elbow` one."""
    tokens, paired = context.parsed.tokens, context.lexicon.sets.paired
    behind, sides = paired | _RIGHT_TO, context.lexicon.sets.dimensions
    for i in match.used:
        following = tokens.text[i + 1 : i + 3] if not tokens.brk[i + 1] else []
        if tokens.text[i] != "right" or not following or following[0] in sides:
            continue
        if following[0] in _RIGHT_TO and not {i + 1, i + 2}.isdisjoint(match.used):
            continue  # `carried right down`
        part = i > 0 and tokens.text[i - 1] in paired and not tokens.brk[i]
        if following[0] == "in" and following[1:] and following[1] in _OF_IT:
            return True  # `drops right in the track`
        if following[0] in behind or not paired.isdisjoint(following):
            return True
        if part and following[0] not in GOES_ON:
            return True
    return False


def asks(context: Context, match: Match) -> bool:
    """The `ought` of `they ought to be gone`; `set as it ought to be` praises."""
    text = context.parsed.tokens.text
    return any(
        text[i] in _OUGHT and _AS_IT.isdisjoint(text[max(0, i - 4) : i]) and text[i - 1 : i] != ["so"]
        for i in match.used
    )


def only_parts(context: Context, segment: Segment) -> bool:
    """The `bone` of `good size and bone`: a clause that goes on with the list of what is praised."""
    text, lexicon = context.parsed.tokens.text, context.lexicon
    named = {
        i
        for item in segment.items
        if not (item.faults or item.late_faults or item.qualities)
        for i in item.used
    }
    return all(
        i in named or text[i] in lexicon.drop or text[i] in lexicon.filler
        for i in range(segment.start, segment.end)
    )


def names_a_side(context: Context, segment: Segment, parts: list[tuple[str, Words]]) -> bool:
    """`correct length of croup`: a side of the part is praised, not the part."""
    text, dimensions = context.parsed.tokens.text, context.lexicon.sets.dimensions
    own = {i for _, used in parts for i in used}
    return any(text[i] in dimensions and i not in own for i in range(segment.start, segment.end))


def mere_description(context: Context, said: Said, others: Sequence[Said]) -> bool:
    """`short loin` alone: nobody calls it right, and nothing else that is right stands beside it."""
    segments = context.parsed.segments
    sentence = context.sentence(context.clause_of(min(said.words)))
    if any(t.kind in _TOLD for n in sentence for t in segments[n].talk):
        return False
    return all(_only_describes(context, o, said.point) for o in (said, *others))


def _only_describes(context: Context, said: Said, point: str) -> bool:
    """Whether it is of the point, and says no more than a word that may be its departure as well."""
    known = context.lexicon.points.get(point)
    if said.point != point or known is None:
        return False
    text = context.parsed.tokens.text
    bare = {w for w in context.lexicon.sets.bare if any(f.endswith(w) for f in known.departures)}
    named = {
        i
        for segment in context.parsed.segments
        for _, used in parts_of(segment)
        for i in used
        if text[i] not in ("coupled", "coupling")
    }
    described = {i for i in said.state if text[i] in bare}
    return bool(described) and said.state - described <= named
