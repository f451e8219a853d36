"""Words that stand for a part named before: `its width`, `a flesh-coloured one`."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["Pronouns"]

_NOUN: Final = re.compile(
    r"\b(chest|brisket|skull|muzzle|head|body|neck|croup|tail|ears?|loin|back|nose|eyes?|coat|bite|lips|feet|ribs)\b"
)
_DIMENSION: Final = "width|breadth|depth|length|girth"
_CHEST_HIGH: Final = re.compile(r"\b(?:its|chest) height\b|\bheight of (?:the )?(?:chest|brisket)\b")
_AS_WIDE: Final = re.compile(
    r"\b(?:the |its )?(?:width|breadth) ((?:is |about |almost |nearly )*(?:equals?|equal to|the same as|"
    r"corresponds to)) (?:the |its )?length\b(?! of)"
)
_ONE: Final = re.compile(
    r"(?<=[a-z] )(?<!the )(?<!than )(?<!least )(?<!only )(?<!of )(?<!in )(?<!or )(?<!any )(?<!no )"
    r"ones?\b(?=\s*(?:is|are|exclude|disqualif|to be|should|severely|less|even|,|;|\.|$))"
)


class Pronouns:
    """Remembers the part that was last spoken of within a paragraph."""

    def __init__(self) -> None:
        self.paragraph, self.noun = "", ""

    def told(self, low: str, paragraph: str, label: str) -> str:
        """The sentence with the part's name for what stands for it."""
        if paragraph != self.paragraph:
            self.paragraph = paragraph
            headed = _NOUN.search(label.lower()) if len(label.split()) <= 3 else None
            self.noun = headed.group(1) if headed else ""
        noun = self.noun
        out, at = "", 0
        measured = re.search(r"\b(?:height|withers|tall|high)\b", low)
        own = re.compile(
            rf"{_NOUN.pattern}|\b(its|their|the) ({_DIMENSION})\b(?! of)|{_ONE.pattern}"
            if not measured
            else rf"{_NOUN.pattern}|\b(its|their) ({_DIMENSION})\b(?! of)|{_ONE.pattern}"
        )
        low = _CHEST_HIGH.sub("depth of the chest", low) if noun == "chest" else low
        if noun in ("skull", "head"):
            low = _AS_WIDE.sub(r"width of the skull \1 length of the skull", low)
        for found in own.finditer(low):
            if found.group(1):
                noun = found.group(1)
                continue
            if not noun:
                continue
            out += low[at : found.start()]
            out += f"{found.group(3)} of the {noun}" if found.group(3) else noun
            at = found.end()
        self.noun = noun
        return out + low[at:]
