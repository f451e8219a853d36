"""The tooth chart: which teeth count as missing, and the class the edition's rules give them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import field

from hands_on.evaluate.alarms.recorded import MilkTeeth, TeethUnseen, UnknownFault
from hands_on.evaluate.circumstances import Asking, Circumstances, Lacking
from hands_on.evaluate.classes import NONE, Classes
from hands_on.evaluate.departure import Called, Departure
from hands_on.evaluate.reasons import Reason, said
from hands_on.evaluate.result import Alarm
from hands_on.exam.session import Teeth
from hands_on.frozen import dataclass
from hands_on.ruleset.dentition import matches
from hands_on.ruleset.points import TeethPoint
from hands_on.ruleset.rules import TeethRule, TeethRules
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["MISSING", "Chart", "read_chart"]

MISSING, WORN, EXTRA = "mouth.teeth-missing", "mouth.teeth-worn", "mouth.teeth-extra"


@dataclass(frozen=True)
class Chart:
    """What the chart gives."""

    departures: tuple[Departure, ...] = ()
    alarms: tuple[Alarm, ...] = ()
    complete: bool = False
    """Every tooth was seen and none is missing."""
    lacking: Lacking = field(default_factory=dict)


def read_chart(
    ruleset: Ruleset,
    chart: Teeth | None,
    classes: Classes,
    present: Collection[str],
) -> Chart:
    """The departures of a tooth chart, in the circumstances of `classes`; `present` are the faults found."""
    if chart is None:
        return Chart()
    asking = Asking(classes.circumstances, {*present, MISSING})
    departures: list[Departure] = []
    alarms: list[Alarm] = []
    charts = (point.id for point in ruleset.points.values() if isinstance(point, TeethPoint))
    point = next(charts, "mouth.teeth")
    rules = ruleset.edition.teeth
    missing = sorted(set(chart.missing))
    unseen = sorted(set(chart.unseen) - set(missing))
    reasons: list[Reason] = []
    if unseen and rules is not None and rules.unseen_is_missing:
        missing = sorted({*missing, *unseen})
        reasons.append(Reason("unseen-is-missing", teeth=tuple(unseen)))
    elif unseen:
        exempt = rules is not None and all(matches(number, rules.exempt) for number in unseen)
        if not exempt:
            alarms.append(Alarm("unseen", (point,), TeethUnseen(tuple(unseen), len(missing))))
            if missing:
                reasons.append(Reason("at-least-missing", teeth=tuple(unseen), count=len(missing)))
    if missing:
        called = _called(rules, missing, asking, classes, present, point)
        gone = Reason("missing", teeth=tuple(missing))
        departures.append(
            Departure(
                MISSING, "teeth", (point,), called=called, teeth=tuple(missing), reasons=(gone, *reasons)
            )
        )
    worn = sorted({*chart.worn, *chart.broken})
    if worn:
        words = [Reason("worn", teeth=_sorted(chart.worn))] if chart.worn else []
        words += [Reason("broken", teeth=_sorted(chart.broken))] if chart.broken else []
        departures.append(Departure(WORN, "teeth", (point,), teeth=tuple(worn), reasons=tuple(words)))
    if chart.extra:
        extra = _sorted(chart.extra)
        words = [Reason("extra", teeth=extra)]
        departures.append(Departure(EXTRA, "teeth", (point,), teeth=extra, reasons=tuple(words)))
    alarms += _milk(ruleset, chart, classes.circumstances, point)
    for departure in departures:
        if departure.fault not in ruleset.faults:
            alarms.append(Alarm("unknown-point", (point,), UnknownFault(departure.fault)))
    return Chart(tuple(departures), tuple(alarms), not missing and not unseen, asking.lacking)


def _milk(ruleset: Ruleset, chart: Teeth, circumstances: Circumstances, point: str) -> list[Alarm]:
    """Milk teeth that still stand at an age at which permanent teeth can be counted."""
    known = ruleset.faults.get(MISSING)
    changed = circumstances.age is not None and known is not None and known.too_young is not None
    if not chart.milk or not changed or circumstances.too_young(known.too_young if known else None):
        return []
    return [Alarm("veterinary", (point,), MilkTeeth(tuple(sorted(set(chart.milk)))))]


def _called(
    rules: TeethRules | None,
    missing: list[int],
    asking: Asking,
    classes: Classes,
    present: Collection[str],
    point: str,
) -> Called:
    """The heaviest class of all rules that fit; without one that fits, the rulings and the general clause."""
    if rules is None:
        return _by_rulings(asking, classes, present, point)
    counted = [number for number in missing if not matches(number, rules.exempt)]
    if not counted:
        return Called(NONE, rules.source, rules.reading, (Reason("exempt", teeth=tuple(missing)),))
    fitting = [rule for rule in rules.rules if _fits(rule, counted) and asking.holds(rule.when, (point,))]
    if not fitting:
        return _by_rulings(asking, classes, present, point)
    heaviest = max(fitting, key=lambda rule: classes.weight(rule.class_))
    reasons = [Reason("teeth-rule", rule.text, cls=rule.class_) for rule in fitting]
    reasons += said(heaviest.note)
    switch = next(iter(heaviest.when.switch), "") if heaviest.when and heaviest.when.switch else ""
    reading = heaviest.reading or rules.reading
    return Called(heaviest.class_, heaviest.source, reading, tuple(reasons), switch)


def _by_rulings(asking: Asking, classes: Classes, present: Collection[str], point: str) -> Called:
    called = classes.class_of(MISSING, None, None, present)
    asking.keep(called.lacking, (point,))
    return called


def _fits(rule: TeethRule, missing: list[int]) -> bool:
    """Are as many missing as the rule says, of the teeth it says, and as many others beside them?

    Beside one P3, a second P3 is another tooth too.
    """
    named = [number for number in missing if _meant(rule, number)]
    if len(named) < rule.at_least or (rule.at_most is not None and len(named) > rule.at_most):
        return False
    others = len(missing) - rule.at_least
    return rule.others_at_least <= others <= (others if rule.others_at_most is None else rule.others_at_most)


def _meant(rule: TeethRule, number: int) -> bool:
    if rule.of and not matches(number, rule.of):
        return False
    return not (rule.not_of and matches(number, rule.not_of))


def _sorted(numbers: Collection[int]) -> tuple[int, ...]:
    return tuple(sorted(set(numbers)))
