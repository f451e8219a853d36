"""Spoken corrections: in `no, make that moderate` the later word takes the place of the earlier."""

from hands_on.notes.clauses import Parsed, Segment
from hands_on.notes.degrees_sides import Judged, earlier_findings
from hands_on.notes.lexicon import Lexicon

__all__ = ["corrected"]


def corrected(
    parsed: Parsed, judged: list[Judged], by_segment: dict[int, list[Judged]], lexicon: Lexicon
) -> list[Judged]:
    """The findings without those that were taken back; what replaces one keeps the degree and side unsaid."""
    gone: set[int] = set()
    for number, segment in enumerate(parsed.segments):
        bare = not segment.corrects and _bare_no(parsed, segment, lexicon)
        if not segment.corrects and not bare:
            continue
        earlier = [j for j in earlier_findings(by_segment, number, parsed.segments) if id(j) not in gone]
        if not earlier or (bare and _queried(parsed, earlier[-1])):
            continue
        later = _replacement(parsed, by_segment, number, lexicon, gone)
        if later is None:
            continue
        same = [j for j in earlier if j.candidate.faults[0] == later.candidate.faults[0]]
        for j in same:
            later.degree = later.degree or j.degree
            later.side = later.side or j.side
            gone.add(id(j))
        region = lexicon.regions.get(later.candidate.faults[0])
        last = earlier[-1]
        if not same and lexicon.regions.get(last.candidate.faults[0]) == region:
            gone.update(id(j) for j in earlier if j.candidate.anchor is last.candidate.anchor)
    return [j for j in judged if id(j) not in gone] if gone else judged


def _replacement(
    parsed: Parsed, by_segment: dict[int, list[Judged]], number: int, lexicon: Lexicon, gone: set[int]
) -> Judged | None:
    """The first finding after the correction in its sentence; one named only to be left out goes too."""
    retract = lexicon.sets.retract
    for at in range(number, len(parsed.segments)):
        segment = parsed.segments[at]
        if at > number and segment.sep == "stop":
            return None
        for j in by_segment.get(at, ()):
            if any(w in retract for w in parsed.tokens.text[segment.start : j.candidate.anchor.start]):
                gone.add(id(j))
                for earlier in earlier_findings(by_segment, number, parsed.segments):
                    if earlier.candidate.faults[0] == j.candidate.faults[0]:
                        gone.add(id(earlier))
                continue
            return j
    return None


def _bare_no(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    return segment.end - segment.start == 1 and parsed.tokens.text[segment.start] in lexicon.sets.no


def _queried(parsed: Parsed, j: Judged) -> bool:
    segment = parsed.segments[j.candidate.segment]
    return j.status == "unsure" or any(parsed.tokens.query_after[segment.start : segment.end])
