"""A standard's text to proposals of rules, sentence by sentence."""

from __future__ import annotations

import re
from typing import Any, Final

from hands_on.notes import Lexicon
from hands_on.ruleset.base import Degree
from hands_on.standard_text.angles import angles
from hands_on.standard_text.asked import asked_states, in_our_order, wanted_faults
from hands_on.standard_text.classing import class_beside, clause, own_class
from hands_on.standard_text.conditions import Colours, on_colour
from hands_on.standard_text.cut import Sentence, sentences
from hands_on.standard_text.groups import own_varieties
from hands_on.standard_text.headings import CLASSES, OUTSIDE_THE_LADDER, class_of_words, class_words
from hands_on.standard_text.law import law_of, under_a_law
from hands_on.standard_text.named_faults import NamedFault, named_faults
from hands_on.standard_text.numbers import figures, plain_numbers
from hands_on.standard_text.own_ladder import OwnLadder, own_ladder
from hands_on.standard_text.own_measures import own_measures
from hands_on.standard_text.pages import running_lines
from hands_on.standard_text.printed_twice import in_unit
from hands_on.standard_text.pronouns import Pronouns
from hands_on.standard_text.proportions import of_one_sex, proportions
from hands_on.standard_text.proposal import Kind, Proposal, Read, StandardText
from hands_on.standard_text.ruled import Rulings
from hands_on.standard_text.settled import settled
from hands_on.standard_text.sizes import SizeReader
from hands_on.standard_text.teeth import apart_rules, exempted, missing_rule

__all__ = ["read_standard"]

_GENERAL: Final = re.compile(
    r"\bwhat(?:ever)? (?:departs|deviates)"
    r"|\b(?:any|every|all|each)\b[^.]{0,40}\b(?:departures?|deviations?)\b"
)
_TESTICLES: Final = re.compile(r"\btesticles\b|\btestes\b")
_BREEDING: Final = re.compile(r"\bonly\b[^.]{0,60}\bhealthy\b|used for breeding")
_TAKEN_OFF: Final = re.compile(r"(dewclaws?\b[^.;]{0,40}\b)eliminated")
_PASSED: Final = frozenset({"mouth.teeth-missing"})
"""What the rules on teeth hold where they can."""
_LIKEWISE: Final = re.compile(r"\blikewise\b|\bso too\b|\bditto\b|\bthe same (?:holds|applies|goes)\b")
_REMOVED: Final = re.compile(
    r"\b(?:should|must|shall|has to|have to|is to|are to|to) (?:(?!not|never)\w+ )?be (?:\w+ )?(?:removed|"
    r"taken off|absent)|"
    r"\b(?:should|must) (?:be )?removed|"
    r"(?<!customarily )(?<!usually )(?<!often )(?<!be )(?<!not )\bremoved\.?$"
)
_MINOR_SAID: Final = re.compile(r"\b(?:a|an|only|are|as) (?:\w+ )?minor (?:faults?|one|failing)\b")
_SIZES: Final = ("over-height", "under-height", "overweight", "underweight")
_UNCALLED: Final = ("colour", "temperament", "movement", "reproductive", "general")
"""Regions whose faults no description asks for."""
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
        "forequarters.pasterns-weak",
        "croup-tail.croup-steep",
        "back.tuck-up-excess",
        "back.slope-excess",
        "hindquarters.wide",
        "hindquarters.straight",
        "hindquarters.over-angulated",
        "head.stop-lacking",
        "head.stop-heavy",
        "forequarters.front-wide",
    }
)
"""What no breed asks for, or what is worded like what is right."""
_ONLY_THERE: Final = "The text allows white only there and names no class elsewhere: an ordinary fault."
_ONLY_IN: Final = "The text allows it only in {colour} and names no class for others: an ordinary fault."
_ASKED_HERE: Final = "What is a fault in other breeds is asked for here."


def read_standard(text: str, lexicon: Lexicon, unit: str = "") -> StandardText:
    """Read a standard's text. Never raises for any text.

    `unit`, `cm` or `in`: the one taken where a figure is printed in both; the first printed without it.
    """
    ladder = own_ladder(running_lines(text))
    return _Reader(sentences(text, ladder), lexicon, unit, ladder).read()


