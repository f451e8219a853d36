"""Which parts a clause names beside what may be right of them, and whose a phrase without a part is."""

from collections.abc import Iterable
from typing import Final

from hands_on.notes.clauses import Segment
from hands_on.notes.context import Context
from hands_on.notes.matching import Match
from hands_on.notes.right_points import Words
from hands_on.notes.topics import NO_PART

__all__ = ["DEAREST", "beside", "mere_goal", "mere_side", "of_another", "parts_of"]

DEAREST: Final = 0.3
"""The dearest slip of a word that still names a part or affirms."""


_TOWARDS: Final = frozenset({"into", "towards", "behind", "above", "below", "over", "onto", "against"})
_FROM_TO: Final = frozenset({
    "to", "reaches", "reach", "reaching", "meets", "joins", "at", "from", "between", "round", "around", "on",
    "forward", "off",
})  # fmt: skip
"""Before a part they make it a place: `black on nose and pads`, `bone carried down to the toe`."""
_REACHES: Final = frozenset({"reaches", "reaching", "reached", "reach"})
_AS_FAR_AS: Final = frozenset({
    "the", "to", "down", "back", "just", "right", "below", "past", "a", "his", "her", "elbow", "hock",
})  # fmt: skip
_SET_ON: Final = frozenset({"set", "on", "in"})
"""The `set on` of a neck or an ear, which alone names the tail's."""


def parts_of(segment: Segment) -> Iterable[tuple[str, Words]]:
    """The parts a clause names, with their words."""
    for item in segment.items:
        for name, cost in (*item.parts, *item.inner_parts):
            if cost < DEAREST:
                yield name, item.used
    for right in segment.right:
        yield from right.parts


def beside(context: Context, number: int, parts: frozenset[str], match: Match) -> tuple[str, Words] | None:
    """In which way one of the parts is spoken of beside a state, and the words that name it."""
    segments = context.parsed.segments
    here = list(parts_of(segments[number]))
    if here and number and segments[number].sep == "and" and _only_names(context, number - 1):
        here = [*parts_of(segments[number - 1]), *here]  # `shoulder and upper arm are well placed`
    for name, used in here:
        if _is_landmark(context, used):
            continue
        if name in parts and (name not in _own(segments[number], match) or _lent(context, name, used)):
            return "state", used
    if any(not set(used) <= set(match.used) for _, used in here):
        return None
    for back in reversed(range(context.topic(number).start, number)):
        earlier = list(parts_of(segments[back]))
        if earlier:
            return next((("carried", used) for name, used in earlier if name in parts), None)
    screen = context.lexicon.region_parts.get(context.region or "", ())[:1]
    return ("screen", ()) if parts.intersection(screen) else None


def mere_goal(context: Context, used: Words) -> bool:
    """The withers of `neck flows well into the withers`."""
    text, at = context.parsed.tokens.text, min(used)
    if text[at] in _REACHES and len(used) == 1 and text[at + 1 : at + 2] and text[at + 1] in _AS_FAR_AS:
        return True  # `reaches to the hock`
    back = at
    while back > 0 and text[back - 1] in context.lexicon.drop and text[back - 1] not in _FROM_TO:
        back -= 1
    led = text[max(0, min(at - 2, back - 1)) : at]
    return not _TOWARDS.isdisjoint(led) or not _FROM_TO.isdisjoint(text[max(0, back - 1) : back])


def _is_landmark(context: Context, used: Words) -> bool:
    """The elbow of `depth right there at the elbow where you want it`: how far, and not what is praised."""
    text, at = context.parsed.tokens.text, min(used, default=0)
    return text[max(0, at - 2) : at] in (["to", "the"], ["at", "the"])


def mere_side(context: Context, used: Words, parts: list[tuple[str, Words]]) -> bool:
    """The `spring` of `pasterns have the right spring`: a side of a part named with it."""
    text, sides = context.parsed.tokens.text, context.lexicon.sets.dimensions
    mere = all(text[i] in sides or text[i] in context.lexicon.drop for i in used)
    return mere and any(set(used).isdisjoint(other) for name, other in parts if name not in NO_PART)


def _only_names(context: Context, number: int) -> bool:
    """Whether a clause says no more than the part it names: the list goes on behind its `and`."""
    segment, text = context.parsed.segments[number], context.parsed.tokens.text
    named = {i for item in segment.items if item.parts and not item.qualities for i in item.used}
    return bool(named) and all(
        i in named or text[i] in context.lexicon.drop for i in range(segment.start, segment.end)
    )


def of_another(context: Context, number: int, point: str, match: Match) -> bool:
    """Whether a phrase that names no part stands in a clause that speaks of another region's.

    `ear set on correct`: nothing of the tail; `front well angulated`: nothing of the hindquarters.
    """
    segment = context.parsed.segments[number]
    if _is_landmark(context, match.used):
        return True
    if any(_lent(context, name, used) and point != "eyes.colour" for name, used in parts_of(segment)):
        return True
    regions, home = context.lexicon.part_region, context.lexicon.points[point].region
    named = {name for name, used in parts_of(segment) if not mere_goal(context, used)}
    own = _own(segment, match)
    mere = own - _full_names(context, segment, match)
    if named and named <= mere:
        named = _carried_on(context, number)
    others = {regions.get(name, home) for name in named - own - NO_PART}
    return bool(others) and home not in others and (not own or own == mere)


def _carried_on(context: Context, number: int) -> set[str]:
    """The parts that the topic of a clause named last: the neck of `neck of good length, set on nicely`."""
    for back in reversed(range(context.topic(number).start, number)):
        named = {name for name, _ in parts_of(context.parsed.segments[back])}
        if named:
            return named
    return set()


def _lent(context: Context, name: str, used: Words) -> bool:
    """The `colour` of `eyes: shape right, colour right`: lent to the eye before it (`clauses`)."""
    text = context.parsed.tokens.text
    return name == "eye" and not {text[i] for i in used}.isdisjoint(("colour", "color")) and len(used) == 1


def _full_names(context: Context, segment: Segment, match: Match) -> set[str]:
    """Parts that the words of a match name by more than a side of them: not the `spring` of pasterns."""
    text, sides = context.parsed.tokens.text, context.lexicon.sets.dimensions
    return {
        name
        for name, used in parts_of(segment)
        if set(used) <= set(match.used) and not all(text[i] in sides or text[i] in _SET_ON for i in used)
    }


def _own(segment: Segment, match: Match) -> set[str]:
    """Parts that only the words of the match itself may name: the `marked` of `withers well marked`."""
    elsewhere = {name for name, used in parts_of(segment) if not set(used) <= set(match.used)}
    inside = {name for name, used in parts_of(segment) if set(used) <= set(match.used)}
    return inside - elsewhere
