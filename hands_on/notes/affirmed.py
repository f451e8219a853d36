"""What a note says is right: graded points, choices and the tooth chart, said to be as asked.

A phrase that says so outright (`full mouth`), a state that is right of its part (`shoulders well laid back`),
praise of a part that stands for one point (`good forechest`), or a state that the edition asks for. What is
ruled out is recorded as ruled out. Where a clause denies, doubts, wishes or compares nothing is affirmed, and
a finding at the point always wins.
"""

from collections.abc import Iterable, Set
from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Segment, Talk
from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.lexicon import END, Lexicon
from hands_on.notes.matching import Match, find
from hands_on.notes.right_points import FoundAffirmed
from hands_on.notes.slips import Edge
from hands_on.notes.stems import is_comparative, stem
from hands_on.notes.tokens import Tokens
from hands_on.notes.tone import may_yield, too_much_only
from hands_on.notes.topics import NO_PART

__all__ = ["Affirmations", "affirm", "affirming_matches"]

_PHRASE: Final = 0.98
_STATE: Final = 0.97
_PRAISE: Final = 0.92
_ASKED: Final = 0.94
_CARRIED: Final = 0.94
_ON_SCREEN: Final = 0.8
_MAY_BE: Final = 0.75
_ACCEPT: Final = 0.93
_HEDGED: Final = 0.06
"""So much less sure is `passable` than `good`."""
_DEAREST: Final = 0.3
"""The dearest slip of a word that still affirms."""
_WHOLE: Final = 3
"""So many words that are right say more than a fault named by fewer of them."""
_PLAIN: Final = 2
"""So many words are no more than part and quality."""
Words = tuple[int, ...]
_OWN_WORDS: Final = frozenset({"over", "than", "should", "without", "no", "not", "too", "nor", "neither"})
"""Inside what is right itself they spoil nothing: `set where it should be`, `without loose skin`."""
_SHOULD: Final = frozenset({"should", "could", "would", "ought"})
"""Behind `as` they wish nothing: `harsh as it ought to be`."""
_TOLD: Final = frozenset({"praise", "verdict", "asked"})
_TOWARDS: Final = frozenset({"into", "towards", "behind", "above", "below", "over", "onto", "against"})
_DENYING: Final = frozenset({
    "absent_before", "absent_after", "unsure_before", "unsure_after", "double", "double_unsure", "neutral",
})  # fmt: skip


@dataclass(slots=True)
class _Said:
    point: str
    words: Words
    p: float
    state: frozenset[int]
    """The words that say it is right, without the part they speak of."""
    option: str | None = None


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
    found = [m for m in find(lexicon.affirm, tokens, steps, skip, classes) if m.cost < _DEAREST]
    return sorted(found, key=lambda m: m.start)


def affirm(context: Context, judged: list[Judged], matches: list[Match]) -> Affirmations:
    """What one stretch affirms; `judged` are its findings, `matches` those within it."""
    finder = _Finder(context, judged)
    for match in matches:
        finder.outright(match)
    finder.praised_parts()
    finder.as_edition_asks()
    yielding = finder.settle()
    return Affirmations(tuple(finder.result()), frozenset(yielding))


