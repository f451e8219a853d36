"""Is a finding there, ruled out or in doubt; how strong; on which side: talk bound by its clause."""

from typing import Final

from hands_on.notes.candidates import Candidate
from hands_on.notes.clauses import Parsed, Segment, Talk
from hands_on.notes.context import Context
from hands_on.notes.corrections import corrected
from hands_on.notes.degrees_sides import (
    Judged,
    bind_degrees,
    bind_sides,
    earlier_findings,
    inside_talk,
    nothing_else,
    of_another_region,
)
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.no_fault import stands
from hands_on.notes.talk_of_clauses import talk_of_segments
from hands_on.notes.tone import may_be_asked, without_praised
from hands_on.notes.topics import NO_PART

__all__ = ["judge"]


def judge(context: Context, candidates: list[Candidate]) -> list[Judged]:
    """Bind the words of talk to the candidates."""
    parsed, lexicon = context.parsed, context.lexicon
    talk_of_segments(parsed, candidates, lexicon)
    judged = [Judged(c, words=list(c.words)) for c in candidates]
    by_segment: dict[int, list[Judged]] = {}
    for j in judged:
        by_segment.setdefault(j.candidate.segment, []).append(j)
    _status(parsed, by_segment, lexicon)
    bind_degrees(parsed, by_segment, lexicon)
    bind_sides(parsed, by_segment, lexicon)
    judged = _without_hearsay(parsed, judged, lexicon)
    judged = corrected(parsed, judged, by_segment, lexicon)
    judged = _without_reasons(parsed, judged)
    standing = [j for j in judged if stands(j, context)]
    context.silenced = [j for j in judged if j not in standing and asked_for(j)]
    judged = without_praised(context, standing)
    context.silenced += [j for j in standing if j not in judged]
    context.note_findings((j.candidate.segment, may_be_asked(j, context)) for j in judged)
    return judged


def asked_for(j: Judged) -> bool:
    """Whether the words name a state that is asked: `dark eye`, a fault only where it is too much."""
    return j.status == "present" and bool(set("!~") & set(j.candidate.marks))


def _without_hearsay(parsed: Parsed, judged: list[Judged], lexicon: Lexicon) -> list[Judged]:
    """`was told he fears shots; not gun-shy`: what was only reported yields to what was then ruled out."""
    ruled_out = {j.candidate.faults[0] for j in judged if j.status == "absent"}

    def reported(j: Judged) -> bool:
        segment = parsed.segments[j.candidate.segment]
        return any(
            w in lexicon.sets.hearsay for w in parsed.tokens.text[segment.start : j.candidate.anchor.start]
        )

    return [
        j for j in judged if j.status == "absent" or j.candidate.faults[0] not in ruled_out or not reported(j)
    ]


def _without_reasons(parsed: Parsed, judged: list[Judged]) -> list[Judged]:
    """`not roached, he's hunching from the cold`: the reason given for a denial is no finding of the same."""
    denied = {(j.candidate.faults[0], j.candidate.segment) for j in judged if j.status == "absent"}
    return [
        j
        for j in judged
        if j.status != "present"
        or parsed.segments[j.candidate.segment].sep != "comma"
        or (j.candidate.faults[0], j.candidate.segment - 1) not in denied
    ]


_ASKING: Final = frozenset(
    {"what", "who", "why", "where", "how", "which", "when", "whether", "if", "not", "or"}
)
_WHO: Final = frozenset({"he", "she", "it", "they", "this", "that", "these", "those"})


