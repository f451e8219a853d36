"""Faults named outright: `goose rump`, `parrot mouth`."""

from typing import Final

from hands_on.notes.candidates import DOUBTFUL, Step
from hands_on.notes.clauses import Item, Segment
from hands_on.notes.lexicon import END
from hands_on.notes.stems import stem

__all__ = ["Naming"]

_TOO_DOUBTFUL: Final = 0.43


class Naming(Step):
    """Phrases that are a fault by themselves."""

    def outright(self, number: int, segment: Segment) -> None:
        for item in segment.items:
            if item.faults:
                self.name(number, item, item.faults)

    def name(self, number: int, item: Item, named: tuple[tuple[str, float], ...]) -> None:
        item.bound = True
        cost = min(c for _, c in named)
        if len(item.used) == 1 and cost >= _TOO_DOUBTFUL:
            return
        segment = self.parsed.segments[number]
        if len(item.used) == 1 and cost >= DOUBTFUL and self.context.foreign(segment, item):
            return
        if len(item.used) == 1 and cost > 0 and len(self.parsed.tokens.text[item.start]) <= 2:
            return
        faults = tuple(dict.fromkeys(f.rstrip("!~") for f, _ in named))
        home = self.lexicon.regions
        common = all("~" in f for f, _ in named)
        faults = self.meanings.with_twins(item, faults)
        if self.region and all(home.get(f) != self.region for f in faults):
            faults = self.meanings.as_composed(item, faults)
            if (
                common
                and self.region != "general"
                and home.get(faults[0]) != self.region
                and not self.context.moving(number)
            ):
                faults = tuple(f for f in faults if home.get(f) == self.region)
        if common and faults and home.get(faults[0]) == "movement" and self.context.moving(number):
            pass
        elif (
            common
            and (not self.region or home.get(faults[0] if faults else "") != self.region)
            and self.context.foreign(segment, item)
        ):
            return
        if (
            common
            and item.end < segment.end
            and self.context.is_foreign(item.end, segment)
            and not self.belongs.speaks_on(item.end)
        ):
            return
        if faults:
            origin = "pair" if item.composed else "phrase"
            marks = "!" if all("!" in f for f, _ in named) else self._inner_marks(item, faults[0])
            self.found.add(faults, number, item, item.used, origin, cost, marks + ("c" if common else ""))

    def _inner_marks(self, item: Item, fault: str) -> str:
        """The marks of the part and quality that a phrase is made of: `long upper arm` is asked for."""
        for part, _ in item.inner_parts:
            for quality, _ in item.inner_qualities:
                gives = self.lexicon.gives.get((part, quality))
                if gives is not None and gives.marks and fault in gives.faults:
                    return gives.marks.replace("?", "")
        return ""

    def names_its_part(self, item: Item) -> bool:
        """`toes in`: a phrase that holds a part is its own, whatever part was named before."""
        text = self.parsed.tokens.text
        known = self.lexicon.main
        return any(
            any(kind == "P" for kind, _ in known.get(stem(text[i]), {}).get(END, ())) for i in item.used[:1]
        )
