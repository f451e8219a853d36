"""Values computed from measurements, with their uncertainty, and the units they are given in."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import cache

from hands_on.evaluate.measures import Measurement, Measures
from hands_on.evaluate.result import DerivedResult
from hands_on.evaluate.shared_landmarks import independent_parts, shared_errors
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.measure.conformity import Against
from hands_on.measure.derived import (
    DerivedProblem,
    Difference,
    Expr,
    Ratio,
    Ref,
    Slope,
    Sum,
    Triangle,
    against,
    evaluate,
    sensitivities,
)
from hands_on.measure.further import Resting
from hands_on.measure.gum import welch_satterthwaite
from hands_on.measure.takes import Measured
from hands_on.measure.units import canonical_unit, convert, quantity_of
from hands_on.ruleset.base import Side
from hands_on.ruleset.labels import Label, label_of
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["Incomputable", "Reading", "derived", "expression", "readings", "unit_of"]

SHARE = "share"
"""The unit of a ratio: none."""


@dataclass(frozen=True)
class Reading:
    """A number of the dog in a wanted unit."""

    value: float
    u: float
    u_lasting: float
    """The part of u that more takes by the same hand do not reduce."""
    u_shared: float
    """The part of that which all readings of one hand have in common."""
    n: int
    """Takes behind it: of the measurement with the fewest."""
    unit: str
    dof: float | None = None
    """Effective degrees of freedom of u; None where it is exact, or known."""
    dof_repeat: float = math.inf
    """Those of the part that more takes reduce: of the measurement with the fewest."""
    dof_lasting: float = math.inf
    contradictory: tuple[str, ...] = ()
    """Measurements whose takes contradict each other, so that nothing is judged on it."""
    side: Side | None = None
    too_young: TooYoung | None = None
    """Of its measurements the one to be judged last."""
    exact: bool = False
    against: Against | None = None
    """u and degrees of freedom at a limit, where they depend on it: of a ratio, or a slope."""

    @property
    def resting(self) -> Resting:
        """What its uncertainty rests on."""
        return Resting(self.u, self.u_lasting, self.n, self.dof_repeat, self.dof_lasting)


class Incomputable(Exception):
    """A value that cannot be given: `missing` measurements, another `unit`, a `problem` of sizes."""

    def __init__(self, missing: tuple[str, ...] = (), unit: str = "", problem: str = "") -> None:
        super().__init__(", ".join(missing) or unit or problem)
        self.missing = missing
        self.unit = unit
        self.problem = problem


def expression(value: Value) -> Expr:
    """A ruleset's value as an expression of measurements."""
    if value.measure is not None:
        return Ref(value.measure)
    parts = tuple(expression(member) for member in value.members)
    if value.ratio is not None:
        return Ratio(parts[0], parts[1])
    if value.difference is not None:
        return Difference(parts[0], parts[1])
    if value.slope is not None:
        return Slope(parts[0], parts[1])
    if value.angle is not None:
        return Triangle(parts[0], parts[1], parts[2])
    return Sum(parts)


def unit_of(ruleset: Ruleset, value: Value) -> str:
    """The unit a value is given in where nothing else is said: the point's own, or the canonical one."""
    if value.ratio is not None:
        return SHARE
    if value.slope is not None or value.angle is not None:
        return "deg"
    if value.measure is not None:
        point = ruleset.points.get(value.measure)
        return point.unit if isinstance(point, MeasurePoint) else SHARE
    first = unit_of(ruleset, value.members[0]) if value.members else SHARE
    return SHARE if first == SHARE else canonical_unit(quantity_of(first))


def readings(ruleset: Ruleset, measures: Measures, value: Value, unit: str | None = None) -> list[Reading]:
    """A value as measured, in `unit`: once for each side where one measurement was taken on both.

    Raises Incomputable.
    """
    missing = tuple(name for name in value.measures if name not in measures.by_point)
    if missing:
        raise Incomputable(missing)
    own = unit_of(ruleset, value)
    wanted = unit or own
    if quantity_of(wanted) != quantity_of(own):
        raise Incomputable(unit=own)
    used = [measures.by_point[name] for name in value.measures]
    young = (one.too_young for one in used if one.too_young is not None)
    too_young = max(young, key=lambda one: one.from_months, default=None)
    if value.measure is not None:
        return [_as_taken(used[0], side, wanted, too_young) for side in used[0].sides]
    pooled = {name: measures.by_point[name].pooled for name in value.measures}
    try:
        tree = expression(value)
        y, u, u_lasting, u_shared, dof = _computed_of(ruleset, tree, pooled)
    except DerivedProblem as problem:
        raise Incomputable(problem.missing, problem=problem.message) from problem
    base = canonical_unit(quantity_of(own))
    y, u, u_lasting, u_shared = (convert(x, base, wanted) for x in (y, u, u_lasting, u_shared))
    return [
        Reading(
            y,
            u,
            min(u, u_lasting),
            min(u, u_shared),
            max(1, min(one.n for one in pooled.values())),
            wanted,
            dof,
            min(one.dof_repeat for one in pooled.values()),
            min(one.dof_lasting for one in pooled.values()),
            tuple(name for name, one in pooled.items() if one.contradictory),
            too_young=too_young,
            exact=u == 0,
            against=_at_limits(ruleset, tree, pooled, wanted) if u else None,
        )
    ]


