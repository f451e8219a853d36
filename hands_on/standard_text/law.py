"""What the law of some places forbids to ask for: rules that are off until they are chosen."""

from __future__ import annotations

import re
from typing import Any, Final, NamedTuple

__all__ = ["LAWS", "Law", "law_of", "under_a_law"]

_CAUTION: Final = (
    "Forbidden or restricted by law in many places: ask what holds where the dog was born and where it is "
    "shown. A dog must not be faulted for obeying the law, and nothing is to be done to a dog because of a "
    "show; what its health needs is for a veterinarian."
)
_UNDER: Final = re.compile(
    r"\b(?:where|unless|except|provided|if|in (?:the )?(?:countries|states|places|lands))\b[^.;]*"
    r"(?:\blaw(?:s|ful)?\b|unlawful|legal|legislation|forbid|prohibit|banned|allows? it|allowed|permitted)"
)


class Law(NamedTuple):
    """A subject of such rules: its switch, the question, what it is called, the faults it may hold."""

    switch: str
    asks: str
    label: str
    faults: tuple[str, ...]

    @property
    def table(self) -> dict[str, Any]:
        """The table of the switch."""
        return {"label": self.label, "caution": _CAUTION}


LAWS: Final = (
    Law(
        "docking-judged",
        "tails: docked, or left natural",
        "Judge the tail that docking leaves or spares",
        ("croup-tail.natural", "croup-tail.docked", "croup-tail.tail-altered", "croup-tail.bobtail"),
    ),
    Law(
        "cropping-judged",
        "ears: cropped, or left natural",
        "Judge the ear that cropping leaves or spares",
        ("ears.hanging", "ears.carriage", "ears.erect"),
    ),
    Law(
        "dewclaws-judged",
        "dewclaws: to be removed, or to be left",
        "Judge dewclaws",
        ("hindfeet.dewclaws", "forefeet.dewclaws"),
    ),
)
"""The usual subjects."""


def law_of(fault: str) -> Law | None:
    """The subject of which a fault speaks: a dewclaw, or a tail that was docked or not."""
    return next((one for one in LAWS if fault in one.faults and not fault.startswith("ears.")), None)


def under_a_law(low: str) -> bool:
    """Whether a plain sentence asks something only where the law allows it."""
    return bool(_UNDER.search(low))
