"""Which findings stand: praise of what is asked, chatter and talk of people give none."""

from hands_on.notes.clauses import Item, Parsed, Segment
from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged, has_praise
from hands_on.notes.elsewhere import of_another_day, of_another_dog
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.tokens import NONE
from hands_on.notes.tone import neutral, only_side_praised

__all__ = ["is_of_others", "stands"]

_LOOSE = frozenset({"bare", "lone", "carry", "place", "whole"})


def stands(j: Judged, context: Context) -> bool:
    """Whether the words really speak of a fault of this dog."""
    parsed, lexicon = context.parsed, context.lexicon
    candidate = j.candidate
    segment = parsed.segments[candidate.segment]
    tokens = parsed.tokens
    anchor = candidate.anchor
    if (of_another_dog(context, anchor.end) and not j.denied_later) or of_another_day(context, j):
        context.elsewhere.update(candidate.words)
        return False
    if j.status == "present" and _equals(j, parsed):
        return False
    spoken = _stressed(parsed, segment, anchor, lexicon) or _regretted(parsed, segment, lexicon)
    ruled = j.status == "absent"
    measured = j.degree is not None and any(w in lexicon.sets.measured for w in j.degree_words)
    asking = _asking(j, lexicon)
    stress = spoken or ruled or (j.degree is not None and not asking and not measured)
    loose = candidate.origin in _LOOSE
    j.praised = _praises_it(segment, j)
    if "?" in candidate.marks and j.status == "present":
        return False
    if "?" in candidate.marks and j.status == "absent":
        j.status = "present"
    j.stressed = stress or (j.degree is not None and not asking and not measured)
    if "!" in candidate.marks and not spoken and not ruled and (j.degree is None or measured):
        return False
    if candidate.origin == "bare" and j.degree == "marked" and not ruled and _of_sex(j):
        return False  # `very feminine`: so is a bitch to be; of a dog it is said with `dog`, or with `too`
    if not ruled and not spoken and _of_own_sex(j, parsed):
        return False
    if "~" in candidate.marks and not spoken and not ruled and asking:
        context.asked.add(context.topic(candidate.segment).start)
        return False
    if any(
        t.kind == "contrast" and t.start < anchor.start and t.value.split()[0] in lexicon.sets.instead
        for t in segment.talk
    ):
        return False  # `wiry instead of soft`
    before_it = tokens.text[max(segment.start, anchor.start - 2) : anchor.start]
    if candidate.origin != "phrase" and any(w in lexicon.sets.ought for w in before_it):
        return False
    weak = not stress or ("!" in candidate.marks and not spoken and not ruled)
    if j.praised and candidate.origin != "phrase" and weak:
        return False
    mild = j.degree in ("slight", "moderate") and not spoken and not ruled
    if (not stress or mild) and _as_asked(j, context, mild):
        return False
    if (
        not stress
        and candidate.origin != "phrase"
        and (neutral(j, context) or _sought(j, context))
        and _praise_beside(j, context, loose)
    ):
        return False
    return not _of_people(parsed, j, lexicon, loose) and not _chatter(j, context, loose)


_OF_THE_DOG = frozenset({"the", "his", "her", "its"})


def _equals(j: Judged, parsed: Parsed) -> bool:
    """`upper arm as long as the blade`, `as wide as her hips`: like another part of the dog, no fault."""
    text, own = parsed.tokens.text, set(j.candidate.words)
    for at in range(max(1, j.candidate.anchor.start), min(j.candidate.anchor.end + 1, len(text) - 2)):
        led = text[at - 1] == "as" and text[at + 1] == "as" and at in own
        if led and text[at + 2] in _OF_THE_DOG:
            return at + 3 in own or any(
                i.parts and i.start == at + 3 for s in parsed.segments for i in s.items
            )
    return False


def _praises_it(segment: Segment, j: Judged) -> bool:
    """Whether a clause's praise may be of a finding.

    Not that of `well muscled thigh straight in stifle`, nor what is denied: `elbows out and can't move true`.
    """
    own, first, last = set(j.candidate.words), min(j.candidate.words), j.candidate.anchor.end
    denials = [t.start for t in segment.talk if t.kind == "absent_before" and t.start >= last]
    parts = [i for i in segment.items if (i.parts or i.inner_parts) and own.isdisjoint(i.used)]
    return any(
        t.kind == "praise"
        and not any(at < t.start for at in denials)
        and not any(t.start < p.end and p.start < first and t.end < first for p in parts)
        for t in segment.talk
    )


def _of_sex(j: Judged) -> bool:
    """Whether a state is right for one sex and amiss for the other."""
    words = set(j.degree_words)
    return "too" not in words and any(q in ("masculine", "feminine") for q, _ in j.candidate.anchor.qualities)