def _status(parsed: Parsed, by_segment: dict[int, list[Judged]], lexicon: Lexicon) -> None:
    segments = parsed.segments
    tokens = parsed.tokens
    carry_not: str | None = None
    carry_doubt = False
    then = {m.start for m in parsed.talk if any(kind == "then" for kind, _, _ in m.meanings)}
    for number, segment in enumerate(segments):
        here = by_segment.get(number, [])
        if segment.sep in ("start", "stop", "contrast"):
            carry_not, carry_doubt = None, False
        elif segment.sep == "comma":
            carry_doubt = carry_doubt and not by_segment.get(number - 1)
            if carry_not is not None and not _list_goes_on(parsed, number, carry_not in lexicon.wide_not):
                carry_not = None
        elif segment.sep == "and" and carry_not is not None and carry_not not in lexicon.wide_not:
            carry_not = None
        talk = segment.talk
        if any(t.kind == "praise" for t in talk):
            carry_not = None
        neutral = any(t.kind == "neutral" for t in talk)
        first_talk = [
            t for t in talk if t.kind in ("absent_before", "unsure_before", "double", "double_unsure")
        ]
        doubt_at = next((t.start for t in talk if t.kind in ("unsure_before", "double_unsure")), None)
        negations = [t for t in talk if t.kind == "absent_before"]
        double = any(t.kind == "double" for t in talk)
        after_absent = [t for t in talk if t.kind == "absent_after" and not _denies_what_comes(t, parsed)]
        after_unsure = [t for t in talk if t.kind == "unsure_after"]
        query = _asked(parsed, segment, lexicon)
        for j in here:
            at = j.candidate.anchor.start
            first = min(at, min(j.candidate.words))
            inner = range(at, j.candidate.anchor.end)  # `tail not carried gay`
            before = [
                t
                for t in {t.start: t for t in negations}.values()
                if t.start < at or (t.start in inner and t.start not in j.candidate.anchor.used)
            ]
            negated = bool(before) and not double and not _takes_back(before)
            if not before and carry_not is not None and not neutral:
                negated = True
            if any(t.start > first for t in after_absent if t.start >= j.candidate.anchor.end):
                negated = True
            gone = any("gone" in dict(i.qualities) and not i.bound and i.start >= at for i in segment.items)
            if gone and j.candidate.faults[0] not in lexicon.absence:
                negated = True
            doubtful = (doubt_at is not None and (doubt_at < at or not negated)) or carry_doubt
            doubtful = doubtful or any(t.start >= j.candidate.anchor.end for t in after_unsure) or query
            if doubtful:
                j.status = "unsure"
            elif negated:
                j.status = "absent"
            j.words.extend(i for t in before for i in range(t.start, t.end))
        if not here and then.isdisjoint(range(segment.lead, segment.end)):
            alone = not any(i.bound for i in segment.items)
            sure = any(t.end - t.start > 1 and parsed.tokens.text[t.end - 1] != "not" for t in after_absent)
            if after_absent and not sure and not nothing_else(parsed, segment, lexicon):
                after_absent = []
            earlier = earlier_findings(by_segment, number, segments)
            if tokens.text[segment.start] == "there":
                earlier = [j for j in earlier if not _named_by_denial(parsed, j, lexicon)]
            alone = alone and not of_another_region(segment, earlier, lexicon)
            if alone and earlier and _was_once(parsed, segments, number, lexicon):
                for j in earlier:
                    j.status = "absent"
            elif (
                alone and earlier and any(t.kind == "there_after" for t in segment.talk) and not after_absent
            ):
                for j in earlier:
                    if j.candidate.faults[0] in lexicon.absence and j.status == "present" and not negations:
                        j.status = "absent"
            elif alone and earlier and _ends_denied(parsed, segment, lexicon):
                for j in earlier:
                    j.status, j.denied_later = "absent", True
            elif (
                alone
                and earlier
                and not any(i.qualities and not inside_talk(i, segment) for i in segment.items)
            ):
                if after_unsure or (query and not after_absent) or _only_doubt(parsed, segment, lexicon):
                    for j in earlier:
                        if after_absent and j.status == "unsure":
                            j.status = "absent"  # `wry mouth suspected last time, not confirmed`
                        elif j.status != "absent" or not after_absent:
                            j.status = "unsure"
                elif (after_absent or _only_not(segment)) and (segment.sep != "and" or sure):
                    lack = all(str(t.value) in lexicon.not_there for t in after_absent)
                    lack = lack or _names_a_side(segment)
                    for j in earlier:
                        missing = lack and j.candidate.faults[0] in lexicon.absence
                        if missing and not _looked_for(parsed, j, lexicon):
                            continue
                        if _of_one_side(segments[j.candidate.segment]) and _names_a_side(segment):
                            continue  # `left foot turns in; none of that on the right`
                        if j.status == "present" or (j.status == "unsure" and (sure or _only_not(segment))):
                            j.status, j.denied_later = "absent", True
        if _found_in_order(parsed, by_segment, number, lexicon):
            for j in here:
                if j.status == "present" and _looked_for(parsed, j, lexicon):
                    j.status = "absent"
        if negations and first_talk and not neutral and not double:
            carry_not = str(negations[-1].value)
        if doubt_at is not None:
            carry_doubt = True


def _denies_what_comes(talk: Talk, parsed: Parsed) -> bool:
    """Words that only seem to deny what stands before them.

    The `no` of `flat feet no knuckle anywhere`, the `no more` of `slightly ewe-necked, no more`, the `I do
    not feel` of `fat, I do not feel one rib`, the `not seen one` of `long neck, I had not seen one before`.
    """
    tokens = parsed.tokens
    said = tokens.text[talk.start : talk.end]
    goes_on = talk.end < len(tokens) and not tokens.brk[talk.end]
    closing = tokens.text[talk.end : talk.end + 1] in (["any"], ["it"], ["that"], ["them"])
    own = said[0] == "i" and "not" in said and not closing
    return (
        (goes_on and (said in (["no"], ["never"]) or own))
        or (said == ["no", "more"] and bool(tokens.brk[talk.start]))
        or tokens.text[talk.end : talk.end + 1] == ["before"]
    )


