"""What parts and qualities mean together, on this screen and beside the places named."""

from collections.abc import Iterable
from typing import Final

from hands_on.notes.clauses import Item
from hands_on.notes.context import Context
from hands_on.notes.lexicon import Gives

__all__ = ["Meanings", "twin"]

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


class Meanings:
    """The faults that words may mean in one stretch of a note, the likeliest first."""

    def __init__(self, context: Context) -> None:
        self.context = context
        self.parsed = context.parsed
        self.lexicon = context.lexicon
        self.region = context.region

    def with_twins(self, item: Item, faults: tuple[str, ...]) -> tuple[str, ...]:
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

    def as_composed(self, item: Item, faults: tuple[str, ...]) -> tuple[str, ...]:
        """A phrase of another region, taken apart: what its words mean on this screen comes first."""
        here: list[str] = []
        qualities = item.inner_qualities or item.qualities
        for quality, _ in qualities:
            for part, _ in item.inner_parts:
                gives = self.lexicon.gives.get((part, quality))
                here.extend(gives.faults if gives else ())
            if not item.inner_parts and self.region:
                gives = self.on_screen(quality)
                here.extend(gives.faults if gives else ())
        near = (self.region, _NEIGHBOUR.get(self.region or ""))
        here = [f for f in here if self.lexicon.regions.get(f) in near]
        return tuple(dict.fromkeys([*here, *faults]))

    def on_screen(self, quality: str) -> Gives | None:
        """What a quality without a part means on the screen's region."""
        lexicon = self.lexicon
        if not self.region:
            return None
        gives = lexicon.bare.get((self.region, quality))
        if quality not in ("lack", "excess"):
            for part in lexicon.region_parts.get(self.region, ()):
                gives = gives or lexicon.gives.get((part, quality))
        return gives

    def meaning(
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

    def cost(self, parts: Iterable[tuple[str, float]], qualities: Iterable[tuple[str, float]]) -> float:
        found = self.meaning(parts, qualities)
        return found[1] if found else 1.0

    def at_home(self, fault: str, words: tuple[int, ...]) -> bool:
        """A reading that only the ear suggests counts where the screen, or a second word, speaks for it."""
        if not self.region:
            return len(words) > 1
        home = self.lexicon.regions.get(fault)
        return (
            home == self.region
            or home == _NEIGHBOUR.get(self.region)
            or (self.region == "general" and len(words) > 1)
        )

    def only_here(self, item: Item) -> bool:
        """A quality known of one fault alone, and that fault is the screen's: `pacing half the way`."""
        lone = self.lexicon.lone
        return any(
            q in lone and self.lexicon.regions.get(lone[q].faults[0]) == self.region
            for q, c in item.qualities
            if c < 0.3
        )

    def heading(self, number: int) -> frozenset[str]:
        """The regions of a heading right before the segment: `MVT: wide behind`."""
        segments = self.parsed.segments
        if number == 0 or segments[number].sep != "comma":
            return frozenset()
        before = segments[number - 1]
        if before.end - before.start > 1 or before.sep not in ("start", "stop"):
            return frozenset()
        found = [
            self.lexicon.location_regions.get(p.value, frozenset()) for p in self.context.places[number - 1]
        ]
        return found[0] if found else frozenset()

    def rank(self, faults: tuple[str, ...], number: int) -> tuple[tuple[str, ...], bool]:
        """The likeliest of several faults first: by places named, then by the screen, then as listed."""
        if len(faults) == 1:
            return faults, False
        regions = self.lexicon.regions
        named: set[str] = set()
        for place in self.context.places[number]:
            named |= self.lexicon.location_regions.get(place.value, frozenset())
        if self.region and self.region not in ("forequarters", "forefeet", "hindquarters", "hindfeet"):
            here = [f for f in faults if regions.get(f) == self.region]
            if here:
                rest = tuple(f for f in faults if f not in here)
                return tuple(here) + rest, len(here) > 1
        heading = self.heading(number)
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
