"""A standard's text cut into sentences, each under the heading it stands under."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from hands_on.standard_text.groups import own_varieties
from hands_on.standard_text.headings import (
    class_of_heading,
    is_known_heading,
    is_sex_or_size,
)
from hands_on.standard_text.own_ladder import OwnLadder, own_ladder
from hands_on.standard_text.pages import running_lines

__all__ = ["Sentence", "sentences"]

_BULLET: Final = re.compile(
    r"^\s*(?:[\u2022\u25cf\u25aa\u25e6\u2023\u00b7\uf0b7*]|-{1,2}(?=\s)|o(?=\s[A-Z])|\(?[a-z0-9]{1,2}\)(?=\s)|"
    r"\d{1,2}(?:\.\d{1,2})+\.?(?=\s+[A-Z])|\d{1,2}\.(?=\s+[A-Z])|"
    r"(?:[A-Z]|[IVX]{1,5})(?:[.)]|(?:\.\d{1,2})+\.?)(?=\s+[A-Z]))\s*"
)
_RUN_IN: Final = re.compile(
    r"^([A-Z][\w'.&/(),-]*(?:[ -]+(?:[\w'&/(),.-]+)){0,9}?)\s*(?::(?=\s|$)|--+|\s-\s|\.-+)\s*(.*)$"
)
_RUN_IN_CLASS: Final = re.compile(
    r"^((?:[A-Z][a-z]+ ){0,2}(?:[Ff]aults|[Dd]efects|[Dd]isqualifications?))\.\s+((?=[A-Z(]).*)$"
)
"""`Serious faults. Light eyes ...`."""
_SHOUTED: Final = re.compile(r"^([A-Z][A-Z ,&'/-]{2,60})\.\s+((?=[A-Z(\d]).*)$")
"""`HEAD. The skull should be ...`: a heading in capitals with a full stop."""
_SHORT_FORMS: Final = re.compile(
    (
        r"\b(?:approx|ca|cf|e\.g|i\.e|etc|max|min|ins?|cms?|lbs?|kgs?|mm|no|nr|st|vs|resp|"
        r"incl|fig|n\.b|abt|circa|deg|ft|nb)\.$"
    ),
    re.IGNORECASE,
)
_STATES: Final = re.compile(
    r"(?:(?:very|rather|fairly|moderately|not too) )*(?:short|long|broad|narrow|deep|wide|strong|light|heavy|"
    r"square|"
    r"medium|ideal|straight|level|flat|black|white|dark|docked|undocked|natural)(?:,? (?:and )?\w+)?$",
    re.IGNORECASE,
)
"""`Short: one third of the head`: a state before a colon is no heading."""
_DECORATED: Final = re.compile(r"^(?:[*=_#-]{1,3}\s*)([^\W_][^*=_]*?)\s*[*=_#-]{1,3}$")
"""`** Faults **`, `- Faults -`: a heading between signs."""
_INNER_CLASS: Final = re.compile(
    r"(?:(?<=[.;])\s+|^)((?:(?:very|minor|serious|severe|grave|major|eliminating|disqualifying|general)\s+)?"
    r"(?:faults?|disqualifications?|disqualify|eliminations?))\s*(?::|--+|\s-\s|\.\s*-)\s*",
    re.IGNORECASE,
)
_INNER_PART: Final = re.compile(
    r"(?:(?<=[.;])\s+|^)([A-Z][A-Za-z, /&]{2,40}?)\s*(?:--+|\s-\s|\.-|:(?=\s))\s*(?=\S)"
)


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence or item of a list.

    `paragraph` is the name of what it stands under; `cls` the class of faults that its heading names, or
    empty; `label` the nearest heading, which tells the part spoken of.
    """

    number: int
    text: str
    paragraph: str = ""
    label: str = ""
    cls: str = ""
    heading: bool = False
    """The heading itself."""


@dataclass(slots=True)
class _Under:
    """Where the cutter stands."""

    major: str = ""
    minor: str = ""
    cls: str = ""
    cls_major: bool = False
    shouted: bool = False
    """The class heading stands in capitals: parts under it in small letters are within it."""
    lent: bool = False
    """The upper name was only the heading of the paragraph that a class stands in."""

    @property
    def paragraph(self) -> str:
        return " / ".join(part for part in (self.major, self.minor) if part)