def _was_once(parsed: Parsed, segments: list[Segment], number: int, lexicon: Lexicon) -> bool:
    """`toed out as a puppy, but he's straight now`: then is told of, and now it is otherwise."""
    text, segment = parsed.tokens.text, segments[number]
    if "now" not in text[segment.start : segment.end] or segment.sep in ("start", "stop"):
        return False
    start = segments[number - 1].start
    return not lexicon.sets.once.isdisjoint(text[start : segment.lead])


def _takes_back(before: list[Talk]) -> bool:
    """Whether one negation denies another beside it; in `no kinks no bumps` each denies its own."""
    return len(before) % 2 == 0 and before[-1].start == before[-2].end


def _ends_denied(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    """`thought she was roached; with her standing square she isn't`: said to its end, nothing follows."""
    text = parsed.tokens.text[segment.start : segment.end]
    if any(name not in NO_PART for item in segment.items for name, cost in item.parts if cost < 0.3):
        return False
    return len(text) > 1 and text[-1] == "not" and text[-2] in lexicon.sets.auxiliary


def _names_a_side(segment: Segment) -> bool:
    return any(t.kind == "side" for t in segment.talk)


def _of_one_side(segment: Segment) -> bool:
    return len({t.value for t in segment.talk if t.kind == "side"} & {"left", "right"}) == 1


def _looked_for(parsed: Parsed, j: Judged, lexicon: Lexicon) -> bool:
    """`looked for missing teeth, none`: what was sought is named by its lack already."""
    segment = parsed.segments[j.candidate.segment]
    words = parsed.tokens.text[segment.start : j.candidate.anchor.start]
    return any(w in lexicon.sets.looking for w in words)


def _named_by_denial(parsed: Parsed, j: Judged, lexicon: Lexicon) -> bool:
    """`where is the bend of stifle? There isn't one.`: a lack that is said twice is none the less."""
    return any(parsed.tokens.text[i] in lexicon.sets.denying for i in j.candidate.anchor.used)


def _found_in_order(
    parsed: Parsed, by_segment: dict[int, list[Judged]], number: int, lexicon: Lexicon
) -> bool:
    """`checked for a wry mouth and it's fine`: what follows finds nothing and praises."""
    following = parsed.segments[number + 1 : number + 2]
    if not following or by_segment.get(number + 1) or following[0].sep == "or":
        return False
    plain = not any(i.parts or i.faults for i in following[0].items)
    return plain and any(t.kind in ("praise", "verdict", "absent_after") for t in following[0].talk)


def _list_goes_on(parsed: Parsed, number: int, wide: bool) -> bool:
    """`no haw, entropion or ectropion`: does an `or` follow before the list breaks off?"""
    segments = parsed.segments
    for segment in segments[number:]:
        if segment.sep in ("stop", "contrast"):
            return False
        if any(t.kind in ("absent_before", "praise") for t in segment.talk):
            return False
        if segment.sep == "or" or (wide and segment.sep == "and"):
            return True
    return False


def _asked(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    """Whether a clause is asked. `her shoulder is upright?` states it, whatever mark stands behind it."""
    tokens = parsed.tokens
    if any(tokens.query_before[i] for i in range(segment.start, segment.end)):
        return True
    last = segment.end - 1
    return last >= 0 and bool(tokens.query_after[last]) and not _states(parsed, segment, lexicon)


def _states(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    """Whether somebody or something goes before the verb of a clause: `they're short`, `the eye is light`."""
    text, sets = parsed.tokens.text, lexicon.sets
    said = [w for w in text[segment.start : segment.end] if w not in sets.leading and w not in lexicon.drop]
    full = text[segment.start : segment.end]
    verbs = [i for i, w in enumerate(full) if w in sets.auxiliary]
    if not said or not verbs or verbs[0] == 0:
        return False
    before = full[: verbs[0]]
    return _ASKING.isdisjoint(before) and any(w in _WHO or w not in lexicon.filler for w in before)


def _only_not(segment: Segment) -> bool:
    return segment.end - segment.start == 1 and any(t.kind == "absent_before" for t in segment.talk)


def _only_doubt(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    doubt = [t for t in segment.talk if t.kind in ("unsure_before", "double_unsure")]
    if not doubt:
        return False
    covered = {i for t in segment.talk for i in range(t.start, t.end)}
    rest = [i for i in range(segment.start, segment.end) if i not in covered]
    return all(parsed.tokens.text[i] in lexicon.filler for i in rest)
