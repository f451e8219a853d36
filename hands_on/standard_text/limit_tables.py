"""What was read of one measurement, and the table of the limit that it makes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from hands_on.standard_text.measures import SIDES

__all__ = ["LESS", "MORE", "Facts", "Key", "Sex", "limit_bands", "limit_table", "width_of"]

LESS, MORE = "less than asked", "more than asked"
"""Labels of what lies outside where no fault is named for it."""
Sex = Literal["male", "female", ""]


@dataclass(frozen=True, slots=True)
class Key:
    """What a limit is on."""

    measure: str
    sex: Sex = ""
    variety: str = ""
    ideal: bool = False

    @property
    def id(self) -> str:
        """The limit's id."""
        return "-".join(p for p in (self.measure, "ideal" if self.ideal else "", self.sex, self.variety) if p)


@dataclass(slots=True)
class Facts:
    """What was read of one limit so far."""

    unit: str
    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False
    about: bool = False
    width: float | None = None
    """Half the width put round a single figure, where it is ours."""
    under: list[tuple[float, bool, str]] = field(default_factory=list)
    """Further ends below: from where on, whether the end itself belongs to the heavier side, the class."""
    over: list[tuple[float, bool, str]] = field(default_factory=list)
    readings: list[str] = field(default_factory=list)

    def outermost(self, *, past: bool) -> tuple[float | None, float | None]:
        """The upper and the lower end; with `past` those of what is tolerated beyond them."""
        over = [end for end, _, kind in self.over if kind == "tolerated"] if past else []
        under = [end for end, _, kind in self.under if kind == "tolerated"] if past else []
        return max(over, default=self.high), min(under, default=self.low)


def _ends(low: float | None, high: float | None, *, low_open: bool, high_open: bool) -> dict[str, float]:
    out: dict[str, float] = {}
    if low is not None:
        out["above" if low_open else "from"] = low
    if high is not None:
        out["below" if high_open else "to"] = high
    return out


def limit_table(key: Key, facts: Facts) -> dict[str, Any]:
    """The table of a limit: asked, and bands outward on each side that has an end."""
    bands = limit_bands(facts, SIDES[key.measure])
    table: dict[str, Any] = {"id": key.id, "measure": key.measure, "unit": facts.unit}
    when = {name: value for name, value in (("sex", key.sex), ("variety", key.variety)) if value}
    if when:
        table["when"] = when
    table["asked"] = _ends(facts.low, facts.high, low_open=facts.low_open, high_open=facts.high_open)
    if bands and not key.ideal:
        table["bands"] = bands
    if facts.about:
        table["about"] = True
    if key.ideal or any("ideal" in text for text in facts.readings):
        table["ideal"] = True
    if facts.readings:
        table["reading"] = " ".join(dict.fromkeys(facts.readings))
    return table


def limit_bands(facts: Facts, sides: tuple[str, str]) -> list[dict[str, Any]]:
    """What lies outside, from below to above; `sides` are the faults of less and of more."""
    return [*_lower(facts, sides[0]), *_upper(facts, sides[1])]


def width_of(measure: str, value: float) -> float:
    """Half the width put round a single figure: what a careful hand can tell, at most a tenth."""
    if measure.endswith(("-angle", "-slope")):
        return 10.0
    if "-to-" in measure:
        return round(0.04 * max(0.5, value), 3)
    if measure == "height":
        return 1.0
    return round(max(0.5 if measure == "weight" else 0.1, value * 0.1), 1)


def _band(kind: str, fault: str, label: str) -> dict[str, Any]:
    if kind == "tolerated":
        return {"tolerated": True}
    named: dict[str, Any] = {"fault": fault} if fault else {}
    if kind:
        named["class"] = kind
    return named or {"label": label}


def _ordered(ends: list[tuple[float, bool, str]], *, down: bool) -> list[tuple[float, bool, str, bool]]:
    """Ends outward, each once: does it belong beyond, the class beyond it, is it free up to it."""
    out: dict[float, tuple[bool, str, bool]] = {}
    for end, closed, kind in ends:
        before = out.get(end, (closed, "", False))
        free = kind == "tolerated"
        out[end] = (before[0] if free else closed, before[1] if free else kind, before[2] or free)
    return [(end, *out[end]) for end in sorted(out, reverse=down)]


def _lower(facts: Facts, fault: str) -> list[dict[str, Any]]:
    if facts.low is None or facts.low <= 0:
        return []
    out: list[dict[str, Any]] = []
    top, top_open, kind = facts.low, facts.low_open, ""
    for end, closed, beyond, free in _ordered([one for one in facts.under if one[0] <= facts.low], down=True):
        if end < top:
            piece: dict[str, Any] = {"above" if closed else "from": end, "to" if top_open else "below": top}
            out.append(piece | _band("tolerated" if free and not kind else kind, fault, LESS))
            top, top_open = end, closed
        kind = beyond
    out.append({"to" if top_open else "below": top} | _band(kind, fault, LESS))
    return list(reversed(out))


def _upper(facts: Facts, fault: str) -> list[dict[str, Any]]:
    if facts.high is None:
        return []
    out: list[dict[str, Any]] = []
    top, top_open, kind = facts.high, facts.high_open, ""
    for end, closed, beyond, free in _ordered(
        [one for one in facts.over if one[0] >= facts.high], down=False
    ):
        if end > top:
            piece: dict[str, Any] = {"from" if top_open else "above": top, "below" if closed else "to": end}
            out.append(piece | _band("tolerated" if free and not kind else kind, fault, MORE))
            top, top_open = end, closed
        kind = beyond
    out.append({"from" if top_open else "above": top} | _band(kind, fault, MORE))
    return out
