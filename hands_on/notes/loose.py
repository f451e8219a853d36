"""A quality without a part in its clause: said of the part before, the one after, or the screen's."""

from typing import Final

from hands_on.notes.candidates import Found, Step
from hands_on.notes.clauses import Item, Segment
from hands_on.notes.lexicon import END, Gives
from hands_on.notes.meanings import twin
from hands_on.notes.naming import Naming
from hands_on.notes.stems import stem

__all__ = ["Loose"]


_SHORT: Final = 8
"""A longer clause tells something, and does not name a state of the dog."""
_PLAINLY: Final = 0.1
"""The dearest slip of a word that says something of the whole dog."""


class Loose(Step):
    """Looks for the part of what is left, and falls back on faults that the words name."""

    def __init__(self, found: Found, naming: Naming) -> None:
        super().__init__(found)
        self.naming = naming

    def qualities(self, number: int, segment: Segment) -> None:
        for item in segment.items:
            if item.bound or not item.qualities or item.faults:
                continue
            if self.belongs.is_negation(item) or self.belongs.after_measure(item):
                if item.late_faults:
                    self.naming.name(number, item, item.late_faults)
                continue
            if self._both_of(number, segment, item):
                continue
            if self._likened(segment, item) or self._pictures(segment, item):
                continue
            foreign = self.context.foreign(segment, item)
            if self._of_whole_dog(number, segment, item):
                continue
            if self._only_verdict(number, item):
                continue
            if item.late_faults and len(item.used) > 1 and self.naming.names_its_part(item):
                self.naming.name(number, item, item.late_faults)
                continue
            place = self.belongs.place_part(number, item)
            if place is not None and self._of_twins(number, segment, item, foreign):
                continue
            if (
                place is not None
                and not (foreign and not self.region)
                and not self.belongs.speaks_of_another(segment, item)
                and self._loose(number, segment, item, place, "place", foreign)
            ):
                continue
            if foreign and not self.meanings.only_here(item):
                if item.late_faults:
                    self.naming.name(number, item, item.late_faults)
                continue
            if self.belongs.speaks_of_another(segment, item) and not self.meanings.only_here(item):
                continue
            if any(
                self._try(source, number, segment, item, foreign)
                for source in self._sources(number, segment, item)
            ):
                continue
            if item.late_faults:
                self.naming.name(number, item, item.late_faults)
        for item in segment.items:
            if item.late_faults and not item.bound and not item.qualities:
                self.naming.name(number, item, item.late_faults)

    def _likened(self, segment: Segment, item: Item) -> bool:
        """The `poor` of `like a poor heifer's`: it is of what the dog is likened to."""
        text = self.parsed.tokens.text
        if len(item.used) > 1 or text[item.start - 2 : item.start] not in (["like", "a"], ["like", "an"]):
            return False
        return item.end < segment.end and self.context.is_foreign(item.end, segment)

    def _pictures(self, segment: Segment, item: Item) -> bool:
        """The `like a goose` of `thin like a goose`: it pictures what was just said."""
        text, at = self.parsed.tokens.text, item.start
        like = at if text[at] == "like" else at - 2 if text[at - 2 : at] == ["like", "a"] else 0
        return like > 0 and any(
            i.end == like and (i.qualities or i.faults) for i in segment.items if i is not item
        )

    def _of_whole_dog(self, number: int, segment: Segment, item: Item) -> bool:
        """`a nervous dog`, `he is fat`: said of the dog where its clause names no part."""
        text, sets = self.parsed.tokens.text, self.lexicon.sets
        named = [i for i in segment.items if i is not item and (i.parts or i.inner_parts)]
        parts = {name for i in named for name, _ in (*i.parts, *i.inner_parts)}
        subject = bool(parts) or text[segment.start] in sets.the_dog
        if not subject or parts - {"dog", "bitch"} or self.context.places[number]:
            return False
        if not self.belongs.particle_free(item) or segment.end - segment.start > _SHORT:
            return False
        if self.region not in (None, "general", "temperament") or self.context.strange(number):
            return False
        for quality, cost in item.qualities:
            gives = self.lexicon.bare.get(("general", quality)) or self.lexicon.lone.get(quality)
            if gives is None or cost >= _PLAINLY:
                continue
            if self.lexicon.regions[gives.faults[0]] in ("general", "temperament"):
                item.bound = True
                words = (*(i for part in named for i in part.used), *item.used)
                self.found.add(gives.faults, number, item, words, "whole", cost, gives.marks)
                return True
        return False

    def _only_verdict(self, number: int, item: Item) -> bool:
        """`white on the chest, not allowed`: a verdict on what was found, no finding of its own."""
        if any(q not in ("wrong", "wrong-shade") for q, _ in item.qualities):
            return False
        if any(c.segment == number and c.anchor.end <= item.start for c in self.found.out):
            return True  # `the white sock is not allowed`
        if self.parsed.segments[number].sep == "stop":
            return False
        sentence = self.context.sentence(number)
        return any(c.segment in sentence and c.segment < number for c in self.found.out)

    def _of_twins(self, number: int, segment: Segment, item: Item, foreign: int) -> bool:
        """`nails: long in front and long behind`: the place tells which of two faults of the part it is."""
        parts = self.belongs.earlier_parts(number)
        found = self.meanings.meaning(parts, item.qualities)
        if found is None or not any(twin(f) in found[0].faults for f in found[0].faults):
            return False
        return self._loose(number, segment, item, parts, "carry", foreign)

    def _sources(self, number: int, segment: Segment, item: Item) -> tuple[str, ...]:
        """Where a quality without a part looks for one, in order."""
        following = self.parsed.segments[number + 1] if number + 1 < len(self.parsed.segments) else None
        if (
            following is not None
            and following.sep in ("and", "or", "contrast")
            and self.belongs.quality_first(following)
        ):
            return (
                ("later", "earlier", "screen") if segment.sep != "comma" else ("earlier", "later", "screen")
            )
        if following is not None and following.sep == "comma" and self._leads_list(number, segment, item):
            return ("later", "earlier", "screen")
        return ("earlier", "screen", "later")

    def _leads_list(self, number: int, segment: Segment, item: Item) -> bool:
        """The `short` of `short, flat croup`: alone, at the beginning, and said of many a part on screen."""
        alone = segment.sep in ("start", "stop") and segment.end - segment.start <= len(item.used) + 1
        screen = [gives for q, _ in item.qualities if (gives := self.meanings.on_screen(q)) is not None]
        return (
            alone
            and any(len(gives.faults) > 1 for gives in screen)
            and self.belongs.quality_first(self.parsed.segments[number + 1])
        )

    def _try(self, source: str, number: int, segment: Segment, item: Item, foreign: int) -> bool:
        if source == "screen":
            if item.parts and len(segment.items) > 1:
                return False
            self._from_screen(number, segment, item, foreign)
            return item.bound
        parts = (
            self.belongs.earlier_parts(number) if source == "earlier" else self.belongs.later_parts(number)
        )
        if not parts:
            return False
        if self._loose(number, segment, item, parts, "carry", foreign):
            return True
        whole = self._whole_of(parts) if source == "earlier" and segment.sep == "contrast" else ()
        return bool(whole) and self._loose(number, segment, item, whole, "carry", foreign)

    def _whole_of(self, parts: tuple[tuple[str, float], ...]) -> tuple[tuple[str, float], ...]:
        """The ear of `ears set right but too long`, whatever is on screen: a side names the part it is of."""
        regions = {self.lexicon.part_region[name] for name, _ in parts}
        if len(regions) != 1 or self.region in regions:
            return ()
        return tuple((name, 0.0) for name in self.lexicon.region_parts.get(regions.pop(), ())[:1])

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
        found = self.meanings.meaning(known, item.qualities)
        if found is None or (not self.belongs.particle_free(item) and not self.belongs.closes(number, item)):
            return False
        gives, cost = found
        item.bound = True
        before = self.belongs.spoken_of(number) if origin == "carry" else None
        about: tuple[int, ...] = ()
        if before is not None and (before.parts or before.inner_parts) == parts:
            about = before.used if before.parts else self._part_words(before)
        elif before is not None and before.parts and parts == self._whole_of(before.parts):
            about = before.used
        self.found.add(gives.faults, number, item, item.used, origin, cost, gives.marks, None, foreign, about)
        return True

    def _part_words(self, named: Item) -> tuple[int, ...]:
        """The `tail` of `tail curls over the back`: what names the part, not what is said of it."""
        text, main = self.parsed.tokens.text, self.lexicon.main
        first = next(
            (
                i
                for i in named.used
                if any(kind == "P" for kind, _ in main.get(stem(text[i]), {}).get(END, ()))
            ),
            None,
        )
        return named.used if first is None else (first,)

    def _from_screen(self, number: int, segment: Segment, item: Item, foreign: int) -> None:
        best: tuple[Gives, float, str] | None = None
        lexicon = self.lexicon
        free = self.belongs.particle_free(item)
        for quality, cost in item.qualities:
            if quality in lexicon.pictures and len(item.used) == 1:
                continue
            origin = "bare"
            gives = self.meanings.on_screen(quality)
            if not free and (gives is None or "?" not in gives.marks):
                continue
            alone = not foreign and self.region in (None, "general")
            if gives is None and quality in lexicon.lone and (alone or not self.belongs.common(item)):
                gives, origin = lexicon.lone[quality], "lone"
                if self.region and lexicon.regions.get(gives.faults[0]) != self.region:
                    cost += 0.2
                    if cost > 0.3:
                        continue
            if gives is not None and (best is None or cost < best[1]):
                best = (gives, cost, origin)
        if best is not None and not (best[2] == "lone" and item.late_faults and len(item.used) > 1):
            item.bound = True
            self.found.add(
                best[0].faults, number, item, item.used, best[2], best[1], best[0].marks, None, foreign
            )

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
        found = [self.meanings.meaning(p.parts or p.inner_parts, item.qualities) for p in parts[:2]]
        if None in found:
            return False
        item.bound = True
        for part, meaning in zip(reversed(parts[:2]), reversed(found), strict=True):
            if meaning is not None:
                gives, cost = meaning
                self.found.add(gives.faults, number, item, part.used, "share", cost, gives.marks, part)
        return True
