"""What a note says is right: graded points, choices and the tooth chart, said to be as asked.

A phrase that says so outright (`full mouth`), a state that is right of its part (`shoulders well laid back`),
praise of a part that stands for one point (`good forechest`), or a state that the edition asks for. What is
ruled out is recorded as ruled out. Where a clause denies, doubts, wishes or compares nothing is affirmed, and
a finding at the point always wins.
"""

from collections.abc import Set
from dataclasses import dataclass, replace
from typing import Final

from hands_on.notes.beside_praise import (
    GOES_ON,
    asks,
    mere_description,
    names_a_side,
    only_parts,
    tells_a_side,
)
from hands_on.notes.clauses import Segment, Talk
from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.guesses import Opinion
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import Match, find
from hands_on.notes.parts_said import DEAREST, beside, mere_goal, mere_side, of_another, parts_of
from hands_on.notes.plainly_said import hedged, plainly_said
from hands_on.notes.right_confidence import right_evidence, right_probability, taken
from hands_on.notes.right_points import FoundAffirmed, Said, Words
from hands_on.notes.slips import Edge
from hands_on.notes.stems import is_comparative, stem
from hands_on.notes.tokens import NONE, STOP, Tokens
from hands_on.notes.tone import may_yield, too_much_only
from hands_on.notes.yielding import WHOLE, settled

__all__ = ["Affirmations", "affirm", "affirming_matches"]

_ALL_FOUR: Final = (
    "all four", "front and rear", "fore and hind", "front and back", "all round", "all around", "way around",
    "front and behind", "both ends",
)  # fmt: skip
_HEADING: Final = 4
"""So many words before a colon or a comma may name what is judged behind it."""
_BEGINNINGS: Final = frozenset({"ok", "okay", "alright"})
"""At the start of a sentence they praise nothing."""
_WAYS: Final = {
    "movement.coming-on": "coming",
    "movement.going-away": "going-away",
    "movement.soundness": "movement",
}
"""The part each way of going is named by."""


@dataclass(frozen=True, slots=True)
class Affirmations:
    """What a stretch affirms, each with its words, and the findings that yield to it, by identity."""

    found: tuple[tuple[FoundAffirmed, Words], ...] = ()
    yielding: frozenset[int] = frozenset()

    def without(self, words: Set[int], piece: range) -> "Affirmations":
        """Without those that take some of these words of a piece for a part named outside of it."""
        kept = tuple((a, w) for a, w in self.found if words.isdisjoint(w) or all(i in piece for i in w))
        return Affirmations(kept, self.yielding)


def affirming_matches(tokens: Tokens, steps: list[tuple[Edge, ...]], lexicon: Lexicon) -> list[Match]:
    """Every phrase and state of [affirms] in a note, in its order."""
    skip = [1 if word in lexicon.skip else 0 for word in tokens.text]
    classes: list[list[tuple[int, str, float]]] = [[] for _ in range(len(tokens) + 1)]
    for match in find(lexicon.affirm_classes, tokens, steps, skip, None):
        classes[match.start] += [(match.end, name, cost) for _, name, cost in match.meanings]
    found = find(lexicon.affirm, tokens, steps, skip, classes)
    judged = {i for m in found for i in m.used}
    judged.update(i for at, ends in enumerate(classes) for end, _, _ in ends for i in range(at, end))
    headings = _headings(tokens, judged)
    if headings:
        headed = replace(tokens, brk=[NONE if i in headings else b for i, b in enumerate(tokens.brk)])
        crossing = find(lexicon.affirm, headed, steps, skip, classes)
        found += [
            m
            for m in crossing
            if any(m.start < i < m.end for i in headings)
            and (m.end == len(tokens) or tokens.brk[m.end] or tokens.text[m.end] in lexicon.drop)
        ]
    return sorted((m for m in found if m.cost < DEAREST), key=lambda m: m.start)


def _headings(tokens: Tokens, judged: Set[int]) -> list[int]:
    """Where a heading ends, by the first word behind it: `set of tail: correct` is read as one phrase.

    A heading is a few words at the start of a sentence none of which judges.
    """
    out: list[int] = []
    opened = 0
    for i in range(1, len(tokens)):
        if not tokens.brk[i]:
            continue
        if tokens.brk[i] == STOP:
            opened = i
            continue
        if i - opened <= _HEADING and judged.isdisjoint(range(opened, i)):
            out.append(i)
        opened = -_HEADING - 1  # nothing further on in the sentence is one
    return out