def sentences(text: str, ladder: OwnLadder | None = None) -> list[Sentence]:
    """Every sentence of `text`, in its order, headings of classes among them.

    `ladder`: the text's own words for its classes; looked for in the text without it.
    """
    lines = running_lines(text)
    return _Cutter(lines, own_varieties("\n".join(lines)), ladder or own_ladder(lines)).cut()


class _Cutter:
    def __init__(self, lines: list[str], varieties: tuple[str, ...], ladder: OwnLadder) -> None:
        self.lines, self.varieties, self.ladder = lines, varieties, ladder
        self.width = max((len(line) for line in lines), default=0)
        self.under = _Under()
        self.out: list[Sentence] = []
        self.block: list[str] = []

    def cut(self) -> list[Sentence]:
        for n, line in enumerate(self.lines):
            decorated = _DECORATED.match(line)
            line = decorated.group(1) if decorated else line
            if not line:
                self._flush()
                continue
            if label := self.ladder.label_of_line(line):
                self._flush()
                self._heading(label.upper() if _capital(line) else label.capitalize(), major=True, alone=True)
                continue
            item = _BULLET.match(line)
            bare = line[item.end() :] if item else line
            numbered = bool(item) and bool(re.match(r"\s*\(?(?:\d|[A-Z]+[.)])", line))
            alone = (not item or numbered or bool(self._class_of(bare))) and self._stands_alone(n, bare)
            if alone:
                self._flush()
                label = bare.strip(" :.-")
                within = self.under.cls_major and self.under.shouted and not _capital(label)
                self._heading(label, major=not (within and is_known_heading(label)), alone=True)
                continue
            named = self._run_in(bare, begins=bool(item) or not self.block or self._ended(n))
            while named is not None:
                label, rest = named
                self._flush()
                self._heading(label, major=_capital(label) and not item, alone=not rest)
                again = self._run_in(rest, begins="--" in rest[:30])
                if again is not None:
                    named = again
                    continue
                if rest:
                    self.block.append(rest)
                break
            if named is not None:
                continue
            if item or self._new_item(n, line):
                self._flush()
            self.block.append(bare)
        self._flush()
        return self.out

    # --- headings

    def _stands_alone(self, n: int, line: str) -> bool:
        line = line.strip()
        bare = line.rstrip(":").strip(" -")
        words = bare.split()
        if not words or len(words) > 9 or (re.search(r"\d", bare) and not _capital(bare)):
            return False
        if self.ladder.class_of(bare):
            return True
        if is_sex_or_size(bare):
            return False
        after = next((row for row in self.lines[n + 1 :] if row), "")
        if _capital(bare) and (len(bare) > 3 or bare in ("NB", "N.B")):
            return not line.endswith((",", ";"))
        above = self.lines[n - 1] if n else ""
        if line.endswith((",", ";")) or not bare[0].isupper():
            return False
        opened = not above or above.endswith((".", ":")) or not self.block
        if self._class_of(bare) and len(words) <= (9 if line.endswith(":") else 5):
            return opened or (len(words) <= 4 and not line.endswith("."))
        if line.endswith("."):
            return False
        if is_known_heading(bare):
            return (opened or len(words) <= 4) and not after[:1].islower()
        titled = all(word[0].isupper() for word in words if len(word) > 3 and word[0].isalpha())
        in_list = bool(self.under.cls) and not (self.ladder.classes and not self.under.cls_major)
        return (
            not above
            and titled
            and len(words) <= 5
            and not in_list
            and bool(after)
            and len(after) > len(line)
        )

    def _run_in(self, line: str, *, begins: bool) -> tuple[str, str] | None:
        shouted = _SHOUTED.match(line)
        if shouted and is_known_heading(shouted.group(1)):
            return shouted.group(1).strip(), shouted.group(2).strip()
        classed = _RUN_IN_CLASS.match(line)
        if classed and begins and self._class_of(classed.group(1)):
            return classed.group(1), classed.group(2)
        found = _RUN_IN.match(line)
        if found is None or not begins:
            return None
        label, rest = found.group(1).strip(" ,"), found.group(2).strip()
        if self.ladder.class_of(label):
            return label, rest
        if (
            is_sex_or_size(label)
            or self._of_a_variety(label)
            or re.search(r"\d|\.\s", label)
            or len(label) > 60
        ):
            return None
        colon = line[found.end(1) :].lstrip().startswith(":") and not _STATES.match(
            re.sub(r"\s*\([^)]*\)", "", label)
        )
        if is_known_heading(label) or (colon and len(label.split()) <= 5):
            return label, rest
        return None

    def _class_of(self, label: str) -> str:
        return self.ladder.class_of(label) or class_of_heading(label)

    def _of_a_variety(self, label: str) -> bool:
        """`In the Rough:`, `Smooth variety`: it belongs to the sentence."""
        words = [
            word for word in re.findall(r"[a-z-]+", label.lower()) if word not in ("in", "the", "variety")
        ]
        return bool(words) and all(word in self.varieties for word in words)

    def _heading(self, label: str, *, major: bool, alone: bool) -> None:
        cls = self._class_of(label)
        under = self.under
        if cls:
            inside = bool(under.major or under.minor) and not (major or alone) and not under.cls_major
            if inside:
                under.lent = under.lent or not under.major
                under.major, under.minor = under.major or under.minor, label
                under.cls, under.cls_major = cls, False
            else:
                under.major, under.minor, under.cls, under.cls_major, under.lent = label, "", cls, True, False
                under.shouted = _capital(label)
            self._say(label, heading=True)
            return
        if major or (alone and not under.cls):
            under.major, under.minor, under.cls, under.cls_major, under.lent = label, "", "", False, False
            return
        under.minor = label
        if under.lent:
            under.major, under.lent = "", False
        if not under.cls_major:
            under.cls = ""

    # --- sentences

    def _ended(self, n: int) -> bool:
        above = self.lines[n - 1] if n else ""
        return not above or above.endswith((".", ";", ":"))

    def _new_item(self, n: int, line: str) -> bool:
        """Whether a line begins anew although no blank line stands before it."""
        if not self.block:
            return False
        above = self.lines[n - 1]
        hangs = above.endswith((",", "-", "(", "/")) or re.search(
            r"\b(?:and|or|the|of|to|a|with|in|than|not|for)$", above
        )
        if (
            line[0].isupper()
            and not hangs
            and is_sex_or_size(line.split(":")[0].split(" ")[0])
            and re.search(r"\d|:", line)
        ):
            return True
        short = len(above) < 0.72 * self.width
        return short and line[0].isupper() and not hangs

    def _flush(self) -> None:
        text = " ".join(" ".join(self.block).split())
        self.block = []
        if not text:
            return
        pieces = _INNER_CLASS.split(text)
        self._pieces(pieces[0])
        for label, rest in zip(pieces[1::2], pieces[2::2], strict=True):
            self._heading(label, major=False, alone=False)
            self._pieces(rest)
        if not self.under.cls_major:
            self.under.cls = "" if len(pieces) > 1 else self.under.cls

    def _pieces(self, text: str) -> None:
        """Headings within a paragraph, as American standards have them, stand over what follows."""
        parts = _INNER_PART.split(text)
        for piece in _split(parts[0]):
            self._say(piece)
        for label, rest in zip(parts[1::2], parts[2::2], strict=True):
            if is_known_heading(label):
                self._heading(label, major=False, alone=False)
            else:
                rest = f"{label}: {rest}"
            for piece in _split(rest):
                self._say(piece)

    def _say(self, text: str, *, heading: bool = False) -> None:
        under = self.under
        label = under.minor or under.major
        if under.minor and not under.cls_major and self.ladder.class_of(under.minor):
            label = under.major  # `Ears`, and under it `Small:` is said of the ears
        self.out.append(Sentence(len(self.out) + 1, text, under.paragraph, label, under.cls, heading))


def _capital(text: str) -> bool:
    letters = [sign for sign in text if sign.isalpha()]
    return len(letters) >= 2 and sum(sign.isupper() for sign in letters) >= 0.85 * len(letters)


def _split(text: str) -> list[str]:
    """At full stops and semicolons, not within brackets, numbers and short forms."""
    out: list[str] = []
    start, depth = 0, 0
    for n, sign in enumerate(text):
        depth = max(0, depth + (sign in "([") - (sign in ")]"))
        if sign not in ".;!?\u2022" or depth:
            continue
        after = text[n + 1 : n + 3]
        if after and not after[0].isspace():
            continue
        follows = text[n + 1 :].lstrip()[:1]
        if (
            sign == "."
            and _SHORT_FORMS.search(text[start : n + 1])
            and not (follows.isupper() and re.search(r"\d\s*\S+\.$", text[start : n + 1]))
        ):
            continue
        if sign == "." and follows.islower():
            continue
        out.append(text[start : n + (0 if sign in ";\u2022" else 1)].strip())
        start = n + 1
    out.append(text[start:].strip())
    return [piece for piece in out if any(sign.isalnum() for sign in piece)]
