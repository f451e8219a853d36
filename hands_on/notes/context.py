"""Looking around in a parsed note: what words mean together, what stands near, what the screen suggests."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from hands_on.notes.clauses import Item, Parsed, Segment, Talk
from hands_on.notes.lexicon import Gives, Lexicon
from hands_on.notes.topics import NO_PART, topics

if TYPE_CHECKING:
    from hands_on.notes.degrees_sides import Judged

__all__ = ["Context", "Leaning", "twin"]

_NEIGHBOUR: Final = {
    "forequarters": "forefeet",
    "forefeet": "forequarters",
    "hindquarters": "hindfeet",
    "hindfeet": "hindquarters",
    "movement": "croup-tail",
}


def twin(fault: str) -> str:
    """The same fault of the other pair of feet: `forefeet.flat`, `hindfeet.flat`."""
    region, _, name = fault.partition(".")
    return {"forefeet": "hindfeet.", "hindfeet": "forefeet."}.get(region, "?") + name


@dataclass(frozen=True, slots=True)
class Leaning:
    """By how much words are more like a fault than the next, trail the first, or lead over no fault at all.

    Natural logarithms of likelihoods; nought where nothing is known.
    """

    ahead: float = 0.0
    behind: float = 0.0
    over_nothing: float = 0.0


class Context:
    """A parsed note with the lexicon and the region on screen; answers questions, decides nothing."""

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
        self.people = {m.start for m in parsed.talk if any(k == "people" for k, _, _ in m.meanings)}
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

    def _moving(self, number: int) -> bool:
        """Whether the talk is of movement, here or just before."""
        near = self.places[max(0, number - 2) : number + 1]
        return any(p.value == "moving" for places in near for p in places)

    def _speaks_on(self, index: int) -> bool:
        """Whether the word opens a comparison or circumstance and so is no noun the quality belongs to."""
        text = self.parsed.tokens.text[index]
        return text in self.lexicon.subordinate or text.endswith("ly") or text in self.lexicon.setting

    def _with_twins(self, item: Item, faults: tuple[str, ...]) -> tuple[str, ...]:
        """What is said of feet may hold in front or behind: the screen or a place decides."""
        known = self.lexicon.regions
        twins = [known_twin for f in faults if (known_twin := twin(f)) in known]
        if twins:
            return tuple(dict.fromkeys([*faults, *twins]))
        if len(item.used) > 2:
            return faults  # `tail carried high` says more than part and quality
        for quality, _ in item.inner_qualities:
            for part, _ in item.inner_parts:
                gives = self.lexicon.gives.get((part, quality))
                if gives and len(gives.faults) > 1 and all(f in gives.faults for f in faults):
                    return tuple(dict.fromkeys([*faults, *gives.faults]))
        return faults

    def _as_composed(self, item: Item, faults: tuple[str, ...]) -> tuple[str, ...]:
        """A phrase of another region, taken apart: what its words mean on this screen comes first."""
        here: list[str] = []
        qualities = item.inner_qualities or item.qualities
        for quality, _ in qualities:
            for part, _ in item.inner_parts:
                gives = self.lexicon.gives.get((part, quality))
                here.extend(gives.faults if gives else ())
            if not item.inner_parts and self.region:
                gives = self._on_screen(quality)
                here.extend(gives.faults if gives else ())
        near = (self.region, _NEIGHBOUR.get(self.region or ""))
        here = [f for f in here if self.lexicon.regions.get(f) in near]
        return tuple(dict.fromkeys([*here, *faults]))

    def _on_screen(self, quality: str) -> Gives | None:
        """What a quality without a part means on the screen's region."""
        lexicon = self.lexicon
        if not self.region:
            return None
        gives = lexicon.bare.get((self.region, quality))
        if quality not in ("lack", "excess"):
            for part in lexicon.region_parts.get(self.region, ()):
                gives = gives or lexicon.gives.get((part, quality))
        return gives

    def _is_negation(self, quality: Item) -> bool:
        """`no`, `without`: lack of a part, unless they rule something out."""
        lack = any(q == "lack" for q, _ in quality.qualities)
        return lack and (quality.start, quality.end) in self.parsed.negations

    def _particle_ok(self, part: Item | None, quality: Item, segment: Segment) -> bool:
        """`in`, `out` and the like are a quality only right behind their part, with no noun following."""
        text = self.parsed.tokens.text
        if len(quality.used) != 1 or text[quality.start] not in self.lexicon.sets.particles:
            return True
        if part is None or part.start > quality.start or quality.start - part.end > 2:
            return False
        after = quality.end
        if (
            after >= segment.end
            or text[after] in self.lexicon.subordinate
            or text[after] in self.lexicon.sets.after_particle
        ):
            return True
        if text[after] in self.lexicon.sets.not_after_particle:
            return False
        places = self.places[self.owner[id(quality)]]
        if text[quality.start] == "in" and any(p.start == after and p.value != "moving" for p in places):
            return False
        return text[quality.start] in ("out", "down") or bool(self.talk_words[after])

    def _meaning(
        self, parts: Iterable[tuple[str, float]], qualities: Iterable[tuple[str, float]]
    ) -> tuple[Gives, float] | None:
        best: tuple[Gives, float] | None = None
        qualities = tuple(qualities)
        for part, c1 in parts:
            for quality, c2 in qualities:
                gives = self.lexicon.gives.get((part, quality))
                if gives is not None and (best is None or c1 + c2 < best[1] - 1e-9):
                    best = (gives, c1 + c2)
        return best

    def _cost(self, parts: Iterable[tuple[str, float]], qualities: Iterable[tuple[str, float]]) -> float:
        found = self._meaning(parts, qualities)
        return found[1] if found else 1.0

    def _speaks_of_another(self, segment: Segment, item: Item) -> bool:
        """`coat wet`: the part is named, and the quality says nothing of it."""
        text = self.parsed.tokens.text
        placing = self.lexicon.sets.placing
        return any(
            p is not item
            and not p.bound
            and not p.qualities
            and any(c < 0.3 and n not in NO_PART for n, c in p.parts)
            and not any(w in placing for w in text[max(segment.start, p.start - 2) : p.start + 1])
            for p in segment.items
        )

    def _quality_first(self, segment: Segment) -> bool:
        first = segment.items[0] if segment.items else None
        if first is None or first.parts:
            return False
        return bool(first.qualities) or (bool(first.faults) and first.inner_quality_first)

    def _closes(self, number: int, item: Item) -> bool:
        """`elbows neither in nor out`: nothing but the particle, at the end of its segment."""
        segment = self.parsed.segments[number]
        return len(segment.items) == 1 and not self._foreign(segment, item)

    def _noun_between(self, segment: Segment, quality: Item, part: Item) -> bool:
        """`close that door behind you`: the quality belongs to a foreign word before a mere place."""
        if part.start < quality.end or not part.parts or any(p not in NO_PART for p, _ in part.parts):
            return False
        return any(self._is_foreign(i, segment) for i in range(quality.end, part.start))

    def _particle_free(self, item: Item) -> bool:
        word = self.parsed.tokens.text[item.start]
        return len(item.used) != 1 or word not in self.lexicon.sets.particles

    def _earlier_parts(self, number: int) -> tuple[tuple[str, float], ...]:
        """The names of the part the talk is about."""
        item = self._spoken_of(number)
        return (item.parts or item.inner_parts) if item is not None else ()

    def _spoken_of(self, number: int) -> Item | None:
        """The part the talk is about: the last that carried a finding, else the first one named."""
        segments = self.parsed.segments
        at = number
        while at > 0 and number - at < 6:
            if segments[at].sep == "stop" and number - at > 0:
                return None
            at -= 1
            own = [
                i
                for i in segments[at].items
                if (i.parts or i.inner_parts) and not (i.qualities and i.bound) and not self._mere_place(i)
            ]
            if own:
                bound = [i for i in own if i.bound]
                turned = len(own) > 1 and self.parsed.tokens.text[own[0].end : own[0].end + 1] == ["to"]
                return bound[-1] if bound else own[1 if turned else 0]  # `back to the eyes`
        return None

    def _mere_place(self, item: Item) -> bool:
        """`long in front`: where, not what."""
        text = self.parsed.tokens.text
        place = all(p in ("front", "rear", "forefoot", "hindfoot") for p, c in item.parts if c < 0.3)
        return bool(item.parts) and place and text[item.start - 1 : item.start] == ["in"]

    def _owner_of(self, item: Item, parts: list[Item]) -> bool:
        """The `near fore` of `elbow of the near fore turned in`: whose it is, not what is spoken of."""
        text = self.parsed.tokens.text
        return any(
            first.end < item.start
            and text[first.end] == "of"
            and all(
                text[i] in self.lexicon.skip or self.talk_words[i] for i in range(first.end + 1, item.start)
            )
            for first in parts
        )

    def both_ends(self, anchor: Item) -> bool:
        """`splayed front and rear`, `f & r` beside the word."""
        text = self.parsed.tokens.text
        fore, hind = self.lexicon.sets.fore_words, self.lexicon.sets.hind_words
        return any(
            text[i] in fore and text[i + 1] in ("and", "&") and text[i + 2] in hind
            for i in range(max(0, anchor.start - 4), min(anchor.end + 2, len(text) - 2))
        )

    def _later_parts(self, number: int) -> tuple[tuple[str, float], ...]:
        segments = self.parsed.segments
        at = number + 1
        while at < len(segments) and at - number < 4 and segments[at].sep != "stop":
            own = [i for i in segments[at].items if (i.parts and not i.qualities) or i.inner_parts]
            if own:
                return (own[0].parts or own[0].inner_parts) if self._quality_first(segments[at]) else ()
            at += 1
        return ()

    def _place_part(self, number: int, item: Item) -> tuple[tuple[str, float], ...] | None:
        for place in self.places[number]:
            if place.start not in item.used:
                parts = self.lexicon.location_parts.get(place.value)
                if parts:
                    return tuple((part, 0.0) for part in parts)
        return None

    def _common(self, item: Item) -> bool:
        return len(item.used) == 1 and self.lexicon.slips.is_ordinary(self.parsed.tokens.text[item.start])

    def _after_measure(self, item: Item) -> bool:
        """`64 cm high`: part of a measure, not a fault."""
        tokens = self.parsed.tokens
        at = item.start - 1
        if tokens.brk[item.start]:
            return False
        if at >= 0 and tokens.text[at] in self.lexicon.units:
            at -= 1
            return at >= 0 and (tokens.number[at] or tokens.text[at] in self.lexicon.number_words)
        return at >= 0 and tokens.number[at]

    def _foreign(self, segment: Segment, item: Item) -> int:
        count = 0
        for i in range(segment.start, segment.end):
            text = self.parsed.tokens.text[i]
            if i >= item.end and text in self.lexicon.subordinate:
                break
            if i > item.end and text in self.lexicon.setting:
                continue
            count += self._is_foreign(i, segment)
        return count

    def strange(self, number: int) -> int:
        """How many words of a segment are neither of the trade nor of small talk."""
        found = self._strange.get(number)
        if found is None:
            segment = self.parsed.segments[number]
            found = sum(self._is_foreign(i, segment) for i in range(segment.start, segment.end))
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

    def _only_here(self, item: Item) -> bool:
        """A quality known of one fault alone, and that fault is the screen's: `pacing half the way`."""
        lone = self.lexicon.lone
        return any(
            q in lone and self.lexicon.regions.get(lone[q].faults[0]) == self.region
            for q, c in item.qualities
            if c < 0.3
        )

    def _is_foreign(self, index: int, segment: Segment) -> bool:
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

    def _praised(self, segment: Segment) -> bool:
        return any(i in self.parsed.praised for i in range(segment.start, segment.end))

    def _at_home(self, fault: str, words: tuple[int, ...]) -> bool:
        """A reading that only the ear suggests counts where the screen, or a second word, speaks for it."""
        if not self.region:
            return len(words) > 1
        home = self.lexicon.regions.get(fault)
        return (
            home == self.region
            or home == _NEIGHBOUR.get(self.region)
            or (self.region == "general" and len(words) > 1)
        )

    def _heading(self, number: int) -> frozenset[str]:
        """The regions of a heading right before the segment: `MVT: wide behind`."""
        segments = self.parsed.segments
        if number == 0 or segments[number].sep != "comma":
            return frozenset()
        before = segments[number - 1]
        if before.end - before.start > 1 or before.sep not in ("start", "stop"):
            return frozenset()
        found = [self.lexicon.location_regions.get(p.value, frozenset()) for p in self.places[number - 1]]
        return found[0] if found else frozenset()

    def _rank(self, faults: tuple[str, ...], number: int) -> tuple[tuple[str, ...], bool]:
        """The likeliest of several faults first: by places named, then by the screen, then as listed."""
        if len(faults) == 1:
            return faults, False
        regions = self.lexicon.regions
        named: set[str] = set()
        for place in self.places[number]:
            named |= self.lexicon.location_regions.get(place.value, frozenset())
        if self.region and self.region not in ("forequarters", "forefeet", "hindquarters", "hindfeet"):
            here = [f for f in faults if regions.get(f) == self.region]
            if here:
                rest = tuple(f for f in faults if f not in here)
                return tuple(here) + rest, len(here) > 1
        heading = self._heading(number)
        here = [f for f in faults if regions.get(f) in (heading or named)]
        if here:
            rest = tuple(f for f in faults if f not in here)
            return tuple(here) + rest, len(here) > 1
        if self.region:
            here = [f for f in faults if regions.get(f) == self.region]
            if not here:
                here = [f for f in faults if regions.get(f) == _NEIGHBOUR.get(self.region)]
            if here:
                rest = tuple(f for f in faults if f not in here)
                return tuple(here) + rest, len(here) > 1
        return faults, True