class _Finder:
    def __init__(self, context: Context, judged: list[Judged]) -> None:
        self.context = context
        self.lexicon = context.lexicon
        self.judged = judged
        self.said: list[_Said] = []
        firm = [j for j in judged if j.status != "absent" and not (may_yield(j) or too_much_only(j))]
        self.busy = {i for j in firm for i in j.words}
        self.segment_at: dict[int, int] = {}
        for number, segment in enumerate(context.parsed.segments):
            for i in range(segment.lead, segment.end):
                self.segment_at[i] = number

    def outright(self, match: Match) -> None:
        """A phrase, or a state beside its part."""
        number = self.segment_at.get(match.start)
        if number is None or (self.busy.intersection(match.used) and not self._says_more(match)):
            return
        text = self.context.parsed.tokens.text
        denies = not self.lexicon.sets.denying.isdisjoint(text[match.start : match.end])
        compares = any(is_comparative(text[i]) for i in range(max(0, match.start - 1), match.end))
        if (compares and not denies) or self._right_side(match):
            return
        after = (
            text[match.end] if match.end < len(text) and not self.context.parsed.tokens.brk[match.end] else ""
        )
        if after in self.lexicon.sets.but_for:
            return  # `full mouth bar one premolar`
        if after in self.lexicon.sets.dimensions or not self._plain(number, match.start, match.end, denies):
            return
        for kind, point, cost in match.meanings:
            if kind == "seen":
                self._seen(number, point, match)
                continue
            if cost >= _DEAREST or (point not in self.lexicon.points and self.lexicon.points):
                continue
            if kind == "phrase":
                if self._of_another(number, point, match):
                    continue
                self._say(point, match.used, _PHRASE - cost, number)
                continue
            words = self.lexicon.affirms[point]
            where = self._beside(number, frozenset((*words.of, *words.parts)), match)
            if where is not None:
                p, used = where
                self._say(point, (*used, *match.used), p - cost, number, frozenset(match.used))

    def _says_more(self, match: Match) -> bool:
        """Whether a phrase says all that the findings in it say, and more: `holds topline on the move`."""
        used = set(match.used)
        return len(used) >= _WHOLE and all(
            used.issuperset(j.words) and len(used) > len(set(j.words)) and not j.stressed
            for j in self.judged
            if j.status == "present" and not used.isdisjoint(j.words)
        )

    def _right_side(self, match: Match) -> bool:
        """The `right` of `right elbow`: a side, no praise."""
        text, paired = self.context.parsed.tokens.text, self.lexicon.sets.paired
        return any(text[i] == "right" and text[i + 1 : i + 2] and text[i + 1] in paired for i in match.used)

    def _seen(self, number: int, answer: str, match: Match) -> None:
        """`dark amber eye`, where the edition asks for the shade that is seen."""
        point, _, option = answer.partition(" ")
        where = self._beside(number, frozenset(self.lexicon.seen[point].of), match)
        if where is not None:
            words = (*where[1], *match.used)
            self.said.append(_Said(point, words, where[0], frozenset(match.used), option))

    def _of_another(self, number: int, point: str, match: Match) -> bool:
        """Whether a phrase that names no part stands in a clause that speaks of another region's.

        `ear set on correct`: nothing of the tail; `front well angulated`: nothing of the hindquarters.
        """
        regions, home = self.lexicon.part_region, self.lexicon.points[point].region
        named = {name for name, _ in _parts(self.context.parsed.segments[number])}
        own = _own(self.context.parsed.segments[number], match)
        others = {regions.get(name, home) for name in named - own - NO_PART}
        mere = own - self._full_names(number, match)
        return bool(others) and home not in others and (not own or own == mere)

    def _full_names(self, number: int, match: Match) -> set[str]:
        """Parts that the words of a match name by more than a side of them: not the `spring` of pasterns."""
        text, sides = self.context.parsed.tokens.text, self.lexicon.sets.dimensions
        return {
            name
            for name, used in _parts(self.context.parsed.segments[number])
            if set(used) <= set(match.used) and not all(text[i] in sides for i in used)
        }

    def _beside(self, number: int, parts: frozenset[str], match: Match) -> tuple[float, Words] | None:
        """How sure it is that one of the parts is spoken of, and its words."""
        segments = self.context.parsed.segments
        here = list(_parts(segments[number]))
        for name, used in here:
            if name in parts and (name not in _own(segments[number], match)):
                return _STATE, used
        if any(not set(used) <= set(match.used) for _, used in here):
            return None
        for back in reversed(range(self.context.topic(number).start, number)):
            earlier = list(_parts(segments[back]))
            if earlier:
                return next(((_CARRIED, used) for name, used in earlier if name in parts), None)
        screen = self.lexicon.region_parts.get(self.context.region or "", ())[:1]
        return (_ON_SCREEN, ()) if parts.intersection(screen) else None

    def praised_parts(self) -> None:
        """`good forechest`: praise of a part that stands for one point; `good size and bone` praises both."""
        segments = self.context.parsed.segments
        said = {i for s in self.said for i in s.words}
        praise: list[Talk] = []
        all_praise: list[Talk] = []
        for number, segment in enumerate(segments):
            parts = list(_parts(segment))
            told = [t for t in segment.talk if t.kind in ("praise", "verdict") and not self._describes(t)]
            listed = segment.sep == "and" and self._only_parts(segment)
            if told or not listed:
                praise = [t for t in told if not said.intersection(range(t.start, t.end))]
                all_praise = told
            elif not praise:
                praise = all_praise  # `tons of reach and drive`
            if not praise or self._dimension(segment, parts):
                continue
            crowded = bool(self.busy.intersection(range(segment.start, segment.end)))
            for name, used in parts:
                if self._mere_goal(used):
                    continue
                near = [t for t in praise if not crowded or _adjacent(t, used)]
                if near and self._plain(number, min(used), max(used) + 1, False):
                    for point in self.lexicon.affirmed_by_part.get(name, ()):
                        self._say(point, (*used, *range(near[0].start, near[0].end)), _PRAISE, number)

    def _describes(self, talk: Talk) -> bool:
        """The `strong` of `strong head`: a quality, not a judgement that all is as asked."""
        words = self.context.parsed.tokens.text[talk.start : talk.end]
        return all(w in self.lexicon.sets.descriptive or w in self.lexicon.drop for w in words)

    def _mere_goal(self, used: Words) -> bool:
        """The withers of `neck flows well into the withers`."""
        text, at = self.context.parsed.tokens.text, min(used)
        return any(w in _TOWARDS for w in text[max(0, at - 2) : at])

    def _only_parts(self, segment: Segment) -> bool:
        """The `bone` of `good size and bone`: a clause that goes on with the list of what is praised."""
        text, lexicon = self.context.parsed.tokens.text, self.lexicon
        named = {
            i
            for item in segment.items
            if not (item.faults or item.late_faults or item.qualities)
            for i in item.used
        }
        return all(
            i in named or text[i] in lexicon.drop or text[i] in lexicon.filler
            for i in range(segment.start, segment.end)
        )

    def _dimension(self, segment: Segment, parts: list[tuple[str, Words]]) -> bool:
        """`correct length of croup`: a side of the part is praised, not the part."""
        text, dimensions = self.context.parsed.tokens.text, self.lexicon.sets.dimensions
        own = {i for _, used in parts for i in used}
        return any(text[i] in dimensions and i not in own for i in range(segment.start, segment.end))

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
                    self._say(point, words, _ASKED, number)
                elif praised and "!" in j.candidate.marks:
                    self._say(point, words, _MAY_BE, number)

    def _plain(self, number: int, start: int, end: int, denies: bool) -> bool:
        """Whether the clause says it without denial, doubt, wish or comparison."""
        parsed, sets = self.context.parsed, self.lexicon.sets
        segment = parsed.segments[number]
        tokens = parsed.tokens
        for t in segment.talk:
            inside = t.start >= start and t.end <= end
            if t.kind in _DENYING and not (inside and (denies or t.kind == "neutral")):
                return False
            if t.kind == "people" and t.start <= start:
                return False
        told = {i for t in segment.talk if t.kind in _TOLD for i in range(t.start, t.end)}
        for i in range(segment.lead, segment.end):
            word = tokens.text[i]
            if tokens.query_after[i] or tokens.query_before[i] or word in sets.hearsay:
                return False
            if start <= i < end and denies:
                continue
            if word == "too" and i + 1 == segment.end:
                continue  # `the ribs are well sprung too`
            should = word in _SHOULD and "as" in tokens.text[max(0, i - 4) : i]
            if (
                word in sets.spoils
                and not should
                and i not in told
                and not (start <= i < end and word in _OWN_WORDS)
            ):
                return False
        return True

    def _say(
        self, point: str, words: Words, p: float, number: int, state: frozenset[int] | None = None
    ) -> None:
        place = {p.value for p in self.context.places[number]}
        region = self.context.region or ""
        behind = "hind" in place or ("fore" not in place and region in ("hindfeet", "hindquarters"))
        if point.startswith("forefeet.") and behind:
            twin = "hindfeet." + point.split(".", 1)[1]
            if twin in self.lexicon.points:
                point = twin
        if not self.lexicon.sets.hedged.isdisjoint(self.context.parsed.tokens.text[i] for i in words):
            p -= _HEDGED
        self.said.append(_Said(point, words, p, frozenset(words) if state is None else state))

    def settle(self) -> set[int]:
        """Findings whose words are affirmed: they yield, or the affirmation does.

        A mere likeness yields. So does a state without `too` or degree, all its words affirmed, in a sentence
        that praises or affirms something else: `clean throat, tight elbows` finds nothing.
        """
        yielding: set[int] = set()
        self.said = [s for s in self.said if not any(_is_part_of(s, other) for other in self.said)]
        sentences = [self._sentence_of(s) for s in self.said]
        for j in self.judged:
            if j.status == "absent":
                continue
            words = set(j.words)
            own = [
                s
                for s in self.said
                if s.point not in self.lexicon.seen  # what is seen stands whatever it is worth
                and (not words.isdisjoint(s.state) or self._covers(s, words, j))
            ]
            if not own:
                continue
            covered = any(self._covers(s, words, j) for s in own)
            here = self.context.sentence(j.candidate.segment).start
            others = any(at == here and s not in own for s, at in zip(self.said, sentences, strict=True))
            praise = any(
                t.kind in ("praise", "verdict")
                for n in self.context.sentence(j.candidate.segment)
                for t in self.context.parsed.segments[n].talk
            )
            whole = any(len(s.words) >= _WHOLE and words < s.state for s in own)
            if j.candidate.origin == "like" or (
                covered and (whole or may_yield(j)) and (others or praise or whole or too_much_only(j))
            ):
                yielding.add(id(j))
            else:
                self.said = [s for s in self.said if s not in own]
                sentences = [self._sentence_of(s) for s in self.said]
        return yielding

    def _covers(self, said: _Said, words: set[int], j: Judged) -> bool:
        """Whether the affirmation explains all words of a finding: its state, and the names of parts.

        A state beside its part may be all that is called right: `soft ears, nicely carried`.
        """
        text, known = self.context.parsed.tokens.text, self.lexicon.main
        asked = len(words) <= _PLAIN and j.candidate.faults[0] in self.lexicon.askable
        return words.issubset(said.words) and (
            asked
            or all(
                any(kind == "P" for kind, _ in known.get(stem(text[i]), {}).get(END, ()))
                for i in words - said.state
            )
        )

    def _sentence_of(self, said: _Said) -> int:
        return self.context.sentence(self.segment_at[min(said.words)]).start

    def result(self) -> list[tuple[FoundAffirmed, Words]]:
        """One for each point, the surest; of two that are sure enough the one of more words."""
        tokens = self.context.parsed.tokens
        best: dict[str, _Said] = {}
        for said in self.said:
            if said.point not in best or _weight(said) > _weight(best[said.point]):
                best[said.point] = said
        out: list[tuple[FoundAffirmed, Words]] = []
        for said in best.values():
            words = self.lexicon.affirms.get(said.point)
            known = self.lexicon.points.get(said.point)
            option = said.option or (words.option if words else None)
            if option is None and known is not None and known.kind == "choice":
                option = known.right_option
            span = tokens.start[min(said.words)], max(tokens.end[i] for i in said.words)
            sure = said.p >= _ACCEPT and not (words and words.sums_up) and not self._doubtful(said)
            found = FoundAffirmed(said.point, option, span, said.p, sure)
            out.append((found, said.words))
        return out

    def _doubtful(self, said: _Said) -> bool:
        """Whether what is said may be meant otherwise: it is heard, and the evaluator is asked.

        `fully pigmented` under the head names no part, and is right of another region; behind a `but` with
        nothing amiss before it something is: `good angulation, but the hock joint is straight`.
        """
        segments, number = self.context.parsed.segments, self.segment_at[min(said.state or said.words)]
        region = self.context.region
        if region not in (None, said.point.split(".")[0]) and not self._names_its_part(said, segments):
            return True
        amiss = {j.candidate.segment for j in self.judged if j.status != "absent"}
        return segments[number].sep == "contrast" and number - 1 not in amiss

    def _names_its_part(self, said: _Said, segments: list[Segment]) -> bool:
        """Whether its words name a part of its region, and of no other: not the `set on` of ear and tail."""
        named = [n for s in segments for n, used in _parts(s) if not set(used).isdisjoint(said.words)]
        return {self.lexicon.part_region[n] for n in named} == {said.point.split(".")[0]}


def _weight(said: _Said) -> tuple[bool, int, float]:
    return said.p >= _ACCEPT, len(said.words) if said.p >= _ACCEPT else 0, said.p


def _is_part_of(said: _Said, other: _Said) -> bool:
    """The `powerful` of `powerful drive off the rear`: a word of what is said right of another region."""
    elsewhere = said.point.split(".")[0] != other.point.split(".")[0]
    return (elsewhere or other.option is not None) and said.state < other.state


def _adjacent(talk: Talk, used: Words) -> bool:
    return 0 <= talk.start - max(used) <= 2 or 0 <= min(used) - talk.end < 2


def _own(segment: Segment, match: Match) -> set[str]:
    """Parts that only the words of the match itself may name: the `marked` of `withers well marked`."""
    elsewhere = {name for name, used in _parts(segment) if not set(used) <= set(match.used)}
    inside = {name for name, used in _parts(segment) if set(used) <= set(match.used)}
    return inside - elsewhere


def _parts(segment: Segment) -> Iterable[tuple[str, Words]]:
    """The parts a clause names, with their words."""
    for item in segment.items:
        for name, cost in (*item.parts, *item.inner_parts):
            if cost < _DEAREST:
                yield name, item.used
    for right in segment.right:
        yield from right.parts
