"""What a quality says of several parts: lists, `likewise`, `both`; and the findings collected so far."""

from dataclasses import dataclass
from typing import Final

from hands_on.notes.clauses import Item, Parsed, Segment
from hands_on.notes.context import Context, twin
from hands_on.notes.lexicon import Lexicon

__all__ = ["DOUBTFUL", "Candidate", "Sharing"]

DOUBTFUL: Final = 0.4


@dataclass(slots=True)
class Candidate:
    """A finding before its status, degree and side are known. `anchor` is the word the fault hangs on."""

    faults: tuple[str, ...]
    segment: int
    anchor: Item
    words: tuple[int, ...]
    origin: str
    cost: float
    marks: str = ""  # those of Gives, and `c` for a single everyday word
    ambiguous: bool = False
    foreign: int = 0
    part: Item | None = None
    about: tuple[int, ...] = ()
    """The words of a part named in another clause: the `lips` of `lips: too long`."""


class Sharing(Context):
    """Collects candidates; shares a quality with the parts it is said of."""

    def __init__(self, parsed: Parsed, lexicon: Lexicon, region: str | None) -> None:
        super().__init__(parsed, lexicon, region)
        self.out: list[Candidate] = []
        self.part_of: dict[int, Item] = {}

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

    def _shared_parts(self, number: int, segment: Segment) -> None:
        segments = self.parsed.segments
        text = self.parsed.tokens.text
        led = {i.start - 1 for i in segment.items if i.parts}
        leading = [i for i in segment.items if i.start in led and text[i.start] in ("in", "on")]
        if any((i.faults or (i.qualities and not i.parts)) and i not in leading for i in segment.items):
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
        if any(w in self.lexicon.sets.likewise for w in words) or words[-1:] in (["too"], ["also"]):
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
        about: tuple[int, ...] = (),
    ) -> None:
        ordered, ambiguous = self._rank(faults, number)
        vague = part is not None and all(q in ("lack", "excess") for q, _ in anchor.qualities)
        if cost >= DOUBTFUL and vague and self.lexicon.regions.get(ordered[0]) != self.region:
            return
        if cost >= DOUBTFUL and not self._at_home(ordered[0], words):
            return
        pair = [(f,) for f in ordered if f == ordered[0] or f == twin(ordered[0])]
        readings = pair if len(pair) > 1 and self.both_ends(anchor) else [ordered]
        for faults in readings:
            unsure = ambiguous and len(readings) == 1
            self.out.append(
                Candidate(faults, number, anchor, words, origin, cost, marks, unsure, foreign, part, about)
            )
