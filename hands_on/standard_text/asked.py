"""What a describing sentence asks for at each point, in single words of the trade."""

from __future__ import annotations

import re
from typing import Final

from hands_on.standard_text.asked_words import BACK, POINTS, WANTED

__all__ = ["asked_states", "in_our_order", "wanted_faults"]

_COMPILED: Final = tuple(
    (
        point,
        re.compile(rf"\b(?:{parts.replace('_BACK', BACK)})\b"),
        re.compile(rf"\b(?:{'|'.join(sorted(states.split('|'), key=len, reverse=True))})\b"),
    )
    for point, parts, states in POINTS
)
_WITHIN: Final = re.compile(
    r"(?:close|tight|near)\w*(?: \w+)? to (?:the )?(?:body|head|cheeks?|chest|ribs|skull)|"
    r"(?:between|behind|under|beneath) (?:the )?(?:ears?|eyes?)\b|"
    r"(?:to|reach\w*|below|at|with|from|of|over|above|on|behind|under|into|towards?) (?:the "
    r")?"
    r"(?:(?:level|line|height) of (?:the )?)?(?:elbows?|hocks?|back|topline|withers|shoulders?|"
    r"eyes?|body|chest|ground|tail|head|neck|loins?|croup|muzzle|skull)\b|\b(?:in|on|when|"
    r"during) (?:the )?(?:action|movement|moving|move|motion)\b"
)
"""Where a part only says whither or how high."""
_MEASURED: Final = re.compile(
    r"\d[\d./ -]*(?:cm|mm|in\b|inch\w*|\")\.?\s*(?:long|wide|deep|high|tall|in length)?"
)
_COMPARED: Final = re.compile(r"\b(?:as \w+ as|longer|shorter|equal\w*|the same)\b[^,;]*")
_OURS: Final = {
    "turned neither in nor out": "in line",
    "turning neither in nor out": "in line",
    "in line with the back": "level",
    "close to the head": "close",
    "close to the cheeks": "close",
    "close to the cheek": "close",
    "slightly above the level of the back": "a little over the back line",
}
_NOT: Final = re.compile(
    r"\b(?:not|no|never|neither|nor|without|avoid|too|lack|free from|than|excess\w*)\b[^,;]{0,18}$"
)


def asked_states(low: str, heading: str) -> list[tuple[str, str]]:
    """Point and what is asked there, as words of the trade in their order. `low` is a plain sentence.

    A part is named in the clause itself, in one before it, or in the heading.
    """
    head = heading.lower()
    found: dict[str, list[str]] = {}
    said = head
    clauses = [(mark, clause) for mark, clause in _clauses(low) if clause.strip()]
    previous: set[str] = set()
    for mark, whole_clause in clauses:
        clause = _MEASURED.sub(_blank, _COMPARED.sub(_blank, whole_clause))
        bare = _WITHIN.sub(lambda m: " " * len(m.group()), clause)
        named = {point for point, parts, _ in _COMPILED if parts.search(bare)}
        here = named or previous or {point for point, parts, _ in _COMPILED if parts.search(said)}
        if named and mark != "with":
            previous = _narrowed(named, bare)
        for point, parts, states in _COMPILED:
            if point not in here:
                continue
            for match in states.finditer(clause):
                whole = parts.fullmatch(match.group())
                if _NOT.search(clause[: match.start()]) or (
                    whole and point not in ("colour.shade", "coat-skin.furnishings", "colour.markings")
                ):
                    continue
                if named and not _near(parts, match, bare, named):
                    continue
                words = found.setdefault(point, [])
                if match.group() not in words:
                    words.append(match.group())
    return [(point, ", ".join(words[:8])) for point, words in found.items()]


def wanted_faults(low: str, heading: str) -> list[str]:
    """Faults of other breeds that a describing sentence asks for: `ears erect`, `tail over the back`."""
    said = {(point, word) for point, words in asked_states(low, heading) for word in words.split(", ")}
    return [
        fault for point, states, fault in WANTED if any((point, state) in said for state in states.split("|"))
    ]


def in_our_order(point: str, words: list[str], low: str) -> str:
    """States of a point as one text, in the order of our own list and not of the sentence `low`."""
    states = next(states for name, _, states in POINTS if name == point).split("|")

    def place(word: str) -> int:
        return next((n for n, state in enumerate(states) if re.fullmatch(state, word)), len(states))

    ordered = sorted(words, key=place)[:8]
    said = " ".join(re.findall(r"[a-z]+", low))
    if any(" ".join(ordered[n : n + 2]) in said for n in range(len(ordered) - 1)):
        ordered.reverse()
    return ", ".join(_OURS.get(word, word) for word in ordered)


def _clauses(low: str) -> list[tuple[str, str]]:
    """Each clause with the mark or word before it."""
    parts = re.split(r"([;,:](?=\s)|(?<!line )(?<!level )\bwith\b|\bwhile\b|\bbut\b)", low)
    return list(zip(["", *parts[1::2]], parts[0::2], strict=True))


def _blank(found: re.Match[str]) -> str:
    return " " * len(found.group())


def _narrowed(named: set[str], clause: str) -> set[str]:
    """The points of the part that a clause names last: what follows without a part is about it."""
    ends = {
        point: max(m.end() for m in parts.finditer(clause)) for point, parts, _ in _COMPILED if point in named
    }
    last = max(ends.values())
    return {point for point, end in ends.items() if end == last}


def _near(parts: re.Pattern[str], match: re.Match[str], clause: str, named: set[str]) -> bool:
    """Whether no other part stands nearer to the state than one of this point's."""
    own = min((_gap(m.span(), match.span()) for m in parts.finditer(clause)), default=999)
    others = min(
        (
            _gap(m.span(), match.span())
            for point, words, _ in _COMPILED
            if point in named
            for m in words.finditer(clause)
            if not any(m.start() < o.end() and o.start() < m.end() for o in parts.finditer(clause))
        ),
        default=999,
    )
    return own <= others


def _gap(part: tuple[int, int], state: tuple[int, int]) -> int:
    if part[1] <= state[0]:
        return state[0] - part[1]
    return part[0] - state[1] if part[0] >= state[1] else 0
