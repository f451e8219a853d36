"""A standard's text to proposals of rules, sentence by sentence."""

from __future__ import annotations

import re
from typing import Any, Final

from hands_on.notes import Lexicon, read_note
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.standard_text.angles import angles
from hands_on.standard_text.asked import asked_states, in_our_order
from hands_on.standard_text.cut import Sentence, sentences
from hands_on.standard_text.fault_words import degree_of, named_outright
from hands_on.standard_text.headings import CLASSES, class_of_heading, class_of_words
from hands_on.standard_text.numbers import figures, plain_numbers
from hands_on.standard_text.proportions import proportions
from hands_on.standard_text.proposal import Kind, Proposal, Read, StandardText
from hands_on.standard_text.sizes import SizeReader
from hands_on.standard_text.teeth import exempted, missing_rule

__all__ = ["read_standard"]

_GENERAL: Final = re.compile(r"\b(?:any|every|all|each)\b[^.]{0,40}\b(?:departures?|deviations?)\b")
_TESTICLES: Final = re.compile(r"\btesticles\b|\btestes\b")
_BREEDING: Final = re.compile(r"\bonly\b[^.]{0,60}\bhealthy\b|used for breeding")
_NEGATED: Final = re.compile(
    r"\b(?:not|no|never|neither|nor|without|free from|free of|avoid\w*|instead of|rather "
    r"than|lack of|absence of|devoid of|nor be)\b[^,;]{0,40}$"
)
_WEIGHTS: Final = ("none", "minor", "fault", "serious", "severe", "disqualifying")
_PLACES: Final = (
    (("chest-small", "chest-large"), r"chest|breast|brisket"),
    (("toes",), r"toes?"),
    (("paw",), r"feet|foot|paws?|legs?"),
    (("tail-tip",), r"tail"),
    (("head",), r"head|face|muzzle|blaze|skull"),
)
_PASSED: Final = frozenset({"mouth.teeth-missing"})
"""What the rules on teeth hold where they can."""
_VAGUE: Final = frozenset({"movement.faulty", "eyes.wrong-shade", "general.weak", "head.atypical"})
_CLASS_TALK: Final = re.compile(
    r"\b(?:an? )?(?:very |most )?(?:serious|severe|grave|major|minor) faults?\b|"
    r"\b(?:very |highly |strongly |severely |heavily |seriously )+(?:to be )?(?:undesirable|"
    r"penali[sz]ed|faulted|faulty|objectionable)",
    re.IGNORECASE,
)
"""Words of class, which a reader of notes would take for degrees."""
_NOUN: Final = re.compile(r"\b(chest|brisket|skull|muzzle|head|body|neck|croup|tail|ears?|loin|back)\b")
_NEVER_WANTED: Final = frozenset(
    {
        "mouth.teeth-missing",
        "head.lips-short",
        "eyes.entropion",
        "eyes.ectropion",
        "mouth.wry",
        "coat-skin.no-undercoat",
        "coat-skin.sparse",
        "back.swayed",
        "back.soft",
        "coat-skin.soft",
        "eyes.deep-set",
        "hindquarters.undermuscled",
        "chest.weak",
        "croup-tail.tail-kinked",
        "mouth.teeth-crowded",
        "forequarters.shoulder-steep",
        "forequarters.upper-arm-steep",
        "forequarters.legs-bowed",
    }
)
"""What no breed asks for, or what is worded like what is right."""
_SURE: Final = 0.9


def read_standard(text: str, lexicon: Lexicon) -> StandardText:
    """Read a standard's text. Never raises for any text."""
    cut = sentences(text)
    return _Reader(cut, lexicon).read()


