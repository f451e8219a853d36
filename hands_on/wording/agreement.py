"""The agreement of evaluators in words: what the command prints and the screen shows. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.compare.agreement.by_point import Agreement, PointAgreement
from hands_on.compare.agreement.estimate import Estimate
from hands_on.compare.agreement.lean import Lean
from hands_on.measure.units import format_measured
from hands_on.wording.dogs import percent

__all__ = [
    "EXPLAINED",
    "apart_words",
    "estimate_words",
    "lean_sentences",
    "order_sentences",
    "strict_sentences",
    "worst_sentences",
]

MOST = 10
"""Points named among those the group disagrees on most."""

EXPLAINED = (
    "ICC: how much of the spread of readings is between dogs. Kappa, alpha: agreement beyond chance, "
    "1 full, 0 none. AC1, AC2: the same where nearly all dogs get one answer. In brackets: the 95 % "
    "interval."
)
"""What the statistics mean."""


def apart_words(one: PointAgreement) -> str:
    """How many pairs of answers differ, and by more than hand error."""
    if not one.unequal:
        return "all the same"
    if one.level == "measurement" and not one.apart:
        return "all within hand error"
    if one.level == "nominal" or not one.apart:
        return f"{percent(one.unequal)} of pairs differ"
    return f"{percent(one.apart)} of pairs differ by more than hand error"


def worst_sentences(found: Agreement) -> Iterator[str]:
    """Where the group disagrees most, the worst first."""
    for one in found.most_apart[:MOST]:
        yield f"{one.label}: {apart_words(one)}"


def estimate_words(one: Estimate) -> str:
    """A statistic's value with its interval."""
    if one.value is None:
        return "not defined"
    if one.low is None or one.high is None:
        return f"{one.value:.2f}"
    return f"{one.value:.2f} [{one.low:.2f} to {one.high:.2f}]"


def order_sentences(one: PointAgreement) -> Iterator[str]:
    """How well the evaluators' orders of the dogs agree."""
    by_chance = (
        f"; chance alone gives as much {percent(one.p_chance)} of the time"
        if one.p_chance is not None
        else ""
    )
    estimate = one.estimate
    yield f"{estimate.statistic} {estimate_words(estimate)} over {estimate.n} dogs{by_chance}"
    if estimate.reason:
        yield estimate.reason


def lean_sentences(rows: Sequence[Lean]) -> Iterator[str]:
    """Who leans which way, where it is clear of what so few dogs scatter."""
    for one in rows:
        if one.clear and one.u is not None:
            if one.unit == "degree":
                size = f"{abs(one.value):.1f} ± {one.u:.1f} degrees"
            else:
                size = format_measured(abs(one.value), one.u, one.unit)
            way = "above" if one.value > 0 else "below"
            yield f"{one.evaluator}, {one.label}: {size} {way} the others, over {one.n} dogs"


def strict_sentences(rows: Sequence[Lean]) -> Iterator[str]:
    """How strict each evaluator is over all graded points."""
    for one in rows:
        u = f" ± {one.u:.2f}" if one.u is not None else ""
        way = "further from as asked" if one.value > 0 else "nearer to as asked"
        told = f"{abs(one.value):.2f}{u} degrees a point {way} than the others"
        clear = "" if one.clear else "; not clear of what so few dogs scatter"
        yield f"{one.evaluator}: {told}{clear}"
