"""Which quality belongs to which part: named outright, in one clause, shared over lists, left loose.

Each step looks at all clauses before the next begins; what one has bound the next leaves alone.
"""

from itertools import zip_longest

from hands_on.notes.candidates import Candidate, Found, Step
from hands_on.notes.clauses import Item, Segment
from hands_on.notes.context import Context
from hands_on.notes.lexicon import Gives
from hands_on.notes.loose import Loose
from hands_on.notes.naming import Naming
from hands_on.notes.shared_quality import Sharing

__all__ = ["bind"]


def bind(context: Context) -> list[Candidate]:
    """All findings the words of a stretch support, in the order of the note."""
    found = Found(context)
    segments = list(enumerate(context.parsed.segments))
    inside, naming, sharing = _Inside(found), Naming(found), Sharing(found)
    loose = Loose(found, naming)
    for number, segment in segments:
        inside.split_denials(number, segment)
    for number, segment in segments:
        naming.outright(number, segment)
        inside.pairs(number, segment)
        sharing.only_stressed(number, segment)
    for number, segment in segments:
        sharing.shared_parts(number, segment)
    for number, segment in segments:
        loose.qualities(number, segment)
    return sorted(found.out, key=lambda c: (c.segment, c.anchor.start))


class _Inside(Step):
    """Part and quality in one clause."""

    def split_denials(self, number: int, segment: Segment) -> None:
        """`cheeks not prominent`: where `not X` means nothing of the part, X is what is denied."""
        denying = self.lexicon.sets.denying
        text = self.parsed.tokens.text
        said = [i for i in segment.items if text[i.start] not in self.lexicon.sets.own]  # not the `her`
        denials = [
            i for i, following in zip_longest(said, said[1:]) if self._denies_next(number, i, following)
        ]
        segment.items = [item for item in segment.items if not any(item is denial for denial in denials)]
        for k, item in enumerate(segment.items):
            plain = tuple(q for q, _ in item.qualities)
            inner = tuple((q, c) for q, c in item.inner_qualities if q not in plain)
            at = next((i for i in item.used if text[i] in denying), None)
            if not (plain and inner) or at is None:
                continue
            parts = [p for i in segment.items if i is not item for p in (i.parts or i.inner_parts)]
            known = parts or list(self.belongs.earlier_parts(number)) or self._on_screen()
            meaning = self.meanings.meaning
            if known and meaning(known, item.qualities) is None and meaning(known, inner):
                used = tuple(i for i in item.used if i > at)
                rest = Item(at + 1, item.end, used, qualities=inner)
                segment.items[k] = rest
                self.context.owner[id(rest)] = number

    def _on_screen(self) -> list[tuple[str, float]]:
        """The parts of the screen's region."""
        return [(part, 0.0) for part in self.lexicon.region_parts.get(self.region or "", ())]

    def _denies_next(self, number: int, item: Item, following: Item | None) -> bool:
        """The `not carried` of `tail not carried gay`: what follows is denied, and means something itself."""
        text, denying = self.parsed.tokens.text, self.lexicon.sets.denying
        if following is None or not (following.qualities or following.faults):
            return False
        if any(text[i] not in self.lexicon.sets.own for i in range(item.end, following.start)):
            return False
        if denying.isdisjoint(text[item.start : item.start + 2]) or not item.qualities or item.parts:
            return False
        if (
            following.faults
            and following.start > item.end
            and not any(q == "lack" for q, _ in item.qualities)
        ):
            return True
        segment = self.parsed.segments[number]
        parts = [p for i in segment.items for p in (i.parts or i.inner_parts)]
        known = parts or list(self.belongs.earlier_parts(number))
        return self.meanings.meaning(known, following.qualities) is not None

    def _only_measures(self, part: Item) -> bool:
        """The height of `short for his height`: what something else is held against."""
        text = self.parsed.tokens.text
        led = text[part.start - 1 : part.start]
        if self.belongs.held_against(part):
            return True
        own = bool(led) and led[0] in self.lexicon.sets.own
        return own and text[part.start - 2 : part.start - 1] == ["for"]

    def _for_it(self, quality: Item, part: Item) -> bool:
        """The cover of `too soft for work in cover`: what it ought to be good for."""
        text = self.parsed.tokens.text
        return (
            "too" in text[max(0, quality.start - 2) : quality.end] and "for" in text[quality.end : part.start]
        )

    def _where(self, part: Item, parts: list[Item], quality: Item) -> bool:
        """The `behind` of `the loin behind it is narrow`: where a part is that has the quality itself.

        And the `goes` of `tail swings from side to side as he goes`, where a part is spoken of before it.
        """
        text = self.parsed.tokens.text
        earlier = [p for p in parts if p.start < part.start and p is not quality]
        moves = all(name == "movement" for name, _ in part.parts) and part.start >= quality.end
        if moves and any(w in ("as", "when", "while") for w in text[quality.end : part.start]):
            return any(p.start < quality.start for p in earlier)
        return text[part.start : part.end] == ["behind"] and any(
            self.meanings.meaning(p.parts or p.inner_parts, quality.qualities) for p in earlier
        )

    def pairs(self, number: int, segment: Segment) -> None:
        parts = [i for i in segment.items if i.parts or i.inner_parts]
        qualities = [i for i in segment.items if i.qualities]
        if not parts or not qualities:
            return
        part_first = parts[0].start < qualities[0].start
        pairs: list[tuple[float, Item, Item, Gives]] = []
        for quality in qualities:
            for part in parts:
                if part is quality or self._only_measures(part) or self._where(part, parts, quality):
                    continue
                found = self.meanings.meaning(part.parts or part.inner_parts, quality.qualities)
                if self._for_it(quality, part):
                    continue
                if self.belongs.after_measure(quality) or self.belongs.noun_between(segment, quality, part):
                    continue
                if found is None or not self.belongs.particle_ok(part, quality, segment):
                    continue
                gives, cost = found
                before = part.start < quality.start
                gap = quality.start - part.end if before else part.start - quality.end
                score = 1.0 - cost - 0.05 * gap
                score += 0.12 if before == part_first else 0.0
                score -= 0.6 if self.belongs.owner_of(part, parts) else 0.0
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
            cost = self.meanings.cost(part.parts or part.inner_parts, quality.qualities)
            if self.belongs.is_negation(quality):
                lacking.append((quality, part, gives, cost))
                continue
            quality.bound = True
            part.bound = True
            other_bound.add(id(part))
            self.found.part_of[id(quality)] = part
            self.found.add(
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
            self.found.part_of[id(quality)] = part
            self.found.add(
                gives.faults,
                number,
                quality,
                part.used + quality.used,
                "pair",
                cost + 0.05,
                gives.marks,
                part,
            )
