"""Two answers at one point: do they differ by more than a hand errs, and does growth explain it?

A measured difference is real beyond the smallest detectable change (`measure.change`). Its uncertainty
holds for two evaluators as it stands: the default of a careful take covers a change of observer. Where one
evaluator took both, half of the variance that repeating does not reduce is taken to be the hand's own way
with the landmark, which both readings share and which cancels; the other half, stance and instrument, is
not. That half is a judgement; working figures for the height (0.7 cm one evaluator, 1.2 cm two) would let
more cancel. Grades follow `measure.change.grade_change` without retests: one step is within ordinary
disagreement, two are probably real.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from hands_on.compare.answer import Answer, scale_of
from hands_on.compare.examined import Examined, same_dog, same_evaluator
from hands_on.measure.age import age_text
from hands_on.measure.change import change, grade_change
from hands_on.measure.growth import GrowthProblem, agrees, project
from hands_on.measure.units import canonical_unit, convert, decimals_for, format_measured, format_value
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point, ScalePoint

__all__ = [
    "SHARED_BY_ONE_HAND",
    "Difference",
    "Verdict",
    "difference",
    "hand_correlation",
    "measured_difference",
]

Verdict = Literal["real", "within-hand-error", "explained-by-growth", "too-young"]

SHARED_BY_ONE_HAND = 0.5
"""Share of the lasting variance that two readings by one evaluator have in common; a judgement."""

_GROWS = {"height": "height", "weight": "weight"}
"""Measurements that have a growth curve."""


@dataclass(frozen=True)
class Difference:
    """Answers of two sessions at one point; `first` and `second` are their places in the comparison.

    `difference` is second less first, in the point's unit or in steps; None where answers have no order.
    `p_greater` is the probability that the second's true value is the greater one. `verdict` is None where
    one of them has no answer or they cannot be compared; `wording` says why.
    """

    first: int
    second: int
    difference: float | None
    sdc: float | None
    p_greater: float | None
    verdict: Verdict | None
    wording: str
    differs: bool
    """The answers are not the same, whether or not by more than hand error."""
    unexpected: bool = False
    """The later answer is off what growth lets expect, by more than its uncertainty: see again."""


def hand_correlation(a: Answer, b: Answer, one_hand: bool) -> float:
    """Correlation of the errors of two measured answers."""
    if not one_hand or not a.u or not b.u or a.u_lasting is None or b.u_lasting is None:
        return 0.0
    return SHARED_BY_ONE_HAND * a.u_lasting * b.u_lasting / (a.u * b.u)


def difference(
    sessions: tuple[Examined, Examined],
    points: tuple[Point, Point],
    answers: tuple[Answer, Answer],
    places: tuple[int, int] = (0, 1),
) -> Difference:
    """Compare what two sessions say at a point; `points` is the point as each one's edition has it.

    Of one dog at two ages, growth is asked for, and whether it could be judged then.
    """
    first, second = sessions
    a, b = answers
    if not a.given or not b.given:
        return Difference(*places, None, None, None, None, "not examined in both", False)
    if points[0].kind != points[1].kind:
        return Difference(*places, None, None, None, None, "asked in different ways", True)
    again = same_dog(first, second) and first.order_key != second.order_key
    backwards = again and second.order_key < first.order_key
    if isinstance(points[0], MeasurePoint) and isinstance(points[1], MeasurePoint):
        found = _measured(sessions, points[0], answers, places)
        if again and found.verdict is not None:
            ordered = ((second, first), (b, a)) if backwards else (sessions, answers)
            return _grown(*ordered, points[0], found)
        if a.too_young or b.too_young:
            found = _young(found, a.too_young or b.too_young)
        return found
    found = _judged(points, answers, places)
    if again and backwards:
        return _kept((second, first), (b, a), found)
    if again:
        return _kept((first, second), (a, b), found)
    if a.too_young or b.too_young:
        found = _young(found, a.too_young or b.too_young)
    return found


def measured_difference(
    a: tuple[float, float],
    b: tuple[float, float],
    unit: str,
    correlation: float,
    places: tuple[int, int] = (0, 1),
) -> Difference:
    """Compare two values with their uncertainties in one unit."""
    found = change(*a, *b, correlation=correlation)
    digits = max(decimals_for(max(a[1], b[1])), 0)
    size = format_value(abs(found.difference), unit, digits)
    limit = format_value(found.sdc, unit, digits)
    said = f"more than hand error ({limit})" if found.real else f"within hand error ({limit})"
    return Difference(
        *places,
        found.difference,
        found.sdc,
        found.p_greater,
        "real" if found.real else "within-hand-error",
        f"{size} apart: {said}",
        found.difference != 0.0,
    )


def _measured(
    sessions: tuple[Examined, Examined],
    point: MeasurePoint,
    answers: tuple[Answer, Answer],
    places: tuple[int, int],
) -> Difference:
    a, b = answers
    one, other = (a.value or 0.0, a.u or 0.0), (b.value or 0.0, b.u or 0.0)
    if a.unit != b.unit:
        try:
            other = (convert(other[0], b.unit, a.unit), convert(other[1], b.unit, a.unit))
        except ValueError:
            return Difference(*places, None, None, None, None, f"{a.unit} against {b.unit}", True)
    correlation = hand_correlation(a, b, same_evaluator(*sessions))
    return measured_difference(one, other, point.unit, correlation, places)


def _judged(
    points: tuple[Point, Point], answers: tuple[Answer, Answer], places: tuple[int, int]
) -> Difference:
    """Grades, steps, choices and charts."""
    a, b = answers
    differs = a.words != b.words
    if a.position is None or b.position is None:
        if a.category == b.category:
            verdict: Verdict = "within-hand-error"
            wording = "the same"
        elif a.unsure or b.unsure:
            verdict, wording = "within-hand-error", "different, but one of them is unsure"
        else:
            verdict, wording = "real", "different; no figure says how often a hand errs here"
        return Difference(*places, None, None, None, verdict, wording, differs)
    same_scale = _steps(points[0]) == _steps(points[1])
    found = grade_change(a.position, b.position, same_scale=same_scale)
    if not same_scale:
        return Difference(*places, None, None, None, None, found.wording, differs)
    if found.verdict in ("real", "probably-real"):
        verdict, wording = "real", found.wording
        if a.unsure or b.unsure:
            verdict, wording = "within-hand-error", f"{found.wording}, but one of them is unsure"
    else:
        verdict = "within-hand-error"
        wording = "the same" if found.steps == 0 else found.wording
    return Difference(*places, float(found.steps), None, None, verdict, wording, differs)


def _steps(point: Point) -> object:
    """What a scale's places stand for; scales that differ in this are not compared."""
    if isinstance(point, GradePoint):
        return (
            point.less,
            point.more,
            point.other if scale_of(point) and not point.less + point.more else (),
        )
    return tuple(step.value for step in point.steps) if isinstance(point, ScalePoint) else None


