"""Which quality belongs to which part: in a segment, shared over lists and contrasts, or from the screen."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Item, Parsed, Segment, Talk
from hands_on.notes.lexicon import Gives, Lexicon

_PARTICLES: Final = frozenset({"in", "on", "over", "under", "up", "off", "out", "down", "above", "below"})
_NEIGHBOUR: Final = {
    "forequarters": "forefeet",
    "forefeet": "forequarters",
    "hindquarters": "hindfeet",
    "hindfeet": "hindquarters",
    "movement": "croup-tail",
}
_PLACING: Final = frozenset(
    {"on", "over", "along", "behind", "at", "near", "under", "from", "above", "below", "by", "to"}
)
_DOUBTFUL: Final = 0.4
_NO_PART: Final = frozenset({"dog", "bitch", "body", "movement", "front", "rear", "legs", "height", "type"})
_TOO_DOUBTFUL: Final = 0.43


def _twin(fault: str) -> str:
    """The same fault of the other pair of feet: `forefeet.flat`, `hindfeet.flat`."""
    region, _, name = fault.partition(".")
    return {"forefeet": "hindfeet.", "hindfeet": "forefeet."}.get(region, "?") + name


@dataclass(slots=True)
class Candidate:
    """A finding before its status, degree and side are known. `anchor` is the word the fault hangs on."""

    faults: tuple[str, ...]
    segment: int
    anchor: Item
    words: tuple[int, ...]
    origin: str
    cost: float
    needs_stress: bool = False
    ambiguous: bool = False
    foreign: int = 0
    part: Item | None = None


def bind(parsed: Parsed, lexicon: Lexicon, region: str | None) -> list[Candidate]:
    """All findings the words support, in the order of the note."""
    return _Binder(parsed, lexicon, region).run()


class _Binder:
    def __init__(self, parsed: Parsed, lexicon: Lexicon, region: str | None) -> None:
        self.parsed = parsed
        self.lexicon = lexicon
        self.region = region
        self.out: list[Candidate] = []
        self.places: list[list[Talk]] = [[] for _ in parsed.segments]
        at = 0
        for place in sorted(parsed.places, key=lambda p: p.start):
            while at < len(parsed.segments) and parsed.segments[at].end <= place.start:
                at += 1
            if at < len(parsed.segments) and parsed.segments[at].start <= place.start:
                self.places[at].append(place)
        self.owner = {id(i): n for n, s in enumerate(parsed.segments) for i in s.items}
        self.part_of: dict[int, Item] = {}
        self.people = {m.start for m in parsed.talk if any(k == "people" for k, _, _ in m.meanings)}
        self.talk_words = bytearray(len(parsed.tokens) + 1)
        for match in parsed.talk:
            for i in range(match.start, match.end):
                self.talk_words[i] = 1

    def run(self) -> list[Candidate]:
        segments = self.parsed.segments
        for number, segment in enumerate(segments):
            self._named(number, segment)
            self._inside(number, segment)
            self._only_stressed(number, segment)
        for number, segment in enumerate(segments):
            self._shared_parts(number, segment)
        for number, segment in enumerate(segments):
            self._loose_qualities(number, segment)
        self.out.sort(key=lambda c: (c.segment, c.anchor.start))
        return self.out

    # -- a fault named outright

    def _named(self, number: int, segment: Segment) -> None:
        for item in segment.items:
            if item.faults:
                self._name(number, item, item.faults)

    def _name(self, number: int, item: Item, named: tuple[tuple[str, float], ...]) -> None:
        item.bound = True
        cost = min(c for _, c in named)
        if len(item.used) == 1 and cost >= _TOO_DOUBTFUL:
            return
        segment = self.parsed.segments[number]
        if len(item.used) == 1 and cost >= _DOUBTFUL and self._foreign(segment, item):
            return
        if len(item.used) == 1 and cost > 0 and len(self.parsed.tokens.text[item.start]) <= 2:
            return
        faults = tuple(dict.fromkeys(f.rstrip("!~") for f, _ in named))
        home = self.lexicon.regions
        common = all("~" in f for f, _ in named)
        faults = self._with_twins(item, faults)
        if self.region and all(home.get(f) != self.region for f in faults):
            faults = self._as_composed(item, faults)
            if (
                common
                and self.region != "general"
                and home.get(faults[0]) != self.region
                and not self._moving(number)
            ):
                faults = tuple(f for f in faults if home.get(f) == self.region)
        if common and faults and home.get(faults[0]) == "movement" and self._moving(number):
            pass
        elif (
            common
            and (not self.region or home.get(faults[0] if faults else "") != self.region)
            and self._foreign(segment, item)
        ):
            return
        if (
            common
            and item.end < segment.end
            and self._is_foreign(item.end, segment)
            and not self._speaks_on(item.end)
        ):
            return
        if faults:
            origin = "pair" if item.composed else "phrase"
            self._add(faults, number, item, item.used, origin, cost, all("!" in f for f, _ in named))

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
        twins = [known_twin for f in faults if (known_twin := _twin(f)) in known]
        if twins:
            return tuple(dict.fromkeys([*faults, *twins]))
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

    # -- part and quality in one segment

    def _inside(self, number: int, segment: Segment) -> None:
        parts = [i for i in segment.items if i.parts or i.inner_parts]
        qualities = [i for i in segment.items if i.qualities]
        if not parts or not qualities:
            return
        part_first = parts[0].start < qualities[0].start
        pairs: list[tuple[float, Item, Item, Gives]] = []
        for quality in qualities:
            for part in parts:
                if part is quality:
                    continue
                found = self._meaning(part.parts or part.inner_parts, quality.qualities)
                if self._after_measure(quality):
                    continue
                if found is None or not self._particle_ok(part, quality, segment):
                    continue
                gives, cost = found
                before = part.start < quality.start
                gap = quality.start - part.end if before else part.start - quality.end
                score = 1.0 - cost - 0.05 * gap
                score += 0.12 if before == part_first else 0.0
                if not before and any(
                    self.parsed.tokens.text[i] in ("in", "of", "through")
                    for i in range(quality.end, part.start)
                ):
                    score += 0.15
                pairs.append((score, quality, part, gives))
        pairs.sort(key=lambda p: -p[0])
        lacking: list[tuple[Item, Item, Gives, float]] = []
        other_bound: set[int] = set()
        for _, quality, part, gives in pairs:
            if quality.bound:
                continue
            cost = self._cost(part.parts or part.inner_parts, quality.qualities)
            if self._is_negation(quality):
                lacking.append((quality, part, gives, cost))
                continue
            quality.bound = True
            part.bound = True
            other_bound.add(id(part))
            self.part_of[id(quality)] = part
            self._add(
                gives.faults,
                number,
                quality,
                part.used + quality.used,
                "pair",
                cost,
                gives.needs_stress,
                part,
            )
        for quality, part, gives, cost in lacking:
            follows = 0 <= part.start - quality.end <= 2
            if quality.bound or id(part) in other_bound or not follows or part.bound:
                continue
            quality.bound = part.bound = True
            self.part_of[id(quality)] = part
            self._add(
                gives.faults,
                number,
                quality,
                part.used + quality.used,
                "pair",
                cost + 0.05,
                gives.needs_stress,
                part,
            )

    def _only_stressed(self, number: int, segment: Segment) -> None:
        """`cheeks ++`: a part with nothing but a plus sign is too much of it."""
        if len(segment.items) != 1 or not segment.items[0].parts or segment.items[0].bound:
            return
        part = segment.items[0]
        rest = self.parsed.tokens.text[part.end : segment.end]
        if not rest or any(w.strip("+") for w in rest):
            return
        found = self._meaning(part.parts, (("excess", 0.0),))
        if found is not None:
            part.bound = True
            self._add(found[0].faults, number, part, part.used, "share", found[1])

    def _is_negation(self, quality: Item) -> bool:
        """`no`, `without`: lack of a part, unless they rule something out."""
        lack = any(q == "lack" for q, _ in quality.qualities)
        return lack and (quality.start, quality.end) in self.parsed.negations

    def _particle_ok(self, part: Item | None, quality: Item, segment: Segment) -> bool:
        """`in`, `out` and the like are a quality only right behind their part, with no noun following."""
        text = self.parsed.tokens.text
        if len(quality.used) != 1 or text[quality.start] not in _PARTICLES:
            return True
        if part is None or part.start > quality.start or quality.start - part.end > 2:
            return False
        after = quality.end
        if (
            after >= segment.end
            or text[after] in self.lexicon.subordinate
            or text[after] in ("on", "at", "both")
        ):
            return True
        if text[after] in ("of", "the", "a", "to", "his", "her", "front", "good"):
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

    # -- "elbows and feet turning out", "short in neck and loin"

    def _shared_parts(self, number: int, segment: Segment) -> None:
        segments = self.parsed.segments
        if any(i.faults or (i.qualities and not i.parts) for i in segment.items):
            return
        parts = [i for i in segment.items if i.parts and not i.bound]
        if not parts or self._praised(segment):
            return
        part = parts[-1]
        following = segments[number + 1] if number + 1 < len(segments) else None
        hop = number + 1
        while (
            following is not None
            and following.sep == "comma"
            and not any(i.qualities or i.faults for i in following.items)
        ):
            hop += 1
            following = segments[hop] if hop < len(segments) else None
        if following is not None and following.sep in ("and", "or", "comma"):
            for quality, order_ok in self._qualities_of(following, part_first=True):
                joined = order_ok and (following.sep != "comma" or hop > number + 1)
                if joined and self._share(number, part, quality):
                    return
        if segment.sep in ("and", "or"):
            back = number - 1
            while back >= 0:
                for quality, order_ok in self._qualities_of(segments[back], part_first=False):
                    if order_ok and self._share(number, part, quality):
                        return
                if segments[back].sep not in ("and", "or", "comma") or any(
                    i.qualities or i.faults for i in segments[back].items
                ):
                    return
                back -= 1

    def _qualities_of(self, segment: Segment, part_first: bool) -> list[tuple[Item, bool]]:
        """The qualities of a segment with whether they stand on the asked side of their part."""
        out: list[tuple[Item, bool]] = []
        for item in segment.items:
            if item.inner_qualities and item.inner_parts:
                out.append((item, True))
            elif item.qualities and item.bound:
                part = self.part_of.get(id(item))
                out.append((item, part is None or (part.start < item.start) == part_first))
            elif item.qualities:
                out.append((item, part_first))
        return out

    def _share(self, number: int, part: Item, quality: Item) -> bool:
        found = self._meaning(part.parts, quality.qualities or quality.inner_qualities)
        if found is None:
            return False
        part.bound = True
        gives, cost = found
        owner = self.owner[id(quality)]
        self._add(gives.faults, owner, quality, part.used, "share", cost, gives.needs_stress, part)
        return True

    # -- a quality without a part of its own

    def _loose_qualities(self, number: int, segment: Segment) -> None:
        for item in segment.items:
            if item.bound or not item.qualities or item.faults:
                continue
            if self._is_negation(item) or self._after_measure(item):
                if item.late_faults:
                    self._name(number, item, item.late_faults)
                continue
            foreign = self._foreign(segment, item)
            place = self._place_part(number, item)
            if place is not None and self._loose(number, segment, item, place, "place", foreign):
                continue
            if foreign and not self._only_here(item):
                if item.late_faults:
                    self._name(number, item, item.late_faults)
                continue
            if self._speaks_of_another(segment, item):
                continue
            if any(
                self._try(source, number, segment, item, foreign) for source in self._sources(number, segment)
            ):
                continue
            if item.late_faults:
                self._name(number, item, item.late_faults)
        for item in segment.items:
            if item.late_faults and not item.bound and not item.qualities:
                self._name(number, item, item.late_faults)

    def _speaks_of_another(self, segment: Segment, item: Item) -> bool:
        """`coat wet`: the part is named, and the quality says nothing of it."""
        text = self.parsed.tokens.text
        return any(
            p is not item
            and not p.bound
            and not p.qualities
            and any(c < 0.3 and n not in _NO_PART for n, c in p.parts)
            and not any(w in _PLACING for w in text[max(segment.start, p.start - 2) : p.start + 1])
            for p in segment.items
        )

    def _sources(self, number: int, segment: Segment) -> tuple[str, ...]:
        """Where a quality without a part looks for one, in order."""
        following = self.parsed.segments[number + 1] if number + 1 < len(self.parsed.segments) else None
        if (
            following is not None
            and following.sep in ("and", "or", "contrast")
            and self._quality_first(following)
        ):
            return (
                ("later", "earlier", "screen") if segment.sep != "comma" else ("earlier", "later", "screen")
            )
        return ("earlier", "screen", "later")

    def _quality_first(self, segment: Segment) -> bool:
        first = segment.items[0] if segment.items else None
        if first is None or first.parts:
            return False
        return bool(first.qualities) or (bool(first.faults) and first.inner_quality_first)

    def _try(self, source: str, number: int, segment: Segment, item: Item, foreign: int) -> bool:
        if source == "screen":
            if item.parts and len(segment.items) > 1:
                return False
            self._from_screen(number, segment, item, foreign)
            return item.bound
        parts = self._earlier_parts(number) if source == "earlier" else self._later_parts(number)
        return bool(parts) and self._loose(number, segment, item, parts, "carry", foreign)

    def _loose(
        self,
        number: int,
        segment: Segment,
        item: Item,
        parts: tuple[tuple[str, float], ...],
        origin: str,
        foreign: int,
    ) -> bool:
        found = self._meaning(parts, item.qualities)
        if found is None or (
            origin != "place" and not self._particle_free(item) and not self._closes(number, item)
        ):
            return False
        gives, cost = found
        item.bound = True
        self._add(gives.faults, number, item, item.used, origin, cost, gives.needs_stress, None, foreign)
        return True

    def _closes(self, number: int, item: Item) -> bool:
        """`elbows neither in nor out`: nothing but the particle, at the end of its segment."""
        segment = self.parsed.segments[number]
        return item.end == segment.end and len(segment.items) == 1 and not self._foreign(segment, item)

    def _particle_free(self, item: Item) -> bool:
        return len(item.used) != 1 or self.parsed.tokens.text[item.start] not in _PARTICLES

    def _earlier_parts(self, number: int) -> tuple[tuple[str, float], ...]:
        """The part the talk is about: the last that carried a finding, else the first one named."""
        segments = self.parsed.segments
        at = number
        while at > 0 and number - at < 6:
            if segments[at].sep == "stop" and number - at > 0:
                return ()
            at -= 1
            own = [
                i for i in segments[at].items if (i.parts or i.inner_parts) and not (i.qualities and i.bound)
            ]
            if own:
                bound = [i for i in own if i.bound]
                item = bound[-1] if bound else own[0]
                return item.parts or item.inner_parts
        return ()

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
                part = self.lexicon.location_part.get(place.value)
                if part:
                    return ((part, 0.0),)
        return None

    def _from_screen(self, number: int, segment: Segment, item: Item, foreign: int) -> None:
        best: tuple[Gives, float, str] | None = None
        lexicon = self.lexicon
        if not self._particle_free(item):
            return
        for quality, cost in item.qualities:
            origin = "bare"
            gives = self._on_screen(quality)
            if gives is None and quality in lexicon.lone and not self._common(item):
                gives, origin = lexicon.lone[quality], "lone"
                if self.region and lexicon.regions.get(gives.faults[0]) != self.region:
                    cost += 0.2
                    if cost > 0.3:
                        continue
            if gives is not None and (best is None or cost < best[1]):
                best = (gives, cost, origin)
        if best is not None:
            item.bound = True
            self._add(
                best[0].faults, number, item, item.used, best[2], best[1], best[0].needs_stress, None, foreign
            )

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
            if i >= item.end and text in self.lexicon.setting:
                continue
            count += self._is_foreign(i, segment)
        return count

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
        if word in self.lexicon.number_words:
            return False
        return index not in segment.words

    def _praised(self, segment: Segment) -> bool:
        return any(i in self.parsed.praised for i in range(segment.start, segment.end))

    # -- which of several faults

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

    def _add(
        self,
        faults: tuple[str, ...],
        number: int,
        anchor: Item,
        words: tuple[int, ...],
        origin: str,
        cost: float,
        needs_stress: bool = False,
        part: Item | None = None,
        foreign: int = 0,
    ) -> None:
        ordered, ambiguous = self._rank(faults, number)
        if cost >= _DOUBTFUL and not self._at_home(ordered[0], words):
            return
        self.out.append(
            Candidate(ordered, number, anchor, words, origin, cost, needs_stress, ambiguous, foreign, part)
        )

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
        here = [f for f in faults if regions.get(f) in named]
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
