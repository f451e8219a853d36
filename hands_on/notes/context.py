"""What stands around a clause: its sentence, its topic, strange words, what is explained already."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hands_on.notes.clauses import Item, Parsed, Segment, Talk
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import Match
from hands_on.notes.topics import topics

if TYPE_CHECKING:
    from hands_on.notes.degrees_sides import Judged

__all__ = ["Context", "Leaning"]


@dataclass(frozen=True, slots=True)
class Leaning:
    """By how much words are more like a fault than the next, trail the first, or lead over no fault at all.

    Natural logarithms of likelihoods; nought where nothing is known.
    """

    ahead: float = 0.0
    behind: float = 0.0
    over_nothing: float = 0.0


_MONTHS = (["months"], ["weeks"], ["month"], ["week"], ["mths"], ["wks"])
_SPELT = tuple(
    [word] for word in ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "twelve")
)
_NO_AGE = frozenset({"then", "previously", "formerly", "earlier"})
_SEEN = frozenset({"seen", "viewed", "looked"})


def _is(match: Match, kind: str) -> bool:
    return any(k == kind for k, _, _ in match.meanings)


class Context:
    """A parsed note with the lexicon and the region on screen; decides nothing."""

    def __init__(
        self, parsed: Parsed, lexicon: Lexicon, region: str | None, measured: frozenset[int] = frozenset()
    ) -> None:
        self.parsed = parsed
        self.lexicon = lexicon
        self.region = region
        self.places: list[list[Talk]] = [[] for _ in parsed.segments]
        at = 0
        for place in sorted(parsed.places, key=lambda p: p.start):
            while at < len(parsed.segments) and parsed.segments[at].end <= place.start:
                at += 1
            if at < len(parsed.segments) and parsed.segments[at].start <= place.start:
                self.places[at].append(place)
        for number in range(1, len(parsed.segments)):
            if self.places[number] and not self.places[number - 1] and self._only_place(number):
                self.places[number - 1] = self.places[number]  # `too wide, seen from the front`
        self._sentences: list[range] = []
        for number, segment in enumerate(parsed.segments):
            if segment.sep == "stop" or not number:
                end = number + 1
                while end < len(parsed.segments) and parsed.segments[end].sep != "stop":
                    end += 1
                here = range(number, end)
            self._sentences.append(here)
        self.topics = topics(parsed)
        self._leads = [s.lead for s in parsed.segments]
        self.owner = {id(i): n for n, s in enumerate(parsed.segments) for i in s.items}
        self.people = {m.start for m in parsed.talk if _is(m, "people")}
        span = parsed.span
        self.others = {m.start for m in parsed.talk if m.start in span and _is(m, "others")}
        """Where another dog is named: `the last dog`."""
        self.then = {m.start for m in parsed.talk if m.start in span and _is(m, "then")}
        self.then |= {i for i in span if parsed.tokens.text[i] == "ago" or self._of_youth(i)}
        """Where another day is named: `as a pup`."""
        self.elsewhere: set[int] = set()
        """Words of what was found of another dog or another day."""
        self._findings: dict[int, int] = {}
        self._bad: dict[int, int] = {}
        self._explained: dict[int, tuple[int, set[int]]] = {}
        self.measured = measured
        self.silenced: list[Judged] = []
        """Findings that are none, for some standard asks for what they say."""
        self.asked: set[int] = set()
        """First clauses of topics in which a state was named as a standard asks for it."""
        self.leaning: dict[int, Leaning] = {}
        self._strange: dict[int, int] = {}
        self._strange_around: dict[int, int] = {}
        self.talk_words = bytearray(len(parsed.tokens) + 1)
        for match in parsed.talk:
            for i in range(match.start, match.end):
                self.talk_words[i] = 1

    def _of_youth(self, at: int) -> bool:
        """`as an unentered pup`, `at six months`."""
        text, number = self.parsed.tokens.text, self.parsed.tokens.number
        if text[at] == "at" and (number[at + 1 : at + 2] == [True] or text[at + 1 : at + 2] in _SPELT):
            return text[at + 2 : at + 3] in _MONTHS
        if text[at] != "as" or text[at + 1 : at + 2] not in (["a"], ["an"]):
            return False
        return any(w in self.lexicon.sets.once and w not in _NO_AGE for w in text[at + 2 : at + 5])

    def _only_place(self, number: int) -> bool:
        """Whether a clause behind a comma tells where something is seen, and nothing more."""
        return self.parsed.segments[number].sep == "comma" and self._says_no_more(number, _SEEN)

    def _says_no_more(self, number: int, small: frozenset[str]) -> bool:
        """Whether a clause tells how or where the dog is seen, and nothing of it but such small words."""
        told = {i for p in self.places[number] for i in range(p.start, p.end)}
        segment, text = self.parsed.segments[number], self.parsed.tokens.text
        return all(
            i in told or text[i] in self.lexicon.drop or text[i] in small
            for i in range(segment.start, segment.end)
        )

    def note_findings(self, found: Iterable[tuple[int, bool]]) -> None:
        """Keep how many findings each sentence has: of each its clause, and whether it may be asked for."""
        for number, may_be_asked in found:
            at = self.sentence(number).start
            self._findings[at] = self._findings.get(at, 0) + 1
            self._bad[at] = self._bad.get(at, 0) + (not may_be_asked)

    def clause_of(self, word: int) -> int:
        """The clause in which a word stands."""
        return max(0, bisect_right(self._leads, word) - 1)

    def topic(self, number: int) -> range:
        """The clauses of the topic that a clause belongs to."""
        first = last = number
        while first > 0 and self.topics[first - 1] == self.topics[number]:
            first -= 1
        while last + 1 < len(self.topics) and self.topics[last + 1] == self.topics[number]:
            last += 1
        return range(first, last + 1)

    def unexplained(self, number: int) -> tuple[int, set[int]]:
        """How many words of a clause's topic say something, and those of them that no finding explains."""
        topic = self.topic(number)
        if topic.start not in self._explained:
            tokens, lexicon = self.parsed.tokens, self.lexicon
            content = 0
            open_words: set[int] = set()
            for segment in self.parsed.segments[topic.start : topic.stop]:
                told = {i for t in segment.talk for i in range(t.start, t.end)}
                bound = {i for item in segment.items if item.bound for i in item.used}
                for i in range(segment.start, segment.end):
                    small = tokens.text[i] in lexicon.drop or tokens.text[i] in lexicon.filler
                    if tokens.number[i] or small or i in told or i in self.measured:
                        continue
                    content += 1
                    if i not in bound:
                        open_words.add(i)
            self._explained[topic.start] = content, open_words
        return self._explained[topic.start]

    def other_findings(self, number: int) -> bool:
        """Whether the sentence of a clause has more than one finding."""
        return self._findings.get(self.sentence(number).start, 0) > 1

    def all_neutral(self, number: int) -> bool:
        """Whether some standard asks for all that its sentence finds."""
        at = self.sentence(number).start
        return self._findings.get(at, 0) > 0 and not self._bad[at]

    def moving(self, number: int) -> bool:
        """Whether the talk is of movement, here or just before."""
        near = self.places[max(0, number - 2) : number + 1]
        return any(p.value == "moving" for places in near for p in places)

    def moving_here(self, number: int) -> bool:
        """Whether a clause says that the dog moves, or its sentence opens so: `going away ..., his ...`."""
        if any(p.value == "moving" for p in self.places[number]):
            return True
        first = self.sentence(number).start
        opening = self.parsed.segments[first]
        if first != number and not self._says_no_more(first, self.lexicon.filler):
            return False  # `moves soundly, the hocks are turned inwards`
        return any(p.value == "moving" and p.start <= opening.start + 1 for p in self.places[first])

    def both_ends(self, anchor: Item) -> bool:
        """`splayed front and rear`, `f & r` beside the word."""
        text = self.parsed.tokens.text
        fore, hind = self.lexicon.sets.fore_words, self.lexicon.sets.hind_words
        return any(
            text[i] in fore and text[i + 1] in ("and", "&") and text[i + 2] in hind
            for i in range(max(0, anchor.start - 4), min(anchor.end + 2, len(text) - 2))
        )

    def foreign(self, segment: Segment, item: Item) -> int:
        count = 0
        for i in range(segment.start, segment.end):
            text = self.parsed.tokens.text[i]
            if i >= item.end and (text in self.lexicon.subordinate or self.measured_by(i)):
                break
            if i > item.end and text in self.lexicon.setting:
                continue
            count += self.is_foreign(i, segment)
        return count

    def measured_by(self, index: int) -> bool:
        """Whether a word opens what something is held against: `for a working dog`, `too steep to gallop`."""
        text, sets = self.parsed.tokens.text, self.lexicon.sets
        following = text[index + 1 : index + 2]
        led = following and (following[0] in sets.articles | sets.own or following[0] == "this")
        purpose = text[index] == "to" and "too" in text[max(0, index - 3) : index]
        return purpose or (text[index] == "for" and bool(led))

    def strange(self, number: int) -> int:
        """How many words of a segment are neither of the trade nor of small talk."""
        found = self._strange.get(number)
        if found is None:
            segment = self.parsed.segments[number]
            found = sum(self.is_foreign(i, segment) for i in range(segment.start, segment.end))
            self._strange[number] = found
        return found

    def part_nearby(self, number: int, anchor: Item) -> bool:
        """Whether a part is named beside the word, or carries a finding in the same sentence."""
        segments = self.parsed.segments
        if any(c < 0.3 for i in segments[number].items if i is not anchor for _, c in i.parts):
            return True
        return any(
            i.bound and i is not anchor and (i.parts or i.inner_parts)
            for at in self.sentence(number)
            for i in segments[at].items
        )

    def strange_nearby(self, number: int) -> int:
        """The same as `strange`, over the whole sentence."""
        sentence = self.sentence(number)
        if sentence.start not in self._strange_around:
            self._strange_around[sentence.start] = sum(self.strange(at) for at in sentence)
        return self._strange_around[sentence.start]

    def sentence(self, number: int) -> range:
        """The segments of the sentence that a segment belongs to."""
        return self._sentences[number]

    def is_foreign(self, index: int, segment: Segment) -> bool:
        """A word that is neither of the trade nor of small talk: what the quality may really speak of."""
        tokens = self.parsed.tokens
        if index in self.people:
            return True
        word = tokens.text[index]
        if tokens.number[index] or self.talk_words[index] or word in self.lexicon.filler:
            return False
        if word in self.lexicon.number_words or word in self.lexicon.units:
            return False
        return index not in segment.words