def affirm(context: Context, judged: list[Judged], matches: list[Match], opinion: Opinion) -> Affirmations:
    """What one stretch affirms; `judged` are its findings, `matches` those within it."""
    finder = _Finder(context, judged, opinion)
    for match in matches:
        finder.outright(match)
    finder.praised_parts()
    finder.as_edition_asks()
    said = [s for s in finder.said if not mere_description(context, s, finder.said)]
    kept, yielding = settled(context, said, judged)
    return Affirmations(tuple(finder.result(kept)), frozenset(yielding))


def _yields(j: Judged, lexicon: Lexicon) -> bool:
    """Whether praise may take the words of a finding: not of `moves at an angle`, which nobody asks for."""
    named = j.candidate.origin == "phrase" and len(j.candidate.words) > 1
    return may_yield(j) and not (named and j.candidate.faults[0] not in lexicon.askable)


class _Finder:
    def __init__(self, context: Context, judged: list[Judged], opinion: Opinion) -> None:
        self.context = context
        self.opinion = opinion
        self.lexicon = context.lexicon
        self.judged = judged
        self.said: list[Said] = []
        amiss = [j for j in judged if j.status != "absent"]
        self.amiss = {i for j in amiss if j.candidate.origin != "like" for i in j.words}
        firm = [j for j in amiss if not (_yields(j, self.lexicon) or too_much_only(j))]
        self.busy = {i for j in firm for i in j.words}

    def outright(self, match: Match) -> None:
        """A phrase, or a state beside its part."""
        number = self.context.clause_of(match.start)
        if self.busy.intersection(match.used) and not self._says_more(match):
            return
        text = self.context.parsed.tokens.text
        denies = not self.lexicon.sets.denying.isdisjoint(text[match.start : match.end])
        compares = any(
            is_comparative(text[i]) and text[i + 1 : i + 2] != ["line"]
            for i in range(max(0, match.start - 1), match.end)
        )
        if (compares and not denies) or tells_a_side(self.context, match) or asks(self.context, match):
            return
        if not self._judges(number, match):
            return
        after = (
            text[match.end] if match.end < len(text) and not self.context.parsed.tokens.brk[match.end] else ""
        )
        if after in self.lexicon.sets.but_for:
            return  # `full mouth bar one premolar`
        own = frozenset(match.used)
        if after in self.lexicon.sets.dimensions or hedged(self.context, match):
            return
        clauses = {number, self.context.clause_of(match.end - 1)}  # `texture: too hard`
        if not all(self._plain(n, match.start, match.end, denies, own) for n in clauses):
            return
        for kind, point, cost in match.meanings:
            if kind == "seen":
                self._seen(number, point, match)
                continue
            if cost >= DEAREST or (point not in self.lexicon.points and self.lexicon.points):
                continue
            if kind == "phrase":
                if not of_another(self.context, number, point, match) and not self._other_way(number, point):
                    self._say(point, match.used, "phrase", number, cost)
                continue
            words = self.lexicon.affirms[point]
            where = beside(self.context, number, frozenset((*words.of, *words.parts)), match)
            if where is not None and not (where[0] == "screen" and self._amiss_here(number, match)):
                way, used = where
                self._say(point, (*used, *match.used), way, number, cost, frozenset(match.used))

    def _says_more(self, match: Match) -> bool:
        """Whether a phrase says all that the findings in it say, and more: `holds topline on the move`."""
        used = set(match.used)
        return len(used) >= WHOLE and all(
            used.issuperset(j.words) and len(used) > len(set(j.words)) and not j.stressed
            for j in self.judged
            if j.status == "present" and not used.isdisjoint(j.words)
        )

    def _judges(self, number: int, match: Match) -> bool:
        """Not the `fine` of `fine bone`, the `ok` of `ok coming on`, the `right` of `right page`."""
        tokens, segment = self.context.parsed.tokens, self.context.parsed.segments[number]
        text, sides = tokens.text, self.lexicon.sets.dimensions
        last = match.end >= segment.end or text[match.end] in GOES_ON
        for i in match.used:
            ends = i + 1 == match.end and last
            if text[i] == "fine" and not ends and sides.isdisjoint(text[i + 1 : i + 2]):
                return False
        opens = match.start == 0 or tokens.brk[match.start] == STOP
        if opens and text[match.start] in _BEGINNINGS and match.end < len(tokens):
            return bool(tokens.brk[match.start + 1])
        return text[match.start : match.end] != ["right"] or last

    def _other_way(self, number: int, point: str) -> bool:
        """`coming towards me he moves true`: nothing of the going away, which shares the words."""
        if point not in _WAYS:
            return False
        named = {name for name, _ in parts_of(self.context.parsed.segments[number])}
        named &= {"coming", "going-away"}
        return bool(named) and _WAYS[point] not in named

    def _amiss_here(self, number: int, match: Match) -> bool:
        """Whether a clause finds other words amiss, so that a state in it is of that: `strong dewlap`."""
        return any(
            j.status == "present" and j.candidate.origin != "like" and set(match.used).isdisjoint(j.words)
            for j in self.judged
            if j.candidate.segment == number
        )

    def _seen(self, number: int, answer: str, match: Match) -> None:
        """`dark amber eye`, where the edition asks for the shade that is seen."""
        point, _, option = answer.partition(" ")
        where = beside(self.context, number, frozenset(self.lexicon.seen[point].of), match)
        if where is not None:
            words = (*where[1], *match.used)
            self.said.append(Said(point, words, "seen", match.cost, frozenset(match.used), option))

    def praised_parts(self) -> None:
        """`good forechest`: praise of a part that stands for one point; `good size and bone` praises both."""
        segments = self.context.parsed.segments
        said = {i for s in self.said for i in s.words}
        praise: list[Talk] = []
        all_praise: list[Talk] = []
        for number, segment in enumerate(segments):
            parts = list(parts_of(segment))
            told = [t for t in segment.talk if t.kind in ("praise", "verdict") and not self._describes(t)]
            told += self._called_right(segment, parts)
            if (
                told
                and not parts
                and segment.sep in ("comma", "contrast")
                and number
                and only_parts(self.context, segments[number - 1])
            ):
                parts = list(parts_of(segments[number - 1]))  # `type: excellent`, `stop otherwise right`
            listed = segment.sep == "and" and only_parts(self.context, segment)
            if told or not listed:
                praise = [t for t in told if not said.intersection(range(t.start, t.end))]
                all_praise = told
            elif not praise:
                praise = all_praise  # `tons of reach and drive`
            if not praise or names_a_side(self.context, segment, parts):
                continue
            crowded = bool(self.amiss.intersection(range(segment.start, segment.end)))
            for name, used in parts:
                listed_parts = [*parts_of(segments[number - 1]), *parts] if listed and number else parts
                if mere_goal(self.context, used) or mere_side(self.context, used, listed_parts):
                    continue
                near = [t for t in praise if not crowded or _adjacent(t, used)]
                if near and self._plain(number, min(used), max(used) + 1, False):
                    for point in self.lexicon.affirmed_by_part.get(name, ()):
                        if self._told_otherwise(point, used):
                            continue
                        self._say(point, (*used, *range(near[0].start, near[0].end)), "praise", number)

    def _told_otherwise(self, point: str, used: Words) -> bool:
        """Whether a state says what is good of the part: `good broad croup` is its size, not its slope."""
        home = point.split(".")[0]
        return any(
            s.way in ("state", "phrase")
            and s.point != point
            and s.point.split(".")[0] == home
            and set(used) <= set(s.words)
            for s in self.said
        )

    def _called_right(self, segment: Segment, parts: list[tuple[str, Words]]) -> list[Talk]:
        """The `right` of `bite right`, where it can be no side."""
        text, paired = self.context.parsed.tokens.text, self.lexicon.sets.paired
        last = segment.end - 1
        named = {i for _, used in parts for i in used}
        behind = text[last] in ("right", "fine") and (
            last - 1 in named or text[last - 1] in self.lexicon.drop
        )
        if not behind or any(text[i] in paired for i in range(segment.start, last)):
            return []
        return [Talk(last, last + 1, "praise", text[last])]

    def _describes(self, talk: Talk) -> bool:
        """The `strong` of `strong head`: a quality, not a judgement that all is as asked."""
        words = self.context.parsed.tokens.text[talk.start : talk.end]
        return all(w in self.lexicon.sets.descriptive or w in self.lexicon.drop for w in words)

    def as_edition_asks(self) -> None:
        """`dark eye`: a state that is no fault here; affirmed where the edition's own words ask for it."""
        for j in self.context.silenced:
            number = j.candidate.segment
            words = tuple(j.candidate.words)
            if not self._plain(number, min(words), max(words) + 1, False):
                continue
            stems = {stem(self.context.parsed.tokens.text[i]) for i in j.candidate.anchor.used}
            praised = any(t.kind in ("praise", "verdict") for t in self.context.parsed.segments[number].talk)
            for point in self.lexicon.points_of_fault.get(j.candidate.faults[0], ()):
                asked = {stem(w) for w in self.lexicon.points[point].asked.lower().replace(",", " ").split()}
                if stems & asked:
                    self._say(point, words, "asked", number)
                elif praised and "!" in j.candidate.marks:
                    self._say(point, words, "may-be", number)

    def _plain(self, number: int, start: int, end: int, denies: bool, own: Set[int] = frozenset()) -> bool:
        return plainly_said(self.context, number, range(start, end), denies, own)

    def _say(
        self,
        point: str,
        words: Words,
        way: str,
        number: int,
        cost: float = 0.0,
        state: frozenset[int] | None = None,
    ) -> None:
        if self.context.moving_here(number):
            point = self.lexicon.moving.get(point, point)
        place = {p.value for p in self.context.places[number]}
        region = self.context.region or ""
        behind = "hind" in place or ("fore" not in place and region in ("hindfeet", "hindquarters"))
        if point.startswith("forefeet.") and behind:
            twin = "hindfeet." + point.split(".", 1)[1]
            if twin in self.lexicon.points:
                point = twin
        state = frozenset(words) if state is None else state
        self.said.append(Said(point, words, way, cost, state))
        twin = "hindfeet." + point.partition(".")[2]
        if point.startswith("forefeet.") and twin in self.lexicon.points and self._all_four(number):
            self.said.append(Said(twin, words, way, cost, state))

    def _all_four(self, number: int) -> bool:
        """`tight feet, all four`, `feet, front and rear`: said of forefeet and hind feet."""
        parsed = self.context.parsed
        sentence = self.context.sentence(number)
        span = range(parsed.segments[sentence.start].lead, parsed.segments[sentence.stop - 1].end)
        said = " ".join(parsed.tokens.text[span.start : span.stop])
        return any(words in said for words in _ALL_FOUR)

    def result(self, kept: list[Said]) -> list[tuple[FoundAffirmed, Words]]:
        """One for each point, the surest; of two that would be taken the one of more words.

        What is less likely than the floor is not offered at all.
        """
        tokens = self.context.parsed.tokens
        floor = self.lexicon.affirming.get("floor", 0.0)
        best: dict[str, tuple[tuple[bool, int, float], Said]] = {}
        for said in kept:
            evidence = right_evidence(self.context, said, kept, self.judged, self.opinion)
            p = right_probability(evidence, self.lexicon)
            if p < floor:
                continue
            sure = taken(p, said, self.lexicon)
            weight = sure, len(said.words) if sure else 0, p
            if said.point not in best or weight > best[said.point][0]:
                best[said.point] = weight, said
        out: list[tuple[FoundAffirmed, Words]] = []
        for (sure, _, p), said in best.values():
            words = self.lexicon.affirms.get(said.point)
            known = self.lexicon.points.get(said.point)
            option = said.option or (words.option if words else None)
            if option is None and known is not None and known.kind == "choice":
                option = known.right_option
            span = tokens.start[min(said.words)], max(tokens.end[i] for i in said.words)
            out.append((FoundAffirmed(said.point, option, span, p, sure), said.words))
        return out


def _adjacent(talk: Talk, used: Words) -> bool:
    return 0 <= talk.start - max(used) <= 2 or 0 <= min(used) - talk.end < 2