class _Reader:
    def __init__(self, cut: list[Sentence], lexicon: Lexicon) -> None:
        self.cut, self.lexicon = cut, lexicon
        whole = " ".join(one.text for one in cut).lower()
        self.sizes = SizeReader(
            dogs_are_males=bool(re.search(r"\bbitch", whole)) or not re.search(r"\bmales?\b", whole)
        )
        self.headed = {one.cls for one in cut if one.heading}
        self.classes: list[str] = []
        self.ruled: dict[str, dict[str, Any]] = {}
        self.asked: dict[str, list[str]] = {}
        self.varieties: list[str] = []
        self.tooth_rules = 0
        self.paragraph, self.noun = "", ""

    def read(self) -> StandardText:
        return StandardText(tuple(self._read(one) for one in self.cut))

    # --- a sentence

    def _read(self, sentence: Sentence) -> Read:
        out: list[Proposal] = []
        if sentence.heading:
            self._class(sentence.cls, sentence, out)
            return Read(sentence, tuple(out))
        low = self._its_own(plain_numbers(sentence.text), sentence)
        said = class_of_words(low)
        cls = self._own_class(said, sentence.cls, low)
        if _GENERAL.search(low) and re.search(
            r"fault|foregoing|standard|considered|regarded|penal|proportion", low
        ):
            self._class("fault", sentence, out)
            table = {
                "class": "fault",
                "text": "Every departure is a fault, by how far it goes and what it does to health.",
            }
            out.append(Proposal("general_clause", "general_clause", table, sentence.paragraph))
            return Read(sentence, tuple(out))
        self._nota(low, sentence, out)
        counted = len(figures(low))
        self._figures(sentence, low, cls, out)
        if not (out and _TESTICLES.search(low)):
            self._teeth(low, cls, sentence, out)
            self._faults(sentence, low, cls, out)
        if not cls:
            self._states(sentence, low, out)
        return Read(sentence, tuple(_unique(out)), counted)

    def _its_own(self, low: str, sentence: Sentence) -> str:
        """`its width` with the part of the sentence before, where this one names none."""
        if sentence.paragraph != self.paragraph:
            self.paragraph, self.noun = sentence.paragraph, ""
        noun = _NOUN.search(low)
        if self.noun and not noun:
            low = re.sub(r"\b(?:its|the) (width|breadth|depth|length)\b", rf"\1 of the {self.noun}", low)
        if noun:
            self.noun = noun.group(1)
        return low

    def _own_class(self, said: str, headed: str, low: str) -> str:
        """The class of what a sentence speaks of: its own word, or its heading's."""
        if said in ("serious", "severe") and said not in self.headed:
            other = "severe" if said == "serious" else "serious"
            said = other if other in self.headed else said
        if (
            headed
            and said in ("serious", "severe")
            and not re.search(r"(?:serious|severe|grave|major)(?:ly)?\b[^.]{0,30}(?:fault|penal)", low)
        ):
            said = ""
        if said == "minor" and "minor" not in self.headed:
            said = "fault"
        if headed and said in ("fault", ""):
            return headed
        if headed and said in CLASSES and said in _WEIGHTS and _WEIGHTS.index(said) < _WEIGHTS.index(headed):
            return headed
        return said or headed

    def _class(self, cls: str, sentence: Sentence, out: list[Proposal]) -> None:
        if cls in self.classes or cls not in CLASSES:
            return
        self.classes.append(cls)
        label, disqualifies = CLASSES[cls]
        if "eliminat" in sentence.text.lower() and disqualifies:
            label = "Eliminating fault"
        table: dict[str, Any] = {"id": cls, "label": label}
        if disqualifies:
            table |= {"disqualifies": True, "leads_to": "The dog is out."}
        out.append(Proposal("classes", cls, table, sentence.paragraph))

    def _nota(self, low: str, sentence: Sentence, out: list[Proposal]) -> None:
        if (
            _TESTICLES.search(low)
            and re.search(r"\btwo\b|\b2\b|both|fully|descended", low)
            and not re.search(r"undescended|not (?:fully )?descended|without|lack|missing", low)
        ):
            ruled_out = "disqualifying" in self.headed
            self._rule(
                "reproductive.retained-testicle",
                "disqualifying" if ruled_out else "unclassed",
                None,
                low,
                sentence,
                out,
                reading="The text asks for two testicles and names no class"
                + (
                    ": disqualifying is common practice."
                    if ruled_out
                    else ", and the edition has none that disqualifies."
                ),
            )
        if _BREEDING.search(low) and "health" in low:
            table = {"text": "Only sound, healthy dogs of the breed's type are to be bred from."}
            out.append(Proposal("remarks", "breeding", table, sentence.paragraph))

    # --- figures

    def _figures(self, sentence: Sentence, low: str, cls: str, out: list[Proposal]) -> None:
        heading = sentence.paragraph
        wanted = cls if cls in CLASSES else ("none" if cls == "none" else "")
        label = sentence.label or heading
        for _, table in angles(low, label)[0]:
            out.append(Proposal("limits", table["id"], table, heading))
        if not wanted or wanted == "none":
            for _, table in proportions(low, label)[0]:
                out.append(Proposal("limits", table["id"], table, heading))
        differences = any("difference" in p.table for p in out)
        tables = [] if differences else self.sizes.read(sentence, low, wanted)[0]
        for name, table in tables:
            variety = table.get("when", {}).get("variety")
            if variety and variety not in self.varieties:
                self.varieties.append(variety)
                options = {one: one.capitalize() for one in self.varieties}
                out.append(
                    Proposal("attributes", "variety", {"label": "Variety", "options": options}, heading)
                )
            for band in table.get("bands", ()):
                self._class(band.get("class", ""), sentence, out)
            out.append(Proposal("limits", name, table, heading))

    # --- teeth

    def _teeth(self, low: str, cls: str, sentence: Sentence, out: list[Proposal]) -> None:
        free = exempted(low)
        if free and cls in ("", "none", "fault"):
            table = {"exempt": free, "text": f"{' and '.join(free)} may be missing."}
            out.append(Proposal("teeth", "exempt", table, sentence.paragraph))
            return
        rule = missing_rule(low, cls)
        if rule is not None:
            self._class(cls, sentence, out)
            self.tooth_rules += 1
            out.append(Proposal("teeth", f"rule-{self.tooth_rules}", rule, sentence.paragraph))

    # --- faults

    def _faults(self, sentence: Sentence, low: str, cls: str, out: list[Proposal]) -> None:
        found = self._named(sentence, low)
        in_list = bool(sentence.cls)
        whole = cls
        for fault, span, degree, denied, sure in found:
            cls = whole
            if fault in _PASSED and any(p.kind == "teeth" for p in out):
                continue
            if fault.split(".")[-1] in ("over-height", "under-height", "overweight", "underweight") and any(
                p.kind == "limits" for p in out
            ):
                continue
            own = _clause_class(low, span)
            if not in_list and own and cls and "none" in (own, cls):
                cls = own
            if in_list or (cls in CLASSES and not denied):
                if denied and not in_list:
                    continue
                kind = cls
                if cls == "none" and denied:
                    continue
            elif cls == "none":
                kind = "none"
            elif denied:
                kind = "fault"
            elif sure and not cls and self._wanted(fault, low, span, out):
                kind = "none"
            else:
                continue
            self._class(kind, sentence, out)
            reading = ""
            if kind == "none" and cls != "none":
                reading = "What is a fault in other breeds is asked for here."
            elif denied and kind == "fault":
                reading = "The text rules it out and names no class: an ordinary fault."
            near = low if fault != "colour.white" else low[slice(*_clause(low, span))]
            self._rule(fault, kind, degree, near, sentence, out, reading=reading)

    def _wanted(self, fault: str, low: str, span: tuple[int, int], out: list[Proposal]) -> bool:
        """Whether a describing sentence asks for what is a fault elsewhere."""
        if (
            fault.split(".")[0] in ("colour", "temperament", "movement", "reproductive", "general")
            or fault in _NEVER_WANTED
        ):
            return False
        banded = {band.get("fault") for p in out if p.kind == "limits" for band in p.table.get("bands", ())}
        return fault not in banded and not re.search(
            r"\bor\b|should|may\b|tend", low[max(0, span[0] - 12) : span[0]]
        )

    def _named(
        self, sentence: Sentence, low: str
    ) -> list[tuple[str, tuple[int, int], Degree | None, bool, bool]]:
        """Faults of a sentence: id, place, degree, whether it is denied, whether that is sure."""
        head = sentence.label if not class_of_heading(sentence.label) else ""
        words = [word for word in re.findall(r"[a-z]+", head.lower()) if len(word) > 3]
        lead = (
            ""
            if not head or len(words) > 3 or any(word.rstrip("s") in low for word in words)
            else f"{head.capitalize()} "
        )
        text = lead + (sentence.text[:1].lower() + sentence.text[1:] if lead else sentence.text)
        text = _CLASS_TALK.sub(lambda m: " " * len(m.group()), text)
        reading = read_note(text, self.lexicon, region=_region(head.lower()) or None)
        out: list[tuple[str, tuple[int, int], Degree | None, bool, bool]] = []
        seen: set[str] = set()
        in_list = bool(sentence.cls)
        for fault, span in named_outright(low):
            if fault in seen:
                continue
            seen.add(fault)
            if fault == "colour.white" and not in_list:
                more = [
                    m.span()
                    for m in re.finditer(r"\bwhite\b", low)
                    if m.start() > span[1] and _clause(low, m.span()) != _clause(low, span)
                ]
                out += [(fault, one, None, False, True) for one in more]
            denied = bool(_NEGATED.search(low[: span[0]])) and not low[span[0] : span[1]].startswith(
                ("lack", "no ", "without", "absence")
            )
            out.append((fault, span, degree_of(low, span), denied, True))
        outright = [span for _, span, *_ in out]
        for one in reading.faults:
            span = (max(0, one.span[0] - len(lead)), max(0, one.span[1] - len(lead)))
            if any(a <= span[0] and span[1] <= b for a, b in outright) and not re.search(
                r"\b(?:or|and)\b", low[span[0] : span[1]]
            ):
                continue
            rivals = {fault.split(".")[0] for fault, *_ in out[: len(outright)]}
            floor = 0.35 if in_list else 0.6
            if one.id.split(".")[0] in rivals and (one.id in _VAGUE or one.confidence < 0.9):
                floor = 1.1 if one.id in _VAGUE else max(floor, 0.85)
            if one.id in seen or one.confidence < floor:
                continue
            seen.add(one.id)
            degree = one.degree if one.degree in DEGREES else None
            within = re.split(r"[,;]", low[: span[1]])[-1]
            denied = one.status == "absent" or (
                not in_list
                and bool(
                    _NEGATED.search(low[: span[0]])
                    or re.search(r"\b(?:not|never|neither|nor|without)\b", within)
                )
            )
            out.append((one.id, span, degree, denied, one.confidence >= _SURE))
        return out

    def _rule(
        self,
        fault: str,
        cls: str,
        degree: Degree | None,
        low: str,
        sentence: Sentence,
        out: list[Proposal],
        *,
        reading: str = "",
    ) -> None:
        detail: tuple[str, ...] = ()
        if fault == "colour.white" and not re.search(r"elsewhere|other than|except|anywhere|outside", low):
            detail = next((names for names, words in _PLACES if re.search(rf"\b(?:{words})\b", low)), ())
        key = fault + (f"@{detail[0]}" if detail else "")
        before = self.ruled.get(key)
        table: dict[str, Any] = {"faults": [fault]}
        if detail:
            table["when"] = {"detail": list(detail)}
        lighter = before.get("class", "") if before else ""
        if before and cls == "none" and lighter not in ("", "none"):
            return
        if fault.endswith("abnormal"):
            degree = None
        if cls == "none" and degree in ("slight", "moderate"):
            self._class("fault", sentence, out)
            table["by_degree"] = {"slight": "none", "moderate" if degree == "slight" else "marked": "fault"}
        elif degree in ("marked", "extreme", "moderate") and cls not in ("none", "minor", "fault"):
            below = lighter if lighter in CLASSES and lighter != cls else "fault"
            if below not in self.classes:
                self._class("fault", sentence, out)
                below = "fault"
            table["by_degree"] = {"slight": below, degree: cls}
            reading = reading or f"The text's word is taken as {degree} and up; less is an ordinary fault."
        elif (
            before
            and lighter in _WEIGHTS
            and cls in _WEIGHTS
            and _WEIGHTS.index(lighter) > _WEIGHTS.index(cls)
        ):
            return
        else:
            table["class"] = cls
        if reading:
            table["reading"] = reading
        self.ruled[key] = table
        out.append(Proposal("rulings", key, table, sentence.paragraph))

    # --- what is asked

    def _states(self, sentence: Sentence, low: str, out: list[Proposal]) -> None:
        for point, words in asked_states(low, sentence.label):
            known = self.asked.setdefault(point, [])
            fresh = [word for word in words.split(", ") if word not in known]
            if not fresh:
                continue
            known += fresh
            out.append(Proposal("asked", point, {"text": in_our_order(point, known)}, sentence.paragraph))


def _clause(low: str, span: tuple[int, int]) -> tuple[int, int]:
    """The stretch between commas, semicolons and buts that a fault stands in."""
    starts = [m.end() for m in re.finditer(r"[,;]\s|\bbut\b", low[: span[0]])]
    ends = [m.start() for m in re.finditer(r"[,;]\s|\bbut\b", low[span[1] :])]
    return (starts[-1] if starts else 0), (span[1] + ends[0] if ends else len(low))


def _clause_class(low: str, span: tuple[int, int]) -> str:
    """The class that the clause itself names, where the sentence has several clauses."""
    start, end = _clause(low, span)
    return class_of_words(low[start:end]) if (start, end) != (0, len(low)) else ""


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


def _region(heading: str) -> str:
    return next((region for region, words in _REGIONS if re.search(words, heading)), "")


def _unique(found: list[Proposal]) -> list[Proposal]:
    """Of two proposals of one rule within a sentence the later one."""
    last: dict[tuple[Kind, str], Proposal] = {}
    for one in found:
        last[(one.kind, one.key)] = one
    return list(last.values())
