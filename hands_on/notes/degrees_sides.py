"""How strong a finding is and on which side: degrees and sides go to the finding they stand by."""

from dataclasses import dataclass, field
from typing import Final

from hands_on.notes.candidates import Candidate
from hands_on.notes.clauses import Item, Parsed, Segment, Talk
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.tokens import STOP
from hands_on.notes.topics import NO_PART

__all__ = [
    "Judged",
    "bind_degrees",
    "bind_sides",
    "earlier_findings",
    "has_praise",
    "inside_talk",
    "nothing_else",
    "of_another_region",
]

_ANYWHERE: Final = frozenset({"general", "temperament", "movement", ""})
_ORDER: Final = ("slight", "moderate", "marked", "extreme")


@dataclass(slots=True)
class Judged:
    """A candidate with its status, degree and side."""

    candidate: Candidate
    status: str = "present"
    degree: str | None = None
    side: str | None = None
    worse: str | None = None
    """Of both sides the worse."""
    praised: bool = False
    stressed: bool = False
    denied_later: bool = False
    """Ruled out by a remark behind it: `her sire's feet were flat; these are not`."""
    degree_words: list[str] = field(default_factory=list)
    words: list[int] = field(default_factory=list)


def earlier_findings(
    by_segment: dict[int, list[Judged]], number: int, segments: list[Segment]
) -> list[Judged]:
    """The findings a remark without one of its own looks back to."""
    for back in range(number - 1, max(-1, number - 4), -1):
        found = by_segment.get(back)
        if found:
            group = list(found)
            at = back
            while at > 0 and segments[at].sep in ("or",) and by_segment.get(at - 1):
                at -= 1
                group.extend(by_segment[at])
            return group
    return []


def of_another_region(segment: Segment, earlier: list[Judged], lexicon: Lexicon) -> bool:
    """Whether a remark names parts, all of regions the findings before it are not of: `..., feet right`.

    What is found of the whole dog or in movement may be gone on with under any part.
    """
    named = {lexicon.part_region[name] for name, cost in _parts(segment) if cost < 0.1}
    homes = {lexicon.regions.get(j.candidate.faults[0], "") for j in earlier}
    return bool(named) and named.isdisjoint(homes) and homes.isdisjoint(_ANYWHERE)


def _parts(segment: Segment) -> list[tuple[str, float]]:
    said = [p for i in segment.items if not inside_talk(i, segment) for p in i.parts]
    return [(name, cost) for name, cost in said if name not in NO_PART]


def inside_talk(item: Item, segment: Segment) -> bool:
    """Whether words of talk cover the item: the `shade` of `just a shade`."""
    return all(any(t.start <= i < t.end for t in segment.talk) for i in item.used)


def nothing_else(parsed: Parsed, segment: Segment, lexicon: Lexicon) -> bool:
    """Whether a segment holds words of talk and small words alone."""
    places = {i for p in parsed.places for i in range(p.start, p.end)}
    return all(
        parsed.tokens.text[i] in lexicon.drop
        or i in places
        or parsed.tokens.text[i] in lexicon.sets.small_talk
        or any(t.start <= i < t.end for t in segment.talk)
        for i in range(segment.start, _measured_against(parsed, segment))
    )


def _measured_against(parsed: Parsed, segment: Segment) -> int:
    """Where a clause tells what its degree is held against: `markedly so for a male dog`."""
    text = parsed.tokens.text
    told = (
        i
        for i in range(segment.start + 1, segment.end - 1)
        if text[i : i + 2] in (["for", "a"], ["for", "an"])
    )
    return next(told, segment.end)


def bind_degrees(parsed: Parsed, by_segment: dict[int, list[Judged]], lexicon: Lexicon) -> None:
    """Give each degree to the finding it speaks of; a segment of nothing else looks back."""
    for number, segment in enumerate(parsed.segments):
        here = by_segment.get(number, [])
        for talk in segment.talk:
            if talk.kind != "degree" or _tells_no_degree(talk, parsed):
                continue
            target = _nearest(talk, [j for j in here if j.candidate.origin != "like"] or here)
            if target is None and not here and nothing_else(parsed, segment, lexicon):
                told = _measured_against(parsed, segment)
                parts = [
                    i for i in segment.items if i.parts and i.start < told and not inside_talk(i, segment)
                ]
                earlier = earlier_findings(by_segment, number, parsed.segments) if not parts else []
                target = earlier[-1] if earlier else None
                if target is not None and target.degree is not None:
                    more = talk.value == "extreme"  # `far too short, extremely so`
                    target.degree = None if segment.corrects else target.degree
                    target = target if segment.corrects or more else None
            if target is None:
                continue
            _set_degree(target, str(talk.value))
            target.words.extend(range(talk.start, talk.end))
            target.degree_words.extend(parsed.tokens.text[talk.start : talk.end])
            for other in here:
                if other is not target and other.candidate.anchor is target.candidate.anchor:
                    _set_degree(other, str(talk.value))
    for number, here in by_segment.items():
        before = _said_before(parsed, by_segment, number, "degree", lexicon)
        for j in here:
            if before is not None and j.degree is None and not _tells_no_degree(before, parsed):
                _set_degree(j, str(before.value))
                j.words.extend(range(before.start, before.end))
                j.degree_words.extend(parsed.tokens.text[before.start : before.end])


