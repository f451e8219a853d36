"""Which measurement a standard's words speak of, and which departures lie either side of it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

__all__ = ["RATIO_SIDES", "SIDES", "Mention", "mentions"]


@dataclass(frozen=True, slots=True)
class Mention:
    """A measurement named at `start` to `end`; `outright` where a dimension is said with it."""

    measure: str
    start: int
    end: int
    outright: bool


_LENGTH: Final = r"(?:(?:total |overall )?length|measurement)"
_NAMES: Final[tuple[tuple[str, str, bool], ...]] = (
    (
        "body-length",
        r"(?:point of (?:the )?shoulders?|fore ?chest|prosternum|breast ?bone|sternum|scapulo-?humeral joint|point of (?:the )?breast)[^.;:]{0,40}?to (?:the )?(?:point of (?:the )?)?(?:buttocks?|rump|ischi\w+|pin bones?|(?:rear(?:most)?|back|hind(?:most)?|last)(?: (?:point|part|edge|end))? of (?:the )?(?:upper )?(?:thighs?|rump|croup|buttocks?|hindquarters?))",
        True,
    ),
    (
        "withers-elbow",
        r"(?:withers|shoulders?) to (?:the )?(?:point of (?:the )?)?elbows?|elbows? to (?:the )?withers",
        True,
    ),
    (
        "elbow-height",
        r"(?:ground|floor) to (?:the )?(?:point of (?:the )?)?elbows?|(?:point of (?:the )?)?elbows? to (?:the )?(?:ground|floor)|height (?:at|of|to) (?:the )?elbows?|elbow height|length of (?:the )?(?:fore)?legs?|length of (?:the )?forelimbs?|leg length|legs?(?= (?:make|form|account|represent)[^.;]{0,40}(?:height|withers|depth))|(?:fore)?legs? (?:up )?to (?:the )?elbows?|forelegs?(?: length)?|from (?:the )?elbow down",
        True,
    ),
    (
        "ground-clearance",
        r"(?:brisket|chest|sternum|breast ?bone|keel) to (?:the )?ground|ground clearance",
        True,
    ),
    (
        "skull-width",
        r"(?:width|breadth) of (?:the )?(?:skull|head|cranium|cranial region)|skull width|width across (?:the )?(?:top|skull)(?: of (?:the )?(?:skull|head))?|width between (?:the )?ears|bizygomatic (?:width|breadth)|zygomatic width",
        True,
    ),
    (
        "skull-length",
        r"(?:length of (?:the )?)?(?:back ?skull|brain ?case|(?<!the )upper head|(?<=the )upper head|skull|cranium|cranial (?:region|part|portion))(?: length)?|stop to (?:the )?occiput|occiput to (?:the )?stop",
        False,
    ),
    (
        "muzzle-length",
        r"(?:length of (?:the )?)?(?:muzzle|foreface|nasal bridge|bridge of (?:the )?nose|facial region|snout)(?: length)?|(?:nose|tip of (?:the )?nose) to (?:the )?stop|stop to (?:the )?(?:tip of (?:the )?)?nose",
        False,
    ),
    (
        "chest-width",
        r"(?:width|breadth) of (?:the )?(?:chest|ribs?|ribcage|rib cage|thorax)|chest width|width of the brisket",
        True,
    ),
    (
        "foreleg-girth",
        r"(?:circumference|girth) of (?:the )?(?:pastern|forearm|foreleg|cannon|metacarpus)",
        True,
    ),
    (
        "chest-girth",
        r"(?:girth|circumference)(?: of (?:the )?(?:chest|thorax|ribcage|rib cage|body))?|(?:chest|thoracic|heart) (?:girth|circumference)",
        True,
    ),
    (
        "chest-depth",
        r"depth (?:of|through) (?:the )?(?:chest|brisket|ribs?|ribcage|rib cage|thorax|body|heart)|(?:chest|brisket|body) depth|depth(?=[^.]{0,30}chest)|(?:chest|brisket)(?=[^.;]{0,60}(?:height|withers))",
        True,
    ),
    (
        "loin-length",
        rf"{_LENGTH} of (?:the )?(?:loins?|coupling)|loin length|loins?(?=[^.;]{{0,40}}(?:\d/\d|%)[^.;]{{0,24}}(?:length|back|body|trunk))|between (?:the )?last ribs? and (?:the )?hips?|last rib to (?:the )?hips?",
        True,
    ),
    (
        "back-length",
        rf"{_LENGTH} of (?:the )?back|back length|back,? (?:measured )?from (?:the )?withers to (?:the )?(?:root|set|base)(?: of (?:the )?tail)?|withers to (?:the )?(?:root|set-on|set|base) of (?:the )?tail",
        True,
    ),
    ("croup-length", rf"{_LENGTH} of (?:the )?croup|croup length", True),
    ("tail-docked-part", r"docked by", True),
    ("tail-length", rf"{_LENGTH} of (?:the )?tail|tail length|tails?\b", False),
    (
        "ear-length",
        rf"{_LENGTH} of (?:the )?(?:ears?|leathers?)|height of (?:the )?ears?|ear length|ears?\b|leathers?\b",
        False,
    ),
    (
        "coat-length-flank",
        rf"{_LENGTH} of (?:the )?(?:coat|hair|outer coat|topcoat|fur)|(?:coat|hair) length|(?:outer |top )?coat|hairs?\b",
        False,
    ),
    (
        "white-chest-size",
        r"on (?:the )?(?:chest|breast) it (?:shall|should|must|may)|white[^.;,]{0,50} (?:on|of) (?:the )?(?:chest|forechest|breast|brisket)|(?:chest|breast)(?: \w+)? (?:spot|mark|patch)",
        True,
    ),
    ("white-spot-diameter", r"white (?:spot|patch|mark|star)s?", True),
    (
        "upper-arm-length",
        rf"(?:{_LENGTH} of (?:the )?)?(?:upper ?arms?|humerus|(?<!fore)(?<!fore-)\barms?\b)",
        False,
    ),
    ("blade-length", rf"(?:{_LENGTH} of (?:the )?)?(?:shoulder[- ]?blades?|scapulae?|blades?)", False),
    ("neck-length", rf"(?:{_LENGTH} of (?:the )?)?necks?\b", False),
    ("head-length", rf"(?:{_LENGTH} of (?:the )?)?heads?\b(?: length)?", False),
    ("pastern-length", rf"{_LENGTH} of (?:the )?(?:front )?pasterns?", True),
    (
        "hock-height",
        rf"height of (?:the )?hocks?|hock height|hocks?(?: (?:measured )?from (?:the )?\w+)? to (?:the )?ground|hock points? to (?:the )?ground|points? of (?:the )?hocks?(?=[^.;]{{0,60}}(?:\d|ground))|hocks?(?= [^.;]{{0,40}}\d[^.;]{{0,20}} (?:from|above|off) the ground)|{_LENGTH} of (?:the )?(?:rear pastern|metatarsus|hock)",
        True,
    ),
    ("lower-thigh-length", r"(?:length of (?:the )?)?(?:lower|second) thigh", False),
    ("thigh-length", r"(?:length of (?:the )?)?(?:upper )?thigh", False),
    ("teeth-count", r"number of teeth|teeth|dentition", False),
    ("undershot-gap", r"undershot(?: by)?|under-?shot (?:mouth|bite|jaw)", False),
    ("overshot-gap", r"overshot(?: by)?|over-?bite|gap between (?:the )?incisors", False),
    ("weight", r"weigh(?:t|s|ing)\b|body ?weight", True),
    (
        "body-length",
        rf"(?:point of (?:the )?shoulders?|fore ?chest|prosternum|breastbone|sternum|scapulo-?humeral joint)[^.;:]{{0,40}}?to (?:the )?(?:point of (?:the )?)?(?:buttocks?|rump|ischi\w+|pin bones?|(?:rear(?:most)?|back|hind(?:most)?|last)(?: (?:point|part|edge|end))? of (?:the )?(?:upper )?(?:thighs?|rump|croup|buttocks?|hindquarters?))|{_LENGTH} of (?:the )?(?:body|trunk|torso)|(?:body|trunk) length|scapulo-?ischial length|(?<!\w)length of (?:the )?dog|(?<!to the )body(?=[^.;]{{0,60}}(?:height|tall|high|withers))|(?<!on the )(?<!over the )trunk|(?<!in )(?<!same )(?<!equal )(?<!medium )(?<!moderate )(?<!good )length(?! of| from (?:the )?(?:tip|nose|stop|occiput))",
        True,
    ),
    (
        "height",
        r"height (?:at|to|of) (?:the )?(?:top of (?:the )?)?(?:highest point of (?:the )?)?(?:withers|shoulders?)|withers height|(?:shoulder )?height|(?:stands?|standing|measur\w+)(?! (?:off|in|out|away)\b)(?= [^.;]{0,30}(?:at (?:the )?(?:withers|shoulder)|\d))|at (?:the )?(?:withers|shoulders?)|(?:top of (?:the )?)?(?:withers|shoulders?) to (?:the )?(?:ground|floor)|\btall\b|(?<!set )(?<!on )(?<!carried )(?<!rather )(?<!fairly )(?<!held )(?<!moderately )(?<!placed )\bhigh\b(?![- ](?:set|placed|up|on))|\bstature\b",
        True,
    ),
)
_COMPILED: Final = tuple((name, re.compile(rf"\b(?:{words})"), outright) for name, words, outright in _NAMES)


_PLACE: Final = re.compile(
    r"(\b(?:hair|coat|white|feather(?:ing|s)|fringes?)\b[^.;,]{0,24}\b)(?:on|over|under|beneath|across|along|round) (?:the )?"
    r"(?:trunk|body|back|necks?|tails?|heads?|ears?|skull|muzzle|legs?|loins?|shoulders|croup)\b(?! of)"
)
"""Where hair is measured: no length of that part."""


_WHITHER: Final = re.compile(
    r"\b(?:along|against|behind|beside|near|beneath) (?:the )?(?:necks?|heads?|tails?|ears?|muzzle|skull)\b"
)
"""Where a part lies: no length of that one."""
_HIGH: Final = re.compile(r"\b(?:set|carried|placed|held)(?: \w+){0,2} high\b")
"""No height of the dog."""


def mentions(low: str) -> list[Mention]:
    """The measurements that a plain sentence names, in its order; none within another."""
    taken = [False] * len(low)
    out: list[Mention] = []
    low = _HIGH.sub(lambda m: " " * len(m.group()), low)
    masked = _PLACE.sub(lambda m: m.group(1) + " " * (len(m.group()) - len(m.group(1))), low)
    masked = _WHITHER.sub(lambda m: " " * len(m.group()), masked)
    for name, pattern, outright in _COMPILED:
        for found in pattern.finditer(low if outright else masked):
            start, end = found.span()
            if start == end or any(taken[start:end]):
                continue
            taken[start:end] = [True] * (end - start)
            said = found.group() != "length" and (
                outright or bool(re.search(r"length|long|\bto\b|height of", found.group()))
            )
            out.append(Mention(name, start, end, said))
    return sorted(out, key=lambda one: one.start)


SIDES: Final[dict[str, tuple[str, str]]] = {
    "height": ("general.under-height", "general.over-height"),
    "weight": ("general.underweight", "general.overweight"),
    "ear-length": ("ears.short", "ears.long"),
    "tail-length": ("croup-tail.tail-short", "croup-tail.tail-long"),
    "coat-length-flank": ("coat-skin.short", "coat-skin.long"),
    "neck-length": ("neck.short", "neck.long"),
    "ground-clearance": ("general.low-on-leg", ""),
    "loin-length": ("", "back.loin-long"),
    "croup-length": ("croup-tail.croup-short", "croup-tail.croup-long"),
    "head-length": ("head.short", "head.long"),
    "muzzle-length": ("head.muzzle-short", "head.muzzle-long"),
    "chest-girth": ("general.under-girth", "general.over-girth"),
    "chest-depth": ("chest.shallow", "chest.too-deep"),
    "chest-width": ("chest.narrow", "chest.broad"),
    "body-length": ("general.body-short", "general.body-long"),
    "back-length": ("back.short", "back.long"),
    "white-chest-size": ("", "colour.white"),
    "white-spot-diameter": ("", "colour.white"),
    "foreleg-girth": ("general.bone-fine", "general.bone-coarse"),
    "teeth-count": ("mouth.teeth-missing", "mouth.teeth-extra"),
    "overshot-gap": ("", "mouth.overshot"),
    "undershot-gap": ("", "mouth.undershot"),
    "skull-width": ("head.narrow-skull", "head.broad-skull"),
    "skull-length": ("", ""),
    "hock-height": ("", "hindquarters.hocks-long"),
    "elbow-height": ("general.low-on-leg", "general.leggy"),
    "shoulder-angle": ("forequarters.over-angulated", "forequarters.shoulder-steep"),
    "blade-slope": ("forequarters.over-angulated", "forequarters.shoulder-steep"),
    "croup-slope": ("croup-tail.croup-flat", "croup-tail.croup-steep"),
    "pastern-slope": ("forequarters.pasterns-upright", "forequarters.pasterns-weak"),
    "stifle-angle": ("hindquarters.over-angulated", "hindquarters.straight"),
    "hock-angle": ("hindquarters.over-angulated", "hindquarters.straight"),
}
"""What less and what more than asked is called; empty where that side is free."""

RATIO_SIDES: Final[dict[tuple[str, str], tuple[str, str]]] = {
    ("body-length", "height"): ("general.body-short", "general.body-long"),
    ("muzzle-length", "skull-length"): ("head.muzzle-short", "head.muzzle-long"),
    ("muzzle-length", "head-length"): ("head.muzzle-short", "head.muzzle-long"),
    ("chest-depth", "height"): ("chest.shallow", "chest.too-deep"),
    ("chest-girth", "height"): ("general.under-girth", "general.over-girth"),
    ("chest-width", "chest-depth"): ("chest.narrow", "chest.broad"),
    ("chest-width", "height"): ("chest.narrow", "chest.broad"),
    ("elbow-height", "height"): ("general.low-on-leg", "general.leggy"),
    ("elbow-height", "chest-depth"): ("general.low-on-leg", "general.leggy"),
    ("elbow-height", "withers-elbow"): ("general.low-on-leg", "general.leggy"),
    ("ground-clearance", "height"): ("general.low-on-leg", "general.leggy"),
    ("ground-clearance", "chest-depth"): ("general.low-on-leg", "general.leggy"),
    ("skull-width", "skull-length"): ("head.narrow-skull", "head.broad-skull"),
    ("skull-width", "head-length"): ("head.narrow-skull", "head.broad-skull"),
    ("upper-arm-length", "blade-length"): ("forequarters.upper-arm-short", "forequarters.upper-arm-long"),
    ("neck-length", "head-length"): ("neck.short", "neck.long"),
    ("head-length", "height"): ("head.short", "head.long"),
    ("tail-length", "height"): ("croup-tail.tail-short", "croup-tail.tail-long"),
    ("back-length", "height"): ("back.short", "back.long"),
    ("loin-length", "back-length"): ("", "back.loin-long"),
    ("loin-length", "body-length"): ("", "back.loin-long"),
    ("croup-length", "height"): ("croup-tail.croup-short", "croup-tail.croup-long"),
    ("hock-height", "height"): ("", "hindquarters.hocks-long"),
    ("lower-thigh-length", "thigh-length"): ("hindquarters.straight", "hindquarters.over-angulated"),
    ("skull-width", "muzzle-length"): ("head.narrow-skull", "head.broad-skull"),
}
"""Ratios as they are written, and the departures either side."""