_FEMALE = frozenset({"bitch", "girl", "she", "her", "female", "lady"})
_MALE = frozenset({"dog", "boy", "he", "his", "him", "male", "lad"})


def _of_own_sex(j: Judged, parsed: Parsed) -> bool:
    """`a very feminine bitch`: her own sex only, and no other, is named beside it."""
    said = {parsed.tokens.text[i] for i in parsed.span if i not in j.candidate.words}
    own, other = {
        "general.bitchy-dog": (_FEMALE, _MALE),
        "general.doggy-bitch": (_MALE, _FEMALE),
    }.get(j.candidate.faults[0], (frozenset(), frozenset()))
    return not own.isdisjoint(said) and other.isdisjoint(said)


def _sought(j: Judged, context: Context) -> bool:
    """`checked for a kink, tail is clean`: what was looked for is not yet found."""
    segment = context.parsed.segments[j.candidate.segment]
    words = context.parsed.tokens.text[segment.start : j.candidate.anchor.start]
    return not context.lexicon.sets.looking.isdisjoint(words)


def _asking(j: Judged, lexicon: Lexicon) -> bool:
    """Whether a standard asks for a state in this degree: `slightly arched`, `moderate tuck up`."""
    return j.degree in ("slight", "moderate") and any(w in lexicon.sets.asking for w in j.degree_words)


# -- praise


def _as_asked(j: Judged, context: Context, mild: bool) -> bool:
    """`harsh jacket, dense undercoat, as it should be`: a verdict speaks of what is before it.

    Of other parts, and of what is said with a degree, only where the words say nothing bad in themselves.
    """
    parsed, lexicon, number = context.parsed, context.lexicon, j.candidate.segment
    segments = parsed.segments
    plain = neutral(j, context)
    if mild and not plain:
        return False
    for at in range(number, len(segments)):
        segment = segments[at]
        if at > number:
            if segment.sep == "stop" and not _only_verdict(parsed, segment):
                return False
            if (
                segment.sep in ("contrast", "or")
                or (segment.right and not plain)
                or (segment.sep == "and" and _names_part(segment))
            ):
                return False  # `and dense undercoat, as it should be`: so the undercoat is
        denying = lexicon.sets.denying
        verdict = [
            t
            for t in segment.talk
            if t.kind == "verdict"
            and (at > number or t.end - t.start > 1 or not any(i.faults for i in segment.items))
            and denying.isdisjoint(parsed.tokens.text[max(segment.start, t.start - 3) : t.start])
        ]
        if not verdict or any(
            w in lexicon.sets.rest for w in parsed.tokens.text[segment.start : segment.end]
        ):
            continue
        near = plain or context.topics[at] == context.topics[number]
        other = segment.right or any(i.parts or i.faults for i in segment.items)
        if at == number or (near and not other):
            return True
    return False


def _names_part(segment: Segment) -> bool:
    return bool(segment.right) or any(i.parts or i.inner_parts for i in segment.items)


def _only_verdict(parsed: Parsed, segment: Segment) -> bool:
    return not segment.items and any(t.kind == "verdict" for t in segment.talk)


def _praise_beside(j: Judged, context: Context, before: bool) -> bool:
    """`powerful thighs, broad and well muscled`: what is joined to praise of the same part is praise."""
    parsed, lexicon, topics = context.parsed, context.lexicon, context.topics
    number, carried = j.candidate.segment, j.candidate.origin == "carry"
    segments = parsed.segments
    if (
        before
        and number > 0
        and segments[number].sep in ("and", "comma")
        and topics[number - 1] == topics[number]
        and has_praise(segments[number - 1])
        and not only_side_praised(j, segments[number - 1], context)
    ):
        return True
    if number + 1 >= len(segments) or segments[number + 1].sep not in ("and", "comma"):
        return False
    following = segments[number + 1]
    if topics[number + 1] != topics[number] and not _sought(j, context):
        return False
    if not has_praise(following) or (not before and following.sep != "comma"):
        return False
    words = parsed.tokens.text[following.start : following.end]
    letters = lexicon.sides.left_if_part | lexicon.sides.right_if_part
    if any(t.kind == "side" for t in following.talk) or any(w in letters for w in words):
        return False
    strict = carried or not before
    return not any(i.bound or (strict and i.parts and not i.qualities) for i in following.items)


