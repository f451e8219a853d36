"""What a quality says of several parts: lists, `likewise`, a part with nothing but a plus sign."""

from hands_on.notes.candidates import Step
from hands_on.notes.clauses import Item, Segment

__all__ = ["Sharing"]


class Sharing(Step):
    """Shares a quality with the parts it is said of."""

    def only_stressed(self, number: int, segment: Segment) -> None:
        """`cheeks ++`: a part with nothing but a plus sign is too much of it."""
        if len(segment.items) != 1 or not segment.items[0].parts or segment.items[0].bound:
            return
        part = segment.items[0]
        rest = self.parsed.tokens.text[part.end : segment.end]
        if not rest or any(w.strip("+") for w in rest):
            return
        found = self.meanings.meaning(part.parts, (("excess", 0.0),))
        if found is not None:
            part.bound = True
            self.found.add(found[0].faults, number, part, part.used, "share", found[1])

    def shared_parts(self, number: int, segment: Segment) -> None:
        segments = self.parsed.segments
        text = self.parsed.tokens.text
        led = {i.start - 1 for i in segment.items if i.parts}
        leading = [i for i in segment.items if i.start in led and text[i.start] in ("in", "on")]
        if any((i.faults or (i.qualities and not i.parts)) and i not in leading for i in segment.items):
            return
        parts = [i for i in segment.items if i.parts and not i.bound]
        if not parts or self.belongs.praised(segment):
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
        named = {i.start for i in segment.items if i.faults or i.late_faults}
        for item in segment.items:
            if item.end in named and self.parsed.tokens.text[item.start : item.end] == ["no"]:
                continue  # `colour right and no white`: it denies the white
            if item.inner_qualities and item.inner_parts:
                out.append((item, True))
            elif item.qualities and item.bound:
                part = self.found.part_of.get(id(item))
                out.append((item, part is None or (part.start < item.start) == part_first))
            elif item.qualities:
                out.append((item, part_first))
        return out

    def _share(self, number: int, part: Item, quality: Item) -> bool:
        found = self.meanings.meaning(part.parts, quality.qualities or quality.inner_qualities)
        if found is None:
            return False
        part.bound = True
        gives, cost = found
        owner = self.context.owner[id(quality)]
        self.found.add(gives.faults, owner, quality, part.used, "share", cost, gives.marks, part)
        return True
