"""What a young dog's height and weight let expect, in words."""

from __future__ import annotations

from hands_on.evaluate.result import GrowthResult
from hands_on.measure.growth import RANGE_ONLY_BELOW, GrowthCaution
from hands_on.measure.growth_curves import ADULT_WEIGHTS, AGES, NoGrowth
from hands_on.measure.units import decimals_for, format_measured, format_value
from hands_on.wording.ages import age_text

__all__ = ["growth_caution", "growth_sentence", "growth_source", "no_growth_words"]

_CAUTIONS: dict[GrowthCaution, str] = {
    "inferred": (
        "A range for healthy dogs of the class, not a promise; the curve is inferred from published models."
    ),
    "range-only": "Before six months say the range only: the dog's own timing is not known yet.",
    "giant": "For giants no published chart exists; this is the weakest of the curves.",
    "condition": "Weight follows condition: never feed towards a figure.",
}


def growth_sentence(grown: GrowthResult) -> str:
    """The measurement, the age, and the full-grown range or why there is none."""
    head = f"{format_measured(grown.value, grown.u, grown.unit)} at {age_text(grown.age_months)}: "
    if grown.refused is not None:
        return f"{head}no projection. {no_growth_words(grown.refused)}"
    expected, u = grown.expected or 0.0, grown.expected_u or 0.0
    digits = decimals_for(u)
    between = f"{grown.low or 0.0:.{digits}f} and {format_value(grown.high or 0.0, grown.unit, digits)}"
    # Before that age the dog's own timing is not known: the range only.
    told = grown.age_months >= RANGE_ONLY_BELOW
    middle = f" ({format_measured(expected, u, grown.unit)})" if told else ""
    again = ""
    if grown.recheck_from is not None:
        day = f", {grown.recheck_on:%d %B %Y}" if grown.recheck_on is not None else ""
        again = f"; a re-check can tell growth from {grown.recheck_from:.1f} months{day}"
    return (
        f"{head}full-grown between {between} in 95 of 100 such dogs{middle}; "
        f"judged from {grown.judged_from:g} months{again}"
    )


def growth_source(grown: GrowthResult) -> str:
    """On which published models the range rests; empty where nothing is projected."""
    how = "weight by age" if grown.id == "weight" else "weight by age, height from it by a fitted power"
    return f"Inferred from published models ({how}): {grown.source}" if grown.source else ""


def growth_caution(grown: GrowthResult) -> str:
    """What to be careful about; empty where nothing is projected."""
    return " ".join(_CAUTIONS[caution] for caution in grown.cautions)


def no_growth_words(why: NoGrowth | None) -> str:
    """Why there is no projection; empty where there is one."""
    if why is None:
        return ""
    low, high = ADULT_WEIGHTS
    match why.kind:
        case "quantity":
            return f"There is no growth curve for {why.given}; only for height and weight."
        case "size-class":
            return f"There is no growth curve for the size class {why.given!r}."
        case "size-class-unknown":
            return "The size class of this dog is not known, and small dogs grow otherwise than large ones."
        case "weight":
            return f"The growth curves rest on dogs of {low:g} to {high:g} kg only."
        case "outgrows":
            rest = f"The growth curves rest on dogs of {low:g} to {high:g} kg"
            return f"{rest}; this one points to {why.number:.0f} kg."
        case "age":
            return f"The growth curves cover {AGES[0]:g} to {AGES[1]:g} months; this is {why.number:.3g}."
        case "backwards":
            return "The later measurement is dated before the earlier one."
        case "grown":
            past = f"Both measurements were taken past {why.number:g} months"
            return f"{past}: growth no longer explains a change."
        case "no-value":
            return "A measurement above nought is needed, with its uncertainty."
