"""Is a language complete? Every region, point, fault and kind of cost needs its words."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping

from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.points import ChoicePoint, Fault, MeasurePoint, Point
from hands_on.wording.critique.language import Language, Plan

__all__ = ["Lack", "lacking_in_language", "lacking_in_plan"]

_SLOT = re.compile(r"\{([^{}]*)\}")
_IN_FAULTS = {"d", "t", "x", "s", "it", "its", "them"}
_IN_CLAUSES = {"it", "its", "them"}


@dataclass(frozen=True)
class Lack:
    """What is wrong at a key, and what would be right."""

    key: str
    what: str
    right: str


def lacking_in_language(
    language: Language,
    plan: Plan,
    regions: Collection[str],
    points: Mapping[str, Point],
    faults: Collection[str],
) -> Iterator[Lack]:
    """Words that are not there, words for what is not known, and slots that nothing fills."""
    seen = {name for name, point in points.items() if not isinstance(point, MeasurePoint)}
    yield from _both_ways("regions", "region", set(language.regions), set(regions))
    yield from _both_ways("faults", "fault", set(language.faults), set(faults))
    yield from _both_ways("merits", "point of its own entry", _single(language), seen)
    yield from _both_ways("costs", "kind of cost", set(language.costs), set(plan.costs) - {"none"})
    yield from _both_ways("degrees", "degree", set(language.degrees), set(DEGREES))
    yield from _both_ways("degrees_too", "degree", set(language.degrees_too), set(DEGREES))
    yield from _both_ways("sides", "side", set(language.sides), {"left", "right", "both"})
    yield from _both_ways("worse", "side", set(language.worse), {"left", "right"})
    for merit in language.merits:
        for name in sorted(set(merit.points) - seen):
            yield Lack("merits", f"{name} is no point that is seen or felt.", "the id of such a point.")
        point = points.get(merit.points[0])
        options = {one.id for one in point.options} if isinstance(point, ChoicePoint) else set()
        if merit.option and merit.option not in options:
            yield Lack(
                "merits", f"{merit.option} is no answer at {merit.points[0]}.", f"one of {sorted(options)}."
            )
        yield from _slots("merits", merit.text, _IN_CLAUSES)
    for region in language.regions.values():
        yield from _slots("regions", region.clause, _IN_CLAUSES)
    for clause in language.faults.values():
        yield from _slots("faults", clause, _IN_FAULTS)


def lacking_in_plan(
    plan: Plan, regions: Collection[str], points: Collection[str], faults: Mapping[str, Fault]
) -> Iterator[Lack]:
    """Regions, points and faults that the plan leaves out, names twice or does not know."""
    spoken = [region for block in plan.blocks for region in block]
    yield from _both_ways("blocks", "region", set(spoken), set(regions))
    costing = [fault for members in plan.costs.values() for fault in members]
    yield from _both_ways("costs", "fault", set(costing), set(faults))
    for name in sorted({name for name in costing if costing.count(name) > 1}):
        yield Lack("costs", f"{name} has two kinds of cost.", "one of them.")
    for name in sorted({name for needed in plan.needs.values() for name in needed} - set(points)):
        yield Lack("needs", f"{name} is no point.", "the id of a point.")


def _single(language: Language) -> set[str]:
    return {merit.points[0] for merit in language.merits if len(merit.points) == 1}


def _both_ways(key: str, thing: str, given: set[str], known: set[str]) -> Iterator[Lack]:
    for name in sorted(known - given):
        yield Lack(key, f"the {thing} {name} has no words.", f"an entry for {name}.")
    for name in sorted(given - known):
        yield Lack(key, f"there is no {thing} {name}.", "an id that the rulesets know.")


def _slots(key: str, text: str, known: set[str]) -> Iterator[Lack]:
    for slot in _SLOT.findall(text):
        if slot not in known:
            yield Lack(key, f"nothing fills {{{slot}}} in “{text}”.", f"one of {', '.join(sorted(known))}.")
