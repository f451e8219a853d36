"""Words that stand for a part named before: `its width`, `that of the withers`, `a flesh-coloured one`."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["Pronouns"]

_ONE_OF: Final = (
    "chest|brisket|skull|muzzle|head|body|trunk|neck|croup|tail|loin|back|nose|coat|bite|upper arm|shoulder|"
    "elbow|ear|eye|stop|hock|pastern"
)
_MANY_OF: Final = "ears|eyes|lips|feet|ribs|elbows|hocks|pasterns|loins|shoulders"
_NOUN: Final = re.compile(rf"\b(?:({_MANY_OF})|({_ONE_OF}))\b")
_WHITHER: Final = re.compile(
    r"\b(?:to|at|between|from|behind|below|above|under|over|on|beyond|beneath|reach(?:es|ing)?|near|"
    r"towards?) (?:the )?$"
)
"""Before a part that only says whither."""
_DIMENSION: Final = "width|breadth|depth|length|girth"
_CHEST_HIGH: Final = re.compile(r"\b(?:its|chest) height\b|\bheight of (?:the )?(?:chest|brisket)\b")
_STANDS: Final = re.compile(r"\b(its|their) height\b")
_OF_ANOTHER: Final = re.compile(r"\b(width|breadth|depth|length|girth|height)\b([^.;]{0,40}?)\bthat of the\b")
"""`its height 50 % of that of the withers`: the height again."""
_OWNED: Final = re.compile(r"\b(?:the |a )?([a-z]+)['\u2019]s (width|breadth|depth|length|girth|height)\b")
_IN_DEPTH: Final = re.compile(
    rf"\bin ({_DIMENSION}) (?=(?:makes?|is|equals?|measures?|amounts?|reaches|exceeds?|corresponds|"
    rf"about|almost)\b)"
)
_SHARE_OF: Final = re.compile(
    r"^(?:[a-z, ]{0,40}?)(?:about |approximately |not more than |at most |at least |not less than |"
    r"not exceeding |up to )*"
    r"(?:\d+/\d+|\d+ ?%) of (?:the )?"
)
_MEASURED_IN: Final = re.compile(
    r"\b(skull|chest|muzzle|head|ears?|tail) (measur\w+|makes|is) in (width|depth|length|girth)\b"
)
_LONG: Final = re.compile(r"^(?:loin|back|croup|neck|muzzle|tail|ear|upper arm|pastern)")
_AS_WIDE: Final = re.compile(
    r"\b(?:the |its )?(?:width|breadth) ((?:is |about |almost |nearly )*(?:equals?|equal to|the same as|"
    r"corresponds to)) (?:the |its )?length\b(?! of)"
)
_HALF_AS_DEEP: Final = re.compile(
    r"chest\b[^.;,]{0,24} (\d/\d|half) as deep as (?:the dog|he|it|she|the body) is (?:high|tall)"
)
_ONE: Final = re.compile(
    r"(?<=[a-z] )(?<!the )(?<!than )(?<!least )(?<!only )(?<!of )(?<!in )(?<!or )(?<!any )(?<!no )"
    r"ones?\b(?=\s*(?:is|are|exclude|disqualif|to be|should|severely|less|even|,|;|\.|$))"
)


class Pronouns:
    """Remembers the part that was last spoken of within a paragraph: one, and several of a kind."""

    def __init__(self) -> None:
        self.paragraph, self.one, self.many, self.last = "", "", "", ""

    def told(self, low: str, paragraph: str, label: str) -> str:
        """The sentence with the part's name for what stands for it."""
        headed = _NOUN.search(label.lower()) if len(label.split()) <= 3 else None
        if paragraph != self.paragraph:
            self.paragraph, self.one, self.many, self.last = paragraph, "", "", ""
            self._heard(headed)
        low = re.sub(r"\bskull at its widest(?: point| part)?\b", "width of the skull", low)
        low = _MEASURED_IN.sub(r"\3 of the \1 \2", low)
        if headed is None and re.search(r"\b(?:coat|hair)\b", label.lower()):
            low = re.sub(r"^length (?=(?:of |from |up to |about )?\d)", "length of the coat ", low)
        low = _OWNED.sub(r"\2 of the \1", low)
        if (
            headed
            and _SHARE_OF.match(low)
            and _LONG.match(headed.group())
            and not _NOUN.match(low.removeprefix("the "))
        ):
            low = f"length of the {headed.group()} {low}"
        if self.last == "chest":
            low = _CHEST_HIGH.sub("depth of the chest", low)
        elif headed and headed.group() in ("elbow", "elbows", "hock", "hocks", "ear", "ears"):
            low = re.sub(
                r"\b(?:its|their) (?:point|tip)\b|\b(?:the )?(?:point|tip) of (?:it|them)\b",
                f"point of the {headed.group()}",
                low,
            )
            low = _STANDS.sub(f"height of the {headed.group()}", low)
        low = _HALF_AS_DEEP.sub(r"depth of the chest \1 of the height", low)
        low = _OF_ANOTHER.sub(r"\1\2\1 of the", low)
        if self.last in ("skull", "head") or "skull" in low:
            low = re.sub(r"\bas (?:broad|wide) as (?:it is )?long\b", "width equals length", low)
            low = _AS_WIDE.sub(r"width of the skull \1 length of the skull", low)
        return self._put_in(low)

    def _heard(self, found: re.Match[str] | None) -> None:
        if found is None:
            return
        self.last = found.group()
        if found.group(1):
            self.many = found.group(1)
        else:
            self.one = found.group(2)

    def _put_in(self, low: str) -> str:
        measured = re.search(r"\b(?:height|withers|tall|high)\b", low)
        whose = "its|their" if measured else "its|their|the"
        words = re.compile(
            rf"{_NOUN.pattern}|\b({whose}) ({_DIMENSION})\b(?! of)|{_IN_DEPTH.pattern}|{_ONE.pattern}"
        )
        out, at = "", 0
        for found in words.finditer(low):
            if found.group(1) or found.group(2):
                if not (self.last and _WHITHER.search(low[: found.start()])):
                    self._heard(_NOUN.match(found.group()))
                continue
            whose = found.group(3) or ""
            noun = self.one if whose == "its" and self.one else self.many if whose == "their" else self.last
            noun = noun or self.last
            if not noun:
                continue
            dimension = found.group(4) or found.group(5)
            out += low[at : found.start()]
            out += f"{dimension} of the {noun}" + (" " if found.group(5) else "") if dimension else noun
            at = found.end()
        return out + low[at:]
