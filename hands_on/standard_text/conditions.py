"""Colours of the coat under which a sentence allows or faults something: `in merles only`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

__all__ = ["Colours", "OnColour", "on_colour"]

_COLOUR: Final = (
    r"(?:blue |red |black )?merle|harlequin|blue|red|liver|brown|chocolate|black|tan|fawn|yellow|isabella|"
    r"brindle|piebald|pied|parti-?colou?r|sable|gr[ae]y|lilac|lemon|orange|cream|roan|white|gold(?:en)?|apricot"
)
_DOGS: Final = r"(?:dogs?|bitch(?:es)?|specimens?|animals?|hounds?|puppies|coats?|variet(?:y|ies))"
_IN: Final = (
    rf"(?:in|with|of|for) (?:the |those )?({_COLOUR})(?:s\b|[- ](?:colou?red )?{_DOGS}\b|"
    rf"(?=,? only\b)|(?<=merle)\b|(?<=harlequin)\b)"
)
_ALLOWED: Final = re.compile(rf"\b(?P<only>only |solely )?{_IN}(?:s)?(?P<after>,? only\b)?")
_EXCEPTED: Final = re.compile(
    rf"\b(?:except(?:ing)?(?: for)?|other than|unless|save|but not|apart from|with the exception of)"
    rf"(?: (?:in|the|of|for|a))* ({_COLOUR})s?\b"
)


@dataclass(frozen=True, slots=True)
class OnColour:
    """A colour that decides: `free` in it, and with `only` a fault in every other."""

    colour: str
    only: bool


class Colours:
    """The colours that rules of a text hang on, as the options of an attribute."""

    def __init__(self) -> None:
        self.options: dict[str, str] = {}

    def option(self, colour: str) -> str:
        """The id of a colour, which from now on is one of the options."""
        name = re.sub(r"[^a-z]+", "-", colour)
        self.options.pop("other", None)
        self.options |= {name: colour.capitalize(), "other": "Another"}
        return name


def on_colour(low: str, cls: str) -> OnColour | None:
    """The colour that a plain sentence makes its class `cls` hang on, if any."""
    excepted = _EXCEPTED.search(low)
    if excepted and cls != "none":
        return OnColour(excepted.group(1), only=True)
    allowed = _ALLOWED.search(low)
    if allowed and cls == "none":
        return OnColour(allowed.group(2), only=bool(allowed.group("only") or allowed.group("after")))
    return None
