"""Headings of standards: those of parts, and those of classes of faults."""

from __future__ import annotations

import re
from typing import Final

__all__ = [
    "CLASSES",
    "OUTSIDE_THE_LADDER",
    "class_of_heading",
    "class_of_words",
    "class_words",
    "is_known_heading",
    "is_sex_or_size",
]

CLASSES: Final[dict[str, tuple[str, bool]]] = {
    "undesirable": ("Undesirable", False),
    "minor": ("Minor fault", False),
    "fault": ("Fault", False),
    "highly-undesirable": ("Highly undesirable", False),
    "serious": ("Serious fault", False),
    "severe": ("Severe fault", False),
    "excused": ("Excused", False),
    "no-award": ("No award", False),
    "not-admitted": ("Not admitted", True),
    "disqualifying": ("Disqualifying fault", True),
}
"""Ids of classes that headings and sentences name, lightest first: label, and whether it disqualifies."""
OUTSIDE_THE_LADDER: Final = frozenset({"undesirable", "highly-undesirable", "excused"})
"""Words that say that something is not wanted, or what is done, and give it no rank."""

_PARTS: Final = frozenset(
    [
        "appearance",
        "cranial",
        "facial",
        "aspect",
        "character",
        "characteristics",
        "temperament",
        "behaviour",
        "behavior",
        "expression",
        "head",
        "skull",
        "stop",
        "muzzle",
        "foreface",
        "nose",
        "lips",
        "flews",
        "jaws",
        "jaw",
        "teeth",
        "bite",
        "mouth",
        "cheeks",
        "eyes",
        "eye",
        "ears",
        "ear",
        "neck",
        "body",
        "back",
        "loin",
        "loins",
        "croup",
        "rump",
        "chest",
        "brisket",
        "ribs",
        "tail",
        "forequarters",
        "forehand",
        "hindquarters",
        "hindlegs",
        "forelegs",
        "legs",
        "feet",
        "forefeet",
        "hindfeet",
        "paws",
        "foot",
        "shoulders",
        "shoulder",
        "elbows",
        "elbow",
        "forearm",
        "pasterns",
        "pastern",
        "thigh",
        "thighs",
        "stifle",
        "stifles",
        "hocks",
        "hock",
        "movement",
        "gait",
        "action",
        "skin",
        "coat",
        "hair",
        "colour",
        "color",
        "colors",
        "colours",
        "markings",
        "size",
        "height",
        "weight",
        "proportion",
        "proportions",
        "substance",
        "topline",
        "underline",
        "withers",
        "dewclaws",
        "condition",
        "type",
        "presentation",
        "utilization",
        "utilisation",
        "origin",
        "history",
        "summary",
        "classification",
        "limbs",
        "quarters",
        "trunk",
        "pigmentation",
        "pigment",
        "nota",
        "nb",
        "n.b.",
        "n.b",
        "note",
        "notes",
        "varieties",
        "variety",
        "sizes",
        "dentition",
        "metatarsus",
        "metacarpus",
        "carpus",
        "hips",
        "faults",
        "pelvis",
        "belly",
        "abdomen",
        "furnishings",
        "sexual",
        "reproduction",
        "testicles",
        "bone",
    ]
)
_JOINING: Final = frozenset(
    [
        "and",
        "or",
        "the",
        "of",
        "at",
        "&",
        "in",
        "general",
        "important",
        "first",
        "rear",
        "fore",
        "hind",
        "front",
        "upper",
        "lower",
        "cranial",
        "facial",
        "region",
        "arm",
        "arms",
        "blade",
        "nasal",
        "bridge",
        "standing",
        "moving",
        "to",
        "a",
        "brief",
        "historical",
        "lay",
        "rib",
        "cage",
        "foot",
        "points",
        "set",
        "general",
        "breed",
        "standard",
        "desired",
        "undesirable",
        "permissible",
        "mature",
        "length",
        "depth",
        "lines",
        "line",
        "lateral",
        "view",
        "for",
        "with",
        "stance",
        "profile",
        "geschlecht",
        "overall",
        "shape",
        "form",
        "carriage",
        "position",
        "leather",
        "depth",
        "width",
        "cover",
        "outline",
        "measurements",
        "table",
    ]
)
_SEX: Final = frozenset(["dog", "dogs", "male", "males", "bitch", "bitches", "female", "females"])
_SIZES: Final = frozenset(
    [
        "standard",
        "medium",
        "miniature",
        "toy",
        "large",
        "small",
        "giant",
        "dwarf",
        "mini",
        "klein",
        "gross",
        "kings",
        "rabbit",
        "maxi",
        "midi",
    ]
)

