"""Which quality belongs to which part: in a segment, shared over lists and contrasts, or from the screen."""

from typing import Final

from hands_on.notes.clauses import Item, Parsed, Segment
from hands_on.notes.context import twin
from hands_on.notes.lexicon import END, Gives, Lexicon
from hands_on.notes.shared_quality import DOUBTFUL, Candidate, Sharing
from hands_on.notes.stems import stem

__all__ = ["Candidate", "bind"]

_TOO_DOUBTFUL: Final = 0.43


def bind(parsed: Parsed, lexicon: Lexicon, region: str | None) -> list[Candidate]:
    """All findings the words support, in the order of the note."""
    return _Binder(parsed, lexicon, region).run()


class _Binder(Sharing):
    """Walks the segments and collects candidates."""

    def run(self) -> list[Candidate]:
        segments = self.parsed.segments
        for number, segment in enumerate(segments):
            self._split_denials(number, segment)
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

    def _split_denials(self, number: int, segment: Segment) -> None:
        """`cheeks not prominent`: where `not X` means nothing of the part, X is what is denied."""
        denying = self.lexicon.sets.denying
        text = self.parsed.tokens.text
        for k, item in enumerate(segment.items):
            plain = tuple(q for q, _ in item.qualities)
            inner = tuple((q, c) for q, c in item.inner_qualities if q not in plain)
            at = next((i for i in item.used if text[i] in denying), None)
            if not (plain and inner) or at is None:
                continue
            parts = [p for i in segment.items if i is not item for p in (i.parts or i.inner_parts)]
            known = parts or list(self._earlier_parts(number))
            if known and self._meaning(known, item.qualities) is None and self._meaning(known, inner):
                used = tuple(i for i in item.used if i > at)
                rest = Item(at + 1, item.end, used, qualities=inner)
                segment.items[k] = rest
                self.owner[id(rest)] = number

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
        if len(item.used) == 1 and cost >= DOUBTFUL and self._foreign(segment, item):
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
            self._add(faults, number, item, item.used, origin, cost, marks + ("c" if common else ""))

    def _inner_marks(self, item: Item, fault: str) -> str:
        """The marks of the part and quality that a phrase is made of: `long upper arm` is asked for."""
        for part, _ in item.inner_parts:
            for quality, _ in item.inner_qualities:
                gives = self.lexicon.gives.get((part, quality))
                if gives is not None and gives.marks and fault in gives.faults:
                    return gives.marks.replace("?", "")
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
                score -= 0.6 if self._owner_of(part, parts) else 0.0
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
            if self._only_verdict(number, item):
                continue
            if item.late_faults and len(item.used) > 1 and self._names_its_part(item):
                self._name(number, item, item.late_faults)
                continue
            place = self._place_part(number, item)
            if place is not None and self._of_twins(number, segment, item, foreign):
                continue
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
            if self._speaks_of_another(segment, item) and not self._only_here(item):
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

    def _only_verdict(self, number: int, item: Item) -> bool:
        """`white on the chest, not allowed`: a verdict on what was found, no finding of its own."""
        if (
            any(q not in ("wrong", "wrong-shade") for q, _ in item.qualities)
            or self.parsed.segments[number].sep == "stop"
        ):
            return False
        sentence = self.sentence(number)
        return any(c.segment in sentence and c.segment < number for c in self.out)

    def _names_its_part(self, item: Item) -> bool:
        """`toes in`: a phrase that holds a part is its own, whatever part was named before."""
        text = self.parsed.tokens.text
        known = self.lexicon.main
        return any(
            any(kind == "P" for kind, _ in known.get(stem(text[i]), {}).get(END, ())) for i in item.used[:1]
        )

    def _of_twins(self, number: int, segment: Segment, item: Item, foreign: int) -> bool:
        """`nails: long in front and long behind`: the place tells which of two faults of the part it is."""
        parts = self._earlier_parts(number)
        found = self._meaning(parts, item.qualities)
        if found is None or not any(twin(f) in found[0].faults for f in found[0].faults):
            return False
        return self._loose(number, segment, item, parts, "carry", foreign)

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
        before = self._spoken_of(number) if origin == "carry" else None
        about = before.used if before is not None and (before.parts or before.inner_parts) == parts else ()
        self._add(gives.faults, number, item, item.used, origin, cost, gives.marks, None, foreign, about)
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