def _as_taken(measured: Measurement, side: Side | None, wanted: str, too_young: TooYoung | None) -> Reading:
    """One side of a measurement, in the unit wanted."""
    one = measured.sides[side]
    y, u, u_lasting, u_shared = (
        convert(x, measured.canonical, wanted) for x in (one.value, one.u, one.u_lasting, one.u_shared)
    )
    return Reading(
        y,
        u,
        min(u, u_lasting),
        min(u, u_shared),
        one.n,
        wanted,
        _finite(one.dof),
        one.dof_repeat,
        one.dof_lasting,
        (measured.point.id,) if one.contradictory else (),
        side,
        too_young,
        u == 0,
    )


def _computed_of(
    ruleset: Ruleset, tree: Expr, pooled: Mapping[str, Measured]
) -> tuple[float, float, float, float, float | None]:
    """Value, u, its lasting part, what of that one hand has in common, degrees of freedom.

    Welch and Satterthwaite over parts that do not depend on each other (JCGM 100:2008, G.4.1). Raises
    DerivedProblem.
    """
    whole = {name: (one.value, one.u) for name, one in pooled.items()}
    lasting = {name: (one.value, one.u_lasting) for name, one in pooled.items()}
    harder = {name: one.harder for name, one in pooled.items()}
    shared = shared_errors(ruleset, whole, harder)
    y, u = evaluate(tree, whole, shared)
    together = shared_errors(ruleset, lasting, harder)
    _, u_lasting = evaluate(tree, lasting, together)
    # A landmark's error is in the same share the hand's own way as that of the lengths that run from it.
    _, u_shared = evaluate(tree, {name: (one.value, one.u_shared) for name, one in pooled.items()}, together)
    _, slopes = sensitivities(tree, whole, shared)
    return y, u, u_lasting, u_shared, _freedom(ruleset, slopes, pooled)


def _freedom(ruleset: Ruleset, slopes: Mapping[str, float], pooled: Mapping[str, Measured]) -> float | None:
    """Degrees of freedom of a computed value with these partial derivatives."""
    return _finite(welch_satterthwaite(list(independent_parts(ruleset, slopes, pooled))))


def _at_limits(ruleset: Ruleset, tree: Expr, pooled: Mapping[str, Measured], wanted: str) -> Against | None:
    """u and degrees of freedom of a computed value at each limit; None where they are the same at all."""
    if not isinstance(tree, Ratio | Slope):
        return None
    whole = {name: (one.value, one.u) for name, one in pooled.items()}
    shared = shared_errors(ruleset, whole, {name: one.harder for name, one in pooled.items()})
    base = canonical_unit(quantity_of(wanted))

    @cache
    def at(limit: float) -> tuple[float, float | None]:
        u, slopes = against(tree, whole, convert(limit, wanted, base), shared)
        return convert(u, base, wanted), _freedom(ruleset, slopes, pooled)

    return at


def _finite(dof: float) -> float | None:
    return dof if math.isfinite(dof) else None


def derived(ruleset: Ruleset, measures: Measures) -> tuple[DerivedResult, ...]:
    """Every named value, and every value that a limit computes, whose measurements were all taken."""
    results: list[DerivedResult] = []
    seen: set[str] = set()
    for name, named, value in _computed(ruleset):
        if value.name in seen or value.measure is not None:
            continue
        try:
            reading = readings(ruleset, measures, value)[0]
        except Incomputable:
            continue
        seen.add(value.name)
        results.append(DerivedResult(name, reading.value, reading.u, reading.unit, named))
    return tuple(results)


def _computed(ruleset: Ruleset) -> Iterator[tuple[str, Label, Value]]:
    for entry in ruleset.derived.values():
        yield entry.id, Label(entry.label), entry
    for limit in ruleset.edition.limits:
        yield limit.name, label_of(ruleset, limit), limit
