"""The words of talk of each clause: what denies, doubts, praises, tells degree or side, none of it twice."""

from typing import Final

from hands_on.notes.candidates import Candidate
from hands_on.notes.clauses import Parsed, Talk
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.tokens import STOP

__all__ = ["talk_of_segments"]

_BOUND_KINDS: Final = {
    "absent_before", "absent_after", "there_after", "unsure_before", "unsure_after", "neutral", "double",
    "double_unsure", "degree", "side", "side?", "praise", "people", "verdict", "asked", "except", "contrast",
}  # fmt: skip
_DIMENSION_NEAR: Final = 3
"""So many words behind `right` a dimension is what is right: `right harsh texture`."""


def talk_of_segments(parsed: Parsed, candidates: list[Candidate], lexicon: Lexicon) -> None:
    """Give each segment its words of talk: the longest first, none twice, none that a finding uses."""
    tokens = parsed.tokens
    taken = bytearray(len(tokens) + 1)
    for candidate in candidates:
        if "?" not in candidate.marks:
            for i in candidate.anchor.used:
                taken[i] = 1
    part_words = bytearray(len(tokens) + 1)
    for segment in parsed.segments:
        for item in segment.items:
            if item.parts or item.inner_parts or item.faults:
                for i in range(item.start, item.end):
                    part_words[i] = 1
    for place in parsed.places:
        for i in range(place.start, place.end):
            part_words[i] = 1
    found: list[Talk] = []
    for match in sorted(parsed.talk, key=lambda m: (m.start - m.end, m.start)):
        kinds = [(k, v) for k, v, _ in match.meanings if k in _BOUND_KINDS]
        only_first = any(k == "degree" for k, _ in kinds)
        if not kinds or taken[match.start] or (not only_first and any(taken[i] for i in match.used)):
            continue
        kept = []
        for kind, value in kinds:
            if kind in ("side", "side?") and not _is_side(
                parsed, lexicon, match.start, match.end, kind, value, part_words
            ):
                continue
            if kind == "praise" and value == "well" and _no_praise(parsed, lexicon, match.end):
                continue
            if (
                kind in ("praise", "verdict")
                and value == "top"
                and _tells_where(parsed, match.start, match.end)
            ):
                continue
            if kind == "praise" and match.start == 0 and _only_begins(tokens.text[0], match.end, parsed):
                continue
            kept.append((kind, value))
        if not kept:
            continue
        if any(kind in ("side", "side?") for kind, _ in kept):
            kept = [(kind, value) for kind, value in kept if kind not in ("praise", "verdict", "asked")]
        for i in range(match.start, match.end):
            taken[i] = 1
        found.extend(Talk(match.start, match.end, "side" if k == "side?" else k, v) for k, v in kept)
    found.sort(key=lambda t: t.start)
    by_number: dict[int, list[Candidate]] = {}
    for candidate in candidates:
        by_number.setdefault(candidate.segment, []).append(candidate)
    at = 0
    for number, segment in enumerate(parsed.segments):
        while at < len(found) and found[at].start < segment.end:
            if found[at].start >= segment.lead:
                segment.talk.append(found[at])
            at += 1
        anchors = [c.anchor for c in by_number.get(number, ())]
        for talk in segment.talk:
            ahead = talk.kind == "absent_after" and any(a.start >= talk.end for a in anchors)
            if ahead and any(tokens.text[i] in lexicon.sets.denying for i in range(talk.start, talk.end)):
                talk.kind = "absent_before"


def _only_begins(word: str, after: int, parsed: Parsed) -> bool:
    """`okay going away she crosses over`: no praise, only a beginning."""
    tokens = parsed.tokens
    return word in ("ok", "okay", "alright") and after < len(tokens) and not tokens.brk[after]


