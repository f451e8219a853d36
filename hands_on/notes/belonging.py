"""Which part a quality may belong to: the one before it, one of the clauses around, or none of the dog's."""

from hands_on.notes.clauses import Item, Segment
from hands_on.notes.context import Context
from hands_on.notes.topics import NO_PART

__all__ = ["Belonging"]

_COMPARED = frozenset({"comparison", "compared", "relative", "relation", "proportion"})


class Belonging:
    """Looks from a quality for its part; answers questions, binds nothing."""

    def __init__(self, context: Context) -> None:
        self.context = context
        self.parsed = context.parsed
        self.lexicon = context.lexicon
        self.region = context.region

    def speaks_on(self, index: int) -> bool:
        """Whether the word opens a comparison or circumstance and so is no noun the quality belongs to."""
        text = self.parsed.tokens.text[index]
        return text in self.lexicon.subordinate or text.endswith("ly") or text in self.lexicon.setting

    def is_negation(self, quality: Item) -> bool:
        """`no`, `without`: lack of a part, unless they rule something out."""
        lack = any(q == "lack" for q, _ in quality.qualities)
        return lack and (quality.start, quality.end) in self.parsed.negations

    def particle_ok(self, part: Item | None, quality: Item, segment: Segment) -> bool:
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
        places = self.context.places[self.context.owner[id(quality)]]
        if text[quality.start] == "in" and any(p.start == after and p.value != "moving" for p in places):
            return False
        return text[quality.start] in ("out", "down") or bool(self.context.talk_words[after])

    def particle_free(self, item: Item) -> bool:
        word = self.parsed.tokens.text[item.start]
        return len(item.used) != 1 or word not in self.lexicon.sets.particles

    def speaks_of_another(self, segment: Segment, item: Item) -> bool:
        """`coat wet`: the part is named, and the quality says nothing of it."""
        text = self.parsed.tokens.text
        placing = self.lexicon.sets.placing
        return any(
            p is not item
            and not p.bound
            and not p.qualities
            and not self.held_against(p)
            and any(c < 0.3 and n not in NO_PART for n, c in p.parts)
            and not any(w in placing for w in text[max(segment.start, p.start - 2) : p.start + 1])
            for p in segment.items
        )

    def quality_first(self, segment: Segment) -> bool:
        first = segment.items[0] if segment.items else None
        if first is None or first.parts:
            return False
        return bool(first.qualities) or (bool(first.faults) and first.inner_quality_first)

    def closes(self, number: int, item: Item) -> bool:
        """`elbows neither in nor out`: nothing but the particle, at the end of its segment."""
        segment, text = self.parsed.segments[number], self.parsed.tokens.text
        goes_on = item.end < segment.end and text[item.end] in self.lexicon.sets.not_after_particle
        return len(segment.items) == 1 and not goes_on and not self.context.foreign(segment, item)

    def noun_between(self, segment: Segment, quality: Item, part: Item) -> bool:
        """`close that door behind you`: the quality belongs to a foreign word before a mere place."""
        if part.start < quality.end or not part.parts or any(p not in NO_PART for p, _ in part.parts):
            return False
        return any(self.context.is_foreign(i, segment) for i in range(quality.end, part.start))

    def earlier_parts(self, number: int) -> tuple[tuple[str, float], ...]:
        """The names of the part the talk is about."""
        item = self.spoken_of(number)
        return (item.parts or item.inner_parts) if item is not None else ()

    def spoken_of(self, number: int) -> Item | None:
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
                if (i.parts or i.inner_parts)
                and not (i.qualities and i.bound)
                and not self.mere_place(i)
                and not self.held_against(i)
            ]
            if own:
                bound = [i for i in own if i.bound]
                turned = len(own) > 1 and self.parsed.tokens.text[own[0].end : own[0].end + 1] == ["to"]
                return bound[-1] if bound else own[1 if turned else 0]  # `back to the eyes`
        return None

    def held_against(self, item: Item) -> bool:
        """What a part is measured by: `short in comparison with the blade`, `too long for a working dog`.

        Or a dog that is not the one on the table: `when another dog passes`.
        """
        text = self.parsed.tokens.text
        at = item.start - 1
        if item.parts and all(name in ("dog", "bitch") for name, _ in item.parts):
            led = text[max(0, at - 2) : at + 1]
            measured = "for" in led and any(w in self.lexicon.sets.articles or w == "this" for w in led)
            return measured or text[at : at + 1] in (["another"], ["other"])
        while at > 0 and (text[at] in self.lexicon.sets.articles or text[at] in self.lexicon.sets.own):
            at -= 1
        return at > 0 and text[at] in ("with", "to") and text[at - 1] in _COMPARED

    def mere_place(self, item: Item) -> bool:
        """`long in front`: where, not what."""
        text = self.parsed.tokens.text
        place = all(p in ("front", "rear", "forefoot", "hindfoot") for p, c in item.parts if c < 0.3)
        return bool(item.parts) and place and text[item.start - 1 : item.start] == ["in"]

    def owner_of(self, item: Item, parts: list[Item]) -> bool:
        """The `near fore` of `elbow of the near fore turned in`: whose it is, not what is spoken of."""
        text = self.parsed.tokens.text
        return any(
            first.end < item.start
            and text[first.end] == "of"
            and all(
                text[i] in self.lexicon.skip or self.context.talk_words[i]
                for i in range(first.end + 1, item.start)
            )
            for first in parts
        )

    def later_parts(self, number: int) -> tuple[tuple[str, float], ...]:
        segments = self.parsed.segments
        at = number + 1
        while at < len(segments) and at - number < 4 and segments[at].sep != "stop":
            own = [i for i in segments[at].items if (i.parts and not i.qualities) or i.inner_parts]
            if own:
                return (own[0].parts or own[0].inner_parts) if self.quality_first(segments[at]) else ()
            at += 1
        return ()

    def place_part(self, number: int, item: Item) -> tuple[tuple[str, float], ...] | None:
        for place in self.context.places[number]:
            if place.start not in item.used:
                parts = self.lexicon.location_parts.get(place.value)
                if parts:
                    return tuple((part, 0.0) for part in parts)
        return None

    def common(self, item: Item) -> bool:
        return len(item.used) == 1 and self.lexicon.slips.is_ordinary(self.parsed.tokens.text[item.start])

    def after_measure(self, item: Item) -> bool:
        """`64 cm high`: part of a measure, not a fault."""
        tokens = self.parsed.tokens
        at = item.start - 1
        if tokens.brk[item.start]:
            return False
        if at >= 0 and tokens.text[at] in self.lexicon.units:
            at -= 1
            return at >= 0 and (tokens.number[at] or tokens.text[at] in self.lexicon.number_words)
        return at >= 0 and tokens.number[at]

    def praised(self, segment: Segment) -> bool:
        return any(i in self.parsed.praised for i in range(segment.start, segment.end))
