"""Classes that a text names in words of its own: `Small:`, `Big:`, `Shutting:` under each part."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from hands_on.standard_text.groups import own_varieties
from hands_on.standard_text.headings import class_of_heading, is_known_heading, is_sex_or_size
from hands_on.standard_text.listed_classes import ListedClass, bare_label, listed_classes

__all__ = ["OwnLadder", "own_ladder"]


@dataclass(frozen=True, slots=True)
class OwnLadder:
    """A text's own words for its classes, in small letters, with the class of ours that each stands for.

    `by_order` are those whose rank neither their word nor the text tells.
    """

    classes: dict[str, str]
    by_order: frozenset[str] = frozenset()
    words: tuple[tuple[str, str], ...] = ()
    """Words that the text puts in quotes and explains: each with the class."""
    lines: tuple[tuple[str, str], ...] = ()
    """Lines that are headings of classes by where they stand: each with its label."""

    def in_our_words(self, low: str) -> str:
        """A plain sentence with our word for each class that the text names in words of its own."""
        for word, cls in self.words:
            ours = _OUR_WORDS.get(cls, "")
            noun = (
                rf"\b(an? |is |are |them |it |as )?{re.escape(word)}\b"
                rf"(?=[.;,:]|$| (?:in|unless|if|when|where|too|as|because|for|and)\b)"
            )
            low = re.sub(noun, lambda m, ours=ours: f"{m.group(1) or ''}{ours}", low)  # type: ignore[misc]
        return low

    def class_of(self, label: str) -> str:
        """The class that a heading names in the text's own words, or nothing."""
        return self.classes.get(bare_label(label), "")

    def label_of(self, cls: str) -> str:
        """The text's own word for a class of ours; nothing where it says ours, or a whole sentence."""
        own = next((word for word, name in self.classes.items() if name == cls), "")
        return "" if class_of_heading(own) or len(own.split()) > 4 else own

    def label_of_line(self, line: str) -> str:
        """The label of a line that is a heading by where it stands, or nothing."""
        return next((label for one, label in self.lines if one == line.strip()), "")


_RUN_IN: Final = re.compile(r"^\W*([A-Z][\w' -]{1,34}?)\s*(?::|\s[-\u2013]\s)\s*(.*)$")
_FAULTS: Final = re.compile(
    r"^\W*(?:[\dIVX.]+ )?(?:the )?(?:faults?|errors?|failings?|defects?|departures|deviations|"
    r"deductions|demerits|"
    r"shortcomings|blemishes|what (?:counts|tells) against)\b.{0,40}$",
    re.IGNORECASE,
)
_RANKS: Final = (
    (
        "disqualifying",
        r"shut|exclu|disqualif|debar|\bbar(?:s|red|ring)?\b|reject|eliminat|refus|fatal|knock|out of|"
        r"ruled|inadmissib|"
        r"unshowable",
    ),
    ("severe", r"severe"),
    ("serious", r"\bbig|large|great|heav|grave|serious|major|gross|strong|coarse|weighty|principal"),
    ("minor", r"small|light|slight|minor|lesser|little|venial|trifling|petty|beauty|cosmetic"),
    ("fault", r"medium|middl|ordinary|common|plain|general|simple|moderate"),
)
_SAID: Final = (
    (
        "serious",
        r"(?:\bbars?|debars?|keeps?|excludes?|prevents?|shuts?)\b[^.;]{0,30}\bfrom (?:\w+ )?\W?(?:excellent|"
        r"first|top|highest|best)|\bis the (?:highest|best)|(?:no|not) (?:higher|better|more) than|"
        r"cannot (?:be|get|receive|win|take|reach|go|rise)[^.;]{0,20}\b(?:excellent|first|higher|above)|"
        r"(?<!not to )\b(?:costs?|loses?) (?:the dog )?(?:a|one|two) (?:grade|step|mark)s?",
    ),
    (
        "disqualifying",
        r"shut\w* (?:\w+ ){0,3}out|exclud|disqualif|cannot be (?:shown|bred|judged)|"
        r"not (?:be )?(?:shown|bred|judged|admitted)|"
        r"out of the ring|leaves the ring|barred|no place in|graded|without a grade|unplaced|"
        r"sent (?:out|home)|(?:no|any) (?:mark|grade|placing)\b|"
        r"(?:not|never) (?:be )?(?:taken|used|passed) for breeding|bred from",
    ),
    (
        "serious",
        r"(?:at most|lowers it to) (?:the )?(?:note |grade |award )?\W?(?:good|sufficient)|"
        r"two (?:steps|grades)|"
        r"heavily|no (?:award|prize)",
    ),
    (
        "minor",
        r"at most (?:by )?one (?:step|grade)|one (?:step|grade) at most|lightly|hardly|little|"
        r"forgotten|noted|remains? (?:possible|open)|without (?:losing|costing)|(?:not|never) (?:to )?cost|"
        r"(?:named|mentioned) in",
    ),
)
"""What a text says that a class leads to."""
_IN_ORDER: Final = {
    1: ("fault",),
    2: ("fault", "serious"),
    3: ("minor", "fault", "serious"),
    4: ("minor", "fault", "serious", "severe"),
}


_OUR_WORDS: Final = {
    "minor": "minor fault",
    "fault": "fault",
    "serious": "serious fault",
    "severe": "severe fault",
    "disqualifying": "disqualified",
}
_QUOTED: Final = re.compile(r"(\ban? |\bthe )?[\"\u201c\u2018]([a-z][a-z ]{2,26})[\"\u201d\u2019]")