def _tells_where(parsed: Parsed, start: int, after: int) -> bool:
    """The `top` of `domed on top`, `along the top`, `top line`: a place, no praise."""
    text, brk = parsed.tokens.text, parsed.tokens.brk
    led = bool(start) and not brk[start] and text[start - 1] in ("on", "the", "over", "across", "at", "along")
    return led or (after < len(text) and not brk[after] and text[after] in ("line", "of"))


def _no_praise(parsed: Parsed, lexicon: Lexicon, after: int) -> bool:
    """`well above the back` praises nothing."""
    tokens = parsed.tokens
    return after < len(tokens) and not tokens.brk[after] and tokens.text[after] in lexicon.well_before


def _judges(parsed: Parsed, lexicon: Lexicon, start: int, part_words: bytearray) -> bool:
    """The `right` that says a part is as it should be: `bone right`, `ear shape right`, `right texture`."""
    tokens, sets = parsed.tokens, lexicon.sets
    end = start + 1
    if end == len(tokens) or tokens.brk[end]:
        back = start
        while back and not tokens.brk[back] and tokens.text[back - 1] in sets.auxiliary:
            back -= 1
        if not back or tokens.brk[back]:
            return False
        named = tokens.text[back - 1]
        return named in sets.dimensions or (bool(part_words[back - 1]) and named not in sets.paired)
    for i in range(end, min(end + _DIMENSION_NEAR, len(tokens))):
        if tokens.brk[i] or tokens.text[i] in sets.paired:
            return False
        if tokens.text[i] in sets.dimensions:
            return True
    return False


def _says_so(parsed: Parsed, lexicon: Lexicon, at: int) -> bool:
    """The `right` at a clause's end in `the stop is right`, and of `right, he's passing close`."""
    text, brk, sets = parsed.tokens.text, parsed.tokens.brk, lexicon.sets
    opens = not at or brk[at] == STOP
    if opens:
        return at + 1 < len(text) and text[at + 1] in sets.the_dog
    first = at
    while first > 0 and not brk[first]:
        first -= 1
    said = [w for w in text[first:at] if w not in lexicon.drop]
    paired = not sets.paired.isdisjoint(said) or not {"one", "side", "worse"}.isdisjoint(said)
    return text[at - 1] in sets.auxiliary and len(said) > 0 and not paired


def _is_side(
    parsed: Parsed, lexicon: Lexicon, start: int, end: int, kind: str, side: str, part_words: bytearray
) -> bool:
    """Whether `left`, `right`, `near`, `off`, `l`, `r` speak of a side here."""
    tokens = parsed.tokens
    if end - start > 1 or side == "both":
        return True
    words = lexicon.sides
    after = tokens.text[end] if end < len(tokens) and not tokens.brk[end] else ""
    before = tokens.text[start - 1] if start and not tokens.brk[start] else ""
    beside_part = (bool(after) and bool(part_words[end])) or after in lexicon.sets.side_nouns
    if kind == "side?":
        word = tokens.text[start]
        if after in lexicon.sets.no_side_before:
            return False  # `kinked near the tip`
        if before in ("&", "and") and tokens.text[start - 2] in lexicon.sets.fore_words:
            return False  # `f & r`: front and rear
        if word in ("near", "off"):
            alone = not after and not before and start > 0
            again = before == "the" and (
                after in lexicon.sets.likewise or tokens.text[end : end + 2] == ["the", "same"]
            )
            if after == "one" or alone or again:
                return True  # `one canine, the near one`, `Stifle out. Near.`, `and the off the same`
            return (beside_part and before not in lexicon.sets.not_side_after) or (
                beside_part and before in lexicon.sets.side_after
            )
        return beside_part or not after or (bool(before) and bool(part_words[start - 1]))
    if tokens.text[start] not in ("left", "right"):
        return True
    if side == "right" and (
        _judges(parsed, lexicon, start, part_words) or (not after and _says_so(parsed, lexicon, start))
    ):
        return False
    if side == "left":
        return after not in words.not_left_before
    return after not in words.not_right_before and (
        before not in words.not_right_after or beside_part or (not after and before == "is")
    )
