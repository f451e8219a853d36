"""The agreement of evaluators in words: what the command prints and the screen shows. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hands_on.compare.agreement.by_point import Agreement, AgreementRemark, PointAgreement
from hands_on.compare.agreement.estimate import FEWEST_APART, Estimate, Reason
from hands_on.compare.agreement.lean import Lean
from hands_on.compare.agreement.precision import Spread
from hands_on.measure.units import format_measured, format_value
from hands_on.wording.dogs import percent

__all__ = [
    "EXPLAINED",
    "ORDER",
    "apart_words",
    "estimate_words",
    "lean_sentences",
    "order_sentences",
    "precision_sentences",
    "reason_words",
    "remark_in_short",
    "remark_words",
    "strict_sentences",
    "worst_sentences",
]

_NO_INTERVAL = "no interval can be computed from that"

_SHORT = {"Krippendorff's alpha": "alpha", "weighted kappa": "kappa"}
"""What a statistic is called within a sentence."""

_REASONS: Mapping[Reason, str] = {
    "one-evaluator": "two evaluators at least are needed",
    "few-dogs-measured": "two dogs that every evaluator measured at least are needed",
    "few-dogs-graded": "two dogs that both graded at least are needed",
    "few-dogs-answered": "two dogs with two answers at least are needed",
    "few-dogs-placed": "two dogs that every evaluator placed at least are needed",
    "no-pairs": "no dog has answers by two evaluators",
    "no-spread": "the readings do not vary from dog to dog: agreement cannot be told from a constant",
    "all-tied": "every evaluator ties all dogs: W is undefined",
    "all-read-the-same": f"every evaluator read the same on every dog; {_NO_INTERVAL}",
    "all-pairs-agree": f"every pair of answers agrees; {_NO_INTERVAL}",
    "one-dog": "one dog only: what chance alone would give cannot be told",
    "nearly-all-alike": f"fewer than {FEWEST_APART} dogs got any but the commonest answer: no interval",
    "one-dog-decides": "one dog decides the value: no interval can be computed",
}

MOST = 10
"""Points named among those the group disagrees on most."""

ORDER = "Order of the dogs"
"""What the agreement on the order is called."""

EXPLAINED = (
    "ICC: how much of the spread of readings is between dogs. Kappa, alpha: agreement beyond chance, "
    "1 full, 0 none. AC1, AC2: the same where nearly all dogs get one answer, over the answers in use. In "
    "brackets: the 95 % interval; of grades and choices of 5 to 10 dogs it held the truth in 94 to 100 of "
    "100 simulated seminars. Who leans is corrected for the number of points and evaluators: somebody is "
    "named who does not lean in one seminar of twenty at most, also where one other does."
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
        return _coefficient(one.value)
    return f"{_coefficient(one.value)} [{_coefficient(one.low)} to {_coefficient(one.high)}]"


def _coefficient(value: float) -> str:
    """Two decimals, and no minus before nought."""
    return f"{round(value, 2) + 0.0:.2f}"


def reason_words(one: Estimate) -> str:
    """Why there is no value or no interval, or what to be careful of; empty where nothing is."""
    n = one.n
    statistic = _SHORT.get(one.statistic, one.statistic)
    match one.reason:
        case None:
            return ""
        case "nothing-varies" if statistic == "alpha":
            return f"all {one.comparisons} pairs agree and nothing varies: alpha is undefined"
        case "nothing-varies":
            return f"{n} of {n} agree and nothing varies: {statistic} is undefined"
        case "all-graded-the-same":
            return f"both gave the same grade to all {n} dogs; {_NO_INTERVAL}"
        case "all-agree-alike":
            return f"all {n} dogs agree alike; {_NO_INTERVAL}"
        case "too-few-dogs":
            return f"{n} dogs only: too few for an interval"
        case "wide-interval":
            return f"{n} dogs only: the interval says how little that settles"
        case reason:
            return _REASONS[reason]


def remark_words(remark: AgreementRemark) -> str:
    """What must be borne in mind of the agreement, in a sentence."""
    match remark.kind:
        case "examined-twice":
            return f"{remark.evaluator} examined {remark.dog} more than once; the latest session counts."
        case "one-evaluator":
            return "Only one evaluator: there is nobody to agree with."
        case "few-dogs":
            count = "1 dog" if remark.count == 1 else f"{remark.count} dogs"
            return f"{count} only: this says next to nothing of how these evaluators agree on others."
        case "missing":
            return f"{_counted(remark)} missing: {_named(remark.named)}."
        case "not-signed":
            return f"{_counted(remark)} not signed yet: {_named(remark.named)}."
        case "copies":
            told = f"There are copies of one examination of {remark.dog} by {remark.evaluator}"
            if remark.count:
                return f"{told}, one with {remark.count} answers more; that one counts."
            return f"{told}; it counts once."
        case "different-editions":
            return "Held under different editions: takes and grades are compared, orders are not."


_LISTED_IN_SHORT = 3
"""Examinations that are named where there is little room."""


def remark_in_short(remark: AgreementRemark) -> str:
    """The same in a few words, for a line that several of them share: many examinations are only counted."""
    match remark.kind:
        case "few-dogs":
            return (
                f"{remark.count} dog{'' if remark.count == 1 else 's'} only: hardly more than an impression."
            )
        case "missing" | "not-signed" if len(remark.named) > _LISTED_IN_SHORT:
            return f"{_counted(remark)} {'missing' if remark.kind == 'missing' else 'not signed yet'}."
        case "copies" | "examined-twice":
            return f"{remark.dog} by {remark.evaluator}: more than one file, one counts."
        case _:
            return remark_words(remark)


def _counted(remark: AgreementRemark) -> str:
    return f"{remark.count} of {remark.of} examinations {'is' if remark.count == 1 else 'are'}"


_LISTED = 12
"""Examinations named one by one before the rest is only counted."""


def _named(pairs: Sequence[tuple[str, str]]) -> str:
    """Dogs with those whose examination is meant: `Fenja by M. Quill and by A. Thornby`."""
    by_dog: dict[str, list[str]] = {}
    for dog, evaluator in pairs[:_LISTED]:
        by_dog.setdefault(dog, []).append(f"by {evaluator}")
    told = "; ".join(f"{dog} {' and '.join(people)}" for dog, people in by_dog.items())
    more = len(pairs) - _LISTED
    return f"{told}; and {more} more" if more > 0 else told


def order_sentences(one: PointAgreement) -> Iterator[str]:
    """How well the evaluators' orders of the dogs agree."""
    by_chance = (
        f"; chance alone gives as much {percent(one.p_chance)} of the time"
        if one.p_chance is not None
        else ""
    )
    estimate = one.estimate
    dogs = "1 dog" if estimate.n == 1 else f"{estimate.n} dogs"
    yield f"{estimate.statistic} {estimate_words(estimate)} over {dogs}{by_chance}"
    if estimate.reason is not None:
        yield reason_words(estimate)


