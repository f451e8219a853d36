"""What is said of the difference between two answers at one point. Pure, and unwrapped."""

from __future__ import annotations

from hands_on.compare.dogs.verdicts import Caveat, CaveatKind, Difference, Ground, Grown
from hands_on.measure.units import decimals_for, format_measured, format_value
from hands_on.wording.ages import age_text, too_young_words

__all__ = ["difference_sentence", "growth_words"]

_GROUNDS: dict[Ground, str] = {
    "not-in-both": "not examined in both",
    "not-computed": "not computed in both",
    "asked-differently": "asked in different ways",
    "different-scales": "graded on different scales: not comparable",
    "same": "the same",
    "different": "different; no figure says how often a hand errs here",
}

_CAVEATS: dict[CaveatKind, str] = {
    "too-young-then": "too young to judge then",
    "no-change-shown": "no change shown",
    "no-growth-curve": "it has no growth curve",
    "daily": "less than a dog's weight moves with food, water and emptying: neither growth nor condition",
    "so-before": "so it was before the last examination too: no change shown",
    "does-not-shrink": "a length of a grown dog does not shrink: stance or measuring, take it again",
    "fixed": "this rarely changes: first of all a doubt about one of the two visits",
    "slow": "this may drift a step over a year",
    "changes": "this moves with condition, coat, season or surface: compare like with like",
}


def difference_sentence(difference: Difference) -> str:
    """How far two answers differ, against what, and what else must be known of it."""
    several = difference.earlier > 1
    told = (f"against {difference.earlier} earlier examinations together",) if several else ()
    return "; ".join([_ground(difference), *told, *map(_caveat, difference.caveats)])


def _ground(one: Difference) -> str:
    if one.grown is not None:
        told = format_measured(one.grown.expected, one.grown.u, one.units[0])
        return f"growth let expect {told}: {growth_words(one.grown)}"
    if one.ground == "measured":
        return _measured(one)
    if one.ground == "steps":
        return _steps(one)
    if one.ground == "contradictory-takes":
        return "not compared: the takes of one of them contradict each other"
    if one.ground == "different-units":
        return " against ".join(one.units)
    if one.ground == "different" and one.unsure:
        return "different, but one of them is unsure"
    return _GROUNDS[one.ground]


def _measured(one: Difference) -> str:
    fewest = max(decimals_for(one.u), 0)
    size = limit = ""
    for digits in (fewest, fewest + 1):  # one more where both would read the same
        size, limit = (
            format_value(abs(number or 0.0), one.units[0], digits) for number in (one.difference, one.sdc)
        )
        if size != limit:
            break
    # A change explained otherwise, or of a dog too young, is beyond hand error all the same.
    beyond = abs(one.difference or 0.0) > (one.sdc or 0.0)
    return f"{size} apart: {'more than' if beyond else 'within'} hand error ({limit}){_alone(one)}"


def _alone(one: Difference) -> str:
    return ", which error alone may do among so many points" if one.alone_only else ""


def _steps(one: Difference) -> str:
    count = abs(int(one.difference or 0))
    if not count:
        return "the middle of the earlier grades"
    if count == 1:
        return "one grade: within ordinary disagreement"
    if one.verdict == "within-hand-error" and one.earlier > 1 and not one.unsure and not one.alone_only:
        return f"{count} grades, among those given before"
    told = f"{count} grades: probably real" if not one.alone_only else f"{count} grades{_alone(one)}"
    return f"{told}, but one of them is unsure" if one.unsure else told


def growth_words(grown: Grown) -> str:
    """How the later measurement lies to what growth lets expect."""
    if grown.shrank:
        return "a height does not shrink: stance or measuring, take it again"
    side = "low" if grown.z < 0 else "high"
    if abs(grown.z) <= 1:
        told = "as growth would have it"
    elif abs(grown.z) <= 2:
        told = f"on the {side} side of what growth lets expect, see again"
    else:
        heavy = grown.quantity == "weight"
        then = "then a veterinarian" if heavy else "a veterinarian if weight or gait are off"
        told = f"not explained by growth and measuring: measure again, {then}"
    if not grown.changed:
        short = grown.z < -2
        told = f"it should have grown and no growth shows; {told}" if short else f"no change shown; {told}"
    if grown.quantity == "weight" and abs(grown.z) > 1:
        told += "; body condition decides, not the scale"
    return told


def _caveat(one: Caveat) -> str:
    if one.too_young is not None:
        return too_young_words(one.too_young)
    if one.kind == "too-young-then" and one.age is not None:
        return f"{_CAVEATS[one.kind]} at {age_text(one.age)}"
    return _CAVEATS[one.kind]