def _stressed(parsed: Parsed, segment: Segment, anchor: Item, lexicon: Lexicon) -> bool:
    tokens = parsed.tokens
    words = lexicon.sets.stress
    inside = lexicon.sets.stress_inside
    for i in range(anchor.end - 1, max(segment.start - 1, anchor.start - 4), -1):
        last = i + 1 >= len(tokens) or i + 1 >= anchor.end
        heard = i >= anchor.start and (
            last or tokens.text[i + 1] in lexicon.drop or tokens.text[i + 1] in lexicon.setting
        )
        if tokens.text[i] in (inside if heard else words):
            return True
        if i <= anchor.start and tokens.brk[i] != NONE:
            break
    if tokens.text[anchor.end : anchor.end + 1] == ["much"]:
        return True
    told = {i for s in parsed.segments for t in s.talk if t.kind == "verdict" for i in range(t.start, t.end)}
    compared = lexicon.sets.compared
    return any(
        tokens.text[i] in compared and i not in told and "as" not in tokens.text[max(0, i - 4) : i]
        for i in range(anchor.start, min(anchor.start + 8, len(tokens)))
    )


def _regretted(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    """`lovely dark eye, shame it's such a round one`: what is said with regret is amiss."""
    return not lexicon.sets.regret.isdisjoint(parsed.tokens.text[segment.lead : segment.end])


# -- people and chatter


def _of_people(parsed: Parsed, j: Judged, lexicon: Lexicon, loose: bool) -> bool:
    """`handler limping`, `owner wears a long coat`, `my back is stiff`: said of somebody else."""
    segment = parsed.segments[j.candidate.segment]
    tokens = parsed.tokens
    anchor = j.candidate.anchor
    if anchor.end in {t.start for t in segment.talk if t.kind == "people"} and j.candidate.origin != "pair":
        return True
    for item in segment.items:
        if not (item.parts or item.faults or item.inner_parts):
            continue
        if not is_of_others(parsed, item, lexicon):
            continue
        if loose or item is anchor or item is j.candidate.part:
            return True
    people = [t for t in segment.talk if t.kind == "people" and t.start < anchor.start]
    if not people:
        return False
    at = people[0].start
    while at > segment.start and tokens.text[at - 1] in lexicon.sets.articles:
        at -= 1
    led = tokens.text[at - 1] if at > segment.start else ""
    subject = at == segment.start or led in lexicon.sets.leading
    between = tokens.text[people[0].end : anchor.start]
    own = any(w in lexicon.sets.the_dog for w in between)
    reports = any(w in lexicon.sets.reporting for w in between)
    weak = loose or j.candidate.faults[0].startswith("temperament.")
    of_sex = j.candidate.faults[0] in ("general.doggy-bitch", "general.bitchy-dog")
    if not subject or own or (of_sex and tokens.text[people[0].start] in _FEMALE | _MALE):
        return False
    return weak or not (reports or (j.candidate.part is not None and j.candidate.part.start > anchor.start))


def is_of_others(parsed: Parsed, item: Item, lexicon: Lexicon) -> bool:
    """`my back`, `the table leg`, `size of the ring`: a part, but none of the dog's."""
    tokens = parsed.tokens
    before = tokens.text[item.start - 1] if item.start and not tokens.brk[item.start] else ""
    towards = tokens.text[item.start - 2 : item.start - 1] in (["at"], ["to"], ["towards"], ["toward"])
    if before in lexicon.sets.mine and tokens.text[item.start] in lexicon.sets.feeling:
        return False  # `my thumbs do not meet round him`
    if (before in lexicon.sets.mine and not (before == "me" and towards)) or before in lexicon.sets.furniture:
        return True
    after = [w for w in tokens.text[item.end : item.end + 3] if w not in lexicon.drop]
    of = tokens.text[item.end : item.end + 1] == ["of"]
    return of and after[:1] != [] and after[0] in lexicon.sets.furniture


def _chatter(j: Judged, context: Context, loose: bool) -> bool:
    """A lone quality among words that are none of the trade's, with no part and no screen to speak for it."""
    candidate = j.candidate
    parsed, lexicon = context.parsed, context.lexicon
    segment = parsed.segments[candidate.segment]
    anchor = candidate.anchor
    home = lexicon.regions.get(candidate.faults[0])
    at_home = context.region is not None and home == context.region
    single = len(candidate.words) == 1
    behind = anchor.end < segment.end and parsed.tokens.text[anchor.end] in lexicon.setting
    if single and behind and not parsed.tokens.brk[anchor.end]:
        return True
    known = candidate.origin == "phrase" and (j.status != "present" or j.degree is not None)
    if at_home:
        return False
    named = candidate.origin == "carry" or context.part_nearby(candidate.segment, anchor)
    trade = candidate.origin == "phrase" and "c" not in candidate.marks
    if (loose or single) and not known and not named and not trade:
        return bool(context.strange_nearby(candidate.segment))
    return candidate.cost >= 0.4 and bool(context.strange(candidate.segment))
