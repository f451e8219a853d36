"""Has it changed, or was the tape held differently? Change of measurements and of grades.

A measured change is real when it exceeds what two honest takes differ by: the smallest detectable
change, 1.96 sqrt(u1^2 + u2^2) (Weir 2005, J. Strength Cond. Res. 19: 231-240; reliable change index,
Jacobson and Truax 1991, J. Consult. Clin. Psychol. 59: 12-19). Grades are ordered but not measured;
the yardstick there is how often the same evaluator grades the same unchanged dog alike, blind.
"""

from __future__ import annotations

import math
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.distributions import beta_quantile, student_quantile, upper_tail

__all__ = [
    "LEVEL",
    "Change",
    "GradeChange",
    "GradeVerdict",
    "RetestAgreement",
    "agreement_upper",
    "change",
    "dof_of_difference",
    "false_alarm",
    "grade_change",
    "p_greater",
    "pairs_needed",
    "sdc",
]

LEVEL = 0.95
_SAFE = 1e-12


def sdc(
    sem1: float,
    sem2: float | None = None,
    *,
    correlation: float = 0.0,
    level: float = LEVEL,
    dof: float = math.inf,
) -> float:
    """Smallest detectable change between two measurements, in their unit.

    t sqrt(sem1^2 + sem2^2 - 2 r sem1 sem2); with equal errors and infinite ``dof`` 2.77 sem. ``sem1`` and
    ``sem2`` (default: the same) are standard uncertainties, ``correlation`` that of what both share,
    ``dof`` the degrees of freedom of the difference (JCGM 100:2008, G.3).
    """
    other = sem1 if sem2 is None else sem2
    return student_quantile(0.5 + level / 2.0, dof) * _u_difference(sem1, other, correlation)


def dof_of_difference(dof_a: float, dof_b: float) -> float:
    """Degrees of freedom of a difference: the fewer of the two.

    Both uncertainties rest on one figure of the point or the hand, so that they are doubtful together; the
    formula of Welch and Satterthwaite (JCGM 100:2008, G.4.1), which adds freedom up, holds for figures found
    apart. tests/bench/real_rows.py shows the rate that comes of it.
    """
    return min(dof_a, dof_b)


def _u_difference(u_a: float, u_b: float, correlation: float) -> float:
    if not (u_a >= 0 and u_b >= 0 and -1 <= correlation <= 1):
        raise ValueError("uncertainties of nought or more and a correlation from -1 to 1 are needed")
    return math.sqrt(max(0.0, u_a * u_a + u_b * u_b - 2.0 * correlation * u_a * u_b))


def p_greater(
    a: float, u_a: float, b: float, u_b: float, correlation: float = 0.0, dof: float = math.inf
) -> float:
    """Probability that the true value behind ``a`` exceeds the one behind ``b``.

    Phi((a - b) / sqrt(u_a^2 + u_b^2 - 2 r u_a u_b)), flat priors, normal errors; Student's t with finite
    ``dof``. An error shared by both
    (same hand, same tape) cancels: give it as ``correlation`` or leave it out of both u. With no
    uncertainty at all it is a plain comparison, a tie 0.5.
    """
    u = _u_difference(u_a, u_b, correlation)
    if u == 0.0:
        return 0.5 if a == b else float(a > b)
    return upper_tail((b - a) / u, dof)


@dataclass(frozen=True)
class Change:
    """A measurement taken twice: ``difference`` (later less earlier), ``real`` when beyond ``sdc``.

    ``p_greater`` is the probability that the true value has become larger.
    """

    difference: float
    sdc: float
    real: bool
    p_greater: float


def change(
    first: float,
    u1: float,
    second: float,
    u2: float,
    *,
    correlation: float = 0.0,
    level: float = LEVEL,
    dof: tuple[float, float] = (math.inf, math.inf),
) -> Change:
    """Judge the difference of two measurements of one dog in one unit.

    ``u1`` and ``u2`` are their full standard uncertainties where stance or evaluator may differ, ``dof``
    their degrees of freedom. A
    difference below the SDC is "no change shown", never "unchanged". Raises ValueError as `sdc`.
    """
    freedom = dof_of_difference(*dof)
    limit = sdc(u1, u2, correlation=correlation, level=level, dof=freedom)
    difference = second - first
    real = abs(difference) > limit
    return Change(difference, limit, real, p_greater(second, u2, first, u1, correlation))


