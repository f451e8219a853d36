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

import math
from dataclasses import replace
from typing import Literal

from hands_on.compare.answer import Answer, scale_of
from hands_on.compare.dogs.earlier_ones import SHARED_BY_ONE_HAND, Before, pooled, shared_covariance
from hands_on.compare.examined import Examined, same_dog, same_evaluator
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.measure.change import change, dof_of_difference, grade_change, sdc
from hands_on.measure.growth import agrees
from hands_on.measure.growth_curves import GrowthProblem, daily_u
from hands_on.measure.growth_seen import Seen, project_seen
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point, ScalePoint

__all__ = [
    "SHARED_BY_ONE_HAND",
    "Caveat",
    "CaveatKind",
    "Difference",
    "Ground",
    "Grown",
    "Verdict",
    "difference",
    "hand_correlation",
    "measured_difference",
    "too_young_to_judge",
    "uncompared",
]

Verdict = Literal[
    "real",
    "different",  # where no figure says how often a hand errs
    "disagree",  # evaluators on one dog
    "not-settled",  # beyond its own error, but error alone may do as much among all points of a re-check
    "within-hand-error",
    "explained-by-growth",
    "did-not-grow",  # a puppy that should have
    "does-not-shrink",  # a length that became smaller: stance or hand
    "day-to-day",  # a weight beyond the scale's error, and no more than it varies from day to day
    "too-young",
]
"""Those of a whole table (`compare.dogs.together`) may be `different` and `disagree`."""

Ground = Literal[
    "not-in-both",  # one of the two has no answer
    "not-computed",  # a proportion that one of the two does not allow
    "asked-differently",  # another kind of point in the other edition
    "different-units",
    "contradictory-takes",  # of one of the two
    "different-scales",
    "measured",  # against the smallest detectable change
    "growth",  # against what growth lets expect
    "same",
    "steps",  # on one ordered scale
    "different",  # without an order: no figure says how often a hand errs
]
"""What a verdict rests on, or why there is none."""

CaveatKind = Literal[
    "too-young",  # cannot be judged at that age
    "too-young-then",  # could not be at the earlier examination
    "no-change-shown",
    "no-growth-curve",
    "does-not-shrink",  # a length of a grown dog
    "daily",  # no more than weight varies from day to day
    "so-before",  # graded or chosen so at an examination before the last
    "fixed",  # how fast the departure moves, by its stability
    "slow",
    "changes",
]

_FAR = 2.0
"""So many u off what growth lets expect is not explained by it."""

_GROWS = {"height": "height", "weight": "weight"}
"""Measurements that have a growth curve."""


@dataclass(frozen=True)
class Caveat:
    """What else must be known of a difference."""

    kind: CaveatKind
    too_young: TooYoung | None = None
    age: float | None = None
    """Months at the earlier examination."""


@dataclass(frozen=True)
class Grown:
    """A later measurement against what growth lets expect, in the point's unit."""

    quantity: str
    """`height` or `weight`."""
    expected: float
    u: float
    z: float
    """How many u the later measurement lies above what is expected."""
    changed: bool
    """Beyond the smallest detectable change."""
    shrank: bool
    """A height that became smaller."""