_CLASS_WORDS: Final = (
    ("disqualifying", r"disqualif|eliminat|exclu|knock"),
    ("severe", r"severe"),
    ("serious", r"serious|grave|major|(?:heavy|coarse|gross) fault"),
    ("minor", r"minor|slight fault|small fault|light fault"),
    ("fault", r"\bfaults?\b|penalt|defects?\b"),
    ("highly-undesirable", r"(?:very|most|highly) undesirable"),
    ("undesirable", r"undesirable"),
)


_OTHER: Final = r"(?:points|failings|errors|shortcomings)"
_OTHER_HEADS: Final = (
    ("minor", rf"blemishes|(?:small|minor|slight|lesser|light) {_OTHER}"),
    ("serious", rf"(?:serious|grave|major|heavy|big) {_OTHER}"),
    ("disqualifying", rf"bars(?: to \w+)?|(?:excluding|eliminating|disqualifying) {_OTHER}"),
)
"""Headings of classes that speak of no fault."""


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z.&]+", text.lower())


def is_known_heading(text: str) -> bool:
    """Whether these few words are a heading by their words alone."""
    if class_of_heading(text):
        return True
    words = [word for word in _words(text) if word not in ("-", ".")]
    if not words or len(words) > 8:
        return False
    return any(word in _PARTS for word in words) and all(word in _PARTS or word in _JOINING for word in words)


def is_sex_or_size(text: str) -> bool:
    """Whether the words are only a sex or a size of the breed: they belong to the sentence."""
    words = [word for word in _words(text) if word not in ("and", "or", "the", "for", "mature", "adult", "&")]
    varieties = ("poodles", "variety", "size", "sized", "height", "weight", "dogs")
    return (
        bool(words)
        and all(word in _SEX or word in _SIZES or word in varieties for word in words)
        and any(word in _SEX or word in _SIZES for word in words)
    )


def class_of_heading(text: str) -> str:
    """The class of faults that a heading names, or nothing; what stands in brackets is beside it."""
    words = [word.strip(".") for word in _words(re.sub(r"\([^)]*\)", " ", text))]
    if not words or len(words) > 10:
        return ""
    joined = " ".join(words)
    plain = next((name for name, said in _OTHER_HEADS if re.fullmatch(said, joined)), "")
    if plain:
        return plain
    if not re.search(r"fault|disqualif|eliminat|exclu|penalt|defect|undesirable", joined) or re.search(
        r"\b(?:not|no)\b|\bany\b(?! of the following)", joined
    ):
        return ""
    allowed = (
        r"^(?:general |eliminatory |knock |grounds? |reasons? |causes? |for |showing |showed |considered |regarded |"
        r"as |be |shall |must |will |is |any |these |disqualified |eliminated |excluded |having |with |very |more |most |list of |other |the |automatic |show |ring |and |or |"
        r"serious |severe |grave |major |minor |slight |small |light |heavy |coarse |gross |common |eliminating "
        r"|disqualifying |excluding |"
        r"faults? ?|disqualifications? ?|disqualify ?|eliminations? ?|penalt(?:y|ies) ?|defects? "
        r"?|leading to |which |that |are |"
        r"to be |severely |penalised |penalized |undesirable |points? |exclu(?:de|des|ding|ded|sion|sions) |"
        r"resulting in |result in |leads? to |causing |entailing |from |a |dog |dogs |breeding |shows? |"
        r"awards? |prizes? |classification |judging |qualifications? |characteristics? |entail |rule |out |competition |characters? |small |ordinary |normal |heavily |examples? |selection |selected |following |as |follows |include |particular |in |by |of |all |deviations )+$"
    )
    if not re.match(allowed, joined + " "):
        return ""
    return next((name for name, words_ in _CLASS_WORDS if re.search(words_, joined)), "")


