"""How sure a finding is, and whether that is enough to take it without asking.

The weights stand in the language file under [confidence]; they come from a logistic regression on labelled
notes (see tests/bench/calibrate.py).
"""

from math import exp

from hands_on.notes.binding import Candidate
from hands_on.notes.clauses import Parsed
from hands_on.notes.extent import Judged
from hands_on.notes.lexicon import Lexicon


def features(parsed: Parsed, j: Judged, lexicon: Lexicon, region: str | None) -> dict[str, float]:
    """The evidence for a finding, by name; each about 0 to 1."""
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
    if parsed.content < 0:
        _explain(parsed, lexicon)
    unread = len(parsed.unexplained) - len(parsed.unexplained.intersection(c.words))
    fault_region = lexicon.regions.get(c.faults[0], "")
    return {
        "one": 1.0,
        f"origin.{c.origin}": 1.0,
        "cost": c.cost,
        "cost.high": 1.0 if c.cost >= 0.4 else 0.0,
        "ambiguous": 1.0 if c.ambiguous else 0.0,
        "other.region": 1.0 if region and fault_region and fault_region != region else 0.0,
        "foreign": min(c.foreign, 2) / 2,
        "unknown": min(unknown, 4) / 4,
        "unread": unread / parsed.content if parsed.content else 0.0,
        "praised": 1.0 if j.praised else 0.0,
        "unsure": 1.0 if j.status == "unsure" else 0.0,
        "absent": 1.0 if j.status == "absent" else 0.0,
        "one.word": 1.0 if len(c.words) == 1 else 0.0,
    }


def _explain(parsed: Parsed, lexicon: Lexicon) -> None:
    """Count the words that say something, and note those that no finding explains; once for a note."""
    tokens = parsed.tokens
    parsed.content = 0
    for segment in parsed.segments:
        told = {i for t in segment.talk for i in range(t.start, t.end)}
        bound = {i for item in segment.items if item.bound for i in item.used}
        for i in range(segment.start, segment.end):
            if tokens.number[i] or tokens.text[i] in lexicon.drop or i in told:
                continue
            parsed.content += 1
            if i not in bound:
                parsed.unexplained.add(i)


def probability(parsed: Parsed, j: Judged, lexicon: Lexicon, region: str | None) -> float:
    """The probability that fault and status are what was meant."""
    weights = lexicon.confidence
    total = sum(
        weights.get(name, 0.0) * value for name, value in features(parsed, j, lexicon, region).items()
    )
    return 1.0 / (1.0 + exp(-max(-30.0, min(30.0, total))))


def accepted(p: float, candidate: Candidate, lexicon: Lexicon) -> bool:
    """Whether to take the finding without asking: sure enough, and no second fault fits."""
    return p >= lexicon.confidence.get("accept", 0.9) and not candidate.ambiguous