@dataclass(frozen=True)
class Difference:
    """Answers of two sessions at one point; `first` and `second` are their places in the comparison.

    `difference` is second less first, in the point's unit or in steps; None where answers have no order.
    `p_greater` is the probability that the second's true value is the greater one. `verdict` is None where
    one of them has no answer or they cannot be compared; `ground` says why.
    """

    first: int
    second: int
    difference: float | None
    sdc: float | None
    p_greater: float | None
    verdict: Verdict | None
    ground: Ground
    differs: bool
    """The answers are not the same, whether or not by more than hand error."""
    units: tuple[str, str] = ("", "")
    """Those of measured answers."""
    u: float = 0.0
    """The larger of the two standard uncertainties."""
    unsure: bool = False
    """One of two different answers is unsure, so that no change is called."""
    grown: Grown | None = None
    caveats: tuple[Caveat, ...] = ()
    p_error: float | None = None
    """How often error alone sets the widest two of all sessions as far apart at this point."""
    alone_only: bool = False
    """Real were this point alone compared; among all of them it is to be expected of error."""
    dof: float = math.inf
    """Degrees of freedom of a measured difference."""
    unexpected: bool = False
    """The later answer is off what growth lets expect, by more than its uncertainty: see again."""
    earlier: int = 1
    """Of one dog: how many earlier examinations the later one was held against."""


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
    before: Before = (),
) -> Difference:
    """Compare what two sessions say at a point; `points` is the point as each one's edition has it.

    Of one dog at two ages, growth is asked for, and whether it could be judged then; `before` are what still
    earlier examinations say, and all of them count.
    """
    first, second = sessions
    a, b = answers
    if not a.given or not b.given:
        return uncompared(places, "not-in-both")
    if points[0].kind != points[1].kind:
        return uncompared(places, "asked-differently", differs=True)
    again = same_dog(first, second) and first.order_key != second.order_key
    backwards = again and second.order_key < first.order_key
    if isinstance(points[0], MeasurePoint) and isinstance(points[1], MeasurePoint):
        found = _measured(sessions, points[0], answers, places)
        if again and found.verdict is not None:
            ordered = ((second, first), (b, a)) if backwards else (sessions, answers)
            return _grown(*ordered, points[0], found, before)
        young = a.too_young or b.too_young
        return too_young_to_judge(found, young) if young is not None else found
    found = _judged(points, answers, places)
    if again and backwards:
        return _kept((second, first), (b, a), found)
    if again:
        return _kept((first, second), (a, b), _against_all_grades(points[1], (a, b), found, before))
    young = a.too_young or b.too_young
    return too_young_to_judge(found, young) if young is not None else found


def uncompared(
    places: tuple[int, int], ground: Ground, *, differs: bool = False, units: tuple[str, str] = ("", "")
) -> Difference:
    """Two answers that cannot be compared, and why."""
    return Difference(*places, None, None, None, None, ground, differs, units)


def measured_difference(
    a: Answer, b: Answer, unit: str, correlation: float, places: tuple[int, int] = (0, 1)
) -> Difference:
    """Compare two measured answers that are in one unit."""
    if a.contradictory or b.contradictory:
        return uncompared(places, "contradictory-takes", differs=a.value != b.value)
    first, second = (a.value or 0.0, a.u or 0.0), (b.value or 0.0, b.u or 0.0)
    found = change(*first, *second, correlation=correlation, dof=(a.dof, b.dof))
    return Difference(
        *places,
        found.difference,
        found.sdc,
        found.p_greater,
        "real" if found.real else "within-hand-error",
        "measured",
        found.difference != 0.0,
        (unit, unit),
        max(first[1], second[1]),
        dof=dof_of_difference(a.dof, b.dof),
    )


def _measured(
    sessions: tuple[Examined, Examined],
    point: MeasurePoint,
    answers: tuple[Answer, Answer],
    places: tuple[int, int],
) -> Difference:
    a, b = answers
    if a.unit != b.unit:
        try:
            value, u = (convert(x or 0.0, b.unit, a.unit) for x in (b.value, b.u))
        except ValueError:
            return uncompared(places, "different-units", differs=True, units=(a.unit, b.unit))
        b = replace(b, value=value, u=u)
    correlation = hand_correlation(*answers, same_evaluator(*sessions))
    return measured_difference(a, b, point.unit, correlation, places)


def _judged(
    points: tuple[Point, Point], answers: tuple[Answer, Answer], places: tuple[int, int]
) -> Difference:
    """Grades, steps, choices and charts."""
    a, b = answers
    differs = a.said != b.said
    unsure = a.unsure or b.unsure
    if a.position is None or b.position is None:
        if a.category == b.category:
            return Difference(*places, None, None, None, "within-hand-error", "same", differs)
        verdict: Verdict = "within-hand-error" if unsure else "real"
        return Difference(*places, None, None, None, verdict, "different", differs, unsure=unsure)
    same_scale = _steps(points[0]) == _steps(points[1])
    found = grade_change(a.position, b.position, same_scale=same_scale)
    if not same_scale:
        return uncompared(places, "different-scales", differs=differs)
    beyond = found.verdict in ("real", "probably-real")
    return Difference(
        *places,
        float(found.steps),
        None,
        None,
        "real" if beyond and not unsure else "within-hand-error",
        "steps" if found.steps else "same",
        differs,
        unsure=beyond and unsure,
    )


