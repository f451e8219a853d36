"""A fault and its class -> the table of a ruling; what an earlier sentence ruled of it stays within."""

from __future__ import annotations

import re
from typing import Any, Final

from hands_on.ruleset.base import DEGREES, Degree
from hands_on.standard_text.classing import WEIGHTS
from hands_on.standard_text.headings import CLASSES

__all__ = ["Rulings"]

_PLACES: Final = (
    (("chest-small", "chest-large"), r"chest|breast|brisket"),
    (("toes",), r"toes?"),
    (("paw",), r"feet|foot|paws?|(?:fore|hind)?legs?"),
    (("neck",), r"nape|neck|throat|collar"),
    (("elsewhere",), r"anus|anal"),
    (("tail-tip",), r"tail"),
    (("head",), r"head|face|muzzle|blaze|skull"),
)
_ANYWHERE: Final = re.compile(r"elsewhere|other than|except|anywhere|outside")


class Rulings:
    """The rulings read so far, by fault and place."""

    def __init__(self) -> None:
        self.tables: dict[str, dict[str, Any]] = {}
        self.slight: set[str] = set()
        """Those said of a slight degree."""
        self.ours: set[str] = set()
        """Those whose class is our reading: a class that the text names takes their place."""

    def rule(
        self, fault: str, cls: str, degree: Degree | None, low: str, reading: str = ""
    ) -> tuple[str, dict[str, Any]] | None:
        """The ruling's key and table; nothing where what stands already says more. `low` tells the place."""
        key, detail = self._key(fault, low)
        if fault.endswith("abnormal"):
            degree = None
        known = {} if key in self.ours else self._known(key)
        steps, told = self._steps(known, cls, degree, lightly=key in self.slight)
        if not steps:
            return None
        table: dict[str, Any] = {"faults": [fault]}
        if detail:
            table["when"] = {"detail": list(detail)}
        if list(steps) == ["slight"]:
            table["class"] = steps["slight"]
        else:
            table["by_degree"] = steps
        if reading or told:
            table["reading"] = reading or told
        self.tables[key] = table
        (self.slight.add if degree == "slight" else self.slight.discard)(key)
        (self.ours.add if "names no class" in reading else self.ours.discard)(key)
        return key, table

    def standing(self, fault: str, cls: str, low: str) -> tuple[str, dict[str, Any]] | None:
        """The ruling that says already what a sentence says again, if one does."""
        key = self._key(fault, low)[0]
        table = self.tables.get(key, {})
        named = [table.get("class"), *table.get("by_degree", {}).values()]
        return (key, table) if cls in named else None

    def _key(self, fault: str, low: str) -> tuple[str, tuple[str, ...]]:
        """The key of a fault and the places of a mark that the words name."""
        detail: tuple[str, ...] = ()
        if fault == "colour.white" and not _ANYWHERE.search(low):
            detail = tuple(
                name for names, words in _PLACES if re.search(rf"\b(?:{words})\b", low) for name in names
            )
        return fault + (f"@{'+'.join(detail[:1] + detail[2:])}" if detail else ""), detail

    def _known(self, key: str) -> dict[Degree, str]:
        table = self.tables.get(key, {})
        found: dict[Degree, str] = table.get("by_degree", {})
        return dict(found) if found else {"slight": table["class"]} if "class" in table else {}

    def _steps(
        self, known: dict[Degree, str], cls: str, degree: Degree | None, *, lightly: bool
    ) -> tuple[dict[Degree, str], str]:
        """The class from each degree on, lightest first, and what is ours in it.

        `lightly`: what stands was said of a slight degree only.
        """
        if cls not in WEIGHTS:
            return ({} if known else {"slight": cls}), ""
        weights = [WEIGHTS.index(name) for name in known.values() if name in WEIGHTS]
        if cls == "none":
            if any(weights):
                return {}, ""
            if degree in ("slight", "moderate"):
                return {"slight": "none", "moderate" if degree == "slight" else "marked": "fault"}, ""
            return {"slight": "none"}, ""
        heavy = degree in ("moderate", "marked", "extreme")
        told = f"The text's word is taken as {degree} and up; less is an ordinary fault."
        if not weights:
            if heavy and WEIGHTS.index(cls) > WEIGHTS.index("fault"):
                assert degree is not None
                return {"slight": "fault", degree: cls}, told
            return {"slight": cls}, ""
        weight = WEIGHTS.index(cls)
        if weight <= max(weights):
            return self._below(known, cls, weight, degree)
        if not heavy and (list(known.values()) == ["none"] or (cls == "disqualifying" and not lightly)):
            return {"slight": cls}, ""
        start: Degree = degree if heavy and degree else "moderate" if lightly else "marked"
        if known.get(start) not in (None, "fault", "none", cls) and start == "marked":
            start = "extreme"
        if not heavy:
            told = f"The text names it in two classes: the heavier from {start} on is ours."
        kept: dict[Degree, str] = {
            one: name for one, name in known.items() if DEGREES.index(one) < DEGREES.index(start)
        }
        return kept | {start: cls}, told

    def _below(
        self, known: dict[Degree, str], cls: str, weight: int, degree: Degree | None
    ) -> tuple[dict[Degree, str], str]:
        """A lighter class than one that stands: below it where there is room, else nothing new."""
        above = list(known) == ["slight"] and cls in CLASSES and WEIGHTS.index(known["slight"]) > weight
        if above and degree in (None, "slight"):
            return {"slight": cls, "marked": known["slight"]}, (
                "The text names it in two classes: the heavier from marked on is ours."
            )
        return {}, ""
