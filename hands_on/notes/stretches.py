"""A note in stretches that are read apart.

A stretch is a sentence that names what it speaks of, with the remarks behind it that do not (`Not really.`,
`Much too long.`, `As it should be.`). What one stretch praises or doubts never touches a finding in another,
and the time a note takes grows with its length alone.
"""

from dataclasses import replace

from hands_on.notes.clauses import Parsed, Segment
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.topics import names_part

__all__ = ["stretches"]


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


def _sentences(segments: list[Segment]) -> list[tuple[int, int]]:
    cuts = [n for n, s in enumerate(segments) if n and s.sep == "stop"]
    return list(zip([0, *cuts], [*cuts, len(segments)], strict=True)) if segments else []


def _stands_alone(sentence: list[Segment], before: list[Segment], parsed: Parsed, lexicon: Lexicon) -> bool:
    """Whether a sentence names what it speaks of and takes nothing back."""
    if sentence[0].corrects or not any(names_part(s) for s in sentence):
        return False
    text, hearsay = parsed.tokens.text, lexicon.sets.hearsay
    return hearsay.isdisjoint(text[before[0].start : before[-1].end])
