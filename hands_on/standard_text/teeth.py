"""What a sentence says of missing teeth: which are not counted, and the class by number and kind."""

from __future__ import annotations

import re
from typing import Any, Final

__all__ = ["exempted", "missing_rule"]

_NAMES: Final = (
    ("P1", r"\bp\.?m?\.? ?1s?\b|first pre-?molars?|pre-?molars? ?\(?1\)?"),
    ("P2", r"\bp\.?m?\.? ?2s?\b|second pre-?molars?"),
    ("P3", r"\bp\.?m?\.? ?3s?\b|third pre-?molars?"),
    ("P4", r"\bp\.?m?\.? ?4s?\b|fourth pre-?molars?"),
    ("M1", r"\bm\.? ?1s?\b|first molars?"),
    ("M2", r"\bm\.? ?2s?\b|second molars?"),
    ("M3", r"\bm\.? ?3s?\b|third molars?|last molars?"),
    ("I", r"incisors?"),
    ("C", r"canines?"),
    ("P", r"(?<!first )(?<!second )(?<!third )(?<!fourth )pre-?molars?(?! ?\(?\d)"),
    ("M", r"(?<!pre)(?<!pre-)(?<!first )(?<!second )(?<!third )(?<!last )\bmolars?(?! ?\(?\d)"),
)
_FREE: Final = re.compile(
    r"not (?:to be )?(?:taken into|counted|considered|regarded|penali)|disregard|may be "
    r"(?:missing|absent|lacking)|not count|ignored|unimportant|"
    r"(?:absence|lack|missing)[^.;]{0,60}(?:tolerat|permit|allow|accept|no fault|not a "
    r"fault|disregard|immaterial)|exception of|without (?:penalt|importance)|except"
)
_COUNT: Final = {
    "1": 1,
    "2": 2,
    "3": 3,
    "4": 4,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "a": 1,
    "any": 1,
    "single": 1,
}


def _teeth(low: str) -> list[str]:
    return [name for name, words in _NAMES if re.search(words, low)]


def exempted(low: str) -> list[str]:
    """Teeth that are not counted when they are missing."""
    if not _FREE.search(low) or not re.search(r"molar|\bp\.?m?\.? ?\d|\bm\.? ?\d|teeth", low):
        return []
    around = low
    named = [name for name in _teeth(around) if len(name) == 2]
    return named if len(named) <= 3 else []


def missing_rule(low: str, cls: str) -> dict[str, Any] | None:
    """The rule on missing teeth of a sentence in a class, without a source."""
    if cls in ("", "none") or not re.search(
        r"teeth|tooth|molar|incisor|canine|\bp\.?m?\.? ?\d|dentition|carnassial", low
    ):
        return None
    if not re.search(r"missing|absen|lack|incomplete|without", low):
        return None
    words = "|".join(_COUNT)
    rule: dict[str, Any] = {}
    low = re.sub(
        (
            r",? ?[(]?((?:pm?1|m3|first pre-?molars?|third molars?)(?: (?:and|or) (?:pm?1|m3|first "
            r"pre-?molars?|third molars?))?) (?:(?:being |are |is )?not (?:be )?(?:counted|considered|taken)|"
            r"excepted|excluded|apart|disregarded|exempt)"
        ),
        r" except \1",
        low,
    )
    apart = re.search(
        (
            r"(?:other than|except(?:ing)?(?: for)?|apart from|besides|with the exception of|excluding|"
            r"but)\s(.*)"
        ),
        low,
    )
    named = _teeth(low[: apart.start()] if apart else low)
    if apart and _teeth(apart.group(1)):
        rule["not_of"] = _teeth(apart.group(1))
    elif named:
        rule["of"] = named
    more = re.search(rf"more than ({words})\b", low)
    least = re.search(rf"\b({words}) or more|at least ({words})\b", low)
    plain = re.search(
        (
            rf"(?:missing|absence of|lack of|lacking)\s+(?:of )?({words})\b|\b({words}) (?:\w+ "
            rf")?(?:missing|teeth|pre-?molars?|incisors?|canines?|molars?|p\d)"
        ),
        low,
    )
    if more:
        rule["at_least"] = _COUNT[more.group(1)] + 1
    elif least:
        rule["at_least"] = _COUNT[next(word for word in least.groups() if word)]
    elif plain:
        rule["at_least"] = _COUNT[next(word for word in plain.groups() if word)]
    else:
        rule["at_least"] = 1
    return rule | {"class": cls}