def _young(found: Difference, why: str) -> Difference:
    """A difference at an age at which it cannot be judged."""
    if found.verdict != "real":
        return replace(found, wording=f"{found.wording}; {why}")
    return replace(found, verdict="too-young", wording=f"{found.wording}; {why}")


# --- one dog at two ages ---------------------------------------------------------------------------


def _grown(
    sessions: tuple[Examined, Examined],
    answers: tuple[Answer, Answer],
    point: MeasurePoint,
    found: Difference,
) -> Difference:
    """A measurement of one dog, earlier and later, held against growth."""
    earlier, later = sessions
    then, now = answers
    quantity = _GROWS.get(point.id)
    size = later.circumstances.size_class or earlier.circumstances.size_class
    gate = getattr(point.too_young, size) if point.too_young is not None and size is not None else None
    if quantity is not None and size is not None and earlier.age is not None and later.age is not None:
        unit = canonical_unit(point.quantity)
        numbers = [convert(x or 0.0, one.unit, unit) for one in (then, now) for x in (one.value, one.u)]
        try:
            expected = project(
                numbers[0],
                numbers[1],
                earlier.age,
                later.age,
                quantity,
                size,
                sem2=numbers[3],
                judged_from=gate,
            )
            held = agrees(expected, numbers[2])
        except GrowthProblem:
            pass
        else:
            middle, u = (convert(x, unit, point.unit) for x in (expected.expected, expected.u))
            told = f"growth let expect {format_measured(middle, u, point.unit)}: {held.wording}"
            verdict: Verdict = "within-hand-error"
            # With a shared hand the smaller of the two detectable changes counts.
            if held.changed or found.verdict == "real":
                verdict = "explained-by-growth" if held.explained else "real"
            return replace(found, verdict=verdict, wording=told, unexpected=abs(held.z) > 1)
    if found.verdict != "real":
        told = f"{found.wording}; no change shown"
        return replace(found, wording=f"{told}; {then.too_young}" if then.too_young else told)
    if then.too_young:
        curve = "" if quantity is not None else "; it has no growth curve"
        return replace(found, verdict="too-young", wording=f"{found.wording}; {then.too_young}{curve}")
    smaller = (now.value or 0.0) < (then.value or 0.0)
    if smaller and point.quantity == "length":
        shrunk = "a length of a grown dog does not shrink: stance or measuring, take it again"
        return replace(found, wording=f"{found.wording}; {shrunk}")
    return found


_STABILITY = {
    "fixed": "this rarely changes: first of all a doubt about one of the two visits",
    "slow": "this may drift a step over a year",
    "changes": "this moves with condition, coat, season or surface: compare like with like",
}


def _kept(
    sessions: tuple[Examined, Examined], answers: tuple[Answer, Answer], found: Difference
) -> Difference:
    """A grade or choice of one dog, earlier and later."""
    earlier, _ = sessions
    then, now = answers
    if then.too_young:
        at = f" at {age_text(earlier.age)}" if earlier.age is not None else ""
        told = f"{found.wording}; too young to judge then{at}"
        return replace(found, verdict="too-young" if found.differs else found.verdict, wording=told)
    if found.verdict == "real":
        known = earlier.ruleset.faults
        moved = {known[fault].stability for fault in (*then.faults, *now.faults) if fault in known}
        told = _STABILITY.get(next(iter(moved)), "") if len(moved) == 1 else ""
        return replace(found, wording=f"{found.wording}; {told}") if told else found
    return found
