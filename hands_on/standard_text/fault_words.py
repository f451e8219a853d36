"""Fault words of standards that notes made at the table seldom hold, and words of degree as standards use them."""

from __future__ import annotations

import re
from typing import Final

from hands_on.ruleset.base import Degree
from hands_on.standard_text.fault_terms import TERMS

__all__ = ["degree_of", "named_outright"]

_COMPILED: Final = tuple((re.compile(rf"(?<![a-z])(?:{words})"), faults) for words, faults in TERMS)


def named_outright(low: str) -> list[tuple[str, tuple[int, int]]]:
    """Faults that a plain sentence names in a standard's own terms, with their places."""
    out: list[tuple[str, tuple[int, int]]] = []
    for pattern, faults in _COMPILED:
        for found in pattern.finditer(low):
            out += [(fault, found.span()) for fault in faults]
        for text, span in _coordinated(low):
            if pattern.search(text):
                out += [(fault, span) for fault in faults]
    seen: dict[str, tuple[int, int]] = {}
    for fault, span in sorted(out, key=lambda one: one[1]):
        seen.setdefault(fault, span)
    return list(seen.items())


_SHARED: Final = re.compile(
    r"\b((?:(?:low|high|well|too|under|over) )?[\w-]+)(?:, ([\w-]+))?,? (?:or|and|/) (?:too )?([\w-]+) (backs?|toplines?|eyes?|"
    r"ears?|feet|foot|tails?|coats?|hair|muzzles?|skulls?|heads?|necks?|chests?|croups?|"
    r"loins?|ribs?|shoulders?|pasterns?|hocks?|lips|bites?|noses?|jaws?|mouths?)\b"
)


_PARTS_SAID: Final = (
    "backs?|toplines?|eyes?|ears?|feet|foot|toes|tails?|coats?|hair|muzzles?|skulls?|heads?|necks?|chests?|"
    "croups?|loins?|ribs?|shoulders?|pasterns?|hocks?|lips|bites?|nose|jaws?|mouth|bones?|elbows?|stop|body"
)
_AFTER: Final = re.compile(
    rf"\b({_PARTS_SAID}) ((?:(?:too |set |set too |set on |carried |turned )*[\w-]+)"
    rf"(?:(?:, | or | and |, or | nor )(?:too |set |set too |set on |carried |turned )*[\w-]+)+)(?=[.;,]|$| \w)"
)
"""`ears too long, too short or set low`: each with the part."""
_COMMA: Final = re.compile(rf"\b([\w-]+), [\w-]+ ({_PARTS_SAID})\b")
"""`long, silky coat`."""


def _coordinated(low: str) -> list[tuple[str, tuple[int, int]]]:
    """`light or round eyes` also as `light eyes`, `set too high or too low` also as `too low`."""
    out: list[tuple[str, tuple[int, int]]] = []
    for found in _AFTER.finditer(low):
        _, *more = re.split(r",? ?\b(?:or|and|nor)\b ?|, ?|/", found.group(2))
        out += [(f"{found.group(1)} {one.strip()}", found.span()) for one in more if one.strip()]
    for found in _COMMA.finditer(low):
        out.append((f"{found.group(1)} {found.group(2)}", found.span()))
    for found in _SHARED.finditer(low):
        for group in (1, 2):
            if found.group(group):
                out.append((f"{found.group(group)} {found.group(4)}", (found.start(group), found.end())))
    return out


_DEGREES: Final[tuple[tuple[Degree, str], ...]] = (
    ("extreme", r"complete(?:ly)?|very|extreme(?:ly)?|total(?:ly)?|entire(?:ly)?|wholly"),
    (
        "marked",
        r"overly|pronounced(?:ly)?|distinct(?:ly)?|noticeabl[ey]|strong(?:ly)?|marked(?:ly)?|clear(?:ly)?|excessive(?:ly)?|definite(?:ly)?|decided(?:ly)?|serious(?:ly)?|severe(?:ly)?|obvious(?:ly)?|gross(?:ly)?|unduly|heav(?:y|ily)|considerabl[ey]|significant(?:ly)?",
    ),
    ("moderate", r"moderate(?:ly)?|somewhat"),
    ("slight", r"slight(?:ly)?|minor|(?:a )?little|a trifle|small deviations?"),
)


def degree_of(low: str, span: tuple[int, int]) -> Degree | None:
    """The degree said right before or within the words of a fault."""
    before = re.split(r"[,;.]|\band\b", low[: span[0]])[-1][-36:]
    text = before + low[span[0] : span[1]]
    for degree, words in _DEGREES:
        if re.search(rf"\b(?:{words})\b(?= *\S)", text):
            if (
                degree == "extreme"
                and re.search(r"\bvery\b", text)
                and not re.search(r"extreme|complete|total", text)
            ):
                return "extreme"
            return degree
    return None
