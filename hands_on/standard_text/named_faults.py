"""Faults that a sentence names: in a standard's own terms, and as a reader of notes finds them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from hands_on.notes import Lexicon, read_note
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.standard_text.classing import clause
from hands_on.standard_text.cut import Sentence
from hands_on.standard_text.fault_words import degree_of, named_outright
from hands_on.standard_text.headings import class_of_heading, class_of_words
from hands_on.standard_text.spelled_out import spelled_out

__all__ = ["NamedFault", "named_faults"]


@dataclass(frozen=True, slots=True)
class NamedFault:
    """A fault at `span` of a plain sentence. `denied`: the sentence says that it should not be there."""

    fault: str
    span: tuple[int, int]
    degree: Degree | None
    denied: bool
    sure: bool


_NEGATED: Final = re.compile(
    r"\b(?:not|no|never|neither|nor|without|free from|free of|avoid\w*|instead of|rather "
    r"than|lack of|absence of|devoid of|nor be)\b[^,;]{0,40}$"
)
_INNER_NOT: Final = re.compile(r"\b(?:never|not|without|nor)\b(?! (?:reach|correct|fully|within))")
_NO_WHITE: Final = re.compile(r"\b(?:no|lack(?:ing)?(?: of)?|absence of|missing) white\b[^.;,]*$")
_WHERE: Final = re.compile(r"\b(?:in|other than|except(?:ing)?|unless|with)(?: (?:in|for|the|blue|red|a))* $")
"""Before a colour it says in which dogs something counts."""
_BY_COLOUR: Final = frozenset({"colour.white", "eyes.wall", "eyes.light", "head.nose-pigment"})
"""Beside these a word of colour says where they count, and is no fault of colour itself."""
_UNDERCOAT: Final = frozenset({"coat-skin.woolly", "coat-skin.soft", "coat-skin.short", "coat-skin.coarse"})
"""What is said of an undercoat is none of these: they are faults of the outer coat."""
_STATES_OF_TAIL: Final = frozenset({"croup-tail.natural", "croup-tail.docked", "croup-tail.bobtail"})
_VAGUE: Final = frozenset({"movement.faulty", "eyes.wrong-shade", "general.weak", "head.atypical"})
_ONLY_OUTRIGHT: Final = frozenset(
    {"movement.sluggish", "movement.faulty", "general.weak", "colour.white-coat"}
)
"""What a describing sentence is not read to say by a chance word."""
_CLASS_TALK: Final = re.compile(
    r"\b(?:an? )?(?:very |most )?(?:serious|severe|grave|major|minor) faults?\b|"
    r"\b(?:very |highly |strongly |severely |heavily |seriously )+(?:to be )?(?:undesirable|"
    r"penali[sz]ed|faulted|faulty|objectionable|punished)",
    re.IGNORECASE,
)
"""Words of class, which a reader of notes would take for degrees."""
_SURE: Final = 0.9
_LISTED, _DESCRIBED, _DENIED = 0.35, 0.6, 0.7
"""How sure the reader of notes must be: in a list of faults, in a description, of what it rules out."""
_SPELLED: Final = 0.7
"""How sure it must be of a departure that stands beside its part."""
_REGIONS: Final = (
    ("eyes", r"eye"),
    ("ears", r"\bear"),
    ("mouth", r"teeth|jaw|bite|mouth|dentition"),
    ("head", r"head|skull|muzzle|nose|lips|stop|cheek|cranial|facial|foreface"),
    ("neck", r"neck"),
    ("forefeet", r"fore ?feet|front feet|^feet|paws"),
    ("hindfeet", r"hind ?feet"),
    ("forequarters", r"fore|front|shoulder|upper arm|elbow|pastern"),
    ("hindquarters", r"hind|thigh|stifle|hock|rear"),
    ("croup-tail", r"croup|tail"),
    ("chest", r"chest|ribs|brisket"),
    ("back", r"back|loin|topline|body|withers|underline|belly"),
    ("movement", r"gait|movement|action"),
    ("coat-skin", r"coat|hair|skin"),
    ("colour", r"colou?r"),
    ("temperament", r"temperament|character|behavio"),
    ("general", r"appearance|size|height|proportion"),
)
_MORE_EXACT: Final = {
    "colour.pigment-lacking": ("head.nose-pigment", "head.lips-pigment"),
    "colour.white-coat": ("colour.white",),
}
"""What says the same with less: left out where the exact one is named."""


def named_faults(sentence: Sentence, low: str, lexicon: Lexicon) -> list[NamedFault]:
    """The faults of a sentence, each once. `low` is its plain form."""
    lead = _lead(sentence, low)
    out = _outright(sentence, low)
    out += _as_a_note(sentence, low, lead, lexicon, out)
    if lead:
        known = {one.fault for one in out}
        for fault, span in named_outright(lead.lower() + low):
            if fault not in known and span[0] < len(lead):
                known.add(fault)
                at = (0, max(1, span[1] - len(lead)))
                out.append(NamedFault(fault, at, degree_of(low, at), bool(_NEGATED.search(low[:1])), False))
    if sentence.cls or class_of_words(low) not in ("", "none"):
        out += _spelled_out(sentence, low, lexicon, out)
    named = {one.fault for one in out}
    places = {one.fault: one.span for one in out}
    return [
        one
        for one in out
        if not any(
            name in named and (name != "colour.white" or _overlap(one.span, places[name]))
            for name in _MORE_EXACT.get(one.fault, ())
        )
    ]


def _overlap(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def _lead(sentence: Sentence, low: str) -> str:
    """The part that the heading names, to stand before a sentence that names none."""
    head = sentence.label if not class_of_heading(sentence.label) else ""
    words = [word for word in re.findall(r"[a-z]+", head.lower()) if len(word) > 3]
    if not head or len(words) > 3 or any(word.rstrip("s") in low for word in words):
        return ""
    return f"{head.capitalize()} "


def _outright(sentence: Sentence, low: str) -> list[NamedFault]:
    out: list[NamedFault] = []
    for fault, span in named_outright(low):
        if fault == "colour.white" and not sentence.cls:
            out += [
                NamedFault(fault, m.span(), None, False, True)
                for m in re.finditer(r"\bwhite\b", low)
                if m.start() > span[1] and clause(low, m.span()) != clause(low, span)
            ]
        said = low[span[0] : span[1]]
        if fault == "colour.white" and _NO_WHITE.search(low[: span[1]]):
            continue
        if said in ("merle", "brindle") and _WHERE.search(low[: span[0]]):
            continue
        if _of_the_undercoat(fault, low, span):
            continue
        if fault == "back.roached" and sentence.label.lower().startswith("loin") and "back" not in low:
            fault = "back.loin-arched"
        denied = bool(_NEGATED.search(low[: span[0]]) or _INNER_NOT.search(said)) and not said.startswith(
            ("lack", "no ", "without", "absence")
        )
        out.append(NamedFault(fault, span, degree_of(low, span), denied, True))
    return out


def _as_a_note(
    sentence: Sentence, low: str, lead: str, lexicon: Lexicon, outright: list[NamedFault]
) -> list[NamedFault]:
    """What a reader of notes finds beside what was named outright."""
    text = _CLASS_TALK.sub(lambda m: " " * len(m.group()), lead.lower() + low)
    head = sentence.label if not class_of_heading(sentence.label) else ""
    reading = read_note(text, lexicon, region=_region(head.lower()) or None)
    in_list = bool(sentence.cls)
    seen = {one.fault for one in outright}
    rivals = {fault.split(".")[0] for fault in seen}
    out: list[NamedFault] = []
    for one in reading.faults:
        span = (max(0, one.span[0] - len(lead)), max(0, one.span[1] - len(lead)))
        within = any(a.span[0] <= span[0] and span[1] <= a.span[1] for a in outright)
        if within and not re.search(r"\b(?:or|and)\b", low[span[0] : span[1]]):
            continue
        clause_words = re.split(r"[,;]", low[: span[1]])[-1]
        denied = one.status == "absent" or (
            not in_list
            and bool(
                _NEGATED.search(low[: span[0]])
                or re.search(r"\b(?:not|never|neither|nor|without)\b", clause_words)
            )
        )
        floor = _LISTED if in_list else _DENIED if denied else _DESCRIBED
        if one.id.split(".")[0] in rivals and (one.id in _VAGUE or one.confidence < _SURE):
            floor = 1.1 if one.id in _VAGUE else max(floor, 0.85)
        if _of_the_undercoat(one.id, low, span) or (one.id == "colour.wrong-shade" and seen & _BY_COLOUR):
            continue
        if _qualifies(one.id, low, span, seen):
            continue
        if one.id == "mouth.teeth-extra" and not re.search(r"tooth|teeth|incisor|molar|canine", low):
            continue
        if one.id in seen or one.confidence < floor or (not in_list and one.id in _ONLY_OUTRIGHT):
            continue
        seen.add(one.id)
        degree = one.degree if one.degree in DEGREES else None
        out.append(NamedFault(one.id, span, degree, denied, one.confidence >= _SURE))
    return out


def _spelled_out(sentence: Sentence, low: str, lexicon: Lexicon, known: list[NamedFault]) -> list[NamedFault]:
    """What is found once each departure of a list stands beside its part."""
    label = sentence.label if not class_of_heading(sentence.label) else ""
    seen = {one.fault for one in known}
    out: list[NamedFault] = []
    for said in spelled_out(_CLASS_TALK.sub(lambda m: " " * len(m.group()), low), label):
        found = [fault for fault, _ in named_outright(said.text)]
        if not found:
            reading = read_note(said.text, lexicon)
            found = [
                one.id
                for one in reading.faults
                if one.status == "present"
                and one.confidence >= _SPELLED
                and one.span[1] - one.span[0] >= 0.6 * len(said.text)
            ]
        for fault in found:
            if fault not in seen and fault not in _VAGUE and not fault.startswith("colour."):
                seen.add(fault)
                out.append(NamedFault(fault, said.span, degree_of(low, said.span), False, False))
    return out


def _qualifies(fault: str, low: str, span: tuple[int, int], seen: set[str]) -> bool:
    """Whether words only say in which dogs it counts: `except in brown dogs`, `in natural tails`."""
    if fault.startswith("colour."):
        return bool(seen and re.search(r"\b(?:except|but|unless|other than)\b[^,;]*$", low[: span[0]]))
    return fault in _STATES_OF_TAIL and bool(re.search(r"\bin (?:[\w ]{0,24})$", low[: span[0]]))


def _of_the_undercoat(fault: str, low: str, span: tuple[int, int]) -> bool:
    if fault not in _UNDERCOAT:
        return False
    start, end = clause(low, span)
    said = re.split(r"\band\b|\bwith\b", low[start : max(end, span[1])])
    here = next((one for one in said if low[span[0] : span[1]] in one), low[start:end])
    return "undercoat" in here.replace("-", "").replace("under coat", "undercoat")


def _region(heading: str) -> str:
    return next((region for region, words in _REGIONS if re.search(words, heading)), "")
