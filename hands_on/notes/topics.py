"""Which clauses speak of one part: a clause that names a part opens a topic, one that names none goes on."""

from typing import Final

from hands_on.notes.clauses import Parsed, Segment

__all__ = ["NO_PART", "names_part", "topics"]

NO_PART: Final = frozenset({"dog", "bitch", "body", "movement", "front", "rear", "legs", "height", "type"})
"""Parts so wide that what stands beside them may be said of another."""
_SURE: Final = 0.3
"""The dearest slip of a word that still counts as the part it may stand for."""


def names_part(segment: Segment) -> bool:
    """Whether a clause names a part, a fault outright, or a state that is right."""
    return any(right.parts for right in segment.right) or any(
        any(c < _SURE for _, c in (*item.faults, *item.late_faults))
        or any(c < _SURE and name not in NO_PART for name, c in (*item.parts, *item.inner_parts))
        for item in segment.items
    )


def topics(parsed: Parsed) -> list[int]:
    """For each clause the number of its topic.

    A clause that names a part opens a topic, where the one before has a part, a fault or a quality already;
    a clause that names none goes on with the topic it follows.
    """
    out: list[int] = []
    number = 0
    busy = False
    for at, segment in enumerate(parsed.segments):
        own = names_part(segment)
        forward = busy and _leads_on(parsed, at)
        if out and (segment.sep == "stop" or (own and busy and segment.sep not in ("and", "or")) or forward):
            number += 1
            busy = False
        busy = busy or own or any(item.qualities for item in segment.items)
        out.append(number)
    return out


def _leads_on(parsed: Parsed, at: int) -> bool:
    """The `strong` of `stern bulky, strong, short loin`: it praises what comes, not what was."""
    segment = parsed.segments[at]
    if names_part(segment) or segment.sep not in ("comma", "and") or at + 1 == len(parsed.segments):
        return False
    following = parsed.segments[at + 1]
    if segment.items and not _part_last(following):
        return False
    return (
        following.sep in ("comma", "and")
        and names_part(following)
        and any(i in parsed.praised for i in range(segment.start, segment.end))
    )


def _part_last(segment: Segment) -> bool:
    """Whether a clause says what its part is before it names it: `short loin`."""
    first = min(
        (
            *(min(used) for right in segment.right for _, used in right.parts),
            *(i.start for i in segment.items if i.parts and not i.qualities),
        ),
        default=segment.start,
    )
    return first > segment.start
