"""Margins round a size: the words that make a figure one, and on which sides of the size it lies."""

from __future__ import annotations

import re
from typing import Final

from hands_on.standard_text.numbers import Figure

__all__ = ["ONLY_A_MARGIN", "OUTSIDE", "TOLERANCE", "Margins", "sides_outside", "sides_said"]

ONLY_A_MARGIN: Final = re.compile(
    r"(?:toleran\w+|margin|variation|deviation)(?: of)?(?: up to)?(?: about)?\s*(?:\+\s*/?\s*-|\u00b1)?\s*$"
)
TOLERANCE: Final = re.compile(
    r"\bdiffer\w*|deviat\w*|falling short|exceed\w* the (?:upper|lower)|"
    r"\u00b1|\+\s*/\s*-|\+\s*(?:or|and)\s*-|plus (?:or|and)?\s*minus|toleran|either (?:way|"
    r"side|direction)|variation|deviation|margin|"
    r"(?:above (?:or|and|/) ?below)|(?:over (?:or|and|/) ?under)|(?:below (?:or|and|/) "
    r"?above)|(?:under (?:or|and|/) ?over)|"
    r"over-?siz\w+|under-?siz\w+|(?:above|over|below|under) (?:is |are )?(?:permitted|allowed|"
    r"tolerated|acceptable)|"
    r"up(?:wards)? or down|\bexcess of\b|more or less(?! than)|greater or lesser|(?:larger|taller|bigger) "
    r"or (?:smaller|shorter)|"
    r"(?:above|below|over|under|beyond|outside|from) (?:or \w+ )?(?:the |these |this |"
    r"those |either |standard |stated |given |prescribed |desired |ideal |upper |lower "
    r"|maximum |minimum |specified |indicated )+(?:allowed|limits?|heights?|size|measure|figure|"
    r"range|standard|ideal|minimum|maximum)"
)


_GOES_ON: Final = re.compile(
    r"(?:and |but |or |those |if |when |deviations? )*(?:of |by )?(?:more than|over|above|exceeding|beyond) "
    r"\d[\d./ ]*(?:cm|mm|in\b|inch)"
)
_SIDE_SAID: Final = re.compile(
    r"above|below|over|under(?!line)|exceed|taller|larger|smaller|shorter|\u00b1|[+-]"
)

_BOTH: Final = re.compile(
    r"\u00b1|\+\s*/|plus|either|(?:above|over|below|under)\W+(?:or|and)?\W*(?:above|over|below|under)|"
    r"more or less|variation|deviation|toleran|margin|outside|from the|differ|deviat|"
    r"over-?siz\w+ (?:or|and|/) under|under-?siz\w+ (?:or|and|/) over"
)


OUTSIDE: Final = re.compile(
    r"(?:sizes?|heights?|weights?|dogs|bitches|males|females|specimens)\b[^.;]{0,40}(?:outside|beyond|exceed\w*|over|"
    r"under|above|below|not within|short of)[^.;]{0,40}(?:limits?|toleran\w+|standard|"
    r"permitted|range|maximum|minimum|difference|margin|prescribed|stated|given)"
)
"""A size outside what was told, without a figure of its own."""


_SAME_MARGIN: Final = re.compile(r"same (?:toleran|margin|variation|deviation)")
_MARGIN_SAID: Final = re.compile(
    r"(?:toleran\w+|margin|variation|deviation) (?:of )?(?:up to )?(\d[\d./ ]*(?:cm|in\w*|kg|lb))"
)


class Margins:
    """Remembers what a sentence said of a margin, for the next that only goes on with it."""

    def __init__(self) -> None:
        self.lead, self.tail, self.margin = "", "", ""

    def told(self, low: str, label: str) -> str:
        """The sentence with what it leaves out: `of more than 4 cm`, `with the same tolerance`.

        Under a heading such as `Maximum height` the figures are ends too.
        """
        if _GOES_ON.match(low):
            low = self.lead + low + ("" if TOLERANCE.search(self.lead) else self.tail)
        else:
            relative = TOLERANCE.search(low)
            self.lead = re.split(r"\d", low)[0] if relative else ""
            self.tail = f" {relative.group()}" if relative else ""
        if self.margin and _SAME_MARGIN.search(low):
            low = f"{low.rstrip('.')}, tolerance {self.margin} either way"
        given = _MARGIN_SAID.search(low)
        self.margin = given.group(1) if given else self.margin
        headed = re.match(r"(?:min|max)imum \w+", label.lower())
        return f"{headed.group()}: {low}" if headed and not re.search(r"min|max", low) else low


def sides_outside(low: str) -> tuple[bool, bool]:
    """Whether a sentence speaks of sizes above what was told, and whether of sizes below."""
    above = bool(re.search(r"exceed|above|\bover\b|maximum|larger|taller", low))
    below = bool(re.search(r"below|\bunder\b|minimum|smaller|short of", low))
    return (above, below) if above != below else (True, True)


def sides_said(low: str, figure: Figure) -> tuple[bool, bool]:
    """Whether a margin lies above the size, and whether it lies below."""
    around = low[max(0, figure.start - 70) : figure.end + 70]
    if not _SIDE_SAID.search(around):
        around = low
    both = bool(_BOTH.search(around))
    above = both or bool(re.search(r"above|over|exceed|excess|taller|larger|upper|upward|\+", around))
    below = both or bool(re.search(r"below|under(?!line)|smaller|shorter|lower|less|downward", around))
    before = low[: figure.start]
    signs = low[max(0, figure.start - 6) : figure.start]
    if re.search(r"\+\s*$", before) and "-" not in signs:
        below = False
    if re.search(r"-\s*$", before) and "+" not in signs:
        above = False
    return above, below
