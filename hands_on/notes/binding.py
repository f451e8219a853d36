"""Which quality belongs to which part: in a segment, shared over lists and contrasts, or from the screen."""

from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Item, Parsed, Segment
from hands_on.notes.context import Context
from hands_on.notes.lexicon import Gives, Lexicon

_DOUBTFUL: Final = 0.4
_TOO_DOUBTFUL: Final = 0.43


@dataclass(slots=True)
class Candidate:
    """A finding before its status, degree and side are known. `anchor` is the word the fault hangs on."""

    faults: tuple[str, ...]
    segment: int
    anchor: Item
    words: tuple[int, ...]
    origin: str
    cost: float
    marks: str = ""
    ambiguous: bool = False
    foreign: int = 0
    part: Item | None = None


def bind(parsed: Parsed, lexicon: Lexicon, region: str | None) -> list[Candidate]:
    """All findings the words support, in the order of the note."""
    return _Binder(parsed, lexicon, region).run()


class _Binder(Context):
    """Walks the segments and collects candidates."""

    def __init__(self, parsed: Parsed, lexicon: Lexicon, region: str | None) -> None:
        super().__init__(parsed, lexicon, region)
        self.out: list[Candidate] = []
        self.part_of: dict[int, Item] = {}

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
            marks = "!" if all("!" in f for f, _ in named) else self._inner_marks(item, faults[0])
            self._add(faults, number, item, item.used, origin, cost, marks)

    def _inner_marks(self, item: Item, fault: str) -> str:
        """The marks of the part and quality that a phrase is made of: `long upper arm` is asked for."""
        for part, _ in item.inner_parts:
            for quality, _ in item.inner_qualities:
                gives = self.lexicon.gives.get((part, quality))
                if gives is not None and gives.marks and fault in gives.faults:
                    return gives.marks
        return ""

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
                if self._after_measure(quality) or self._noun_between(segment, quality, part):
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
                gives.marks,
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
                gives.marks,
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
        likewise = self._likewise(segment)
        if segment.sep in ("and", "or") or likewise:
            back = number - 1
            while back >= 0:
                for quality, order_ok in self._qualities_of(segments[back], part_first=False):
                    if (order_ok or likewise) and self._share(number, part, quality):
                        return
                if segments[back].sep not in ("and", "or", "comma") or any(
                    i.qualities or i.faults for i in segments[back].items
                ):
                    return
                back -= 1

    def _likewise(self, segment: Segment) -> bool:
        """`upper arm likewise`, `feet too`, `back as well`: what was said before holds here too."""
        text = self.parsed.tokens.text
        words = text[segment.start : segment.end]
        if any(w in self.lexicon.words("likewise") for w in words) or words[-1:] in (["too"], ["also"]):
            return True
        return (
            text[segment.end : segment.end + 2] == ["as", "well"] and not self.parsed.tokens.brk[segment.end]
        )

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
        self._add(gives.faults, owner, quality, part.used, "share", cost, gives.marks, part)
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
            if self._both_of(number, segment, item):
                continue
            foreign = self._foreign(segment, item)
            place = self._place_part(number, item)
            if (
                place is not None
                and not (foreign and not self.region)
                and self._loose(number, segment, item, place, "place", foreign)
            ):
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

    def _both_of(self, number: int, segment: Segment, item: Item) -> bool:
        """`neither blade nor upper arm is short, but both are too upright`: said of the two parts before."""
        text = self.parsed.tokens.text
        if "both" not in text[segment.start : item.start] or any(i.parts for i in segment.items):
            return False
        parts: list[Item] = []
        at = number
        while at > 0 and number - at < 4 and len(parts) < 2 and (at == number or segment.sep != "stop"):
            at -= 1
            earlier = [i for i in self.parsed.segments[at].items if i.parts or i.inner_parts]
            parts.extend(reversed(earlier))
        if len(parts) < 2:
            return False
        found = [self._meaning(p.parts or p.inner_parts, item.qualities) for p in parts[:2]]
        if None in found:
            return False
        item.bound = True
        for part, meaning in zip(reversed(parts[:2]), reversed(found), strict=True):
            if meaning is not None:
                gives, cost = meaning
                self._add(gives.faults, number, item, part.used, "share", cost, gives.marks, part)
        return True

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
        known = tuple((name, 0.3 * c) for name, c in parts)
        found = self._meaning(known, item.qualities)
        if found is None or (not self._particle_free(item) and not self._closes(number, item)):
            return False
        gives, cost = found
        item.bound = True
        self._add(gives.faults, number, item, item.used, origin, cost, gives.marks, None, foreign)
        return True

    def _from_screen(self, number: int, segment: Segment, item: Item, foreign: int) -> None:
        best: tuple[Gives, float, str] | None = None
        lexicon = self.lexicon
        free = self._particle_free(item)
        for quality, cost in item.qualities:
            origin = "bare"
            gives = self._on_screen(quality)
            if not free and (gives is None or "?" not in gives.marks):
                continue
            alone = not foreign and self.region in (None, "general")
            if gives is None and quality in lexicon.lone and (alone or not self._common(item)):
                gives, origin = lexicon.lone[quality], "lone"
                if self.region and lexicon.regions.get(gives.faults[0]) != self.region:
                    cost += 0.2
                    if cost > 0.3:
                        continue
            if gives is not None and (best is None or cost < best[1]):
                best = (gives, cost, origin)
        if best is not None and not (best[2] == "lone" and item.late_faults and len(item.used) > 1):
            item.bound = True
            self._add(best[0].faults, number, item, item.used, best[2], best[1], best[0].marks, None, foreign)

    # -- which of several faults

    def _add(
        self,
        faults: tuple[str, ...],
        number: int,
        anchor: Item,
        words: tuple[int, ...],
        origin: str,
        cost: float,
        marks: str = "",
        part: Item | None = None,
        foreign: int = 0,
    ) -> None:
        ordered, ambiguous = self._rank(faults, number)
        vague = part is not None and all(q in ("lack", "excess") for q, _ in anchor.qualities)
        if cost >= _DOUBTFUL and vague and self.lexicon.regions.get(ordered[0]) != self.region:
            return
        if cost >= _DOUBTFUL and not self._at_home(ordered[0], words):
            return
        self.out.append(
            Candidate(ordered, number, anchor, words, origin, cost, marks, ambiguous, foreign, part)
        )
