"""Two answers at one point, whoever gave them: what is the same for two dogs and for one dog at two ages.

A measured difference is real beyond the smallest detectable change (`measure.change`). Its uncertainty
holds for two evaluators as it stands: the default of a careful take covers a change of observer. Where one
evaluator took both, half of the variance that repeating does not reduce is taken to be the hand's own way
with the landmark, which both readings share and which cancels; the other half, stance and instrument, is
not. That half is a judgement; working figures for the height (0.7 cm one evaluator, 1.2 cm two) would let
more cancel. Where rounds measured the evaluators, their share takes its place (`measure.hand.Lasting`).
"""

from __future__ import annotations

from dataclasses import replace

from hands_on.compare.answer import Answer, scale_of
from hands_on.compare.dogs.verdicts import Caveat, Difference, Ground
from hands_on.measure.age import TooYoung
from hands_on.measure.change import change, dof_of_difference
from hands_on.ruleset.points import GradePoint, Point, ScalePoint

__all__ = [
    "hand_correlation",
    "measured_difference",
    "noted",
    "scale_steps",
    "too_young_to_judge",
    "uncompared",
]


def hand_correlation(a: Answer, b: Answer, one_hand: bool) -> float:
    """Correlation of the errors of two measured answers."""
    if not one_hand or not a.u or not b.u or a.u_shared is None or b.u_shared is None:
        return 0.0
    return a.u_shared * b.u_shared / (a.u * b.u)


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


def scale_steps(point: Point) -> object:
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
    return replace(noted(found, Caveat("too-young", why)), verdict=verdict)


def noted(found: Difference, *caveats: Caveat) -> Difference:
    """The same with what else must be known of it."""
    return replace(found, caveats=(*found.caveats, *caveats))