def _said_before(
    parsed: Parsed, by_segment: dict[int, list[Judged]], number: int, kind: str, lexicon: Lexicon
) -> Talk | None:
    """The degree or side of `right elbow abducted, moderate, standing off`, said before its finding.

    In clauses right before it, in its sentence, that have no finding of their own and name parts of its
    region alone; a degree only where a clause says nothing else.
    """
    here = by_segment[number]
    homes = {lexicon.regions.get(j.candidate.faults[0], "") for j in here}
    if len(here) != 1 or not any(i.parts or i.faults or i.qualities for i in parsed.segments[number].items):
        return None
    for back in range(number - 1, -1, -1):
        segment = parsed.segments[back]
        if parsed.segments[back + 1].sep not in ("comma", "and") or segment.right:
            return None
        told = [t for t in segment.talk if t.kind == kind and t.value != "both"]
        if found := by_segment.get(back):
            same = {lexicon.regions.get(j.candidate.faults[0], "") for j in found} == homes
            one = kind == "side" and len(told) == 1
            return told[0] if same and one and _only_names(here[0], parsed.segments[number]) else None
        if any(t.kind not in ("degree", "side", "asked") for t in segment.talk):
            return None
        parts = [p for i in segment.items if not i.qualities for p in i.parts]
        named = {lexicon.part_region[name] for name, cost in parts if cost < 0.1}
        alone = not segment.items and nothing_else(parsed, segment, lexicon)
        if told and (alone or (kind == "side" and named == homes)):
            return told[0]
        if named and named != homes:
            return None
    return None


def _only_names(j: Judged, segment: Segment) -> bool:
    """The `ectropion` of `right lid hangs out, ectropion`: the same trouble by its name."""
    named = j.candidate.origin == "phrase" and not j.candidate.about
    return named and len(j.candidate.words) == segment.end - segment.start


def _tells_no_degree(talk: Talk, parsed: Parsed) -> bool:
    """`rather more angulation`, `she'd rather hide`, `not one bit`, `a shade that is not allowed`.

    And a word alone at the end: `a dewclaw there, gross`.
    """
    text, brk = parsed.tokens.text, parsed.tokens.brk
    after = text[talk.end : talk.end + 1]
    if text[talk.end - 1] == "shade":
        ends = not after or bool(brk[talk.end])
        if (ends and text[talk.start] != "a") or (not ends and after[0] in _BEHIND_SHADE):
            return True
    if text[talk.end - 1] == "touch" and text[max(0, talk.start - 1) : talk.start] in _TOUCHING:
        return True
    if text[talk.start] == "rather" and text[max(0, talk.start - 1) : talk.start] == ["would"]:
        return True
    if after == ["more"] and text[talk.start : talk.end] not in _MUCH_MORE:
        return True
    said = text[talk.start : talk.end]
    alone = bool(brk[talk.start]) and (not after or brk[talk.end] == STOP)
    return (said in _EXCLAIMED and talk.start > 0 and alone) or (
        said == ["bit"] and text[talk.start - 1 : talk.start] == ["one"]
    )


_MUCH_MORE: Final = (["a", "good", "deal"], ["a", "great", "deal"], ["a", "lot"], ["far"], ["considerably"])
_EXCLAIMED: Final = (
    ["gross"],
    ["horribly"],
    ["crazy"],
    ["serious"],
    ["seriously"],
    ["shockingly"],
    ["really"],
)
_TOUCHING: Final = (["i"], ["you"], ["we"], ["to"])
_BEHIND_SHADE: Final = frozenset(
    {"that", "which", "is", "not", "of", "on", "in", "outside", "permitted", "allowed"}
)


def _set_degree(target: Judged, degree: str) -> None:
    """`very slightly` is slight; else the stronger of two degrees holds."""
    before = target.degree
    stronger = before is not None and before != "slight" and _ORDER.index(degree) > _ORDER.index(before)
    if before is None or degree == "slight" or stronger:
        target.degree = degree


def _nearest(talk: Talk, here: list[Judged]) -> Judged | None:
    """The finding whose anchor follows the word, else the one it follows."""
    after = [
        j
        for j in here
        if j.candidate.anchor.start > talk.start
        or j.candidate.anchor.start < talk.start < j.candidate.anchor.end
    ]
    before = [j for j in here if j.candidate.anchor.end <= talk.start]
    if str(talk.value) in ("slight", "marked", "extreme") and before and after:
        gap_after = min(j.candidate.anchor.start for j in after) - talk.end
        gap_before = talk.start - max(j.candidate.anchor.end for j in before)
        if gap_before < gap_after:
            return max(before, key=lambda j: j.candidate.anchor.end)
    if after:
        return min(after, key=lambda j: j.candidate.anchor.start)
    return max(before, key=lambda j: j.candidate.anchor.end) if before else None