class _Reader:
    def __init__(self, cut: list[Sentence], lexicon: Lexicon, unit: str, ladder: OwnLadder) -> None:
        self.cut, self.lexicon, self.unit, self.ladder = cut, lexicon, unit, ladder
        whole = " ".join(one.text for one in cut).lower()
        males = bool(re.search(r"\bbitch", whole)) or not re.search(r"\bmales?\b", whole)
        varieties = own_varieties("\n".join(one.text for one in cut))
        first = SizeReader(dogs_are_males=males, varieties=varieties)
        for one in cut:
            if not one.heading and re.search(r"\d", one.text) and not one.cls:
                first.read(one, self._plain(one), "")
        self.headed = {one.cls for one in cut if one.heading}
        if _MINOR_SAID.search(whole):
            self.headed.add("minor")
        self.headed |= {cls for _, cls in ladder.words}
        self.sizes = SizeReader(
            dogs_are_males=males,
            ranged=first.ranges,
            varieties=varieties,
            ladder=self.headed,
        )
        self.classes: list[str] = []
        self.rulings = Rulings()
        self.colours = Colours()
        self.asked: dict[str, list[str]] = {}
        self.varieties: list[str] = []
        self.tooth_rules = 0
        self.ratio: dict[str, dict[str, Any]] = {}
        """The ratio that was read last, under its paragraph."""
        self.said = ""
        """The class that the sentence before named for itself."""
        self.pronouns = Pronouns()

    def _plain(self, sentence: Sentence) -> str:
        return self.ladder.in_our_words(plain_numbers(in_unit(sentence.text, self.unit)))

    def read(self) -> StandardText:
        return StandardText(tuple(settled([self._read(one) for one in self.cut])))

    # --- a sentence

    def _read(self, sentence: Sentence) -> Read:
        out: list[Proposal] = []
        if sentence.heading:
            self._class(sentence.cls, sentence, out)
            return Read(sentence, tuple(out))
        low = self.pronouns.told(self._plain(sentence), sentence.paragraph, sentence.label)
        low = _TAKEN_OFF.sub(r"\1removed", low)
        said = class_of_words(low)
        if _LIKEWISE.search(low) and said in ("", "none"):
            said = self.said
        self.said = said
        cls = own_class(said, sentence.cls, low, self.headed)
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

    def _class(self, cls: str, sentence: Sentence, out: list[Proposal]) -> None:
        if cls in self.classes or cls not in CLASSES:
            return
        self.classes.append(cls)
        label, disqualifies = CLASSES[cls]
        if "eliminat" in sentence.text.lower() and disqualifies:
            label = "Eliminating fault"
        own = self.ladder.label_of(cls)
        label = own[:1].upper() + own[1:] if own else label
        table: dict[str, Any] = {"id": cls, "label": label}
        if cls in OUTSIDE_THE_LADDER:
            table["ladder"] = False
        if disqualifies:
            table |= {"disqualifies": True, "leads_to": "The dog is out."}
        if own in self.ladder.by_order:
            table["means"] = "A word of this text; its rank among the classes is our reading."
        out.append(Proposal("classes", cls, table, sentence.paragraph))

    def _nota(self, low: str, sentence: Sentence, out: list[Proposal]) -> None:
        if (
            _TESTICLES.search(low)
            and re.search(r"\btwo\b|\b2\b|both|fully|descended", low)
            and not re.search(r"undescended|\bnot\b|without|lack|missing", low)
        ):
            ruled_out = "disqualifying" in self.headed
            self._rule(
                sentence,
                out,
                "reproductive.retained-testicle",
                "disqualifying" if ruled_out else "unclassed",
                None,
                low,
                "The text asks for two testicles and names no class"
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
        for _, table in angles(low, label, wanted if wanted in CLASSES else "")[0]:
            out.append(Proposal("limits", table["id"], table, heading))
        if not wanted or wanted == "none":
            found = proportions(low, label)[0] or of_one_sex(low, self.ratio.get(heading, {}))
            for _, table in found:
                self.ratio = {heading: table} if "ratio" in table and "when" not in table else self.ratio
                out.append(Proposal("limits", table["id"], table, heading))
        for point, limit in own_measures(low, label, wanted if wanted != "none" else ""):
            out.append(Proposal("points", point["id"], point, heading))
            for band in limit.get("bands", ()):
                self._class(band.get("class", ""), sentence, out)
            out.append(Proposal("limits", limit["id"], limit, heading))
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
        apart = apart_rules(low, cls)
        if apart:
            self._class(cls, sentence, out)
            for one in apart:
                self.tooth_rules += 1
                out.append(Proposal("teeth", f"rule-{self.tooth_rules}", one, sentence.paragraph))
            return
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
        in_list = bool(sentence.cls)
        for one in named_faults(sentence, low, self.lexicon):
            if one.fault in _PASSED and any(p.kind == "teeth" for p in out):
                continue
            if one.fault.split(".")[-1] in _SIZES and any(p.kind == "limits" for p in out):
                continue
            several = len({name for name, _ in class_words(low)}) > 1
            own = class_beside(low, one.span, self.headed) if several or not in_list else ""
            kind, reading = self._kind(one, own or cls, low, out, in_list=in_list)
            if not kind:
                continue
            near = low if one.fault != "colour.white" else low[slice(*clause(low, one.span))]
            if self._by_colour(sentence, out, one, kind, low):
                continue
            self._rule(
                sentence, out, one.fault, kind, one.degree or _if_measured(one.fault, out), near, reading
            )
            if one.fault == "colour.white" and kind == "none" and re.search(r"\bonly\b", near):
                self._rule(sentence, out, one.fault, "fault", None, "elsewhere", _ONLY_THERE)
        if not cls:
            ruled = {p.key for p in out if p.kind == "rulings"} | set(self.rulings.tables)
            for fault in wanted_faults(low, sentence.label):
                if fault not in ruled:
                    self._rule(sentence, out, fault, "none", None, low, _ASKED_HERE)

    def _by_colour(
        self, sentence: Sentence, out: list[Proposal], one: NamedFault, kind: str, low: str
    ) -> bool:
        """What is allowed, or faulted, in some colours of the coat only; whether it was said so."""
        told = on_colour(low, kind)
        if told is None or one.fault in ("colour.wrong-shade", "colour.parti", "colour.white-coat"):
            return False
        options = self.colours.options
        table = {"label": "Colour", "options": options}
        option = self.colours.option(told.colour)
        out.append(Proposal("attributes", "colour", table | {"options": dict(options)}, sentence.paragraph))
        when = {"colour": [option]}
        freed = {"faults": [one.fault], "when": when, "class": "none"}
        out.append(Proposal("rulings", f"{one.fault}@{option}", freed, sentence.paragraph))
        if kind != "none":
            self._rule(sentence, out, one.fault, kind, one.degree, low)
        elif told.only:
            self._rule(sentence, out, one.fault, "fault", None, low, _ONLY_IN.format(colour=told.colour))
        return True

    def _kind(
        self, one: NamedFault, cls: str, low: str, out: list[Proposal], *, in_list: bool
    ) -> tuple[str, str]:
        """The class of a fault and what is our reading in it; no class where nothing is said of it."""
        if not in_list and re.search(r"\bwith or without\b[^,;]*$", low[: one.span[1]]):
            return ("", "") if _lacks(one.fault) else ("none", "")
        if one.fault == "colour.wrong-shade" and cls == "none" and not in_list:
            return "", ""
        if in_list or (cls in CLASSES and not one.denied):
            return cls, ""
        if cls == "none" and not one.denied:
            return "none", ""
        if one.denied:
            return (
                ("", "") if cls else ("fault", "The text rules it out and names no class: an ordinary fault.")
            )
        removed = _REMOVED.search(low)
        if one.fault.endswith("dewclaws") and removed:
            if re.search(r"may be removed|removal (?:is )?(?:permitted|optional)", low):
                return "", ""
            return "fault", "The text asks for their removal and names no class: an ordinary fault."
        if one.sure and not cls and self._wanted(one.fault, low, one.span, out):
            return "none", _ASKED_HERE
        return "", ""

    def _wanted(self, fault: str, low: str, span: tuple[int, int], out: list[Proposal]) -> bool:
        """Whether a describing sentence asks for what is a fault elsewhere."""
        if fault.split(".")[0] in _UNCALLED or fault in _NEVER_WANTED:
            return False
        banded = {band.get("fault") for p in out if p.kind == "limits" for band in p.table.get("bands", ())}
        if re.match(r"\s*\w* ?than\b", low[span[1] :]):
            return False
        return fault not in banded and not re.search(
            r"\bor\b|should|may\b|tend", low[max(0, span[0] - 12) : span[0]]
        )

    def _rule(
        self,
        sentence: Sentence,
        out: list[Proposal],
        fault: str,
        cls: str,
        degree: Degree | None,
        near: str,
        reading: str = "",
    ) -> None:
        ruled = self.rulings.rule(fault, cls, degree, near, reading) or self.rulings.standing(
            fault, cls, near
        )
        if ruled is None:
            return
        key, table = ruled
        law = law_of(fault) if under_a_law(near) and cls != "none" else None
        if law is not None:
            out.append(Proposal("switches", law.switch, law.table, sentence.paragraph))
            recorded = {
                "faults": [fault],
                "class": "observation",
                "text": "Recorded; counted only where chosen.",
            }
            out.append(Proposal("rulings", key, recorded, sentence.paragraph))
            key, table = f"{key}@{law.switch}", {**table, "when": {"switch": law.switch}}
        for name in (table.get("class", ""), *table.get("by_degree", {}).values()):
            self._class(name, sentence, out)
        out.append(Proposal("rulings", key, table, sentence.paragraph))

    # --- what is asked

    def _states(self, sentence: Sentence, low: str, out: list[Proposal]) -> None:
        for point, words in asked_states(low, sentence.label):
            known = self.asked.setdefault(point, [])
            fresh = [word for word in words.split(", ") if word not in known]
            if not fresh:
                continue
            known += fresh
            out.append(
                Proposal("asked", point, {"text": in_our_order(point, known, low)}, sentence.paragraph)
            )


def _if_measured(fault: str, out: list[Proposal]) -> Degree | None:
    """Where a limit tells the class by a figure, what is seen without a measure is the class when marked."""
    bands = [band for p in out if p.kind == "limits" for band in p.table.get("bands", ())]
    return "marked" if any(band.get("fault") == fault and "class" in band for band in bands) else None


def _lacks(fault: str) -> bool:
    return fault.endswith(("-lacking", "no-undercoat", "teeth-missing"))


def _unique(found: list[Proposal]) -> list[Proposal]:
    """Of two proposals of one rule within a sentence the later one."""
    last: dict[tuple[Kind, str], Proposal] = {}
    for one in found:
        last[(one.kind, one.key)] = one
    return list(last.values())