def false_alarm(agreement: float, pairs: int) -> float:
    """Chance that so many before/after pairs all move the same way by error alone: 2 ((1 - Pa)/2)^k.

    ``agreement`` is the share of blind re-gradings of an unchanged dog that agree exactly. Raises
    ValueError for a share outside 0 to 1 or fewer than one pair.
    """
    if not 0 <= agreement <= 1 or pairs < 1:
        raise ValueError("a share from 0 to 1 and one pair at least are needed")
    return float(2.0 * ((1.0 - agreement) / 2.0) ** pairs)


def pairs_needed(agreement: float, alpha: float = 0.05) -> int:
    """Before/after pairs that must agree before one grade is real; 1 from Pa 0.95, 2 from 0.684."""
    if not 0 < alpha < 1:
        raise ValueError("an error rate between 0 and 1 is needed")
    pairs = 1
    while false_alarm(agreement, pairs) > alpha + _SAFE:
        pairs += 1
    return pairs


def agreement_upper(disagreements: int, retests: int, confidence: float = 0.95) -> float:
    """One-sided upper bound of the rate of disagreement (Clopper and Pearson 1934, Biometrika 26: 404-413).

    Raises ValueError for impossible counts.
    """
    if not 0 <= disagreements <= retests or retests < 1:
        raise ValueError("disagreements must lie between nought and the number of retests")
    if disagreements == retests:
        return 1.0
    return beta_quantile(confidence, disagreements + 1, retests - disagreements)


@dataclass(frozen=True)
class RetestAgreement:
    """Blind re-gradings of unchanged dogs by one evaluator at one point.

    ``retests`` in all, of which ``disagreements`` differed at all and ``by_two`` by two grades or more.
    Raises ValueError for counts that do not fit together.
    """

    retests: int
    disagreements: int
    by_two: int = 0

    def __post_init__(self) -> None:
        if self.retests < 1 or not 0 <= self.by_two <= self.disagreements <= self.retests:
            raise ValueError("counts of retests do not fit together")

    @property
    def share(self) -> float:
        """The share that agreed exactly, Pa."""
        return 1.0 - self.disagreements / self.retests


GradeVerdict = Literal["none", "within-hand-error", "not-decided", "probably-real", "real"]


@dataclass(frozen=True)
class GradeChange:
    """A grade given twice: ``steps`` (later less earlier) and what may be said of it.

    ``pairs_wanted`` before/after pairs in all would make it real, None where that is not known;
    ``by_two_at_most`` is the upper bound of how often error alone moves a grade by two, where two rest on it.
    """

    steps: int
    verdict: GradeVerdict
    pairs_wanted: int | None = None
    by_two_at_most: float | None = None


def grade_change(
    before: int,
    after: int,
    retest: RetestAgreement | None = None,
    *,
    pairs: int = 1,
    same_scale: bool = True,
) -> GradeChange:
    """Whether a change of grade on an ordered scale is more than the evaluator's own error.

    ``pairs`` counts independent before/after pairs that moved the same way. For another evaluator
    give the agreement between the two. One grade is real with one pair from an agreement of 0.95,
    with two from 0.684, with three from 0.415; two grades while at most 5 % of retests differ by two.
    Without retests one grade is within ordinary disagreement and two are probably real, never more
    (a default by choice: it suits an evaluator right eight times in ten). A change of scale or
    edition between the two voids the comparison.
    """
    steps = after - before
    if not same_scale:
        return GradeChange(steps, "not-decided")
    if steps == 0:
        return GradeChange(0, "none")
    if retest is None:
        return GradeChange(steps, "within-hand-error" if abs(steps) == 1 else "probably-real")
    if abs(steps) == 1:
        wanted = pairs_needed(retest.share)
        return GradeChange(steps, "real" if pairs >= wanted else "not-decided", wanted)
    if retest.by_two / retest.retests <= 0.05 + _SAFE:
        return GradeChange(steps, "real", 1, agreement_upper(retest.by_two, retest.retests))
    return GradeChange(steps, "not-decided")
