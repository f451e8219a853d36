"""One dog at two ages: does growth explain a difference, or an answer given before?

A measurement with a growth curve is held against what growth lets expect, any other against the mean of all
earlier ones; a grade against the middle of all earlier grades that could be judged (`measure.growth_seen`,
`measure.change`).
"""

from __future__ import annotations

import math
from dataclasses import replace

from hands_on.compare.answer import Answer
from hands_on.compare.dogs.earlier_ones import Before, pooled, shared_covariance
from hands_on.compare.dogs.two_answers import measured_difference, noted, scale_steps
from hands_on.compare.dogs.verdicts import Caveat, Difference, Grown, Verdict
from hands_on.compare.examined import Examined
from hands_on.measure.change import grade_change, sdc
from hands_on.measure.growth import agrees
from hands_on.measure.growth_curves import GrowthProblem, daily_u
from hands_on.measure.growth_seen import Seen, project_seen
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint, Point

__all__ = ["against_all_grades", "grown", "kept"]

_FAR = 2.0
"""So many u off what growth lets expect is not explained by it."""

_GROWS = {"height": "height", "weight": "weight"}
"""Measurements that have a growth curve."""


def grown(
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
            expectation = Grown(quantity, middle, spread, held.z, held.changed, shrank)
            verdict: Verdict = "within-hand-error"
            if shrank:
                # no dog grows smaller: whatever it was, it was not the dog
                verdict = "does-not-shrink"
                return replace(found, verdict=verdict, ground="growth", grown=expectation, unexpected=True)
            if held.z < -_FAR:
                # it may lie where it lay: then the growth that was to come did not
                verdict = "real" if held.changed else "did-not-grow"
                return replace(found, verdict=verdict, ground="growth", grown=expectation, unexpected=True)
            if quantity == "weight" and found.verdict == "real" and not held.changed:
                return replace(noted(found, Caveat("daily")), verdict="day-to-day")
            # With a shared hand the smaller of the two detectable changes counts.
            if held.changed or found.verdict == "real":
                verdict = "explained-by-growth" if held.explained else "real"
            return replace(
                found, verdict=verdict, ground="growth", grown=expectation, unexpected=abs(held.z) > 1
            )
    young = (Caveat("too-young", then.too_young),) if then.too_young else ()
    ripe = [(one, answer) for one, answer in seen if not answer.too_young]
    if len(ripe) > 1 and not young:
        found = _against_all(ripe, (later, now), found)
    if found.verdict != "real":
        return noted(found, Caveat("no-change-shown"), *young)
    if young:
        curve = () if quantity is not None else (Caveat("no-growth-curve"),)
        return replace(noted(found, *young, *curve), verdict="too-young")
    smaller = (found.difference or 0.0) < 0
    if smaller and point.quantity == "length":
        return replace(noted(found, Caveat("does-not-shrink")), verdict="does-not-shrink", unexpected=True)
    if quantity == "weight" and _daily(pooled(ripe or seen), now, found):
        return replace(noted(found, Caveat("daily")), verdict="day-to-day")
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


def against_all_grades(
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
    told = noted(found, Caveat("so-before")) if so_before else found
    told = replace(told, earlier=len(seen) + 1)
    if now.position is None:
        return replace(told, verdict="within-hand-error") if so_before else told
    places = sorted(answer.position or 0 for answer in (*seen, then))
    middles = places[(len(places) - 1) // 2], places[len(places) // 2]
    steps = min((now.position - middle for middle in middles), key=abs)
    beyond = grade_change(0, steps).verdict == "probably-real" and not places[0] <= now.position <= places[-1]
    return replace(
        told,
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
        at is not None
        and scale_steps(at) == scale_steps(point)
        and (answer.position is None) == (now.position is None)
    )


def kept(
    sessions: tuple[Examined, Examined], answers: tuple[Answer, Answer], found: Difference
) -> Difference:
    """A grade or choice of one dog, earlier and later."""
    earlier, _ = sessions
    then, now = answers
    if then.too_young:
        verdict = "too-young" if found.differs else found.verdict
        return replace(noted(found, Caveat("too-young-then", age=earlier.age)), verdict=verdict)
    if found.verdict == "real":
        known = earlier.ruleset.faults
        moved = {known[fault].stability for fault in (*then.faults, *now.faults) if fault in known}
        stability = moved.pop() if len(moved) == 1 else ""
        found = noted(found, Caveat(stability)) if stability else found
        return replace(found, verdict="different") if found.ground == "different" else found
    return found
