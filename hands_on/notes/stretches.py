"""A note in stretches that are read apart.

A stretch is a sentence that names what it speaks of, with the remarks behind it that do not (`Not really.`,
`Much too long.`, `As it should be.`). What one stretch praises or doubts never touches a finding in another,
and the time a note takes grows with its length alone.
"""

from dataclasses import replace
from typing import Final

from hands_on.notes.clauses import Parsed, Segment
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.topics import NO_PART, names_part

__all__ = ["screens", "stretches"]

_SURE: Final = 0.1
_CRITIQUE: Final = 3
"""So many sentences and regions, a note goes over the whole dog: the screen says nothing of it."""


def stretches(parsed: Parsed, lexicon: Lexicon) -> list[Parsed]:
    """The stretches of a parsed note, in order; together they hold all its clauses."""
    groups: list[list[Segment]] = []
    for start, end in _sentences(parsed.segments):
        sentence = parsed.segments[start:end]
        if groups and not _stands_alone(sentence, groups[-1], parsed, lexicon):
            groups[-1].extend(sentence)
        else:
            groups.append(list(sentence))
    if len(groups) < 2:
        return [parsed]
    talk = sorted(parsed.talk, key=lambda m: m.start)
    places = sorted(parsed.places, key=lambda p: p.start)
    out: list[Parsed] = []
    t = p = 0
    for number, group in enumerate(groups):
        end = len(parsed.tokens) if number + 1 == len(groups) else groups[number + 1][0].start
        t0, p0 = t, p
        while t < len(talk) and talk[t].start < end:
            t += 1
        while p < len(places) and places[p].start < end:
            p += 1
        out.append(replace(parsed, segments=group, talk=talk[t0:t], places=places[p0:p]))
    return out


def screens(parts: list[Parsed], lexicon: Lexicon, region: str | None) -> list[str | None]:
    """The region that each stretch is read under: the screen's; in a critique the one it speaks of itself."""
    named = [_regions(part, lexicon) for part in parts]
    if len(parts) < _CRITIQUE or len(set().union(*named)) < _CRITIQUE:
        return [region] * len(parts)
    return [region if own == {_twin(region)} else next(iter(own)) if len(own) == 1 else None for own in named]


def _twin(region: str | None) -> str:
    """Toes are named alike in front and behind: the screen tells."""
    return {"hindfeet": "forefeet", "forefeet": "hindfeet"}.get(region or "", "")


def _regions(parsed: Parsed, lexicon: Lexicon) -> set[str]:
    """The regions of the parts that a stretch names; movement where it speaks of nothing else."""
    own = {
        lexicon.part_region[name]
        for segment in parsed.segments
        for item in segment.items
        for name, cost in (*item.parts, *item.inner_parts)
        if cost < _SURE and name not in NO_PART
    }
    moving = any(place.value == "moving" for place in parsed.places)
    return own or ({"movement"} if moving else set())


def _sentences(segments: list[Segment]) -> list[tuple[int, int]]:
    cuts = [n for n, s in enumerate(segments) if n and s.sep == "stop"]
    return list(zip([0, *cuts], [*cuts, len(segments)], strict=True)) if segments else []


def _moves(segment: Segment, lexicon: Lexicon) -> bool:
    """`Paces.`: what is only said of a dog in motion needs no part."""
    return len(segment.items) == 1 and any(
        cost < _SURE and q in lexicon.lone and lexicon.regions[lexicon.lone[q].faults[0]] == "movement"
        for q, cost in segment.items[0].qualities
    )


def _stands_alone(sentence: list[Segment], before: list[Segment], parsed: Parsed, lexicon: Lexicon) -> bool:
    """Whether a sentence names what it speaks of and takes nothing back."""
    if sentence[0].corrects or not any(names_part(s) or _moves(s, lexicon) for s in sentence):
        return False
    text, hearsay = parsed.tokens.text, lexicon.sets.hearsay
    return hearsay.isdisjoint(text[before[0].start : before[-1].end])
