"""What the edition asks beside what is compared, and how each dog stands to it. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import RuleResult
from hands_on.frozen import dataclass
from hands_on.measure.units import format_value
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.dogs import chance

__all__ = ["Beside", "asked_beside", "asked_of", "beside_sentence", "sentences"]

_VERDICTS = {
    "inside": "inside",
    "outside": "outside",
    "undecided": "cannot be told",
    "not-yet": "too young",
}


@dataclass(frozen=True)
class Beside:
    """One stretch that is asked for, and those of whom it is asked."""

    low: float | None
    """None: no lower end."""
    high: float | None
    unit: str
    whose: tuple[tuple[int, RuleResult], ...]
    """Place of the session among those compared, and how its dog stands to it."""


def asked_beside(compared: SideBySide, row: ComparedTrait) -> tuple[Beside, ...]:
    """The stretches asked for of a row; dogs and bitches may have one each."""
    stretches: dict[tuple[float | None, float | None, str], list[tuple[int, RuleResult]]] = {}
    for place, one in enumerate(compared.sessions):
        rule = asked_of(one, row.id, row.unit)
        if rule is not None:
            stretches.setdefault((rule.low, rule.high, rule.unit), []).append((place, rule))
    return tuple(Beside(low, high, unit, tuple(of)) for (low, high, unit), of in stretches.items())


def asked_of(one: Examined, row: str, unit: str) -> RuleResult | None:
    """How a dog stands to what is asked of a measurement or proportion; None where nothing is asked."""
    limits = _limits_of(one.ruleset, row)
    for rule in one.evaluation.rules:
        if rule.id in limits and rule.verdict in _VERDICTS and not rule.sorts and rule.unit == unit:
            return rule
    return None


def _limits_of(ruleset: Ruleset, row: str) -> set[str]:
    """The limits on a measurement, or on the value that a proportion is."""
    named = {value.name for value in ruleset.derived.values() if value.id == row} | {row}
    limits = ruleset.edition.limits
    return {
        limit.id for limit in limits if limit.measure == row or (not limit.measure and limit.name in named)
    }


def beside_sentence(one: Beside, names: Sequence[str]) -> str:
    """`Asked 63 to 70 cm: Brumo inside (98 %); Tovik outside`."""
    told = []
    for place, rule in one.whose:
        verdict = "tolerated" if rule.tolerated else _VERDICTS[rule.verdict]
        if rule.judged_from is not None:
            verdict = _VERDICTS["not-yet"]
        sure = ""
        if rule.p_inside is not None and verdict != _VERDICTS["not-yet"]:
            sure = f" ({chance(rule.p_inside)}{'' if verdict == 'inside' else ' inside'})"
        told.append(f"{names[place]} {verdict}{sure}")
    return f"Asked {_stretch(one)}: {'; '.join(told)}"


def _stretch(one: Beside) -> str:
    if one.low is None and one.high is None:
        return "as the edition says"
    if one.low is None:
        return f"up to {_figure(one.high or 0.0, one.unit)}"
    if one.high is None:
        return f"{_figure(one.low, one.unit)} and more"
    if one.low == one.high:
        return _figure(one.low, one.unit)
    return f"{one.low:g} to {_figure(one.high, one.unit)}"


def _figure(value: float, unit: str) -> str:
    return f"{value:g}" if unit in ("share", "") else format_value(value, unit, 1).replace(".0 ", " ")


def sentences(compared: SideBySide, row: ComparedTrait) -> Iterator[str]:
    """A sentence for each stretch that is asked for."""
    for one in asked_beside(compared, row):
        yield beside_sentence(one, compared.dogs)