_SENTENCE_CLASSES: Final = (
    (
        "none",
        r"not (?:to |be |a )*disqualif\w*|(?:no|not (?:be |to be |considered |regarded as )*an?|not to be (?:considered|regarded as) an?) (?:serious )?fault"
        r"|not (?:to )?be (?:penali[sz]|fault)|(?:is|are|be|being|but|also|equally) (?:permit|"
        r"permiss|allow|toler|accept)"
        r"|(?<!not )(?<!un)\b(?:permitted|permissible|allowed|allowable|tolerated|acceptable|"
        r"accepted|admissible|admitted|no objection|immaterial)\b",
    ),
    (
        "not-admitted",
        r"(?:not|never) (?:to be |be )?(?:admitted|accepted|eligible|allowed|permitted) (?:to|for|at|in) (?:(?:the|any|be|official) )*"
        r"(?:shows?|showing|shown|exhibit\w*|judging|ring)\b",
    ),
    (
        "no-award",
        r"(?:no|not|never|without|denied|refused) (?:to |be |receive |given |get |win |awarded |considered for )*(?:any |an |the |a )*"
        r"(?:\w+ )?(?:awards?|prizes?|qualifications?|ribbons?)\b|(?:awards?|prizes?|qualification) [^.;]{0,12}with(?:held|hold)|"
        r"withhold\w* (?:any |all |the )?(?:awards?|prizes?)",
    ),
    (
        "excused",
        r"(?:to|shall|must|will|should|are|is) be excused\b|\b(?:is|are) excused (?:from the ring|until)|\bexcused from (?:the )?(?:ring|judging|competition)|\bexcusal\b",
    ),
    (
        "disqualifying",
        r"disqualif|eliminat|exclude[sd]?\b|exclusion|not eligible|ineligible|barred from|ruled? out|debarred|not to be (?:graded|placed)|without a grade",
    ),
    ("severe", r"(?:penali[sz]|fault|punish)\w* (?:\w+ )?severely|severe(?:ly)?\b|severest"),
    (
        "serious",
        r"(?:penali[sz]|fault|punish)\w* (?:\w+ )?(?:seriously|heavily|strongly)|serious|heavy (?:fault|one)|heavily faulted|\bmajor (?:fault|one)|grave|heavily (?:fault|penali)|strongly (?:fault|penali)|very faulty|very objectionable",
    ),
    (
        "minor",
        r"minor (?:fault|failing|defect)|(?:an?|only) (?:\w+ )?minor one|slight(?:ly)? (?:fault|penali)|lesser (?:fault|one)|small fault",
    ),
    (
        "highly-undesirable",
        r"(?:very|most|highly|strongly|extremely|particularly|quite) (?:un|not )desir(?:able|ed)\b",
    ),
    ("undesirable", r"\bundesir(?:able|ed)\b|\bnot desir(?:able|ed)\b"),
    (
        "fault",
        r"\bfault|penali[sz]|punish|sanction|criticis|undesirable|objectionable|not (?:desir|want)|unwanted|incorrect|to be avoided|discouraged|"
        r"frowned|deprecated|\b(?:is|are|be) (?:\w+ )?(?:wrong|faulty|amiss)\b|not (?:permit|allow|toler|accept|admiss|permiss)|unacceptable|"
        r"inadmissible|foreign to",
    ),
)


def class_of_words(text: str) -> str:
    """The class that a sentence itself names for what it speaks of, `none` where it allows it, or nothing."""
    low = text.lower()
    return next((name for name, words in _SENTENCE_CLASSES if re.search(words, low)), "")


def class_words(low: str) -> list[tuple[str, tuple[int, int]]]:
    """Every class that a plain sentence names, with its place, in their order; none within another."""
    taken = [False] * len(low)
    out: list[tuple[str, tuple[int, int]]] = []
    for name, words in _SENTENCE_CLASSES:
        for found in re.finditer(words, low):
            start, end = found.span()
            if not any(taken[start:end]):
                taken[start:end] = [True] * (end - start)
                out.append((name, (start, end)))
    return sorted(out, key=lambda one: one[1])
