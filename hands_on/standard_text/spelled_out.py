"""Lists of faults with each departure beside its part: `ears set low, too short or heavy`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

__all__ = ["Spelled", "spelled_out"]


@dataclass(frozen=True, slots=True)
class Spelled:
    """A departure with its part, and where in the sentence the departure stands."""

    text: str
    span: tuple[int, int]


_PARTS: Final = (
    r"(?:upper arms?|hind ?quarters?|fore ?quarters?|hind legs?|fore ?legs?|under ?lines?|top ?lines?|"
    r"rear pasterns?|"
    r"second thighs?|backs?|eyes?|eyelids?|lids|ears?|leathers?|feet|foot|toes|pads|nails|claws|"
    r"tails?|coats?|"
    r"under ?coat|hair|"
    r"muzzles?|skulls?|heads?|necks?|chests?|croups?|loins?|ribs?|shoulders?|pasterns?|hocks?|lips|flews|bites?|"
    r"noses?|jaws?|mouths?|bones?|elbows?|stop|body|belly|thighs?|stifles?|cheeks?|withers|fronts?|teeth|incisors|"
    r"canines|dewlap|gait|action|movement)"
)
_PART: Final = re.compile(rf"\b{_PARTS}\b(?!-)")
_JOIN: Final = re.compile(r",? (?:or|and|nor|and/or|as well as) |, |/")
_LEAD: Final = re.compile(
    r"^(?:or|and|an?|the|any|one|too|very|rather|over-?|somewhat|slightly|a (?:little|trifle)|(?:that|"
    r"which) (?:is|are)|is|"
    r"are|being|so|excessively|distinctly|markedly|plainly|clearly|strongly|decidedly|noticeably|habitually|permanently|"
    r"pronouncedly|obviously|with) "
)
_WITHIN: Final = re.compile(
    r"\b(?:(?:that|which) (?:is|are)|too|very|rather|somewhat|slightly|a little|a trifle|plainly|"
    r"clearly|markedly|distinctly|"
    r"strongly|decidedly|noticeably|habitually|permanently|excessively|so|carried so|being) (?=\w)"
)
_CLASSED: Final = re.compile(
    r"(?:is|are|to be|should|must|shall|(?:highly |most |very )?undesirable|a |an )\b"
)
"""`croups are faults`: the part ends what is named."""
_ALONE: Final = re.compile(r"(?:in|out|up|down|high|low|inwards?|outwards?|long|short|wide|narrow)$")


def spelled_out(low: str, label: str) -> list[Spelled]:
    """Each departure of a plain sentence that shares its part with others or takes it from `label`.

    What names its part itself is told without the adverbs between.
    """
    headed = _PART.search(label.lower()) if len(label.split()) <= 3 else None
    out: list[Spelled] = []
    at = 0
    for segment in re.split(r"([;:.]\s)", low):
        if not re.fullmatch(r"[;:.]\s", segment):
            out += _segment(segment, at, headed.group() if headed else "")
        at += len(segment)
    return [one for one in out if not re.search(r"\d|\b(?:not|never|nor|without|except)\b", one.text)]


def _segment(text: str, at: int, noun: str) -> list[Spelled]:
    chunks: list[tuple[str, int, int]] = []
    start = 0
    for join in [*_JOIN.finditer(text), None]:
        end = join.start() if join else len(text)
        if text[start:end].strip():
            chunks.append((_bare(text[start:end]), at + start, at + end))
        start = join.end() if join else end
    out: list[Spelled] = []
    waiting: list[tuple[str, int, int]] = []
    before = ""
    for chunk, start, end in chunks:
        parts = list(_PART.finditer(chunk))
        if not parts:
            waiting.append((chunk, start, end))
            if noun:
                out.append(Spelled(_with(noun, chunk, before), (start, end)))
        else:
            last = parts[-1]
            out.append(Spelled(chunk, (start, end)))
            after = chunk[last.end() :].strip()
            if not after or _CLASSED.match(
                after
            ):  # `light or round eyes`: what stood before is of the same part
                out += [Spelled(f"{one} {last.group()}", (a, b)) for one, a, b in waiting]
            noun = last.group()
            waiting = []
        before = chunk
    return out


def _bare(chunk: str) -> str:
    said = chunk.strip(" .;:()")
    while _LEAD.match(said):
        said = _LEAD.sub("", said, count=1)
    return _WITHIN.sub("", said)


def _with(noun: str, chunk: str, before: str) -> str:
    """`turned out or in`: the verb is shared too."""
    if _ALONE.match(chunk):
        verb = re.search(r"\b(set|carried|placed|turn(?:ed|ing)|toe?ing)\b", before)
        return f"{noun} {verb.group(1)} {chunk}" if verb else f"{noun} {chunk}"
    return f"{noun} {chunk}"