def _steps(point: Point) -> object:
    """What a scale's places stand for; scales that differ in this are not compared."""
    if isinstance(point, GradePoint):
        return (
            point.less,
            point.more,
            point.other if scale_of(point) and not point.less + point.more else (),
        )
    return tuple(step.value for step in point.steps) if isinstance(point, ScalePoint) else None


def too_young_to_judge(found: Difference, why: TooYoung) -> Difference:
    """A difference at an age at which it cannot be judged."""
    verdict = "too-young" if found.verdict == "real" else found.verdict
    return replace(_noted(found, Caveat("too-young", why)), verdict=verdict)


def _noted(found: Difference, *caveats: Caveat) -> Difference:
    return replace(found, caveats=(*found.caveats, *caveats))


# --- one dog at two ages ---------------------------------------------------------------------------


def _grown(
    sessions: tuple[Examined, Examined],
    answers: tuple[Answer, Answer],
    point: MeasurePoint,
    found: Difference,
    before: Before,
) -> Difference:
    """A measurement of one dog, earlier and later, compared with growth."""
    earlier, later = sessions
    then, now = answers
    seen = (*before, (earlier, then))
    quantity = _GROWS.get(point.id)
    size = later.circumstances.size_class or earlier.circumstances.size_class
    gate = getattr(point.too_young, size) if point.too_young is not None and size is not None else None
    if quantity is not None and size is not None and earlier.age is not None and later.age is not None:
        unit = canonical_unit(point.quantity)
        value, u = _of_growth(now, unit, quantity)
        sizes = [
            Seen(*_of_growth(answer, unit, quantity), one.age, answer.dof)
            for one, answer in seen
            if one.age is not None
        ]
        try:
            expected = project_seen(sizes, later.age, quantity, size, sem=u, dof=now.dof, judged_from=gate)
            held = agrees(expected, value)
        except GrowthProblem:
            pass
        else:
            found = replace(found, earlier=expected.sessions)
            middle, spread = (convert(x, unit, point.unit) for x in (expected.expected, expected.u))
            shrank = quantity == "height" and sizes[-1].value - value > held.sdc
            grown = Grown(quantity, middle, spread, held.z, held.changed, shrank)
            verdict: Verdict = "within-hand-error"
            if shrank:
                # no dog grows smaller: whatever it was, it was not the dog
                verdict = "does-not-shrink"
                return replace(found, verdict=verdict, ground="growth", grown=grown, unexpected=True)
            if held.z < -_FAR:
                # it may lie where it lay: then the growth that was to come did not
                verdict = "real" if held.changed else "did-not-grow"
                return replace(found, verdict=verdict, ground="growth", grown=grown, unexpected=True)
            if quantity == "weight" and found.verdict == "real" and not held.changed:
                return replace(_noted(found, Caveat("daily")), verdict="day-to-day")
            # With a shared hand the smaller of the two detectable changes counts.
            if held.changed or found.verdict == "real":
                verdict = "explained-by-growth" if held.explained else "real"
            return replace(found, verdict=verdict, ground="growth", grown=grown, unexpected=abs(held.z) > 1)
    young = (Caveat("too-young", then.too_young),) if then.too_young else ()
    ripe = [(one, answer) for one, answer in seen if not answer.too_young]
    if len(ripe) > 1 and not young:
        found = _against_all(ripe, (later, now), found)
    if found.verdict != "real":
        return _noted(found, Caveat("no-change-shown"), *young)
    if young:
        curve = () if quantity is not None else (Caveat("no-growth-curve"),)
        return replace(_noted(found, *young, *curve), verdict="too-young")
    smaller = (found.difference or 0.0) < 0
    if smaller and point.quantity == "length":
        return replace(_noted(found, Caveat("does-not-shrink")), verdict="does-not-shrink", unexpected=True)
    if quantity == "weight" and _daily(pooled(ripe or seen), now, found):
        return replace(_noted(found, Caveat("daily")), verdict="day-to-day")
    return found