def lean_sentences(rows: Sequence[Lean]) -> Iterator[str]:
    """Who leans which way, where it is clear of what so few dogs scatter, all leans taken together.

    Told in the direction of the fault where grades were given.
    """
    for one in rows:
        if one.clear and one.u is not None:
            yield f"{one.evaluator} {_lean_words(one, one.u)} than the others, over {one.n} dogs"


def _lean_words(one: Lean, u: float) -> str:
    if one.unit != "degree":
        way = "higher" if one.value > 0 else "lower"
        return f"read {one.label.lower()} {format_measured(abs(one.value), u, one.unit)} {way}"
    size = f"{abs(one.value):.1f} ± {u:.1f}"
    if not one.faults:
        return f"graded {one.label.lower()} {size} steps {'higher' if one.value > 0 else 'lower'}"
    faults = " or ".join(label[:1].lower() + label[1:] for label in one.faults)
    return f"graded {faults} {size} degrees {'heavier' if one.heavier else 'lighter'}"


def precision_sentences(rows: Sequence[PointAgreement]) -> Iterator[str]:
    """How far readings of one dog scatter by one hand and by several, where it can be told."""
    for one in rows:
        found, unit = one.precision, one.unit
        if found is None:
            continue
        told = []
        if found.repeatability is not None:
            told.append(f"by one hand {_spread_words(found.repeatability, unit)}")
        if found.reproducibility is not None:
            told.append(f"between hands {_spread_words(found.reproducibility, unit)}")
        if found.lasting_share is not None:
            share = percent(found.lasting_share)
            told.append(f"{share} of the variance stays with the hand, however often it reads")
        text = f"{one.label}: {'; '.join(told)} ({found.n} dogs, {found.k} evaluators"
        yield text + (f", {found.r} times each)" if found.r > 1 else ")")


def _spread_words(one: Spread, unit: str) -> str:
    """A standard deviation with its interval; where nothing varied there is none."""
    if not one.value:
        return f"{format_value(0.0, unit)}, every reading the same"
    low = _two_digits(one.low) if one.low > one.value / A_TRIFLE else "0"
    high = _two_digits(one.high) if one.high < MANY * one.value else "far more"
    return f"{format_value(float(f'{one.value:.2g}'), unit)} [{low} to {high}]"


def _two_digits(value: float) -> str:
    return f"{float(f'{value:.2g}'):g}"


A_TRIFLE = 1000.0
"""The value over it: a lower end below that is told as 0."""

MANY = 10.0
"""Times the value: an upper end beyond it says only that it is not known."""


def strict_sentences(rows: Sequence[Lean]) -> Iterator[str]:
    """How strict each evaluator is over all graded points."""
    for one in rows:
        u = f" ± {one.u:.2f}" if one.u is not None else ""
        size = f"{abs(one.value):.2f}"
        way = "further from as asked than" if one.value > 0 else "nearer to as asked than"
        if not float(size):
            way = "apart from"
        told = f"{size}{u} degrees a point {way} the others"
        clear = "" if one.clear else "; no more than so few dogs scatter"
        yield f"{one.evaluator}: {told}{clear}"