def bind_sides(parsed: Parsed, by_segment: dict[int, list[Judged]], lexicon: Lexicon) -> None:
    """Give each side to the finding it stands by; left and right together are both."""
    for number, segment in enumerate(parsed.segments):
        here = by_segment.get(number, [])
        for talk in segment.talk:
            if str(talk.value) == "neither" and not _goes_on_with_or(parsed, number):
                for j in here:
                    j.side = j.side or "both"
            if talk.kind != "side":
                continue
            targets = here
            if len(here) > 1:
                owners = [_closest(talk, here)]
                targets = [j for j in here if j.candidate.anchor is owners[0].candidate.anchor]
            following = by_segment.get(number + 1, [])
            words = parsed.tokens.text[segment.start : segment.end]
            led = bool(following) and parsed.segments[number + 1].sep in ("and", "comma")
            if (
                not here
                and "one" in words
                and led
                and not earlier_findings(by_segment, number, parsed.segments)
            ):
                targets = following[:1]  # `one canine, the near one, digs into the palate`
            elif not here and not any(i.bound for i in segment.items):
                qualified = any(
                    i.qualities and not i.parts and not _is_worse(parsed, i) and not inside_talk(i, segment)
                    for i in segment.items
                )
                if has_praise(segment) or qualified:
                    continue
                earlier = earlier_findings(by_segment, number, parsed.segments)
                compared = any(w in _COMPARING for w in words)
                if not compared and of_another_region(segment, earlier, lexicon):
                    continue
                targets = earlier if compared else [j for j in earlier if j.side is None][-1:]
                if not lexicon.sets.likewise.isdisjoint(words):
                    targets = earlier[-1:]  # `very straight on the near side, and the off the same`
                if segment.corrects and earlier:
                    earlier[-1].side = None
                    targets = earlier[-1:]
            own = {id(j) for j in here}
            for j in targets:
                if not _takes_side(j, id(j) in own, lexicon):
                    continue
                side = str(talk.value)
                if side == "both" and j.status == "absent" and j.candidate.faults[0] in lexicon.absence:
                    continue  # `both down, none retained`: the two that are there
                if j.side is not None and j.side != side:
                    j.side = "both"
                else:
                    j.side = side
                j.words.extend(range(talk.start, talk.end))
                _compare_sides(j, segment, parsed)
    for number, here in by_segment.items():
        before = _said_before(parsed, by_segment, number, "side", lexicon)
        for j in here:
            if before is not None and j.side is None and _takes_side(j, False, lexicon):
                j.side = str(before.value)
                j.words.extend(range(before.start, before.end))
            j.side = j.side or _inside(j, parsed)


_ON_THE_MOVE: Final = "movement"


def _takes_side(j: Judged, own: bool, lexicon: Lexicon) -> bool:
    """`paces, both legs of a side together`: what holds of the whole dog is on no side.

    The clause that finds it may still tell where: `tail to the left`.
    """
    fault = j.candidate.faults[0]
    return fault in lexicon.sided or (own and lexicon.regions.get(fault) != _ON_THE_MOVE)


def _inside(j: Judged, parsed: Parsed) -> str | None:
    """The `left` that belongs to a finding's own words: `tail swings to the left`."""
    text = parsed.tokens.text
    own = [i for i in j.candidate.words if text[i] in ("left", "right")]
    return next((text[i] for i in own if text[i - 1] in _TOWARDS and text[i - 2] != "than"), None)


_TOWARDS: Final = frozenset({"the", "to", "his", "her", "its"})


def _compare_sides(j: Judged, segment: Segment, parsed: Parsed) -> None:
    """`left foot more than the right`: on both, and which is the worse."""
    told = [t for t in segment.talk if t.kind == "side" and t.value in ("left", "right")]
    if j.side != "both" or len(told) != 2 or told[0].value == told[1].value:
        return
    between = parsed.tokens.text[told[0].end : told[1].start]
    if any(w in _COMPARING for w in between):
        j.worse = str(told["less" in between].value)
        j.words.extend(range(told[0].end, told[1].start))


_COMPARING: Final = frozenset({"more", "worse", "worst", "than", "less", "most"})
"""`right worse than left`, `off fore worst`: how sides compare, nothing new."""


def _is_worse(parsed: Parsed, item: Item) -> bool:
    return all(parsed.tokens.text[i] in _COMPARING for i in item.used)


def _goes_on_with_or(parsed: Parsed, number: int) -> bool:
    """`neither short nor long`; but `neither testicle` speaks of the pair."""
    following = parsed.segments[number + 1 : number + 3]
    return any(s.sep == "or" for s in following)


def has_praise(segment: Segment) -> bool:
    """Whether a segment praises."""
    return any(t.kind == "praise" for t in segment.talk)


def _closest(talk: Talk, here: list[Judged]) -> Judged:
    def gap(j: Judged) -> tuple[int, int]:
        lo = min(j.candidate.words)
        hi = max(j.candidate.words) + 1
        if lo >= talk.end:
            return lo - talk.end, 0
        if hi <= talk.start:
            return talk.start - hi, 1
        return 0, 0

    return min(here, key=gap)