def _of_growth(answer: Answer, unit: str, quantity: str) -> tuple[float, float]:
    """A measurement with its uncertainty in the curve's unit; of a weight that of the dog from day to day."""
    value, u = (convert(x or 0.0, answer.unit, unit) for x in (answer.value, answer.u))
    return (value, daily_u(value, u)) if quantity == "weight" else (value, u)


def _against_all(seen: Before, now: tuple[Examined, Answer], found: Difference) -> Difference:
    """A measurement of a dog that stays as it is against the mean of all earlier ones."""
    then, answer = pooled(seen), now[1]
    scale = (then.u or 0.0) * (answer.u or 0.0)
    shared = math.fsum(shared_covariance(one, now) for one in seen) / len(seen)
    made = measured_difference(
        then, answer, answer.unit, shared / scale if scale else 0.0, (found.first, found.second)
    )
    return replace(made, earlier=len(seen))


def _daily(then: Answer, now: Answer, found: Difference) -> bool:
    """Is a change of weight no more than a dog's weight varies from day to day, and the scales with it?"""
    u = [daily_u(one.value or 0.0, one.u or 0.0) for one in (then, now)]
    return abs(found.difference or 0.0) <= sdc(*u, dof=found.dof)


def _against_all_grades(
    point: Point, answers: tuple[Answer, Answer], found: Difference, before: Before
) -> Difference:
    """A grade or choice against those of all earlier examinations that could be judged.

    A grade is held against their middle, and is no change while it lies among them: so this dog was graded
    before. Nor is a choice that was made before.
    """
    then, now = answers
    seen = [
        answer
        for one, answer in before
        if not answer.too_young and not answer.unsure and _alike(one, point, answer, now)
    ]
    if not seen or found.verdict is None or not _comparable(then, now):
        return found
    so_before = any(answer.said == now.said for answer in seen) and then.said != now.said
    noted = _noted(found, Caveat("so-before")) if so_before else found
    noted = replace(noted, earlier=len(seen) + 1)
    if now.position is None:
        return replace(noted, verdict="within-hand-error") if so_before else noted
    places = sorted(answer.position or 0 for answer in (*seen, then))
    middles = places[(len(places) - 1) // 2], places[len(places) // 2]
    steps = min((now.position - middle for middle in middles), key=abs)
    beyond = grade_change(0, steps).verdict == "probably-real" and not places[0] <= now.position <= places[-1]
    return replace(
        noted,
        difference=float(steps),
        verdict="real" if beyond and not now.unsure else "within-hand-error",
        ground="steps",
        unsure=beyond and now.unsure,
    )


def _comparable(then: Answer, now: Answer) -> bool:
    return not then.too_young and not then.unsure and (then.position is None) == (now.position is None)


def _alike(one: Examined, point: Point, answer: Answer, now: Answer) -> bool:
    """Is it on the same scale, or in words too?"""
    at = one.ruleset.points.get(point.id)
    return (
        at is not None and _steps(at) == _steps(point) and (answer.position is None) == (now.position is None)
    )


def _kept(
    sessions: tuple[Examined, Examined], answers: tuple[Answer, Answer], found: Difference
) -> Difference:
    """A grade or choice of one dog, earlier and later."""
    earlier, _ = sessions
    then, now = answers
    if then.too_young:
        verdict = "too-young" if found.differs else found.verdict
        return replace(_noted(found, Caveat("too-young-then", age=earlier.age)), verdict=verdict)
    if found.verdict == "real":
        known = earlier.ruleset.faults
        moved = {known[fault].stability for fault in (*then.faults, *now.faults) if fault in known}
        stability = moved.pop() if len(moved) == 1 else ""
        return _noted(found, Caveat(stability)) if stability else found
    return found