def _explained(text: str) -> tuple[tuple[str, str], ...]:
    """`a "trifle" is noted and forgotten; "not to be graded" means that the dog leaves the ring`."""
    out: dict[str, str] = {}
    found = list(_QUOTED.finditer(text))
    for n, one in enumerate(found):
        word = one.group(2).strip()
        end = found[n + 1].start() if n + 1 < len(found) else one.end() + 160
        rank = _first((*_RANKS, *_SAID), word)
        said = _first(_SAID, text[one.end() : end])
        cls = rank if rank in ("disqualifying", "serious", "severe") else said or rank
        if cls and word not in ("fault", "faults") and (one.group(1) or " " in word):
            out.setdefault(word, cls)
    return tuple(out.items()) if len(out) >= 2 else ()


def own_ladder(lines: Sequence[str]) -> OwnLadder:
    """The classes of a text whose headings no word of ours explains.

    A word with a colon that comes back under several parts, or a heading in the part on faults.
    """
    listed = [] if (labels := _recurring(lines)) else _of_its_own(listed_classes(lines))
    labels = labels or [one.label for one in listed] or _within_faults(lines)
    text = " ".join(lines).lower()
    told = {one.label: _listed_rank(one, text) for one in listed} or {
        label: _rank(label, text) for label in labels
    }
    known = set(told.values()) - {""}
    open_ = [label for label in labels if not told[label]]
    steps = [one for one in _IN_ORDER.get(len(open_), ()) if one not in known]
    for label, step in zip(open_, steps, strict=False):
        told[label] = step
    classes = {label: cls for label, cls in told.items() if cls}
    heads = tuple((one.line, one.label) for one in listed)
    return OwnLadder(classes, frozenset(open_), _explained(text), heads)


def _of_its_own(found: Sequence[ListedClass]) -> list[ListedClass]:
    """The headings of a ladder of the text's own; none where ours are said without more words."""
    plain = all(class_of_heading(bare_label(one.line)) and not one.said for one in found)
    return list(found) if len({one.label for one in found}) >= 2 and not plain else []


def _listed_rank(one: ListedClass, text: str) -> str:
    """The class of a heading over a list: its word's, but what is said of it tells more than a plain word."""
    word = class_of_heading(one.label) or _first(_RANKS, one.label)
    if word in ("", "fault"):
        return _first(_SAID, one.said.lower()) or word or _rank(one.label, text)
    return word


def _first(told: Sequence[tuple[str, str]], text: str) -> str:
    return next((cls for cls, words in told if re.search(words, text)), "")


def _recurring(lines: Sequence[str]) -> list[str]:
    seen: Counter[str] = Counter()
    figures: Counter[str] = Counter()
    varieties = own_varieties("\n".join(lines))
    for line in lines:
        found = _RUN_IN.match(line)
        if found is None or len(found.group(1).split()) > 3:
            continue
        label = bare_label(found.group(1))
        if is_known_heading(label) or label in varieties or re.search(r"\d|dogs?\b|males?\b|bitch", label):
            continue
        seen[label] += 1
        figures[label] += bool(
            re.match(r"\W*(?:dogs?|males?|bitch\w*|females?)?\W*\d", found.group(2).lower())
        )
    often = [label for label, n in seen.items() if n >= 3 and figures[label] * 2 < n]
    text = " ".join(lines).lower()
    sizes = all(is_sex_or_size(label) for label in often)  # `Large:` and `Small:` of a breed in two sizes
    return often if len(often) >= 2 and not sizes and any(_rank(label, text) for label in often) else []


def _within_faults(lines: Sequence[str]) -> list[str]:
    """Short lines that stand alone in the part on faults, and are no heading of ours."""
    out: list[str] = []
    inside = False
    for n, line in enumerate(lines):
        above = lines[n - 1] if n else ""
        after = next((row for row in lines[n + 1 :] if row), "")
        text = line.strip()
        if _FAULTS.match(text) and not text.endswith((".", ";", ",")):
            inside = True
            continue
        alone = not above.strip() and text[:1].isupper() and not text.endswith((".", ";", ","))
        if not inside or not alone or not text:
            continue
        if class_of_heading(text):
            return []
        if is_known_heading(text):
            inside = bool(out) and not text.isupper()
            continue
        listed = bool(re.match(r"\s*(?:[\u2022\u25cf\u25aa*\u2013-]|\(?[a-z0-9]{1,2}[.)])\s", after))
        if len(text.split()) <= 6 and (listed or text.endswith(":")):
            out.append(bare_label(re.sub(r"^(?:[\dIVX]+|[A-Z])[.)]\s*", "", text)))
    return list(dict.fromkeys(out)) if len(out) >= 2 else []


def _rank(label: str, text: str) -> str:
    """The class that a label's word tells, or what the text says that it leads to."""
    if word := _first(_RANKS, label):
        return word
    head = re.escape(label)
    for sentence in re.split(r"(?<=[.;])\s", text):
        said = re.search(rf"[\"'\u201c\u2018]?\b{head}\b[\"'\u201d\u2019]?(?!:)", sentence)
        if said is None:
            continue
        if cls := _first(_SAID, sentence[said.end() :]):
            return cls
    return ""
